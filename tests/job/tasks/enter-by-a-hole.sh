# SPDX-License-Identifier: GPL-3.0-or-later
# A pocket is entered through a drilled hole: is the hole drilled, before it, with a drill that lets
# the cutter in and does not go through the floor, and is its time counted?
cat >"$work/hole.ini" <<'JOB'
[format]
kind = job
version = 1
[part]
material = aluminium/6061-T6
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
method = vise
[fluids]
coolant = flood
coolant_fluid = mist-lubricant
[pass.pocket]
title = the pocket
work = pocket
tool = 6mm
length = 40 mm
across = 20 mm
depth = 6 mm
entry = hole
at = 40 mm 30 mm
JOB
ask job "$work/hole.ini" --format json
exits 0 1
holds 'the drill comes first' '[p["work"] for p in d["passes"]] == ["drill", "pocket"] and d["passes"][1]["entry_move"]["hole_by"] == d["passes"][0]["pass"]'
holds 'it lets the cutter in' '6.6e-3 - 1e-9 <= named(d["passes"][0]["inputs"], "diameter")["value"] < 8e-3'
holds 'its tip ends on the floor' 'abs(d["passes"][0]["feature_depth"] - 6e-3) < 1e-6 and d["passes"][0]["hole"]["blind"]'
holds 'its tool is on the list, changed and timed' \
    'd["passes"][0]["tool"] == "drill-6.6" and len(d["tools"]) == 2 and d["time"]["tool_changes"] >= 1 and d["passes"][0]["seconds"] > 0 and abs(sum(p["seconds"] for p in d["passes"]) - d["time"]["cutting"] - d["time"]["ways"] - d["time"]["pauses"]) < 1e-6'
ask job "$work/hole.ini"
says 'the pocket: hole to enter by (drill, tool drill-6.6)'
says 'is entered through the hole that "the pocket: hole to enter by" makes'
ask job "$work/hole.ini" --format html
says 'hole to enter by'
# in an inch shop the drill is one of its sizes
ask job "$work/hole.ini" --format json --units inch
holds 'a letter or a fraction' 'd["passes"][0]["tool"] in ("drill-g", "drill-h", "drill-17in64") and named(d["passes"][0]["inputs"], "diameter")["value"] >= 6.6e-3 - 1e-9'
# an own hole at the same place is used, and none is added
{ cat "$work/hole.ini"; printf '[pass.screw]\nwork = drill\ntool = drill-7\nat = 40 mm 30 mm\n'; } >"$work/own.ini"
ask job "$work/own.ini" --format json
holds 'the hole that is there is used' 'len(d["passes"]) == 2 and d["passes"][0]["pass"] == "screw" and d["passes"][1]["entry_move"]["hole_by"] == "screw"'
# one elsewhere is not, and one that is too small neither
sed 's/^at = 40 mm 30 mm$/at = 20 mm 30 mm/' "$work/own.ini" | sed '0,/^at = 20 mm/s//at = 40 mm/' >"$work/beside.ini"
ask job "$work/beside.ini" --format json
holds 'a hole elsewhere does not serve' 'len(d["passes"]) == 3 and [p for p in d["passes"] if p["work"] == "pocket"][0]["entry_move"]["hole_by"] == "pocket-hole"'
# named by the file, it must be wide and deep enough
sed 's/^entry = hole/&\nhole = screw/; s/^tool = drill-7/tool = drill-5/' "$work/own.ini" >"$work/narrow.ini"
ask job "$work/narrow.ini"
exits 65
says 'pass.pocket:hole: the hole is 5 mm wide, and the tool that is lowered into it 6 mm'
sed 's/^entry = hole/&\nhole = screw/; s/^tool = drill-7/&\ndepth = 2 mm/' "$work/own.ini" >"$work/shallow.ini"
ask job "$work/shallow.ini"
exits 65
says 'and the tool is lowered to 6 mm'
sed 's/^entry = hole/hole = screw/' "$work/own.ini" >"$work/stray.ini"
ask job "$work/stray.ini"
exits 65
says 'hole belongs to tapping, thread milling and reaming, and to entry = hole'
# three pockets have three holes
sed 's/^at = .*/count = 3/' "$work/hole.ini" >"$work/three.ini"
ask job "$work/three.ini" --format json
holds 'as many holes as pockets' '[p["count"] for p in d["passes"]] == [3, 3]'
# shallower than the point of any drill: the plan does not pretend
sed 's/^depth = 6 mm/depth = 1 mm/' "$work/hole.ini" >"$work/flat.ini"
ask job "$work/flat.ini"
says 'drill one of at least 6.6 mm to its depth first'
