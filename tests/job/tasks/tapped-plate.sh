# SPDX-License-Identifier: GPL-3.0-or-later
# Four M4 threads and two reamed dowel holes in a plate of 6061: the threads come after their holes,
# whatever the order of the file, and the plan says how each hole is made.
plan tapped-plate.ini
exits 0
holds 'drilled, then tapped' '[p["pass"] for p in d["passes"]].index("holes") < [p["pass"] for p in d["passes"]].index("thread")'
holds 'drilled, then reamed' '[p["pass"] for p in d["passes"]].index("dowel") < [p["pass"] for p in d["passes"]].index("ream")'
tap='[p for p in d["passes"] if p["pass"] == "thread"][0]'
holds 'the hole of the thread' "$tap['hole']['made_by'] == 'holes' and abs($tap['hole']['diameter'] - 3.3e-3) < 1e-9 and 0.74 < $tap['hole']['thread_share'] < 0.8"
holds 'a pitch each turn' "abs($tap['enter']['feed'] / $tap['enter']['spindle'] - 0.7) < 1e-6"
holds 'in one go' "$tap['passes'] == 1"
drill='[p for p in d["passes"] if p["pass"] == "holes"][0]'
holds 'the point goes deeper' "10e-3 <= $drill['feature_depth'] - $drill['hole']['point'] <= 11e-3"
holds 'deep holes are pecked' "$drill['passes'] > 1"
ask job "$tasks/tapped-plate.ini"
says 'a tap with a spiral point'
says 'no dwell'
# what spoils the part is refused
try() {
    sed "$1" "$tasks/tapped-plate.ini" >"$work/tried.ini"
    ask job "$work/tried.ini"
    exits 65
    says "$2"
}
try 's/tool = drill-3.3/tool = drill-3.8/' 'tool = drill-3.3, and the same count (4)'
try 's/thread = M4/thread = M4\nhole = holes/;s/tool = drill-3.3/tool = drill-4/' 'does not suit this thread'
try 's/thread = M4/thread = M4\ndepth = 8 mm/;s/tool = drill-3.3/tool = drill-3.3\ndepth = 9 mm/' 'needs 9.75 mm'
# a hole at another place is no hole of the thread
placed='s/^count = 4/at = 10 mm 10 mm, 50 mm 30 mm/'
sed "$placed" "$tasks/tapped-plate.ini" >"$work/placed.ini"
ask job "$work/placed.ini"
exits 0
sed '/^thread = M4/,/^\[pass.holes/s/50 mm 30 mm/50 mm 10 mm/' "$work/placed.ini" >"$work/elsewhere.ini"
ask job "$work/elsewhere.ini"
exits 65
says 'no pass makes a hole that suits this thread at the positions that it states'
sed 's/^thread = M4/&\nhole = holes/' "$work/elsewhere.ini" >"$work/named.ini"
ask job "$work/named.ini"
exits 65
says 'holes makes its holes elsewhere than this pass needs them'
try 's/thread = M4/thread = M41/' 'there is no thread named'
try 's/tool = drill-5.8/tool = 6mm/' 'no pass makes a hole that suits this reamer'
try 's/depth = 7 mm/depth = 8.5 mm/' 'deep at its full diameter'
sed 's/thread = M4/thread = M4\ndepth = 8 mm\nlead = 1.5/;s/tool = drill-3.3/tool = drill-3.3\ndepth = 9.2 mm/' "$tasks/tapped-plate.ini" >"$work/tried.ini"
ask job "$work/tried.ini" --format json
exits 0 1
holds 'a blind thread' "$tap['hole']['blind']"
