# SPDX-License-Identifier: GPL-3.0-or-later
# Thirty plates on a small mill of the shop's own, with 260 mm x 180 mm of travel: how many blanks?
mkdir -p "$work/own"
cat >"$work/own/machines.ini" <<'END'
[format]
kind = machines
version = 1
[machine.corner-mill]
title = the mill in the corner
source = common-practice
spindle_slowest = 3000 rpm
spindle_fastest = 12000 rpm
feed_fastest = 2000 mm/min
power_limit = 500 W
travel_x = 260 mm
travel_y = 180 mm
travel_z = 60 mm
spindle_to_table = 110 mm
END
saved=$COOLBITE_TABLE_PATH
COOLBITE_TABLE_PATH="$work/own:$saved"
export COOLBITE_TABLE_PATH
plan own-machine.ini
COOLBITE_TABLE_PATH=$saved
exits 0 1
holds 'no blank is beyond the travels' 'max(d["stock"]["blank_length"], d["stock"]["blank_width"]) <= 0.26 and min(d["stock"]["blank_length"], d["stock"]["blank_width"]) <= 0.18'
holds 'all thirty are on some blank' '(d["stock"]["blanks"] - 1) * d["stock"]["on_each"] + d["stock"]["on_last"] == 30'
holds 'its travels are those of the shop' 'd["envelope"]["machine"] == "corner-mill" and d["envelope"]["travel"]["x"] == 0.26 and d["envelope"]["fits"]'
