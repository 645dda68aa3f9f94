# SPDX-License-Identifier: GPL-3.0-or-later
# A large pocket in steel with corners of 1 mm: the smallest tool should not cut all that the largest
# leaves in them. Is a third tool taken, does it save time, and where does it not?
cat >"$work/pocket.ini" <<'JOB'
[format]
kind = job
version = 1
[part]
material = steel/1018
length = 160 mm
width = 120 mm
thickness = 12 mm
[stock]
thinnest = 12 mm
thickest = 12.05 mm
faces = none
[machine]
name = small-vmc
[tools]
at_hand = 2mm 5mm 10mm
[hold]
method = vise
clamp_force = 12 kN
[fluids]
coolant = flood
[pass.pocket]
work = pocket
length = 120 mm
across = 80 mm
depth = 6 mm
inside_radius = 1 mm
JOB
cutting='d["time"]["cutting"] + d["time"]["ways"] + d["time"]["tool_changing"]'
ask job "$work/pocket.ini" --format json
exits 0 1
holds 'three tools, from large to small' \
    '[(p["stage"], p["tool"]) for p in d["passes"]] == [("rough", "10mm"), ("middle", "5mm"), ("corners", "2mm")] and d["passes"][0]["ways"]["three"]'
holds 'together they remove the pocket' \
    'abs(sum(p["area"] for p in d["passes"]) - (120e-3 * 80e-3 - (4 - math.pi) * 1e-6)) < 1e-9'
holds 'each takes what the one before left in the corners' \
    'abs(d["passes"][1]["area"] - (4 - math.pi) * (25e-6 - 6.25e-6)) < 1e-9'
three=$("$python" -c "import json, sys; d = json.load(open(sys.argv[1])); print($cutting)" "$work/out")
ask job "$work/pocket.ini"
says 'with 5mm between them'
says ': three tools'
sed 's/2mm 5mm 10mm/2mm 10mm/' "$work/pocket.ini" >"$work/two.ini"
ask job "$work/two.ini" --format json
holds 'with two it takes longer' "len(d['passes']) == 2 and $cutting > 1.1 * $three"
# acrylic is cut so fast that a change of tools is not worth it
sed 's/steel.1018/acrylic\/cast/; s/coolant = flood/coolant = air/; s/^inside_radius = 1 mm/inside_radius = 1.5 mm/; s/2mm 5mm/3mm 5mm/' "$work/pocket.ini" >"$work/acrylic.ini"
ask job "$work/acrylic.ini" --format json
holds 'two tools are enough' 'not d["passes"][0]["ways"]["three"] and "middle" not in [p["stage"] for p in d["passes"]] and len(d["tools"]) == len(d["passes"])'
