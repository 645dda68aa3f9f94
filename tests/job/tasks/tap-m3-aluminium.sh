# SPDX-License-Identifier: GPL-3.0-or-later
# M3, 6 mm deep in 6061 on a small machining centre: drill, speed and feed to enter, and whether the
# tap lives.
tap="--material 6061 --thread M3 --depth 6mm --machine small-vmc --format json"
ask choose $tap
exits 0
holds 'the drill is 2.5 mm' 'abs(named(d["inputs"], "hole_diameter")["value"] - 2.5e-3) < 1e-9'
holds 'a pitch each turn' 'abs(d["enter"]["feed"] / d["enter"]["spindle"] - 0.5) < 1e-6'
holds 'a speed for taps' '0.15 < named(d["values"], "surface_speed")["value"] < 0.8'
holds 'the tap is not near its strength' 'named(d["limits"], "tool_break")["utilization"] < 0.7'
torque='named(d["values"], "torque_peak")["value"]'
holds 'the torque is below that at which clutches for M3 slip' "0.05 < $torque < 0.6"
# more thread, more torque; a full thread is refused with the drill that is usual
ask cut $tap --spindle 1000rpm --hole 2.7mm
holds 'less thread' "$torque < 0.25"
less=$("$python" -c 'import json,sys;d=json.load(open(sys.argv[1]));print([v for v in d["values"] if v["name"]=="torque_peak"][0]["value"])' "$work/out")
ask cut $tap --spindle 1000rpm --hole 2.4mm
holds 'more thread, more torque' "$torque > 1.5 * $less"
ask cut $tap --spindle 1000rpm --hole 2.2mm
exits 64 65
says 'more than a full thread'
# the feed of another pitch
ask cut $tap --spindle 1000rpm --feed 300mm/min
says 'would strip the thread'
ask cut $tap --spindle 1000rpm --feed 500mm/min
exits 0
