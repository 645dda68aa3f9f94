# SPDX-License-Identifier: GPL-3.0-or-later
# Four M6 threads by a full-form mill, which cuts all turns at once: one turn about the axis, as many
# radial passes as its teeth bear, and the faster one of the two mills in the drawer. Left-hand ones.
of() {
    sed "$1" "$tasks/threads-milled.ini" >"$work/tried.ini"
    ask job "$work/tried.ini" --format json
}
mill='[p for p in d["passes"] if p["pass"] == "thread"][0]'
path="$mill['hole']['mill']"
of 's/thread = M6/thread = M6\ntool = tmf-1/'
exits 0 1
holds 'one turn on one level, thirteen rows of teeth' "$path['turns'] == 1 and $path['levels'] == 1 and $path['rows'] == 13"
holds 'all turns of the thread at once: nine grooves' "abs(named($mill['inputs'], 'depth')['value'] - 9e-3 * (0.125 + 0.5 / math.sqrt(3))) < 1e-9"
holds 'more than one radial pass in aluminium, to the thread' "len($path['passes']) > 1 and abs($path['passes'][-1]['diameter'] - 6e-3) < 1e-9"
holds 'right hand from the bottom up climbs' "$path['hand'] == 'right' and $path['from'] == 'bottom' and $mill['path']['direction'] == 'climb'"
holds 'its path' "abs($mill['lap'] - sum(math.hypot(math.pi * p['circle'], 1e-3) for p in $path['passes'])) < 1e-9"
ask job "$work/tried.ini"
says 'one turn, the end of the full-form teeth from 0.5 mm below the thread'
# left hand climbs from the top down, and against the feed from the bottom up
of 's/thread = M6/thread = M6\nhand = left/'
holds 'left hand from the top down climbs' "$path['hand'] == 'left' and $path['from'] == 'top' and $mill['path']['direction'] == 'climb'"
ask job "$work/tried.ini"
says 'left hand, climb, from the top down'
says '9.0 turns from 0.5 mm above the thread'
of 's/thread = M6/thread = M6\nhand = left/;s/small-vmc/knee-mill/'
holds 'from the bottom up against the feed' "$path['from'] == 'bottom' and $mill['path']['direction'] == 'conventional'"
# a left-hand tap turns the other way
of 's/thread-mill/tap/;s/thread = M6/thread = M6\nhand = left/;s/9.5 mm/11 mm/;s/small-vmc/knee-mill/'
holds 'a tap of its own' "$mill['tool'] == 'tap m6 left-hand'"
ask job "$work/tried.ini"
says 'left hand, in with the spindle counter-clockwise from above'
# of the two mills in the drawer the faster one, if it is as sound: in acetal, not in steel
of 's/6061/acetal/;s/\[hold\]/[tools]\nat_hand = tm-4.2 tmf-1\n[hold]/'
holds 'full-form in acetal' "$mill['tool'] == 'tmf-1' and $mill['verdict'] == 'clear'"
cp "$work/out" "$work/full.json"
of 's/6061/acetal/'
holds 'without a drawer the mill for every size' "$mill['tool'] == 'tm-4.2'"
holds 'which is slower' "(lambda whole: $mill['feed_seconds'] > 3 * [p for p in whole['passes'] if p['pass'] == 'thread'][0]['feed_seconds'])(json.load(open('$work/full.json')))"
of 's/6061/304/;s/\[hold\]/[tools]\nat_hand = tm-4.2 tmf-1\n[hold]/'
holds 'single-point in stainless steel' "$mill['tool'] == 'tm-4.2'"
# a full-form mill is of one pitch, and its shank does not follow it into the hole
refuse() {
    sed "$1" "$tasks/threads-milled.ini" >"$work/tried.ini"
    ask job "$work/tried.ini"
    exits 65
    says "$2"
}
refuse 's/thread = M6/thread = M6\ntool = tmf-0.8/' 'does not cut a pitch of 1 mm'
refuse 's/thickness = 12/thickness = 20/;s/= 8 mm/= 13 mm/;s/= 9.5 mm/= 15 mm/;s/thread = M6/thread = M6\ntool = tmf-1/' 'tmf-1 is too short'
refuse 's/thread = M6/thread = M6\nhand = both/' 'hand'
refuse 's/drill$/drill\nhand = left/' 'hand belongs to tapping'
# asked at the bench
ask show M6 --material acetal --machine bench-24k --tool tmf-1 --hand left
exits 0
says 'left-hand thread from the top down'
says 'all of the thread in one turn'
says 'is too fast for this tap'
ask show M6 --material 6061 --tool tmf-0.8
says 'does not cut the pitch of this thread'
ask show isopropanol --material acrylic/cast --hand left
exits 64
says 'belongs to a thread in a material'
ask show M6 --machine bench-24k
exits 64
