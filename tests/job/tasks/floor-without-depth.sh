# SPDX-License-Identifier: GPL-3.0-or-later
# The drawing states the floor of a pocket, not its depth: is it cut to leave that floor? And if both
# are stated and do not fit, is it said with both numbers?
cat >"$work/floor.ini" <<'JOB'
[format]
kind = job
version = 1
[part]
material = aluminium/6061-T6
length = 60 mm
width = 40 mm
thickness = 6 mm
tolerance = 0.1 mm
[stock]
thinnest = 6 mm
thickest = 6.02 mm
faces = none
[machine]
name = small-vmc
[hold]
method = tape
[pass.pocket]
work = pocket
tool = 6mm
length = 40 mm
across = 25 mm
floor = 1.5 mm
JOB
ask job "$work/floor.ini" --format json
exits 0 1
holds 'the depth is the thickness less the floor' 'abs(d["passes"][0]["feature_depth"] - 4.5e-3) < 1e-9'
holds 'the floor is what remains' 'abs(d["passes"][0]["floor_thin"] - 1.5e-3) < 0.1e-3'
ask job "$work/floor.ini"
says '4.5 mm deep: the part, 6 mm thick, less the floor of 1.5 mm that is to remain'
# both, and they fit
sed 's/^floor = 1.5 mm/&\ndepth = 4.5 mm/' "$work/floor.ini" >"$work/both.ini"
ask job "$work/both.ini"
exits 0 1
says_not 'that is to remain'
# both, and they do not
sed 's/^floor = 1.5 mm/&\ndepth = 3 mm/' "$work/floor.ini" >"$work/odd.ini"
ask job "$work/odd.ini"
exits 65
says 'pass.pocket:floor: depth 3 mm and floor 1.5 mm do not make the part, which is 6 mm thick'
says 'a floor of 1.5 mm is a depth of 4.5 mm, and a depth of 3 mm leaves 3 mm'
holds_lines=$(grep -c 'floor' "$work/err" || true)
[ "$holds_lines" -eq 1 ] && good || bad "$task: one fault, not $holds_lines"
# a floor as thick as the part is no floor
sed 's/^floor = 1.5 mm/floor = 6 mm/' "$work/floor.ini" >"$work/thick.ini"
ask job "$work/thick.ini"
exits 65
says 'the floor, 6 mm, is not thinner than the part, 6 mm'
# over a pocket in the face below it may be the web, or not: asked, with both depths
{
    cat "$work/floor.ini"
    printf '[pass.above]\nwork = pocket\nsetup = 2\ntool = 6mm\nlength = 20 mm\nacross = 12 mm\nfloor = 0.5 mm\n'
} >"$work/web.ini"
ask job "$work/web.ini"
exits 65
says 'a floor of 0.5 mm is a depth of 5.5 mm beside the pocket in the face below, and of 1 mm over it'
sed 's/^floor = 0.5 mm/&\ndepth = 1 mm/' "$work/web.ini" >"$work/over.ini"
ask job "$work/over.ini" --format json
exits 0 1 2
holds 'it is judged as a web' 'abs(named(d["passes"][1]["inputs"], "floor_thickness")["value"] - 0.5e-3) < 1e-9'
# in inches
ask job "$work/odd.ini" --units inch
says 'depth 0.1181 in and floor 0.0591 in do not make the part'
