# SPDX-License-Identifier: GPL-3.0-or-later
# A 3 mm tool 30 mm out of its collet chatters in aluminium. The shorter tool or the lighter cut
# comes first, with what it costs; the loose gib is named.
ask choose --material 6061 --tool 3mm --flutes 2 --machine trim-router --spindle 18000rpm --feed 700mm/min --depth 1.5mm --stickout 30mm --after chatter --format json --exit-zero
exits 0
holds 'the trouble is likely as it is' 'd["chance"] > 0.5'
holds 'depth or stick-out first' 'd["change_first"][0]["input"] in ("stickout", "depth")'
holds 'the first leaves least' 'd["change_first"][0]["trouble_after"] == min(c["trouble_after"] for c in d["change_first"])'
holds 'a smaller depth costs time in proportion' \
    'all(abs(c["time"] * float(c["to"].split()[0]) / float(c["from"].split()[0]) - 1) < 0.02 for c in d["change_first"] if c["input"] == "depth")'
holds 'a loose machine is checked first' 'd["causes"][0]["name"] == "loose-machine"'
