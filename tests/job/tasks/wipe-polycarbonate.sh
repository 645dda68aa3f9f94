# SPDX-License-Identifier: GPL-3.0-or-later
# A guard of polycarbonate with tapped holes is to be wiped with alcohol, because the sheet maker's
# list allows it. Another list does not: both have to be seen.
ask show ipa --material pc --format json
exits 0
holds 'both sources are kept' \
    'd["rating"] == "risk" and d["sheet"] == "safe" and d["other"] == "risk" and "moulder" in d["other_source"]'
holds 'annealed and untapped it is safe' 'd["annealed"] == "safe"'
ask show ipa --material pc
says 'annealing makes it safe, if the part then carries no load and no thread'
says 'another source says RISK'
says 'try first'
ask show "glass cleaner" --material pc
says 'NO: ammonia glass cleaner'
# a shop's own table allows it: the table that it replaces is named
mkdir -p "$work/own"
printf '[format]\nkind = fluids\nversion = 1\n[rating.ammonia-cleaner.polycarbonate]\nverdict = safe\nannealed = safe\nsource = common-practice\n' >"$work/own/fluids.ini"
COOLBITE_TABLE_PATH=$work/own:$COOLBITE_TABLE_PATH ask show "glass cleaner" --material pc
exits 0
says 'safe: ammonia glass cleaner'
says 'another table says NO in'
