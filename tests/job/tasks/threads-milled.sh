# SPDX-License-Identifier: GPL-3.0-or-later
# Four blind M6 threads in a plate of 6061, milled: which mill, what to enter, how long, and that the
# feed to be entered is that of the centre, which is far below that of the edge.
plan threads-milled.ini
exits 0
mill='[p for p in d["passes"] if p["pass"] == "thread"][0]'
holds 'drilled, then milled' '[p["pass"] for p in d["passes"]].index("holes") < [p["pass"] for p in d["passes"]].index("thread")'
holds 'the mill is at most 0.7 of the thread' "$mill['tool'] == 'tm-4.2' and [t for t in d['tools'] if t['name'] == 'tm-4.2'][0]['kind'] == 'thread mill'"
holds 'the hole of the thread' "$mill['hole']['made_by'] == 'holes' and abs($mill['hole']['diameter'] - 5e-3) < 1e-9 and abs($mill['hole']['thread_share'] - 0.77) < 0.005"
path="$mill['hole']['mill']"
holds 'the last pass cuts to the thread, on a circle of D - d' "abs($path['passes'][-1]['diameter'] - 6e-3) < 1e-9 and abs($path['passes'][-1]['circle'] - 1.8e-3) < 1e-9"
holds 'the centre goes at (D - d)/D of the edge, rounded down' "0.99 * 0.3 * $path['edge_feed'] < $path['passes'][-1]['centre_feed'] <= 0.3 * $path['edge_feed'] * (1 + 1e-9)"
holds 'one radial pass, whose feed of the centre is entered' "len($path['passes']) == 1 and abs($mill['enter']['feed'] - 60e3 * $path['passes'][0]['centre_feed']) < 1e-6"
holds 'speeds are what a control takes' "$mill['enter']['spindle'] % 10 == 0 and abs($mill['enter']['feed'] - round($mill['enter']['feed'])) < 1e-6"
holds 'right hand from the bottom up climbs' "$path['hand'] == 'right' and $path['from'] == 'bottom' and $mill['path']['direction'] == 'climb'"
holds 'a pitch each turn and one more than the thread' "abs($path['turns'] - 9) < 1e-9 and abs($mill['lap'] - 9 * math.hypot(math.pi * 1.8e-3, 1e-3)) < 1e-9"
holds 'eight threads at that feed' "abs($mill['feed_seconds'] - 8 * $mill['lap'] * 60e3 / $mill['enter']['feed']) < 1e-6 * $mill['feed_seconds']"
holds 'the arcs on and off' "$mill['entry_move']['kind'] == 'arc' and $mill['entry_seconds'] > 0"
holds 'the edge and its neck are judged' "named($mill['limits'], 'tool_break')['utilization'] > 0 and named($mill['limits'], 'tool_gross_bend')['utilization'] > 0"
ask job "$tasks/threads-milled.ini"
says 'climb, from the bottom up; helix of 1 mm each turn'
says '9.0 turns from 0.5 mm below the thread'
says 'a quarter turn about the axis and 0.25 mm along it'
ask job "$tasks/threads-milled.ini" --sheet "$work/sheet.html"
exits 0
if grep -q 'the centre on a circle of diameter 1.8' "$work/sheet.html"; then good; else bad "$task: the sheet lacks the circle"; fi
# a machine with backlash does not climb
sed 's/small-vmc/knee-mill/' "$tasks/threads-milled.ini" >"$work/tried.ini"
ask job "$work/tried.ini" --format json
exits 0 1
holds 'from the top down against the feed' "$path['from'] == 'top' and $mill['path']['direction'] == 'conventional'"
holds 'judged so' "named($mill['inputs'], 'side')['text'] == 'conventional'"
# titanium on a light machine needs more radial passes, of equal section: the steps become smaller
sed 's/6061/ti-6al-4v/;s/small-vmc/desktop-light/;s/M6/M12/;s/drill-5/drill-10.2/;s/= 8 mm/= 7 mm/' "$tasks/threads-milled.ini" >"$work/tried.ini"
ask job "$work/tried.ini" --format json
exits 0 1 2
sizes="[10.2e-3] + [p['diameter'] for p in $path['passes']]"
holds 'several passes' "len($path['passes']) > 1"
holds 'they end at the thread' "abs(($sizes)[-1] - 12e-3) < 1e-9"
holds 'each smaller than the one before' "(lambda s: all(b - a > c - b > 0 for a, b, c in zip(s, s[1:], s[2:])))($sizes)"
holds 'the first feed is entered, the slowest of all' "abs($mill['enter']['feed'] - 60e3 * $path['passes'][0]['centre_feed']) < 1e-6 and all(a['centre_feed'] < b['centre_feed'] for a, b in zip($path['passes'], $path['passes'][1:]))"
