# SPDX-License-Identifier: GPL-3.0-or-later
# The tool is too thick for the part's corners, and the machinist wants to know what speed and feed
# can still do: the picture shades only what they change, and lists the corner beside it.
what='window --material acrylic/cast --tool 0.8mm --machine bench-24k --depth 0.2mm --inside-radius 0.3mm --spindle 12000rpm --feed 400mm/min'
ask $what
exits 2
says 'Not changed by spindle speed or feed rate: corner'
says '% (over)'
says 'At 12000 rpm, each limit that changes is clear from feed rate'
grep -q '|[^|]*\.\.\.\.\.\.' "$work/out" && good || bad "$task: no clear place in the map"
for columns in 80 60; do
    LC_ALL=C COLUMNS=$columns ask $what
    LC_ALL=C awk -v most=$columns 'length($0) > most || /[^ -~]/ { exit 1 }' "$work/out" && good || bad "$task: a line of more than $columns columns, or not of ASCII"
    [ "$(wc -l <"$work/out")" -le 24 ] && good || bad "$task: more than a screen at $columns columns"
done
ask $what --format json
holds 'the corner is fixed' 'named(d["limits"], "corner")["fixed"] and named(d["limits"], "reach")["fixed"]'
holds 'what speed and feed change is not' 'not named(d["limits"], "feed_tooth")["fixed"] and not named(d["limits"], "spindle_fast")["fixed"]'
holds 'the verdicts still count it' 'all(v == "over" for row in d["verdicts"] for v in row)'
# the picture has a line with its name on it for every binding limit that crosses it
ask $what --output "$work/window.svg"
ask $what --format json
"$python" - "$work/window.svg" "$work/out" <<'PY' && good || bad "$task: the lines of the picture"
import json, re, sys
svg = open(sys.argv[1], encoding="utf-8").read()
d = json.load(open(sys.argv[2], encoding="utf-8"))
labels = re.findall(r'class="name">([^<]*)</text>', svg)
crossing = 0
for limit in d["limits"]:
    all = [u for row in limit["utilization"] for u in row if u is not None]
    if not limit["advisory"] and min(all) < 0.97 and max(all) > 1.03:
        crossing += 1
        assert labels.count(limit["name"].replace("_", " ")) == 1, limit["name"]
assert crossing >= 3
assert ">The same at every place:</text>" in svg
PY
