# SPDX-License-Identifier: GPL-3.0-or-later
# Blind M4 threads in an acrylic cover: the fluid that would craze them is refused, the drill has a
# point for plastics, and the tap lifts its chips.
plan tapped-acrylic-cover.ini
exits 0 1 2
holds 'the fluid is refused' 'any(f["rating"] == "no" for f in d["fluids"])'
holds 'the point of a drill for plastics is long' 'abs([p for p in d["passes"] if p["pass"] == "holes"][0]["hole"]["point"] - 1.7e-3 / math.tan(math.radians(30))) < 1e-6'
holds 'two thirds of a thread' '0.6 < [p for p in d["passes"] if p["pass"] == "threads"][0]["hole"]["thread_share"] < 0.7'
ask job "$tasks/tapped-acrylic-cover.ini"
says 'spiral flutes, which lifts the chips'
says 'chips at its mouth and crazes from its roots'
says 'breaks through the other face'
