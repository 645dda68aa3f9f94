# SPDX-License-Identifier: GPL-3.0-or-later
# The tools of the drawer are in a spreadsheet: are its lengths the ones that are judged?
cat >"$work/drawer.csv" <<'END'
name,kind,DC [mm],ZEFP,APMX [mm],LU [mm],DN [mm],DCONMS [mm],LPR [mm],RE [mm],SUBSTRATE,#bought
EM3-short,end-mill,3,2,6,,,6,14,,HW,2025
EM3-long,end-mill,3,2,6,20,2.8,6,26,,HW,2025
BN4,ball-nose,4,2,8,,,6,20,,HC,2024
D2.5,drill,2.5,2,30,,,2.5,40,,HSS,2020
END
ask list tools --tools "$work/drawer.csv" --format json
holds 'four tools, their kinds and lengths' '[(t["name"], t["kind"], t["stickout"]) for t in d] == [("em3-short", "end-mill", 0.014), ("em3-long", "end-mill", 0.026), ("bn4", "ball-nose", 0.02), ("d2.5", "drill", 0.04)]'
holds 'a ball has half the diameter' 'd[2]["corner_radius"] == 0.002'
# 12 mm deep beside a wall: only the relieved tool reaches
for tool in EM3-short EM3-long; do
    ask cut --tools "$work/drawer.csv" --material 6082 --tool $tool --spindle 12000rpm --feed 300mm/min --depth 0.5mm --feature-depth 12mm --format json
    exits 0 1 2
    holds "$tool: reach is that of the list" '(named(d["limits"], "reach")["utilization"] > 1) == ("'$tool'" == "EM3-short")'
done
# of the drawer the stiffer tool is chosen where both reach, and never the drill
ask choose --tools "$work/drawer.csv" --material 6082 --tool any --feature-depth 4mm --format json
exits 0 1
holds 'an end mill, and an end mill next' 'd["next_best"]["tool"] in ("em3-short", "em3-long", "bn4")'
# a slip in one row: the row is named and nothing is taken
sed 's/^BN4,ball-nose,4,/BN4,ball-nose,400,/' "$work/drawer.csv" >"$work/slip.csv"
ask list tools --tools "$work/slip.csv"
exits 65
says "slip.csv:4: BN4:DC"
says_not 'EM3'
