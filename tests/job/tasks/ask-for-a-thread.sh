# SPDX-License-Identifier: GPL-3.0-or-later
# What do I do for M4 in acrylic, and for 1/4-20 in 6061? Asked at the bench, without a job.
ask show M4 --material acrylic/cast
exits 0
says '3.4 mm (drill-3.4), 66 % of thread'
says 'point 60 deg for a through hole'
says 'no oil, no alcohol'
says 'press-in insert: not in this material'
ask show M4 --material acrylic/cast --format json
holds 'the feed is a pitch each turn' 'abs(d["feed_rate"] - 0.7e-3 * d["spindle_speed"]) < 1e-9'
holds 'the tap outlives its torque' '3 * d["torque_high"] < d["tap_strength"]'
holds 'a blind hole is deeper than the thread' 'd["blind_depth"] > d["length"] + 2 * 0.7e-3'
holds 'drills beside the usual one' 'len(d["drills"]) == 3 and d["drills"][1]["thread_share"] > d["drills"][0]["thread_share"] > d["drills"][2]["thread_share"]'
holds 'a boss around an insert' 'all(i["boss"] > 1.5 * i["outer"] > 1.5 * i["hole"] for i in d["inserts"])'
ask show 1/4-20 --material 6061 --units inch
says '0.201 in (drill-no7), 75 % of thread'
ask show M3 --material stainless --format json
holds 'stainless works the tap hard' 'd["torque_high"] > 0.5 * d["tap_strength"] and d["spindle_speed"] * 60 < 500'
ask show M99 --material 6061
exits 66
ask show M3 --material unobtainium
exits 66
# milled instead, on a spindle that cannot turn slowly: the mill fits, the feed is that of its centre
ask show M8 --material 6061 --format json
mill='d["milling"]'
holds 'the mill is at most 0.7 of the thread, and fits the hole' "$mill['tool'] <= 0.7 * 8e-3 + 1e-9 and $mill['tool'] < d['hole_diameter']"
holds 'the centre is slower than the edge' "abs($mill['centre_feed'] / $mill['edge_feed'] - (8e-3 - $mill['tool']) / 8e-3) < 1e-9"
holds 'it can be done' "$mill['verdict'] in ('clear', 'tight') and 1 <= $mill['passes'] <= 6"
holds 'at a speed of mills, not of taps' "$mill['spindle_speed'] > 2 * d['spindle_speed']"
ask show M8 --material 6061
says 'right-hand thread from the bottom up'
