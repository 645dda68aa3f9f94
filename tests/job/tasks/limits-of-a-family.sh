# SPDX-License-Identifier: GPL-3.0-or-later
# What only one family needs is judged like everything else: a slot in magnesium, a bracket of it as
# a job, a bushing of nylon that has to fit, a sign of oak.
ask cut --material magnesium --tool 6mm --spindle 8000rpm --feed 400mm/min --depth 1mm --format json
exits 0
holds 'chips stay well below their ignition' 'named(d["limits"], "chip_ignition")["chance"] < 0.05'
holds 'a rise of a chip to 473 degC' 'abs(named(d["limits"], "chip_ignition")["capacity"] - (473 + 273.15 - named(d["inputs"], "room_temperature")["value"])) < 0.5'
holds 'places for limits that it has not are not shown' 'all(l["name"][:4] != "own_" for l in d["limits"])'
holds 'its figures are told with their sources' 'named(d["inputs"], "ignition")["grade"] == "memory"'
# chips that are hardly more than dust
ask cut --material magnesium --tool 1mm --spindle 20000rpm --feed 200mm/min --depth 0.2mm --rows
says 'advisory: chip_fines'
says 'Take thicker, wider or longer chips'
says 'Do not blow it about'
ask window --material magnesium --tool 6mm --spindle 8000rpm --feed 400mm/min --depth 1mm --format csv
says 'chip_ignition'
ask choose --material magnesium --tool 6mm --feature-depth 6mm --format json
holds 'a choice is clear of it' 'named(d["limits"], "chip_ignition")["verdict"] == "clear"'
# a job: the sheet for the bench names it where it is closest
cat >"$work/plate.ini" <<'END'
[format]
kind = job
version = 1
[part]
name = plate
material = magnesium
length = 40 mm
width = 30 mm
thickness = 3 mm
[machine]
name = small-vmc
[hold]
method = vise
[pass.pocket]
work = pocket
tool = 1mm
at = 20 mm 15 mm
length = 10 mm
across = 10 mm
depth = 1 mm
END
ask job "$work/plate.ini" --format json
holds 'the pass is asked for both limits' 'len(d["passes"]) > 0 and all(named(p["limits"], n)["applies"] for p in d["passes"] for n in ("chip_ignition", "chip_fines"))'
ask job "$work/plate.ini"
says 'chip_fines'
ask job "$work/plate.ini" --format html --output "$work/plate.html"
if grep -q 'chip_fines' "$work/plate.html"; then good; else bad "$task: the page does not name chip_fines"; fi
# side by side in a batch: the drill in thin plies
printf 'material,tool,spindle_speed,feed_rate,depth,path_length\nglass-laminate,2mm,20000rpm,600mm/min,1mm,20m\nglass-laminate,2mm,20000rpm,600mm/min,1mm,1m\n' >"$work/rows.csv"
ask batch "$work/rows.csv" --format csv
exits 0 1 2
says 'glass-laminate'
says_not 'own_'
# dry and moist nylon are two materials
ask cut --material nylon/6@dry --tool 6mm --spindle 8000rpm --feed 400mm/min --depth 1mm --tolerance 0.05mm --set part_span=100mm --format json
holds 'it grows by 0.69 mm' 'abs(named(d["limits"], "moisture_growth")["demand"] - 0.3 * 0.023 * 0.1) < 1e-9'
holds 'which is told' 'any(c["name"] == "moisture_growth" for c in d["cautions"])'
ask cut --material nylon/6@damp --tool 6mm --spindle 8000rpm --feed 400mm/min --depth 1mm
exits 66
says 'its states are 6@dry, 6@conditioned, 6@wet'
ask show wood/oak@across
says 'grain_angle'
says 'Hankinson'
