# SPDX-License-Identifier: GPL-3.0-or-later
# A slot of 3 mm wants a cutter: which of 2 to 3 mm are there, which reach 10 mm deep, which is best?
ask list tools --kind end-mill --diameter 2mm..3mm --format json
exits 0
holds 'all are end mills of that size' 'len(d) >= 3 and all(t["kind"] == "end-mill" and 0.002 <= t["diameter"] <= 0.003 for t in d)'
holds 'some flutes reach 10 mm' 'any(t["flute_length"] >= 0.010 for t in d)'
long=$("$python" -c 'import json,sys; print(",".join(t["name"] for t in json.load(open(sys.argv[1])) if t["flute_length"] >= 0.010))' "$work/out")
ask list tools --kind end-mill --diameter 2mm..3mm
says 'flute length'
says "${long%%,*}"
# several tools after one --tool; the one that is chosen is among them
ask choose --material 6082 --tool "$long,2mm" --feature-depth 10mm --feature-width 3mm --format json
exits 0 1 2
holds 'a tool of the list was compared' 'd["next_best"] is None or d["next_best"]["tool"] in "'"$long"',2mm".split(",")'
