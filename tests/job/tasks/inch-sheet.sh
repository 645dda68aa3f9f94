# SPDX-License-Identifier: GPL-3.0-or-later
# Which plate does an inch shop order for parts of 0.2 in skimmed by 0.01 in on each face?
plan inch-sheet.ini
holds 'an inch size' 'abs(d["stock"]["nominal"] / 0.0254 - 0.25) < 1e-6'
holds 'the thin end of 1/4 in plate, less 0.013 in, holds 0.22 in' 'abs(d["stock"]["thin"] / 0.0254 - 0.237) < 1e-6'
holds 'a sheet as sold in inches' 'abs(d["stock"]["sold_length"] / 0.0254 % 12) < 1e-6 and d["stock"]["sheets"] == 1'
ask job "$tasks/inch-sheet.ini"
says '0.25 in sheet (selected)'
ask job "$tasks/inch-sheet.ini" --units metric --format json
holds 'in metric units, a metric size' 'abs(d["stock"]["nominal"] - 6e-3) < 1e-9'
