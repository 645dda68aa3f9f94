# SPDX-License-Identifier: GPL-3.0-or-later
# A frame is pocketed from below, turned over, pocketed and cut free, and every piece then gets a
# hole in its edge in the vise: how is it held each time, and what has the first pocket cost?
plan three-setups.ini
exits 0 1 2
holds 'three setups in their order' '[s["setup"] for s in d["setup_plans"]] == [1, 2, 3]'
holds 'each with its own hold' '[s["hold"]["name"] for s in d["setup_plans"]] == ["tape", "tape", "vise"]'
holds 'the part lies on what the first pocket left' 'abs(d["setup_plans"][1]["hold"]["area"] - (80 * 50 - 60 * 30) * 1e-6) < 1e-12 and d["setup_plans"][0]["hold"]["area"] > 1.8 * d["setup_plans"][1]["hold"]["area"]'
holds 'every piece is clamped by itself' 'd["setup_plans"][2]["mountings"] == 4 and abs(d["time"]["loading"] - (2 * 300 + 4 * 60)) < 1e-6'
holds 'the job names its weakest hold' 'd["hold"]["chance"] == max(s["hold"]["chance"] for s in d["setup_plans"])'
holds 'the coolant of the third alone' '[named(p["inputs"], "coolant")["text"] for p in d["passes"]].count("mist") == 1'
ask job "$tasks/three-setups.ini"
says 'Setup 1 bottom up, pass 1; X and Y zero: a corner of the blank'
says 'setup 1: on the top of the stock, as stated'
says 'Setup 2 top up, passes 2 to 3; X and Y zero: a finished hole; deburr'
says 'setup 2: on a finished face, as stated'
says 'Setup 3 front up, pass 4; each of the 4 parts by itself; X and Y zero: a finished edge'
says 'setup 3: on the fixture, as stated'
says 'Close the jaws with 3000 N, 20 mm up the edges'
ask job "$tasks/three-setups.ini" --sheet "$work/three.html"
[ "$(grep -o 'Face up: <b>' "$work/three.html" | wc -l)" -eq 3 ] && good || bad "$task: three setup sheets"
sed 's/^setup = 2$/setup = 4/' "$tasks/three-setups.ini" >"$work/gap.ini"
ask job "$work/gap.ini"
exits 65
says 'no pass belongs to setup 2'
