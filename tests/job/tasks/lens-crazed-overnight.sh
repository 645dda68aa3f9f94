# SPDX-License-Identifier: GPL-3.0-or-later
# Fine cracks at the edges of a lens, found the next morning. The settings explain nothing: it was
# wiped with alcohol.
ask choose --material acrylic/cast --tool 3mm --machine bench-24k --spindle 12000rpm --feed 800mm/min --depth 1mm --coolant air --after "crazed later" --format json --exit-zero
exits 0
holds 'the settings do not explain it' 'd["symptom"] == "crazed-later" and not d["explained"] and d["chance"] < 0.05'
holds 'a fluid is the first thing to ask about' 'd["causes"][0]["name"] == "wrong-fluid" and "list fluids --material" in d["causes"][0]["check"]'
holds 'and stress in the sheet' '"stressed-sheet" in [c["name"] for c in d["causes"]] and "laser-edge" in [c["name"] for c in d["causes"]]'
ask show "rubbing alcohol" --material acrylic/cast
says 'NO: isopropyl alcohol'
says '72 h'
