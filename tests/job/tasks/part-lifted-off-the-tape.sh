# SPDX-License-Identifier: GPL-3.0-or-later
# A small acrylic part was pulled off its tape at the last cut. What first, and was it the settings?
held="--material acrylic/cast --tool 3mm --machine bench-24k --spindle 12000rpm --feed 1200mm/min --depth 1.5mm --hold tape --bond-area 120mm2"
ask choose $held --after "part lifted" --format json --exit-zero
exits 0
holds 'the tape was overloaded' 'd["symptom"] == "lifted-part" and d["foremost"] == "hold" and d["chance"] > 0.5'
holds 'another hold is among the changes, and not glue, which only acetone takes off' \
    'len([c for c in d["change_first"] if c["input"] == "hold"]) == 1 and all(c["to"] != "glue" for c in d["change_first"])'
holds 'more area, or a lighter cut' 'any(c["input"] in ("bond_area", "depth", "feed_rate") for c in d["change_first"])'
holds 'ranked by the chance' \
    'all(a["trouble_after"] <= b["trouble_after"] + 0.03 for a, b in zip(d["change_first"], d["change_first"][1:]))'
holds 'what settings cannot show' '{"lifting-helix", "dirty-bond", "uncured-bond"} <= {c["name"] for c in d["causes"]}'
# the same cut in a vise has no bond that could be suspected
ask choose --material acrylic/cast --tool 3mm --machine bench-24k --spindle 12000rpm --feed 1200mm/min --depth 1.5mm --after lifted --format json --exit-zero
holds 'without a hold nothing is claimed of it' 'not any(c["input"] == "hold" for c in d["change_first"])'
