# SPDX-License-Identifier: GPL-3.0-or-later
# Does the collet nut, 50 mm across, clear the clamp while the tool is 10 mm deep beside it? By hand:
# the tool of 6 mm sticks out 24 mm, so the nut runs 14 mm above the stock, lower than the clamp of
# 25 mm; its edge is 25 mm from the slot's axis at 40 mm, and the clamp ends at 12 mm: 3 mm.
ask job "$tasks/holder-beside-clamp.ini" --draws 1 --format json
holds 'the nut passes the clamp with 3 mm' 'abs([p for p in d["passes"] if p["pass"] == "slot"][0]["holder_clearance"] - 0.003) < 1e-9 and [p for p in d["passes"] if p["pass"] == "slot"][0]["holder_nearest"] == "clamp strap"'
# The recess of 3 mm is cut on the floor of the well, 20 mm down, with a tool that sticks out 14 mm:
# the nut goes 9 mm into the well of 30 mm. It reaches 3.5 + 25 mm from the middle, 13.5 mm too far.
holds 'it goes into the wall of the well' 'abs([p for p in d["passes"] if p["pass"] == "recess"][0]["holder_clearance"] + 0.0135) < 1e-9'
ask job "$tasks/holder-beside-clamp.ini" --draws 1
exits 2
says 'In "recess in the floor" the holder, 50 mm across and 14 mm above the tip, comes 13.5 mm into the wall of "well", which rises 9 mm above its lower end'
says_not 'into clamp'
# What the machinist reads beside each pass, on the screen and on the printed sheet.
says 'clearance: tool 25 mm to clamp strap; holder 3 mm to clamp strap'
ask job "$tasks/holder-beside-clamp.ini" --draws 1 --sheet "$work/sheet.html"
if grep -q 'Clearance: tool 25 mm to clamp strap; holder 3 mm to clamp strap' "$work/sheet.html"; then good; else bad "$task: the sheet has no clearance"; fi
if grep -q 'holder 13.5 mm into the wall of &quot;well&quot;' "$work/sheet.html"; then good; else bad "$task: the sheet does not show the wall"; fi
# Closer to the clamp by 6 mm, the nut hits it; the tool itself is 19 mm away.
sed 's/^at = 40 mm 30 mm/at = 34 mm 30 mm/' "$tasks/holder-beside-clamp.ini" >"$work/close.ini"
ask job "$work/close.ini" --draws 1
exits 2
says 'In "slot" the holder, 50 mm across and 24 mm above the tip, comes 3 mm into clamp strap, which rises 11 mm above its lower end'
ask job "$work/close.ini" --draws 1 --format json
holds 'the tool is clear of it' 'abs([p for p in d["passes"] if p["pass"] == "slot"][0]["clearance"] - 0.019) < 1e-9'
# A slim holder, a lower clamp, or one whose top is below the nut: nothing is hit.
sed -e 's/^name = small-vmc/&\nholder = shrink/' "$work/close.ini" >"$work/slim.ini"
ask job "$work/slim.ini" --draws 1
says_not 'into clamp strap'
sed -e 's/^name = small-vmc/&\nholder_diameter = 40 mm/' "$work/close.ini" >"$work/stated.ini"
ask job "$work/stated.ini" --draws 1
says_not 'into clamp strap'
sed 's/^height = 25 mm/height = 13 mm/' "$work/close.ini" >"$work/low.ini"
ask job "$work/low.ini" --draws 1
says_not 'into clamp strap'
# A clamp of unknown height is asked about.
sed '/^height = 25 mm/d' "$work/close.ini" >"$work/unknown.ini"
ask job "$work/unknown.ini" --draws 1
says 'passes 14 mm above the stock over clamp strap, whose height the job file does not state'
# The head of an M6 screw with its washer stands 7.2 mm high: a slot 18 mm deep beside it, nut 6 mm
# above the stock.
sed -e '/^\[clamp.strap\]/,/^height/d' -e 's/^at = 40 mm 30 mm/at = 100 mm 30 mm/' -e 's/^depth = 10 mm/depth = 18 mm/' "$tasks/holder-beside-clamp.ini" >"$work/screw.ini"
ask job "$work/screw.ini" --draws 1
says 'In "slot" the holder, 50 mm across and 24 mm above the tip, comes 21.75 mm into screw right, which rises 1.2 mm above its lower end'
# Both, a height above and a depth below the top, cannot be.
sed 's/^height = 25 mm/&\nbelow = 2 mm/' "$tasks/holder-beside-clamp.ini" >"$work/both.ini"
ask job "$work/both.ini"
exits 65
says 'clamp.strap:below'
