# SPDX-License-Identifier: GPL-3.0-or-later
# A plate on tape is turned over after a pocket whose size the job does not state: is it said that
# the tape was taken to hold all of the face?
cat >"$work/size.ini" <<'JOB'
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
[pass.below]
title = pocket below
work = pocket
tool = 6mm
depth = 3 mm
spindle = 8000rpm
feed = 600mm/min
pass_depth = 1 mm
[pass.slot]
work = slot
setup = 2
tool = 3mm
length = 20 mm
depth = 1 mm
spindle = 8000rpm
feed = 300mm/min
JOB
ask job "$work/size.ini" --format json
exits 0 1 2
holds 'it is said for the setup that lies on it' \
    '[r for r in d["remarks"] if r["id"] == "area-not-reduced" and r["severity"] == "care" and "pocket below" in r["text"] and r["quantities"]["setup"] == 2]'
holds 'only there' 'sum(r["id"] == "area-not-reduced" for r in d["remarks"]) == 1'
sed 's/^depth = 3 mm/&\nlength = 40 mm\nacross = 25 mm/' "$work/size.ini" >"$work/sized.ini"
ask job "$work/sized.ini" --format json
holds 'a stated size reduces the area' \
    'd["setup_plans"][1]["hold"]["area"] < 60e-3 * 40e-3 - 0.99 * 40e-3 * 25e-3 and not [r for r in d["remarks"] if r["id"] == "area-not-reduced"]'
sed 's/^method = tape/&\narea = 1200 mm2/' "$work/size.ini" >"$work/area.ini"
ask job "$work/area.ini" --format json
holds 'a stated area is used' 'abs(d["setup_plans"][1]["hold"]["area"] - 1200e-6) < 1e-9 and not [r for r in d["remarks"] if r["id"] == "area-not-reduced"]'
