# SPDX-License-Identifier: GPL-3.0-or-later
# A pocket to size: how much is left for the last lap, is it enough to clean up what roughing did to
# the wall, does the lap still cut, and does it bend less than with a usual stock?
cat >"$work/pocket.ini" <<'JOB'
[format]
kind = job
version = 1
[part]
material = acrylic/cast
length = 80 mm
width = 60 mm
thickness = 12 mm
[stock]
thinnest = 12 mm
thickest = 12.05 mm
faces = none
[machine]
name = small-vmc
[tools]
at_hand = 6mm
[hold]
method = tape
[fluids]
coolant = air
[pass.pocket]
work = pocket
length = 40 mm
across = 25 mm
depth = 5 mm
tolerance = 0.1 mm
JOB
ask job "$work/pocket.ini" --format json
exits 0 1
holds 'two stages' '[p["stage"] for p in d["passes"]] == ["rough", "wall"]'
holds 'it is the band of the wall error, runout, marks and the share of the machine, to 0.01 mm' \
    '(lambda p, v: 0 <= p["path"]["allowance"] - (v("wall_error", "high") + named(p["inputs"], "runout")["value"] + v("roughness_wall", "value") + 0.5 * 0.1e-3) < 10.1e-6)(d["passes"][0], lambda n, k: named(d["passes"][0]["values"], n)[k])'
holds 'less than the usual twentieth of the diameter' 'd["passes"][0]["path"]["allowance"] < 0.05 * 6e-3'
holds 'the lap takes it, cuts and keeps the tolerance' \
    '(lambda p: abs(named(p["inputs"], "width")["value"] - d["passes"][0]["path"]["allowance"]) < 1e-9 and p["verdict"] == "clear" and named(p["limits"], "rubbing")["verdict"] == "clear" and named(p["limits"], "deflection")["verdict"] == "clear")(d["passes"][1])'
holds 'nothing is cut into the finished wall' 'not [r for r in d["remarks"] if r["id"] == "finish-allowance"]'
sed 's/^tolerance = 0.1 mm/tolerance = 0.02 mm/' "$work/pocket.ini" >"$work/fine.ini"
coarse=$("$python" -c 'import json, sys; print(json.load(open(sys.argv[1]))["passes"][0]["path"]["allowance"])' "$work/out")
ask job "$work/fine.ini" --format json
holds 'two tools meet closer where the tolerance is closer' "0 < d['passes'][0]['path']['allowance'] < $coarse"
# a wall in a slot that is hardly wider than the tool: no arc fits, and the plan says what to do
cat >"$work/slot.ini" <<'JOB'
[format]
kind = job
version = 1
[part]
material = acrylic/cast
length = 80 mm
width = 60 mm
thickness = 12 mm
tolerance = 0.1 mm
[stock]
thinnest = 12 mm
thickest = 12.05 mm
faces = none
[machine]
name = small-vmc
[hold]
method = tape
[pass.slot]
work = slot
tool = 6mm
length = 40 mm
across = 6.2 mm
depth = 3 mm
[pass.wall]
work = finish
after = slot
tool = 6mm
length = 90 mm
depth = 3 mm
width = 0.1 mm
JOB
ask job "$work/slot.ini" --format json
exits 0 1 2
holds 'no arc is printed' '[p for p in d["passes"] if p["pass"] == "wall"][0]["path"]["lead_radius"] is None'
holds 'the tool that would fit is named' '[r for r in d["remarks"] if r["id"] == "no-lead" and abs(r["quantities"]["diameter"] - 5.8e-3) < 1e-9]'
ask job "$work/slot.ini"
says 'no arc onto the wall fits'
says_not 'by arcs of radius'
sed 's/^after = slot/&/; s/^tool = 6mm/tool = 3mm/' "$work/slot.ini" >"$work/small.ini"
ask job "$work/small.ini" --format json
holds 'a smaller tool runs on by an arc that fits' \
    '(lambda p: 0.1e-3 < p["path"]["lead_radius"] <= 0.25 * (6.2e-3 - 3e-3) + 1e-9)([p for p in d["passes"] if p["pass"] == "wall"][0]) and not [r for r in d["remarks"] if r["id"] == "no-lead"]'
