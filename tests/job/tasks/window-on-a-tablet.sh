# SPDX-License-Identifier: GPL-3.0-or-later
# A page for the tablet at the machine: one file that works without a network, with the numbers that
# the program gives in JSON, in the shop's units.
what='window --material 6061 --tool 6mm --machine small-vmc --depth 3mm --width 1mm --coolant mist --units inch --exit-zero'
ask $what --output "$work/tablet.html"
exits 0
ask $what --format json
"$python" - "$work/tablet.html" "$work/out" <<'PY' && good || bad "$task: the page"
import json, re, sys
page = open(sys.argv[1], encoding="utf-8").read()
d = json.load(open(sys.argv[2], encoding="utf-8"))
grid = json.loads(re.search(r'id="grid">(.*?)</script>', page, re.S).group(1))
assert len(grid["across"]) == len(d["across"]["at"]) and len(grid["up"]) == len(d["up"]["at"])
assert all(t.endswith(" rpm") for t in grid["across"]) and all(t.endswith(" in/min") for t in grid["up"])
assert sorted(l["name"] for l in grid["limits"]) == sorted(l["name"] for l in d["limits"])
for one in grid["limits"]:
    limit = [l for l in d["limits"] if l["name"] == one["name"]][0]
    assert one["fixed"] == limit["fixed"]
    for y in range(0, len(grid["up"]), 9):
        for x in range(0, len(grid["across"]), 12):
            use = one["use"] if one["fixed"] else one["use"][y][x]
            true = limit["utilization"][y][x]
            assert (use is None) == (true is None)
            assert use is None or abs(use - min(9999, 100 * true)) <= 0.51, (one["name"], use, true)
for row, verdicts in zip(grid["verdict"], d["verdicts"]):
    assert len(row) == len(verdicts) and all(v.startswith(letter) for letter, v in zip(row, verdicts))
assert not re.search(r"https?://|\ssrc=|\shref=|@import|mm/min", page)
assert "default-src 'none'" in page and 'aria-live="polite"' in page and "prefers-color-scheme:dark" in page
PY
ask window --output "$work/tablet.pdf" --material 6061 --tool 6mm
exits 64
says 'use .txt, .json, .csv, .svg or .html'
