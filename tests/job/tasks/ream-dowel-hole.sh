# SPDX-License-Identifier: GPL-3.0-or-later
# A dowel hole of 6 mm, 12 mm deep, reamed in steel: stock, slow speed, feed that cuts.
ream="--material steel/1018 --operation ream --tool 6mm --depth 12mm --machine small-vmc --coolant flood --format json"
ask choose $ream
exits 0
holds 'a few tenths of stock' '5.6e-3 <= named(d["inputs"], "hole_diameter")["value"] <= 5.85e-3'
holds 'the reamer is of high-speed steel' 'named(d["inputs"], "tool_material")["text"] == "hss"'
holds 'slow' 'd["enter"]["spindle"] <= 700'
holds 'a feed that cuts and does not rub' 'named(d["limits"], "rubbing")["utilization"] < 0.5 and 0.1 < d["enter"]["feed"] / d["enter"]["spindle"] < 0.6'
ask cut $ream --spindle 500rpm --feed 100mm/min --hole 2.9mm
says 'cannot cut that much'
ask cut $ream --spindle 500rpm --feed 100mm/min --hole 6mm
says 'leaves it nothing to cut'
ask choose --material steel/1018 --operation ream --tool any --depth 12mm
says 'as wide as its reamer'
