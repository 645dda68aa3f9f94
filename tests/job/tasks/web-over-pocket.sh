# SPDX-License-Identifier: GPL-3.0-or-later
# A plate on tape is pocketed from both sides: the web of the second pocket lies over the first. Is
# it seen, does tape help, and what does a vacuum plate do to it?
cat >"$work/web.ini" <<'JOB'
[format]
kind = job
version = 1
[part]
material = polycarbonate/sheet
length = 70 mm
width = 50 mm
thickness = 6 mm
thinnest = 0.6 mm
tolerance = 0.1 mm
[stock]
thinnest = 5.95 mm
thickest = 6.05 mm
faces = none
[machine]
name = bench-24k
[tools]
at_hand = 3mm 6mm
[hold]
method = tape
[pass.below]
work = pocket
length = 50 mm
across = 30 mm
depth = 2.7 mm
[pass.above]
work = pocket
setup = 2
length = 50 mm
across = 30 mm
depth = 2.7 mm
JOB
ask job "$work/web.ini" --format json
exits 0 1 2
holds 'the web is a free floor' 'abs(named(d["passes"][1]["inputs"], "floor_span")["value"] - 30e-3) < 1e-9 and 0.5e-3 < named(d["passes"][1]["inputs"], "floor_thickness")["value"] < 0.65e-3'
holds 'the first pocket lies on tape' 'not named(d["passes"][0]["limits"], "part_bend")["applies"]'
holds 'less area below' 'd["setup_plans"][1]["hold"]["area"] < 0.6 * d["setup_plans"][0]["hold"]["area"]'
holds 'it is said' '[r for r in d["remarks"] if r["id"] == "web-bends"]'
sed 's/^method = tape/&\nsupport = wax/' "$work/web.ini" >"$work/wax.ini"
ask job "$work/wax.ini" --format json
holds 'wax in the pocket helps' 'not [r for r in d["remarks"] if r["id"] == "web-bends"] and d["passes"][1]["passes"] < 8'
sed 's/^method = tape/method = vacuum/' "$work/web.ini" >"$work/vacuum.ini"
ask job "$work/vacuum.ini"
says 'The vacuum sucks the web, 0.6 mm thick over the pocket below'
