# SPDX-License-Identifier: GPL-3.0-or-later
# A boss of 16 mm x 12 mm stands in a pocket of 60 mm x 40 mm. Once round it the axis of the tool of
# 6 mm goes 2 (16 + 12) + 6 pi = 74.85 mm; between boss and wall are 14 mm.
ask job "$tasks/boss-in-a-pocket.ini" --draws 1 --format json
exits 0 1 2
holds 'the path goes round its outside' 'abs([p for p in d["passes"] if p["pass"] == "boss"][0]["lap"] - (2 * 28e-3 + 6e-3 * math.pi)) < 1e-6'
holds 'the pocket comes first' '[p["pass"] for p in d["passes"]].index("well") < [p["pass"] for p in d["passes"]].index("boss")'
ask job "$tasks/boss-in-a-pocket.ini" --draws 1
says_not 'sweeps'
says_not 'the wall of'
# A boss that stands by itself is left by a slot round it.
sed '/^\[pass.well\]/,/^feed/d' "$tasks/boss-in-a-pocket.ini" >"$work/alone.ini"
ask job "$work/alone.ini" --draws 1
exits 0 1 2
says_not 'sweeps'
# 4 mm from the wall, the tool of 6 mm cuts 2 mm into it, and so does that of the pocket.
sed '/^\[pass.boss\]/,/^spindle/s/^at = .*/at = 22 mm 30 mm/; /^\[pass.hole\]/,/^spindle/s/^at = .*/at = 22 mm 30 mm/' "$tasks/boss-in-a-pocket.ini" >"$work/close.ini"
ask job "$work/close.ini" --draws 1
exits 2
says '"round the boss" sweeps 2 mm into the wall of "well"'
says '"well" sweeps 2 mm into the boss of "round the boss"'
# A slot across it cuts it off, and so does a hole beside its edge; one in its top does not.
printf '[pass.slot]\ntitle = oil groove\nwork = slot\ntool = 3mm\nat = 40 mm 33 mm\nlength = 30 mm\nacross = 3 mm\ndepth = 2 mm\nspindle = 8000rpm\nfeed = 500mm/min\n' >"$work/slot"
cat "$tasks/boss-in-a-pocket.ini" "$work/slot" >"$work/cut.ini"
ask job "$work/cut.ini" --draws 1
exits 2
says '"oil groove" sweeps'
says 'into the boss of "round the boss"'
says_not '"hole in the boss" sweeps'
# What makes no sense is refused with its line.
refuse() {
    sed "/^\[pass.boss\]/,/^spindle/$1" "$tasks/boss-in-a-pocket.ini" >"$work/wrong.ini"
    ask job "$work/wrong.ini"
    exits 65
    says "$2"
}
refuse '{/^length/d}' 'the boss does not state its size'
refuse 's/^length = .*/length = 90 mm/' 'the boss is longer than the part'
refuse 's/^depth/inside_radius = 3 mm\ndepth/' 'outside corners only'
refuse 's/^work = .*/work = pocket/' 'around belongs to a contour'
refuse 's/^around = .*/around = island/' 'around'
