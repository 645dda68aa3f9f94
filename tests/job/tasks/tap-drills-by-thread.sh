# SPDX-License-Identifier: GPL-3.0-or-later
# The drill for a thread: as on the chart at the drill press, in metric, number and letter sizes.
while read -r thread drill; do
    ask cut --material steel/1018 --thread "$thread" --spindle 300rpm --depth 5mm --machine small-vmc --format json
    holds "the drill for $thread" "abs(named(d['inputs'], 'hole_diameter')['value'] - $drill) < 1e-8"
done <<'CHART'
M2 1.6e-3
M4 3.3e-3
M5 4.2e-3
M6 5.0e-3
M8 6.8e-3
M10 8.5e-3
M8x1 7.0e-3
1/4-20 5.1054e-3
10-32 4.0386e-3
#8-32 3.4544e-3
4-40 2.2606e-3
CHART
# the drills can be named as they are stamped, and a drill only drills
for name in drill-no7 '#7' no7 DRILL-NO7; do
    ask cut --material 6061 --tool "$name" --spindle 3000rpm --feed 200mm/min --format json
    holds "$name is 0.201 in" 'abs(named(d["inputs"], "diameter")["value"] - 0.201 * 25.4e-3) < 1e-9'
    holds "$name drills" 'named(d["inputs"], "operation")["text"] == "drill"'
done
ask cut --material 6061 --tool letter-f --spindle 3000rpm --feed 200mm/min --format json
holds 'letter F is 0.257 in' 'abs(named(d["inputs"], "diameter")["value"] - 0.257 * 25.4e-3) < 1e-9'
ask cut --material 6061 --tool drill-f --operation mill --spindle 3000rpm --feed 200mm/min
exits 64 65
says 'is made to drill; it does not mill'
ask cut --material 6061 --tool drill-no81 --spindle 3000rpm --feed 200mm/min
exits 66
says 'did you mean drill-no'
ask list drills --format json
holds 'all sizes are listed' 'len([t for t in d if "-no" in t["name"] and t["name"].count("-") == 1]) == 80 and len([t for t in d if len(t["name"]) == 7 and t["name"][6].isalpha()]) == 26'
