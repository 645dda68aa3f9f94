# SPDX-License-Identifier: GPL-3.0-or-later
# The edge of an acrylic lens melted at 24000 rpm and a slow feed: what first? The answer is tried.
cut="--material acrylic/cast --tool 3mm --machine trim-router --depth 1.5mm"
ask choose $cut --spindle 24000rpm --feed 600mm/min --after melted --format json --exit-zero
exits 0
holds 'ranked by the chance of the trouble' \
    'all(a["trouble_after"] <= b["trouble_after"] + 0.02 for a, b in zip(d["change_first"], d["change_first"][1:]))'
holds 'each helps, and says its price' \
    'all(c["trouble_after"] < d["chance"] and c["time"] > 0 for c in d["change_first"])'
holds 'half the spindle speed costs no time' \
    'any(c["input"] == "spindle_speed" and c["to"] == "12000 rpm" and c["time"] == 1 for c in d["change_first"])'
holds 'what settings cannot show has a check' \
    '"worn-tool" in [c["name"] for c in d["causes"]] and all(len(c["check"]) > 20 for c in d["causes"])'
was=$("$python" -c 'import json, sys; print(json.load(open(sys.argv[1]))["chance"])' "$work/out")
ask cut $cut --spindle 12000rpm --feed 600mm/min --format json --exit-zero
holds 'with half the speed the chance is indeed lower' "d['chance'] < 0.7 * $was"
ask choose $cut --spindle 24000rpm --feed 600mm/min --after melted --exit-zero
says 'Change first, one at a time:'
says 'takes no longer'
says 'a worn or chipped edge: look at each edge'
