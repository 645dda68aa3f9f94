# SPDX-License-Identifier: GPL-3.0-or-later
# A thin floor in a vise: does the plan say that nothing supports it, what does support change, and
# how thick would the floor have to be?
plan thin-floor.ini
exits 0 1
holds 'it says so, with a thickness' '[r for r in d["remarks"] if r["id"] == "floor-bends" and r["severity"] == "care" and r["quantities"]["bend"] > 0.3e-3 and 0.7e-3 < r["quantities"]["needed"] < 1.5e-3]'
holds 'unsupported it takes many times the passes' '[r for r in d["remarks"] if r["id"] == "floor-costs" and r["quantities"]["passes"] > 5 * r["quantities"]["passes_supported"]]'
ask job "$tasks/thin-floor.ini"
says 'nothing supports the floor, 0.4 mm thick over 25 mm'
says 'Support it from below with tape, wax or vacuum'
bare=$(ask job "$tasks/thin-floor.ini" --format json; "$python" -c 'import json, sys; print(json.load(open(sys.argv[1]))["passes"][0]["seconds"])' "$work/out")
for support in tape wax; do
    sed "s/^method = vise/&\nsupport = $support/" "$tasks/thin-floor.ini" >"$work/$support.ini"
    ask job "$work/$support.ini" --format json
    exits 0 1
    holds "$support makes it quick" "d['passes'][0]['seconds'] < 0.05 * $bare"
    holds "with $support nothing is said" 'not [r for r in d["remarks"] if r["id"] == "floor-bends"]'
done
sed 's/^depth = 5.6 mm/&\ntool = 6mm\npass_depth = 1.4 mm\nspindle = 18000rpm\nfeed = 1500mm\/min/' "$tasks/thin-floor.ini" >"$work/usual.ini"
ask job "$work/usual.ini" --format json
exits 2
holds 'usual settings are over' 'named(d["passes"][0]["limits"], "part_bend")["verdict"] == "over"'
ask job "$work/usual.ini"
says 'nothing supports the floor'
