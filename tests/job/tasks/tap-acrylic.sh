# SPDX-License-Identifier: GPL-3.0-or-later
# M4 in cast acrylic: a coarse thread with less height, slowly, and what may be poured on it.
ask choose --material acrylic/cast --thread M4 --depth 8mm --machine small-vmc --format json
exits 0 1
holds 'two thirds of a thread or less' 'named(d["inputs"], "hole_diameter")["value"] >= 3.35e-3'
holds 'slow' 'named(d["values"], "surface_speed")["value"] <= 0.21'
holds 'the torque is a small one' 'named(d["values"], "torque_peak")["value"] < 0.3'
holds 'crazing is told' 'any(c["name"] == "tapping" and c["severity"] == "care" and "craze" in c["text"] for c in d["cautions"])'
holds 'so is the spindle' 'any(c["name"] == "synchronous" for c in d["cautions"])'
# a spindle that cannot turn slowly is told so
ask choose --material acrylic/cast --thread M8 --depth 8mm --machine bench-24k --format json
holds 'the machine turns too fast for it' 'd["verdict"] == "over" or named(d["limits"], "edge_speed")["utilization"] > 1'
