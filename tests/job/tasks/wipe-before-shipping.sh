# SPDX-License-Identifier: GPL-3.0-or-later
# Milled acrylic lenses are to be wiped before they are packed: with what, and what if somebody has
# already used alcohol?
ask show IPA --material acrylic/cast --format json
exits 0
holds 'alcohol is refused on machined acrylic, annealed it is a risk' \
    'd["rating"] == "no" and d["annealed"] == "risk" and d["sheet"] == "risk"'
holds 'crazes may come for three days' 'd["watch"] == 72 * 3600 and "raking light" in d["signs"]'
holds 'soapy water instead' '"soapy water" in d["instead"] and "alcohol" not in d["instead"]'
ask show "methylated spirits" --material acrylic/cast
exits 0
says 'NO: ethanol on acrylic/cast'
says_not 'flammable'
ask show "dish soap" --material acrylic/cast
says 'safe: soapy water on acrylic/cast'
ask list fluids --material acrylic/cast
exits 0
says 'NO acetone'
says 'safe soapy-water'
ask list fluids --material acrylic/cast --format csv
exits 0
[ "$(grep -c '^[a-z-]*,' "$work/out")" -eq "$(($("$program" list fluids | grep -c '^[a-z]') + 1))" ] &&
    good || bad "$task: not a line of CSV for the head and for each fluid"
