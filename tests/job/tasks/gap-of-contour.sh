# SPDX-License-Identifier: GPL-3.0-or-later
# Ten parts with a contour of 3 mm round each: does cutting one spoil its neighbour?
plan gap-of-contour.ini
exits 0 1
holds 'a slot of 3 mm beside each part and a web between them' 'd["stock"]["gap"] >= 2 * 0.003 + 0.001 - 1e-9'
holds 'the slot stays on the blank' 'd["stock"]["margin"] > 0.003'
holds 'the blank holds all ten' 'd["stock"]["along"] * d["stock"]["rows"] >= 10 and d["stock"]["blanks"] == 1'
sed 's/^count = 10/&\n[stock]\ngap = 2 mm/' "$tasks/gap-of-contour.ini" >"$work/narrow.ini"
ask job "$work/narrow.ini"
exits 2
says 'it cuts 1 mm into the neighbouring parts'
