# SPDX-License-Identifier: GPL-3.0-or-later
# A small steel plate on tape, milled dry: does it come loose from the heat of all laps together,
# and how long are the pauses?
cat >"$work/soak.ini" <<'JOB'
[format]
kind = job
version = 1
[part]
material = steel/1018
length = 15 mm
width = 10 mm
thickness = 4 mm
tolerance = 0.02 mm
[stock]
thinnest = 4 mm
thickest = 4.02 mm
faces = none
gap = 0 mm
margin = 0 mm
[machine]
name = small-vmc
[hold]
method = tape
[pass.pocket]
title = mill the pocket
work = pocket
tool = 6mm
length = 12 mm
across = 9 mm
depth = 3 mm
pass_depth = 0.3 mm
spindle = 6000rpm
feed = 1200mm/min
JOB
ask job "$work/soak.ini" --format json
exits 0 1 2
holds 'it becomes far too warm for tape' 'd["passes"][0]["soak_rise"] > 40'
holds 'a pause after every lap but the last' '[r for r in d["remarks"] if r["id"] == "soak-pause" and r["quantities"]["pauses"] == d["passes"][0]["passes"] - 1 and 1 < r["quantities"]["pause"] < 60]'
holds 'it is longer than it will be' '[r for r in d["remarks"] if r["id"] == "soak-size" and abs(r["quantities"]["grows"] / (12e-6 * d["passes"][0]["mean_rise"] * 15e-3) - 1) < 0.1]'
ask job "$work/soak.ini"
says 'pauses of'
printf '[fluids]\ncoolant = flood\n' | cat "$work/soak.ini" - >"$work/flood.ini"
ask job "$work/flood.ini" --format json
holds 'flood keeps it cool enough for the tape' 'not [r for r in d["remarks"] if r["id"] in ("soak-pause", "soak-cool")]'
sed 's/^length = 15 mm/length = 90 mm/; s/^width = 10 mm/width = 60 mm/' "$work/soak.ini" >"$work/large.ini"
ask job "$work/large.ini" --format json
holds 'a large plate takes it' 'd["passes"][0]["mean_rise"] < 8'
