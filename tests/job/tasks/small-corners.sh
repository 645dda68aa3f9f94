# SPDX-License-Identifier: GPL-3.0-or-later
# A big pocket with tiny corners: not with the 1.5 mm tool alone, please.
plan small-corners.ini
exits 0 1 2
holds 'a large tool clears it, the small one only cuts the corners' \
    '(lambda r, c: r["stage"] == "rough" and c["stage"] == "corners" and named(d["tools"], r["tool"])["diameter"] >= 0.003 and named([t for t in d["tools"] if t["kind"] == "end mill"], c["tool"])["diameter"] <= 0.0016)(*[p for p in d["passes"] if p["pass"] == "pocket"][:2])'
holds 'the corners are what the round tool leaves of a square, four times' \
    '(lambda r, c: abs(c["area"] - 4 * (1 - math.pi / 4) * ((named(d["tools"], r["tool"])["diameter"] / 2) ** 2 - 0.00075 ** 2)) < 0.03 * c["area"])(*[p for p in d["passes"] if p["pass"] == "pocket"][:2])'
holds 'the stages together remove the whole pocket' \
    'abs(sum(p["removes"] for p in d["passes"] if p["pass"] == "pocket") - 0.002 * (0.070 * 0.045 - (4 - math.pi) * 0.0008 ** 2)) < 1e-12'
holds 'rough, corners, wall, in this order' \
    '[p["stage"] for p in d["passes"] if p["pass"] == "pocket"] == ["rough", "corners", "wall"]'
holds 'the rough passes leave what the last lap takes' \
    '(lambda ps: ps[0]["path"]["allowance"] == ps[1]["path"]["allowance"] and abs(ps[2]["path"]["lead_radius"]) > 0 and abs(ps[0]["path"]["allowance"] - named(ps[2]["inputs"], "width")["value"]) < 1e-9)([p for p in d["passes"] if p["pass"] == "pocket"])'
holds 'both ways are timed, and the faster one with its changes is taken' \
    '(lambda w: w["staged"] and w["staged_seconds"] + w["change_seconds"] < w["alone_seconds"])(d["passes"][0]["ways"])'
two=$("$python" -c 'import json, sys; print(json.load(open(sys.argv[1]))["time"]["whole"])' "$work/out")
sed 's/^tolerance = 0.03 mm/&\nrest = no/' "$tasks/small-corners.ini" >"$work/one.ini"
ask job "$work/one.ini" --format json
holds 'with one tool the whole job takes longer' "d['time']['whole'] > $two"
ask job "$tasks/small-corners.ini"
says 'alone'
says 'and the corners with 1.5mm'
says 'two tools'
sed 's/^count = 10/count = 1/; s/70 mm$/12 mm/; s/45 mm$/10 mm/; s/^length = 100/length = 40/; s/^width = 12/width = 30/' \
    "$tasks/small-corners.ini" >"$work/few.ini"
ask job "$work/few.ini"
says 'another tool would first take'
