# SPDX-License-Identifier: GPL-3.0-or-later
# A bore to size: spiral in, leave a little, and go round once to finish it.
plan bore-to-size.ini
exits 0 1 2
holds 'it is entered by a helix that leaves what the last lap takes' \
    '(lambda p: p["entry_move"]["kind"] == "helix" and abs(p["entry_move"]["helix_diameter"] + named([t for t in d["tools"] if t["kind"] == "end mill"], p["tool"])["diameter"] + 2 * p["path"]["allowance"] - 0.012) < 1e-9)(d["passes"][[p["pass"] for p in d["passes"]].index("bore")])'
holds 'a last lap takes what the first left, and nothing else asks for one' \
    '(lambda bore, loose: [p["stage"] for p in bore] == ["rough", "wall"] and [p["stage"] for p in loose] == ["whole"] and abs(bore[0]["path"]["allowance"] - named(bore[1]["inputs"], "width")["value"]) < 1e-9)(*[[p for p in d["passes"] if p["pass"] == n] for n in ("bore", "loose")])'
holds 'only the last lap is judged by the tolerance' \
    '(lambda b: not any(i["name"] == "tolerance" and i["given"] for i in b[0]["inputs"]) and named(b[1]["inputs"], "tolerance")["value"] == 2e-5)([p for p in d["passes"] if p["pass"] == "bore"])'
holds 'the chamfer comes after the whole bore' \
    '(lambda n: max(i for i, w in enumerate(n) if w == "bore") < n.index("break"))([p["pass"] for p in d["passes"]])'
holds 'the tip is 0.8 mm below the chamfer of 0.3 mm, the axis that far and half of the tip from the wall' \
    '(lambda p: abs(p["path"]["tip_depth"] - 0.0011) < 1e-9 and abs(p["path"]["tip_offset"] - 0.0011) < 1e-9)(d["passes"][-1] if d["passes"][-1]["work"] == "chamfer" else [p for p in d["passes"] if p["work"] == "chamfer"][0])'
ask job "$tasks/bore-to-size.ini" --units inch
says 'helix in at 3 deg'
says 'axis 0.0433'
