# SPDX-License-Identifier: GPL-3.0-or-later
# What does the plan say about measuring a thin window: which limits, can the instrument prove them,
# and does its force bend or dent the part?
plan inspect-thin-window.ini --exit-zero
exits 0
holds 'the class gives the limits' 'abs(d["checks"][2]["lower"] - 23.9e-3) < 1e-9 and d["checks"][2]["limits_from"] == "ISO 2768-1 f"'
holds 'a hole of H9 has none below' 'd["checks"][3]["lower"] == 4e-3 and abs(d["checks"][3]["upper"] - 4.03e-3) < 1e-9'
holds 'a caliper cannot prove 4 um' 'd["checks"][0]["ratio"] < 1 and any(r["id"] == "gauge-cannot-prove" for r in d["remarks"])'
holds 'a dial indicator bends the free web' 'd["checks"][1]["pressed"] > 0.02e-3 and any(r["id"] == "gauge-presses" for r in d["remarks"])'
holds 'every 5th hole' 'd["checks"][3]["every"] == 5'
holds 'the mark of the drawing is kept' 'd["checks"][0]["zone"] == "B3" and d["checks"][0]["designator"] == "key"'
ask job "$tasks/inspect-thin-window.ini" --exit-zero
says 'every 5th part and the last'
says '4 mm to 4.03 mm'
says 'cannot prove this size'
