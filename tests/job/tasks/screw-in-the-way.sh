# SPDX-License-Identifier: GPL-3.0-or-later
# Does the pocket run into the heads of the screws that hold the part? By hand: the corner of the
# pocket, round by 3 mm about (10, 11), is hypot(4, 5) - 3 - 4.5 = -1.10 mm from the washer of 9 mm.
plan screw-in-the-way.ini
exits 2
holds 'it sweeps 1.1 mm into the washer' 'abs([p for p in d["passes"] if p["pass"] == "pocket"][0]["clearance"] + 1.0969e-3) < 1e-6'
holds 'the holes are drilled before their screws are there' '[p for p in d["passes"] if p["pass"] == "holes"][0]["clearance"] is None'
ask job "$tasks/screw-in-the-way.ini"
says 'into screw corner, position'
sed 's/^length = 66 mm/length = 60 mm/' "$tasks/screw-in-the-way.ini" >"$work/shorter.ini"
ask job "$work/shorter.ini" --format json
holds 'a pocket of 60 mm is clear of it' 'abs([p for p in d["passes"] if p["pass"] == "pocket"][0]["clearance"] - 1.1023e-3) < 1e-6'
