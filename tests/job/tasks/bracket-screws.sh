# SPDX-License-Identifier: GPL-3.0-or-later
# The bracket is screwed down by four M4 of class 8.8: is the torque right for the screws and for
# their thread in the plate, and what if it was tightened like a machine screw, or with soft ones?
ask job "$source/tables/jobs/bracket.ini" --format json
exits 0
holds 'the job is clear' 'd["verdict"] == "clear" and d["chance"] < 0.1'
holds 'half of the thread strength' '0.4 < d["hold"]["utilization"] < 0.6 and d["hold"]["way"] == "strip"'
holds '1.5 Nm on M4 is 1875 N' 'abs(d["hold"]["force"] - 1875) < 1'
sed 's/^torque = .*/torque = 5 Nm/' "$source/tables/jobs/bracket.ini" >"$work/hard.ini"
ask job "$work/hard.ini" --format json
exits 2
holds 'too much for class 8.8' 'd["hold"]["utilization"] > 1.2'
sed 's/^screw_class = .*/screw_class = 4.6/; s/^torque = .*/torque = 2 Nm/' "$source/tables/jobs/bracket.ini" >"$work/soft.ini"
ask job "$work/soft.ini" --format json
exits 2
holds '2 Nm overstretches class 4.6' 'd["hold"]["way"] == "stretch" and d["hold"]["utilization"] > 1.4'
sed 's/^screw_class = .*/screw_class = 12/' "$source/tables/jobs/bracket.ini" >"$work/wrong.ini"
ask job "$work/wrong.ini"
exits 65
says '12.9'
