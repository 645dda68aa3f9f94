# SPDX-License-Identifier: GPL-3.0-or-later
# The floor of 0.5 mm again, but the shop always touches off on the top and states so: the plan must
# follow it, show what it makes of the floor, and say which zero the tolerance needs.
sed '/^\[format\]/i [setup.1]\ndatum_z = stock-top' "$tasks/floor-on-unfaced-sheet.ini" >"$work/top.ini"
ask job "$work/top.ini" --format json
exits 1 2
holds 'the zero is the stated one' 'd["datums"][0]["zero"] == "top" and d["datums"][0]["stated"] == "stock-top"'
holds 'what it makes of the floor' 'd["datums"][0]["dimension"] == "floor" and d["datums"][0]["error_top"] > d["datums"][0]["tolerance"] > d["datums"][0]["error_fixture"]'
holds 'the caution' 'any(r["id"] == "datum-stated" for r in d["remarks"])'
ask job "$work/top.ini" --sheet "$work/top.html"
says 'Z zero on the top of the stock, as stated: the floor of'
says 'With zero on what the stock lies on it is off by'
[ "$(grep -o 'Z zero: <b>' "$work/top.html" | wc -l)" -eq 1 ] && good || bad "$task: one Z zero on the sheet"
grep -q 'Z zero: <b>on the top of the stock, as stated' "$work/top.html" && good || bad "$task: the stated zero is on the sheet"
sed 's/^datum_z = .*/datum_z = fixture/' "$work/top.ini" >"$work/fixture.ini"
ask job "$work/fixture.ini"
says 'Z zero on the fixture, as stated: the floor of'
says_not 'as the job file states'
sed 's/^datum_z = .*/datum_z = table/' "$work/top.ini" >"$work/wrong.ini"
ask job "$work/wrong.ini"
exits 65
says 'stock-top, finished-face'
