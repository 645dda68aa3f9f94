# SPDX-License-Identifier: GPL-3.0-or-later
# A shop with a caliper, pin gauges and a micrometer: its inspection plan names what it has, not the
# finest instrument of the tables, and says what it would have to borrow.
mkdir -p "$work/shop"
cat >"$work/gauged.ini" <<'END'
[format]
kind = job
version = 1
[part]
material = aluminium/6061-T6
length = 60 mm
width = 40 mm
thickness = 8 mm
tolerance = 0.1 mm
[pass.hole]
work = drill
tool = 6mm
spindle = 5000rpm
feed = 300mm/min
[check.width]
what = width
measures = outside
nominal = 40 mm
tolerance = 0.1 mm
[check.bow]
what = flatness
measures = flatness
tolerance = 0.1 mm
[check.hole]
what = hole
measures = inside
nominal = 8 mm
tolerance = 4 um
END
setup_with() {
    printf '[format]\nkind = shop\nversion = 1\n[shop]\n%s\n' "$1" >"$work/shop/coolbite.ini"
}
export COOLBITE_CONFIG="$work/shop/coolbite.ini"
instruments='[c["instrument"] for c in d["checks"]]'
setup_with 'instruments = caliper, pin-gauges'
ask job "$work/gauged.ini" --draws 1 --format json
exits 0 1 2
holds 'the width by caliper, the hole by pins' "$instruments == [\"caliper\", None, \"pin-gauges\"] or $instruments == [\"caliper\", \"\", \"pin-gauges\"]"
ask job "$work/gauged.ini" --draws 1
says 'instruments caliper, pin-gauges (line 5)'
# The steps of pins cannot prove 4 um either way; of the tables the bore gauge can, if one can.
says "\"hole\": no instrument of the shop's own list proves this size; the best of them is"
# Nothing of the shop measures flatness.
says "\"flatness\": no instrument of the shop's own list proves this size. Of those of the tables, this one would:"
says_not "\"width\": no instrument"
# All of the tables without a list, or with --no-config.
ask job "$work/gauged.ini" --draws 1 --no-config
says_not "the shop's own list"
# Names of the shop's own that are not in the tables are a fault of the set-up with its line.
setup_with 'instruments = caliper, yardstick'
ask job "$work/gauged.ini"
exits 65 66
says 'coolbite.ini:5'
says 'yardstick'
setup_with "instruments = $(i=0; while [ $i -lt 65 ]; do printf 'caliper '; i=$((i + 1)); done)"
ask job "$work/gauged.ini"
exits 65
says 'instruments names more than 64'
# An alias of the tables counts, and no instrument at all is none stated.
setup_with 'instruments = outside-micrometer'
ask job "$work/gauged.ini" --draws 1 --format json
holds 'the alias is the micrometer' "$instruments[0] == \"micrometer\""
unset COOLBITE_CONFIG
ask show outside-micrometer
exits 0
says 'ISO 3611'
