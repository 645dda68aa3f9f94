# SPDX-License-Identifier: GPL-3.0-or-later
# A block of 20 mm sits 12 mm deep in the jaws, 8 mm above them. What may be cut without hitting
# the vise? A slot across it runs out over both gripped edges, 7 mm deep: 1 mm above the jaws.
ask job "$tasks/vise-jaws.ini" --draws 1
says_not 'below the top of the jaws'
says_not 'bed of the vise:'
# 40 mm of jaw less 12 mm of grip: 28 mm of air down to the bed; what was assumed is said.
says 'Checked with the part 12 mm deep between jaws that are 40 mm apart, on parallels: the jaws are 40 mm high, which leaves 28 mm down to the bed.'
# 9 mm deep, the slot goes 1 mm below the top of the jaws.
sed 's/^depth = 7 mm/depth = 9 mm/' "$tasks/vise-jaws.ini" >"$work/deep.ini"
ask job "$work/deep.ini" --draws 1
exits 2
says 'In "slot" the cutter goes 1 mm below the top of the jaws'
# Along the jaws it leaves the part over its free ends, whatever its depth.
sed -e 's/^depth = 7 mm/depth = 9 mm/' -e 's/^along = width/along = length/' -e 's/^length = 46 mm/length = 66 mm/' "$tasks/vise-jaws.ini" >"$work/along.ini"
ask job "$work/along.ini" --draws 1
says_not 'below the top of the jaws'
# Inside the part it meets no jaw either.
sed -e 's/^depth = 7 mm/depth = 9 mm/' -e 's/^length = 46 mm/length = 34 mm/' "$tasks/vise-jaws.ini" >"$work/inside.ini"
ask job "$work/inside.ini" --draws 1
says_not 'below the top of the jaws'
# Only 0.6 mm of the block above the jaws: the chamfer of 0.5 mm would do, but the tip of its tool
# goes a quarter of that deeper beside the edge, 0.625 mm.
sed 's/^jaw_depth.*/jaw_depth = 19.4 mm/' "$tasks/vise-jaws.ini" >"$work/edge.ini"
ask job "$work/edge.ini" --draws 1
exits 2
says 'In "chamfer an edge" the cutter goes 0.025 mm below the top of the jaws'
# Gripped at its ends, the slot across runs out over free edges, and one along it does not.
sed -e 's/^depth = 7 mm/depth = 9 mm/' -e 's/^jaw_depth.*/&\nbetween_jaws = 60 mm/' "$tasks/vise-jaws.ini" >"$work/ends.ini"
ask job "$work/ends.ini" --draws 1
says_not 'below the top of the jaws'
# On the bed of a vise whose jaws are 14 mm high 2 mm are left: the hole is drilled 2 mm beyond the
# part, and its point goes 3 mm/tan(59 deg) = 1.80 mm further, into the bed.
sed 's/^vise_depth.*/vise_depth = 14 mm/' "$tasks/vise-jaws.ini" >"$work/bed.ini"
ask job "$work/bed.ini" --draws 1
exits 2
says '"drill" goes 3.8'
says 'only 2 mm between it and the bed of the vise'
