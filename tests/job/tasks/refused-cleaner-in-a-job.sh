# SPDX-License-Identifier: GPL-3.0-or-later
# A job asks for a synthetic mist, for acetone and for glue that acetone releases, on polycarbonate:
# all three are refused, on every page, and nobody is warned of the fire of what is not to be used.
plan refused-cleaner-in-a-job.ini
exits 2
holds 'both fluids are refused, with safe ones instead' \
    'all(f["refused"] and f["rating"] == "no" and "soapy water" in f["instead"] for f in d["fluids"]) and len(d["fluids"]) == 2'
holds 'the hold and its release are refused' \
    'd["hold"]["refused"] and d["hold"]["release"][0].startswith("NO, not on polycarbonate")'
holds 'no fire of a refused fluid' 'not any("is flammable" in r["text"] for r in d["remarks"])'
ask job "$tasks/refused-cleaner-in-a-job.ini"
exits 2
says 'NO: full-synthetic coolant as coolant'
says 'NO: acetone as cleaner'
says 'NO: do not use acetone as cleaner'
says_not 'is flammable'
ask job "$tasks/refused-cleaner-in-a-job.ini" --output "$work/refused.html"
exits 2
grep -q 'Coolant: mist. <strong class="verdict-word over">NO</strong>: not with full-synthetic' "$work/refused.html" && good || bad "$task: the sheet does not mark the coolant"
[ "$(grep -c 'is flammable' "$work/refused.html")" -eq 0 ] && good || bad "$task: the sheet warns of fire"
ask show polycarbonate/sheet
says 'fluids NO: methanol, acetone'
# mist of nobody knows what
sed '/^coolant_fluid/d; /^cleaner/d; s/^method = glue/method = tape-glue/' "$tasks/refused-cleaner-in-a-job.ini" >"$work/mist.ini"
ask job "$work/mist.ini"
says 'cut with mist, but the job does not say of what'
says 'NO, not on this material: full-synthetic coolant'
# what may be used is dangerous as before
sed 's/^cleaner = acetone/cleaner = ipa/; /^coolant/d; s/^method = glue/method = tape-glue/' "$tasks/refused-cleaner-in-a-job.ini" >"$work/ipa.ini"
ask job "$work/ipa.ini"
says 'isopropyl alcohol is flammable'
says 'Risk: isopropyl alcohol as cleaner'
