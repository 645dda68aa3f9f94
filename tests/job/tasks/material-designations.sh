# SPDX-License-Identifier: GPL-3.0-or-later
# The label on the bar names a standard's designation: is it found, and by which figures is it cut?
cutting() { ask cut --material "$1" --tool 4mm --spindle 6000rpm --feed 150mm/min --format json --exit-zero; }
cutting 'EN AW-6082 T651'
holds '6082 has figures of its own' 'd["material"] == "aluminium/6082-t6" and d["material_named"] == "grade"'
cutting 'PA 6.6'
holds 'PA 6.6 is nylon 66' 'd["material"] == "nylon/66"'
cutting '1.4301'
holds 'the material number is known' 'd["material"] == "stainless/304" and d["material_named"] == "grade"'
cutting 'Ms58'
holds 'the trade word is a near alloy' 'd["material"] == "brass/c360" and d["material_named"] == "near"'
ask cut --material Ms58 --tool 4mm --spindle 6000rpm --feed 150mm/min --exit-zero
says 'Ms58 judged as brass/c360, a near material'
ask cut --material 'CW603N' --tool 4mm --spindle 6000rpm --feed 150mm/min --exit-zero
says_not 'near material'
# a word of several families is refused, with all of them
ask cut --material sheet --tool 4mm --spindle 6000rpm --feed 150mm/min
exits 66
says 'write abs/sheet, petg/sheet or polycarbonate/sheet'
