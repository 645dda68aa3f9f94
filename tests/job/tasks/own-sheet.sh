# SPDX-License-Identifier: GPL-3.0-or-later
# The sheet on the shelf is extruded acrylic of another name, and the shop weighed it: its own table
# with two figures, the rest as the project's. Then a slip in a table over the project's own.
mkdir -p "$work/own/materials"
cat >"$work/own/materials/shop-sheet.ini" <<'END'
[format]
kind = material
version = 1
[grade.clear]
like = acrylic/extruded
density = 1185 kg/m3 (1180 .. 1190)
density.source = "memory: weighed, three strips"
END
saved=$COOLBITE_TABLE_PATH
COOLBITE_TABLE_PATH="$work/own:$saved"
export COOLBITE_TABLE_PATH
ask show shop-sheet/clear --format json
exits 0
figures='d["figures"]'
holds 'its own density' "named($figures, 'density')['value'] == 1185 and named($figures, 'density')['from'] == '' and named($figures, 'density')['source'] == 'weighed, three strips'"
holds 'its softening is that of the parent, which is named' "named($figures, 'softening')['from'] == 'acrylic/extruded' and named($figures, 'softening')['source'].endswith('; from acrylic/extruded')"
holds 'and what the parent has from cast is said to be of cast' "named($figures, 'heat_capacity')['from'] == 'acrylic/cast' and named($figures, 'heat_capacity')['file'].endswith('/tables/materials/acrylic.ini')"
set -- --tool 3mm --spindle 12000rpm --feed 600mm/min --depth 1mm --format json
ask cut --material acrylic/extruded "$@"
cp "$work/out" "$work/parent"
ask cut --material shop-sheet "$@"
holds 'nearly the answer of the parent' "abs(d['chance'] - json.load(open('$work/parent'))['chance']) < 0.02"
holds 'with its cautions, about the parent'"'"'s grade too' "{c['name'] for c in d['cautions']} == {c['name'] for c in json.load(open('$work/parent'))['cautions']}"
ask show isopropanol --material shop-sheet
says 'NO'
# a slip in one's own figures of acrylic: the project's are used, and the answer says which table
cat >"$work/own/materials/acrylic.ini" <<'END'
[format]
kind = material
version = 1
[grade.cast]
densty = 1188 kg/m3
END
ask cut --material acrylic/cast "$@"
exits 0 1 2
holds 'the table that was left out is told' "'did you mean density' in named(d['cautions'], 'table_left_out')['text'] and 'line 5' in named(d['cautions'], 'table_left_out')['text']"
ask list left-out
says 'densty'
sed 's/densty = 1188 kg.m3/density = 1188 kg\/m3\ndensity.source = memory/' "$work/own/materials/acrylic.ini" >"$work/sound"
mv "$work/sound" "$work/own/materials/acrylic.ini"
ask show acrylic/extruded --format json
holds 'mended, it holds for what is like cast' "named($figures, 'density')['value'] == 1188 and named($figures, 'density')['from'] == 'acrylic/cast'"
ask show shop-sheet --format json
holds 'but not for what states its own' "named($figures, 'density')['value'] == 1185"
# a caution of one's own, with an or, a product and two values of a word; a full slot has a width
cat >>"$work/own/materials/shop-sheet.ini" <<'END'
[caution.shop]
severity = note
when = coolant is flood or mist and depth * width above 2.9 mm2 or depth above 0.5 * diameter
text = "a heavy cut here: {depth}"
source = common-practice
END
set -- --material shop-sheet --tool 3mm --spindle 12000rpm --feed 600mm/min --format json
shop='any(c["name"] == "shop" for c in d["cautions"])'
ask cut "$@" --depth 1mm --coolant mist
holds 'a wet full slot of 3 mm2' "$shop"
ask cut "$@" --depth 1mm --coolant mist --width 2mm
holds 'not 2 mm2' "not $shop"
ask cut "$@" --depth 1mm
holds 'nor a dry one' "not $shop"
ask cut "$@" --depth 2mm
holds 'but a deep one' "$shop"
# figures that cannot be are refused with the bound
sed 's/^density = .*/density = 11850 kg\/m3/' "$work/own/materials/shop-sheet.ini" >"$work/wrong"
cp "$work/own/materials/shop-sheet.ini" "$work/sound"
mv "$work/wrong" "$work/own/materials/shop-sheet.ini"
ask cut "$@" --depth 1mm
exits 65
says 'shop-sheet.ini:6:11: grade.clear:density'
says '800 kg/m3 to 4000 kg/m3'
mv "$work/sound" "$work/own/materials/shop-sheet.ini"
# no such parent
set -- --tool 3mm --spindle 12000rpm --feed 600mm/min --depth 1mm --format json
sed 's/extruded/extrudet/' "$work/own/materials/shop-sheet.ini" >"$work/wrong"
mv "$work/wrong" "$work/own/materials/shop-sheet.ini"
ask cut --material shop-sheet "$@"
exits 65
says 'shop-sheet.ini:5'
says 'did you mean acrylic/extruded?'
COOLBITE_TABLE_PATH=$saved
