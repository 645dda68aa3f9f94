# SPDX-License-Identifier: GPL-3.0-or-later
# A thin floor in a vise: does the plan say that nothing supports it, what does support change, and
# how thick would the floor have to be? The settings to enter are those of the supported cut.
plan thin-floor.ini
exits 2
holds 'it says so, with a thickness' '[r for r in d["remarks"] if r["id"] == "floor-bends" and r["severity"] == "care" and r["quantities"]["bend"] > 0.3e-3 and 0.7e-3 < r["quantities"]["needed"] < 1.5e-3]'
holds 'unsupported it takes many times the passes' '[r for r in d["remarks"] if r["id"] == "floor-costs" and r["quantities"]["passes"] > 4 * r["quantities"]["passes_supported"]]'
holds 'the settings are those with tape under it, and without it they are over' \
    '(lambda p: p["support_assumed"] == "tape" and p["verdict"] == "over" and named(p["limits"], "part_bend")["verdict"] == "over" and p["unsupported_seconds"] > 20 * p["seconds"])(d["passes"][0])'
ask job "$tasks/thin-floor.ini"
says 'nothing supports the floor, 0.4 mm thick over 25 mm'
says 'Support it from below with tape, wax or vacuum'
says 'with the floor supported'
says 'It is over until the job states support = tape'
ask job "$tasks/thin-floor.ini" --format html
says 'with the floor supported'
bare=$(ask job "$tasks/thin-floor.ini" --format json; "$python" -c 'import json, sys; p = json.load(open(sys.argv[1]))["passes"][0]; print(p["seconds"], p["enter"]["spindle"], p["enter"]["feed"], p["passes"], p["step_down"], sep=", ")' "$work/out")
for support in tape wax; do
    sed "s/^method = vise/&\nsupport = $support/" "$tasks/thin-floor.ini" >"$work/$support.ini"
    ask job "$work/$support.ini" --format json
    exits 0 1
    holds "with $support nothing is said" 'not [r for r in d["remarks"] if r["id"] in ("floor-bends", "support-assumed")] and d["passes"][0]["support_assumed"] == ""'
done
ask job "$work/tape.ini" --format json
holds 'what was printed is the supported cut' \
    "(lambda p: all(abs(a / b - 1) < 1e-6 for a, b in zip((p['seconds'], p['enter']['spindle'], p['enter']['feed'], p['passes'], p['step_down']), ($bare))))(d['passes'][0])"
# a floor so thin that tape does not serve is waxed
sed 's/thinnest = 0.4 mm/thinnest = 0.08 mm/; s/depth = 5.6 mm/depth = 5.92 mm/' "$tasks/thin-floor.ini" >"$work/foil.ini"
ask job "$work/foil.ini" --format json
exits 2
holds 'wax, in minutes instead of hours' 'd["passes"][0]["support_assumed"] == "wax" and d["passes"][0]["seconds"] < 1200 < 3600 < d["passes"][0]["unsupported_seconds"]'
# a floor that bends little keeps its own settings
sed 's/thinnest = 0.4 mm/thinnest = 3 mm/; s/depth = 5.6 mm/depth = 3 mm/' "$tasks/thin-floor.ini" >"$work/thick.ini"
ask job "$work/thick.ini" --format json
exits 0 1
holds 'no support is assumed' 'd["passes"][0]["support_assumed"] == ""'
sed 's/^depth = 5.6 mm/&\ntool = 6mm\npass_depth = 1.4 mm\nspindle = 18000rpm\nfeed = 1500mm\/min/' "$tasks/thin-floor.ini" >"$work/usual.ini"
ask job "$work/usual.ini" --format json
exits 2
holds 'usual settings are over' 'named(d["passes"][0]["limits"], "part_bend")["verdict"] == "over"'
holds 'stated settings stay as stated' 'd["passes"][0]["support_assumed"] == "" and not d["passes"][0]["chosen"]'
ask job "$work/usual.ini"
says 'nothing supports the floor'
