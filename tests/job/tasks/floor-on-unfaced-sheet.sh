# SPDX-License-Identifier: GPL-3.0-or-later
# A floor of 0.5 mm in cast sheet of 2 mm, which may be 1.4 mm or 2.6 mm: where is Z zero set, and what
# happens if it is set on the top?
plan floor-on-unfaced-sheet.ini
holds 'zero is on the fixture' 'd["datums"][0]["zero"] == "fixture" and d["datums"][0]["dimension"] == "floor"'
holds 'from the top the floor would be off by the range of the sheet' 'd["datums"][0]["error_top"] > 0.6e-3'
holds 'the floor keeps its tolerance' 'abs([p for p in d["passes"] if p["pass"] == "floor"][0]["floor_thin"] - 0.5e-3) < 0.1e-3'
ask job "$tasks/floor-on-unfaced-sheet.ini"
says 'Z zero on what the stock lies on'
sed -e 's/^thinnest = .*//' -e 's/^across = 12 mm/&\ndepth = 1.5 mm/' "$tasks/floor-on-unfaced-sheet.ini" >"$work/depth.ini"
ask job "$work/depth.ini"
exits 1 2
says 'Z zero on the top of the stock: the depth of'
says 'breaks through the part by 0.1 mm where the sheet is thinnest'
