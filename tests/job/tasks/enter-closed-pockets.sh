# SPDX-License-Identifier: GPL-3.0-or-later
# Pockets in aluminium: how does the cutter get in, and does the ramp fit?
plan enter-closed-pockets.ini
exits 0 1
holds 'a long pocket is ramped into, within its length' \
    '(lambda p: p["entry_move"]["kind"] == "ramp" and p["entry_move"]["length"] * math.cos(p["entry_move"]["angle"]) <= p["entry_move"]["legs"] * (0.040 - 0.006) * 1.0001)(next(p for p in d["passes"] if p["pass"] == "long"))'
holds 'a ramp goes down by the whole step' \
    'all(abs(p["entry_move"]["length"] * math.sin(p["entry_move"]["angle"]) - p["step_down"]) < 1e-9 for p in d["passes"] if p["entry_move"]["kind"] == "ramp")'
holds 'a short square pocket is entered by a helix that fits and leaves no core' \
    '(lambda e: e["kind"] == "helix" and e["helix_diameter"] <= 0.011 - 0.006 + 1e-9 and e["helix_diameter"] < 0.006)(next(p for p in d["passes"] if p["pass"] == "square")["entry_move"])'
holds 'a short groove is ramped there and back, in legs no longer than it is' \
    '(lambda e: e["kind"] == "ramp" and e["legs"] > 1 and e["leg"] <= 0.011 - 0.004 + 1e-9)(next(p for p in d["passes"] if p["pass"] == "groove")["entry_move"])'
holds 'a ledge along the whole part is open: the cutter comes from outside' \
    'next(p for p in d["passes"] if p["pass"] == "ledge")["entry_move"]["kind"] == "outside"'
holds 'the entry feed is below the cutting feed' \
    'all(p["entry_move"]["feed"] < p["enter"]["feed"] / 6e4 for p in d["passes"] if p["entry_move"]["feed"])'
holds 'the steps over the depth add up to the feature' \
    'all(abs((p["passes"] - 1) * p["step_down"] + p["last_step"] - p["feature_depth"]) < 1e-9 for p in d["passes"])'
holds 'the tip of the chamfer mill is below the chamfer, and its axis outside the wall' \
    '(lambda c: c["path"]["tip_depth"] > 0.0005 and c["path"]["tip_offset"] > 0)(next(p for p in d["passes"] if p["pass"] == "edge"))'
ask job "$tasks/enter-closed-pockets.ini"
says 'ramp in at 3 deg'
says 'there and back in'
says 'helix in at 3 deg'
says 'enter from outside: the feature runs out'
says 'tool axis'
ask job "$tasks/enter-closed-pockets.ini" --format html
says 'helix in at 3 deg'
