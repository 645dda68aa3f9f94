# SPDX-License-Identifier: GPL-3.0-or-later
# A plate of 120 mm x 70 mm is taped down first and then turned over into the vise, which opens
# 50 mm: the second setup is impossible, the first is not. The blank: 120 + 2 x 3 mm.
ask job "$tasks/hold-of-each-setup.ini"
exits 2
says 'the piece between the jaws in setup 2 needs 70 mm'
says 'that of desktop-light has 50 mm'
says_not 'jaws in setup 1'
ask job "$tasks/hold-of-each-setup.ini" --format json
holds 'the machine is too small' 'not d["envelope"]["fits"] and d["verdict"] == "over"'
# The vise stands 30 mm above the table and the tape's board 12 mm: the vise makes the stack.
holds 'the highest stack is that of the vise' 'abs(d["envelope"]["fixture"] - 0.030) < 1e-9 and abs(d["envelope"]["stack"] - (0.030 + 0.01002 + 0.005 + d["envelope"]["stickout"])) < 1e-9'
# A vise that opens 80 mm takes it; then only its stand can be too high.
sed 's/^name = desktop-light/&\nvise_opening = 80 mm/' "$tasks/hold-of-each-setup.ini" >"$work/wide.ini"
ask job "$work/wide.ini" --format json
holds 'the wider vise takes it' 'd["envelope"]["fits"]'
sed -e 's/^name = desktop-light/&\nvise_opening = 80 mm/' -e 's/^jaw_depth.*/&\nheight = 170 mm/' "$tasks/hold-of-each-setup.ini" >"$work/high.ini"
ask job "$work/high.ini"
exits 2
says 'high together in setup 2'
# Held by tape in both, the vise plays no part; in the vise in both, no setup is named.
sed -e 's/^method = vise/method = tape/' -e '/^jaw_depth/d' "$tasks/hold-of-each-setup.ini" >"$work/taped.ini"
ask job "$work/taped.ini"
says_not 'jaws'
# Two parts that are taped and not cut free would lie in the vise as one blank: each is a piece.
sed 's/^thickness = 10 mm/&\ncount = 2/' "$tasks/hold-of-each-setup.ini" >"$work/two.ini"
ask job "$work/two.ini" --format json
holds 'each part is a piece of its own' 'd["stock"]["blanks"] == 2 and d["stock"]["on_each"] == 1'
