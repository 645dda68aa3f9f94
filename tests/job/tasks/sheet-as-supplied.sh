# SPDX-License-Identifier: GPL-3.0-or-later
# A part of 2.2 mm whose faces stay as supplied: no sheet is sold so, and the thinner one that is
# nearer must not be taken silently.
plan sheet-as-supplied.ini
exits 2
holds 'the sheet is not thinner than the part' 'd["stock"]["nominal"] >= 2.2e-3 - 0.1e-3'
holds 'it is the next thicker one' 'abs(d["stock"]["nominal"] - 2.5e-3) < 1e-9'
ask job "$tasks/sheet-as-supplied.ini"
says 'the part will be 2.25 mm to 2.75 mm thick'
says 'or skim it'
sed 's/^faces = none/faces = both/' "$tasks/sheet-as-supplied.ini" >"$work/skimmed.ini"
ask job "$work/skimmed.ini" --format json
holds 'skimmed, even the thin end holds the part and 0.1 mm on each face' 'd["stock"]["thin"] >= 2.4e-3 - 1e-9'
