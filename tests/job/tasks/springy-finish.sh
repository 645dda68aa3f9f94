# SPDX-License-Identifier: GPL-3.0-or-later
# A deep wall of steel is finished with a slim tool: what does the first lap leave, how many spring
# passes are worth it, and is the wall to size after them?
cat >"$work/spring.ini" <<'JOB'
[format]
kind = job
version = 1
[part]
material = steel/1018
length = 60 mm
width = 40 mm
thickness = 20 mm
tolerance = 0.04 mm
[stock]
thinnest = 20 mm
thickest = 20.02 mm
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
tool = 6mm
depth = 12 mm
pass_depth = 12 mm
length = 100 mm
width = 0.4 mm
spindle = 2000rpm
feed = 150mm/min
JOB
cut='cut --material steel/1018 --machine small-vmc --tool 6mm --depth 12mm --width 0.4mm --spindle 2000rpm --feed 150mm/min --tolerance 0.04mm --format json'
ask $cut
exits 1 2
holds 'one lap alone may be out of tolerance' 'named(d["limits"], "deflection")["chance"] > 0.1'
ask job "$work/spring.ini" --format json
exits 0 1
holds 'one or two spring passes' '1 <= d["passes"][0]["spring_passes"] <= 2'
holds 'they leave less than a quarter of the tolerance' 'd["passes"][0]["spring_leaves"] <= 0.25 * 0.04e-3 and d["passes"][0]["first_leaves"] > 2 * d["passes"][0]["spring_leaves"]'
holds 'the wall is judged after them, and clear' '(lambda l: l["demand"] < 0.25 * 0.04e-3 and l["verdict"] == "clear" and l["chance"] < 0.05)(named(d["passes"][0]["limits"], "deflection"))'
holds 'their time is counted' 'abs(d["passes"][0]["feed_seconds"] - (1 + d["passes"][0]["spring_passes"]) * 0.1 / (0.15 / 60)) < 1e-6'
ask $cut --set spring_passes=1
exits 0 1 2
holds 'a cut says the same' 'named(d["limits"], "deflection")["chance"] < 0.1'
ask $cut --set spring_passes=1.5
exits 64 65 2
says 'a whole number of spring passes'
ask job "$work/spring.ini"
says 'spring pass'
says 'Spring passes at the same setting'
says 'by which the wall is judged'
sed 's/^width = 0.4 mm/width = 0.03 mm/' "$work/spring.ini" >"$work/light.ini"
ask job "$work/light.ini" --format json
holds 'a light lap needs none' 'd["passes"][0]["spring_passes"] == 0'
# no spring pass cures a tool that is far too slim, and the plan does not say so
sed 's/^tool = 6mm/tool = 3mm/; s/0.04 mm/0.01 mm/; s/^pass_depth.*/pass_depth = 9 mm/' "$work/spring.ini" >"$work/slim.ini"
ask job "$work/slim.ini" --format json
exits 2
holds 'it stays over' 'd["passes"][0]["verdict"] == "over"'
# the bond of a part on tape bears them too
sed 's/^method = vise/method = tape/; /^clamp_force/d; /^jaw_depth/d' "$work/spring.ini" >"$work/tape.ini"
ask job "$work/tape.ini" --format json
exits 0 1 2
holds 'the time under load is that of all laps' \
    'd["passes"][0]["spring_passes"] > 0 and abs(named(d["passes"][0]["inputs"], "load_time")["value"] / (d["passes"][0]["seconds"] - d["passes"][0]["entry_seconds"] - d["passes"][0]["move_seconds"]) - 1) < 1e-3'
