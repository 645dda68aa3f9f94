# SPDX-License-Identifier: GPL-3.0-or-later
# A box with walls of 1 mm: in which order, in what steps, and does the plan know the walls without
# being told?
plan thin-wall.ini
exits 0 1
holds 'pocket, then outline, then the finish' '[p["pass"] for p in d["passes"]] == ["pocket", "outline", "wall"]'
holds 'the wall is known from the sizes' 'abs(named(d["passes"][1]["inputs"], "wall_thickness")["value"] - 1e-3) < 1e-9 and abs(named(d["passes"][1]["inputs"], "wall_height")["value"] - 12e-3) < 1e-9'
holds 'a wall that still stands in the sheet is not thin' 'not named(d["passes"][0]["limits"], "part_bend")["applies"] or "wall_thickness" not in [i["name"] for i in d["passes"][0]["inputs"] if i["given"]]'
holds 'steps of a few millimetres' '[r for r in d["remarks"] if r["id"] == "wall-bends" and 1e-3 < r["quantities"]["step"] < 8e-3]'
ask job "$tasks/thin-wall.ini"
says 'Rough all before finishing, then take the wall down in steps of'
says 'The wall beside the pocket was taken to be 1 mm thick'
sed 's/^across = 40 mm/across = 20 mm/; s/^length = 60 mm/length = 30 mm/' "$tasks/thin-wall.ini" >"$work/thick.ini"
ask job "$work/thick.ini"
says_not 'The wall beside'
