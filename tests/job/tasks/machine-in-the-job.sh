# SPDX-License-Identifier: GPL-3.0-or-later
# A borrowed mill whose travels are read off its plate, without a table of one's own: the job states
# them in the words of that table. 30 plates of 90 mm x 60 mm, and 260 mm x 180 mm of travel.
sed 's/^name = corner-mill/travel_x = 260 mm\ntravel_y = 180 mm\ntravel_z = 60 mm\nspindle_to_table = 110 mm/' "$tasks/own-machine.ini" >"$work/borrowed.ini"
ask job "$work/borrowed.ini" --format json --draws 1
exits 0 1 2
holds 'no blank is beyond the travels' 'max(d["stock"]["blank_length"], d["stock"]["blank_width"]) <= 0.26 and min(d["stock"]["blank_length"], d["stock"]["blank_width"]) <= 0.18'
holds 'its travels are those of the job' 'd["envelope"]["travel"] == {"x": 0.26, "y": 0.18, "z": 0.06} and d["envelope"]["fits"]'
# What the job states goes before the table of a machine that it names.
sed 's/^name = corner-mill/name = desktop-light\ntravel_x = 260 mm/' "$tasks/own-machine.ini" >"$work/longer.ini"
ask job "$work/longer.ini" --format json --draws 1
holds 'X is stated, Y is that of the class' 'd["envelope"]["travel"]["x"] == 0.26 and d["envelope"]["travel"]["y"] == 0.13'
# A rail that is too long for the stated travel is refused, named machine or not.
sed -e 's/^name = corner-mill/travel_x = 100 mm\ntravel_y = 80 mm/' -e 's/^count = 30/count = 1/' "$tasks/own-machine.ini" >"$work/short.ini"
ask job "$work/short.ini" --draws 1
exits 0 1 2
sed 's/travel_x = 100 mm/travel_x = 80 mm/' "$work/short.ini" >"$work/shorter.ini"
ask job "$work/shorter.ini" --draws 1
exits 2
says 'axis, tool and overrun included'
# Nonsense is refused with its line.
for wrong in 'travel_x = 0 mm' 'travel_z = long' 'vise_depth = -3 mm' 'travel_y = 30000 mm' 'travel = 3 mm' 'spindle_to_table = 12'; do
    sed "s/^name = corner-mill/$wrong/" "$tasks/own-machine.ini" >"$work/wrong.ini"
    ask job "$work/wrong.ini"
    exits 65
    says 'wrong.ini:'
    says 'machine:'
done
