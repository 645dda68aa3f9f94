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
holds 'with the pauses it is not too long either' 'not [r for r in d["remarks"] if r["id"] == "soak-size"]'
holds 'the pauses are in the time of the pass and of the job, and the sum adds up' \
    '(lambda p, t: abs(p["pause_seconds"] - p["pause"] * (p["passes"] - 1)) < 1e-9 and p["pause_seconds"] == t["pauses"] > 30 and p["seconds"] > p["pause_seconds"] + p["feed_seconds"] and abs(t["whole"] - t["cutting"] - t["ways"] - t["pauses"] - t["changes"] - t["loading"] - t["release"]) < 1e-6 and abs(t["whole"] - t["hands"] - t["machine_alone"] - t["waiting"]) < 1e-6)(d["passes"][0], d["time"])'
ask job "$work/soak.ini"
says 'pauses of'
says 'pauses in which the part cools'
says 'of it pauses'
ask job "$work/soak.ini" --format html
says 'pauses in which the part cools'
says 'Pauses in which the part cools:'
printf '[fluids]\ncoolant = flood\n' | cat "$work/soak.ini" - >"$work/flood.ini"
ask job "$work/flood.ini" --format json
holds 'flood keeps it cool enough for the tape' 'not [r for r in d["remarks"] if r["id"] in ("soak-pause", "soak-cool")]'
sed 's/^length = 15 mm/length = 90 mm/; s/^width = 10 mm/width = 60 mm/' "$work/soak.ini" >"$work/large.ini"
ask job "$work/large.ini" --format json
holds 'a large plate takes it' 'd["passes"][0]["mean_rise"] < 8'
# a second pass in the same vise waits until the part is true to size; after the last nobody waits at
# the machine. Three parts, each clamped by itself, wait three times
sed 's/^method = tape/method = vise\njaw_depth = 0.5 mm/; s/^length = 15 mm/length = 60 mm/; s/^width = 10 mm/width = 12 mm/' "$work/soak.ini" >"$work/warm.ini"
printf '[pass.slot]\nwork = slot\ntool = 3mm\nlength = 20 mm\nacross = 3 mm\ndepth = 0.5 mm\nspindle = 6000rpm\nfeed = 300mm/min\n' >>"$work/warm.ini"
ask job "$work/warm.ini" --format json
holds 'it waits before the next pass' \
    '(lambda p, r: p["cool_down"] > 5 and abs(p["cool_down"] - r["quantities"]["wait"]) < 1e-6 and p["pause_seconds"] == p["cool_down"] == d["time"]["pauses"] and "before the next pass, which is in the time" in r["text"])(d["passes"][0], [r for r in d["remarks"] if r["id"] == "soak-size"][0])'
holds 'it is longer than it will be' '[r for r in d["remarks"] if r["id"] == "soak-size" and abs(r["quantities"]["grows"] / (12e-6 * d["passes"][0]["mean_rise"] * 60e-3) - 1) < 0.1]'
holds 'nothing follows the last' 'd["passes"][1]["cool_down"] == 0'
