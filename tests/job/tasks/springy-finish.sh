# SPDX-License-Identifier: GPL-3.0-or-later
# A deep wall of steel is finished with a slim tool to 0.02 mm: what does the first lap leave, and
# how many spring passes are worth it?
cat >"$work/spring.ini" <<'JOB'
[format]
kind = job
version = 1
[part]
material = steel/1018
length = 60 mm
width = 40 mm
thickness = 20 mm
tolerance = 0.02 mm
[stock]
thinnest = 20 mm
thickest = 20.1 mm
faces = none
[machine]
name = small-vmc
[hold]
method = vise
clamp_force = 10 kN
jaw_depth = 5 mm
[pass.wall]
title = finish the wall
work = finish
tool = 4mm
depth = 12 mm
pass_depth = 12 mm
length = 100 mm
width = 0.5 mm
spindle = 2000rpm
feed = 160mm/min
JOB
ask job "$work/spring.ini" --format json
exits 1 2
holds 'one or two spring passes' '1 <= d["passes"][0]["spring_passes"] <= 2'
holds 'they leave less than a quarter of the tolerance' 'd["passes"][0]["spring_leaves"] <= 0.25 * 0.02e-3 < named(d["passes"][0]["limits"], "deflection")["demand"]'
holds 'their time is counted' 'abs(d["passes"][0]["feed_seconds"] - (1 + d["passes"][0]["spring_passes"]) * 0.1 / (0.16 / 60)) < 1e-6'
ask job "$work/spring.ini"
says 'spring pass'
says 'Spring passes at the same setting'
sed 's/^width = 0.5 mm/width = 0.03 mm/' "$work/spring.ini" >"$work/light.ini"
ask job "$work/light.ini" --format json
holds 'a light lap needs none' 'd["passes"][0]["spring_passes"] == 0'
