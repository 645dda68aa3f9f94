# SPDX-License-Identifier: GPL-3.0-or-later
# Four M6 threads where the job does not say how: tapped where the spindle turns slowly enough,
# milled where it does not. A tap that was asked for on a fast spindle is over, and the plan says
# which mill does it instead, with what to enter.
of() {
    sed "s/9.5 mm/11.5 mm/;$1" "$tasks/threads-milled.ini" >"$work/tried.ini"
    ask job "$work/tried.ini" --format json
}
made='[p for p in d["passes"] if p["pass"] == "thread"][0]'
of 's/work = thread-mill/work = thread/'
exits 0
holds 'tapped on a machining centre' "$made['work'] == 'tap' and $made['tool'] == 'tap m6' and $made['verdict'] == 'clear'"
holds 'nothing is said of mills' 'not [r for r in d["remarks"] if r["id"] in ("thread-milled", "mill-instead")]'
of 's/work = thread-mill/work = thread/;s/small-vmc/bench-24k/'
exits 0
holds 'milled at a spindle that is fast' "$made['work'] == 'thread-mill' and $made['tool'] == 'tm-4.2' and $made['verdict'] == 'clear'"
ask job "$work/tried.ini"
says '"thread" is milled: to tap it, the spindle of this machine would turn at 3000 rpm'
of 's/work = thread-mill/work = tap/;s/small-vmc/bench-24k/'
exits 2
holds 'the tap is over' "$made['verdict'] == 'over'"
cp "$work/out" "$work/tapped.json"
ask job "$work/tried.ini"
says 'mill the thread instead (work = thread-mill, or work = thread) with tm-4.2, spindle'
# what it says is what the plan takes when it is followed, with the same chance or less
of 's/small-vmc/bench-24k/'
exits 0
advice="[r for r in json.load(open('$work/tapped.json'))['remarks'] if r['id'] == 'mill-instead'][0]"
holds 'the mill that was advised' "' with ' + $made['tool'] + ',' in $advice['text'] and abs($made['hole']['mill']['passes'][0]['centre_feed'] / $advice['quantities']['centre_feed'] - 1) < 0.1 and abs($made['enter']['spindle'] / 60 / $advice['quantities']['spindle'] - 1) < 0.1"
# no mill at hand reaches or fits: tapped, and the plan says what is left
of 's/work = thread-mill/work = thread/;s/small-vmc/bench-24k/;s/\[hold\]/[tools]\nat_hand = tm-2.8 3mm\n[hold]/'
exits 2
holds 'nothing else is left' "$made['work'] == 'tap'"
ask job "$work/tried.ini"
says 'the tools at hand have no thread mill that cuts it: tap it by hand, or use a threaded insert'
# how it is made decides what may be stated
refuse() {
    sed "s/work = thread-mill/work = thread/;$1" "$tasks/threads-milled.ini" >"$work/tried.ini"
    ask job "$work/tried.ini"
    exits 65
    says "$2"
}
refuse 's/thread = M6/thread = M6\ntool = tm-4.2/' 'tool depends on whether the thread is tapped or milled'
refuse 's/thread = M6/thread = M6\nfeed = 100 mm\/min/' 'feed depends on whether'
refuse 's/thread = M6/thread = M6\nwidth = 1 mm/' 'width has no effect when a thread is milled'
refuse 's/thread = M6/count = 4/;s/count = 4//' 'the pass names no thread to be made'
# M6 in wood takes about a minute, not an hour: its teeth are fed as wood takes it
of 's/6061/wood/'
holds 'fed as a cutter of wood' "$made['hole']['mill']['edge_feed'] > 0.01 and $made['seconds'] < 240"
holds 'at a chip that cuts' "named($made['values'], 'chip_load')['value'] > 0.04e-3"
