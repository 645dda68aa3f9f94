# SPDX-License-Identifier: GPL-3.0-or-later
# A rail of 2.4 m on a desktop mill: the plan must refuse it with numbers.
sed -e 's/^name = corner-mill/name = desktop-light/' -e 's/^length = 90 mm/length = 2400 mm/' -e 's/^count = 30/count = 1/' "$tasks/own-machine.ini" >"$work/rail.ini"
ask job "$work/rail.ini"
exits 2
says 'The work needs 2412 mm of the X axis'
says 'desktop-light has 230 mm'
ask job "$work/rail.ini" --format json
holds 'JSON says so too' 'd["verdict"] == "over" and not d["envelope"]["fits"]'
