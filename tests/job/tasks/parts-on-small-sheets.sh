# SPDX-License-Identifier: GPL-3.0-or-later
# Twenty-five plates out of offcuts: how many offcuts, and how many plates from each?
plan parts-on-small-sheets.ini
exits 0 1
holds 'all plates are on some blank' '(d["stock"]["blanks"] - 1) * d["stock"]["on_each"] + d["stock"]["on_last"] == 25'
holds 'a blank is no larger than an offcut' 'd["stock"]["blank_length"] <= 0.3 and d["stock"]["blank_width"] <= 0.2'
holds 'three by three plates fit' 'd["stock"]["blanks"] == 3 and d["stock"]["on_each"] == 9 and d["stock"]["on_last"] == 7'
ask job "$tasks/parts-on-small-sheets.ini"
says '3 blanks are needed because not all parts fit on one sheet: 9 on each, 7 on the last'
