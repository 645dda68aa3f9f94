#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What a shop has: the list of tools with sizes, several tools in one option, its own set-up.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"

# rows COUNT: the last answer has so many lines that begin with the name of an end mill or cone
rows() {
    lines=$(grep -cE '^(em|bn|cm|vg|tm|tmf)-' "$work/out")
    if [ "$lines" -eq "$1" ]; then good; else bad "$lines tools, not $1: $(cat "$work/out")"; fi
}

# ---- list tools ----
expect 0 '' -- "$program" list tools
head -n 1 "$work/out" | grep -qx 'name  *diameter  *flutes  *kind  *flute length  *stick-out' && good || bad 'the columns of list tools'
grep -qx 'em-3-2  *3 mm  *2  *end-mill  *9 mm  *14 mm\*' "$work/out" && good || bad 'the row of em-3-2'
tail -n 1 "$work/out" | grep -qx '\* by default' && good || bad 'what a star means'
all=$(grep -cE '^(em|bn|cm|vg|tm|tmf)-' "$work/out")
[ "$all" -eq "$(grep -c '^\[tool\.' "$work/tables/tools.ini")" ] && good || bad "list tools: $all tools"
expect 0 '' -- "$program" list tools --diameter 3mm
rows "$(grep -c '^diameter = 3 mm$' "$work/tables/tools.ini")"
expect 0 '' -- "$program" list tools --diameter 1/8in --kind end-mill
rows 2
expect 0 '' -- "$program" list tools --diameter 3mm..1/8in
grep -q '^em-3-2 ' "$work/out" && grep -q '^em-1in8-1 ' "$work/out" && good || bad 'both ends of a range belong to it'
expect 0 '' -- "$program" list tools --diameter ..0.5mm
rows 2
expect 0 '' -- "$program" list tools --diameter 12mm..
grep -qE '^em-(3|6)-' "$work/out" && bad 'a range without an upper end' || good
expect 0 '' -- "$program" list tools --kind engraving
rows "$(grep -c '^engraves = yes$' "$work/tables/tools.ini")"
expect 0 '' -- "$program" list tools --diameter 40mm
[ "$(cat "$work/out")" = nothing ] && good || bad 'a list without tools'
expect 0 '' -- "$program" list tools --diameter 3mm --kind end-mill --units inch
grep -qx 'em-3-2  *0.1181 in .*' "$work/out" && good || bad 'list tools in inches'
for columns in 40 60 80 100; do
    COLUMNS=$columns "$program" list tools >"$work/out" 2>&1
    widest=$(awk '{ if (length($0) > w) w = length($0) } END { print w }' "$work/out")
    [ "$widest" -le $columns ] && good || bad "list tools: a line of $widest at $columns columns"
    rows "$all"
done
expect 0 '' -- "$program" list tools --diameter 3mm --kind end-mill --format csv
head -n 1 "$work/out" | grep -q '^name,kind,DC \[mm\],DCX \[mm\],ZEFP,APMX \[mm\],' && good || bad 'the head of the CSV'
grep -q '^em-3-2,end-mill,3,,2,9,' "$work/out" && good || bad "the CSV: $(cat "$work/out")"
expect 0 '' -- "$program" list tools --diameter 3mm --kind end-mill --units inch --output "$work/inch.csv"
grep -q '^name,kind,DC \[in\]' "$work/inch.csv" && grep -q '^em-3-2,end-mill,0.11811024,,2,' "$work/inch.csv" && good || bad 'CSV in inches'
expect 0 '' -- "$program" list tools --diameter 3mm --kind end-mill --format json
tr -d ' \n' <"$work/out" | grep -q '"name":"em-3-2".*"kind":"end-mill","diameter":0.003,"flutes":2.0,"flute_length":0.009,"stickout":0.014,' && good || bad 'the JSON of a tool'
expect 64 'one of end-mill ball-nose' -- "$program" list tools --kind mill
expect 64 'applies to list tools only' -- "$program" list machines --kind drill
expect 64 'applies to list tools only' -- "$program" list inputs --diameter 3mm
expect 64 'list writes csv of the tools' -- "$program" list materials --format csv
for range in 3 6mm..3mm .. 3mm..6 nan -1mm..3mm 3mm...6mm '' 1e999mm 3,5mm 3mm..6mm..9mm; do
    expect 64 '--diameter must be a diameter or a range' -- "$program" list tools --diameter "$range"
done
expect 64 'is not an option of show' -- "$program" show em-3-2 --kind drill

# ---- several tools ----
choose_() { "$program" choose --material 6082 --feature-depth 1mm --machine bench-24k --format json --exit-zero "$@"; }
expect 0 '' -- choose_ --tool 1mm --tool em-3-2 --tool 6mm
cp "$work/out" "$work/three"
expect 0 '' -- choose_ --tool 1mm,em-3-2 --tool 6mm
cmp -s "$work/out" "$work/three" && good || bad 'tools separated by a comma'
expect 0 '' -- choose_ --tool 1mm,em-3-2,6mm
cmp -s "$work/out" "$work/three" && good || bad 'three tools in one option'
expect 64 'both sides of each comma' -- choose_ --tool 1mm,,6mm
expect 64 'both sides of each comma' -- choose_ --tool ,
expect 64 'both sides of each comma' -- choose_ --tool 3mm,
expect 64 'needs a name or a diameter' -- choose_ --tool ''
expect 64 'write a decimal point' -- choose_ --tool 1,5mm
expect 66 'did you mean em-3-2' -- choose_ --tool 6mm,em-3-22
expect 64 'too many tools' -- choose_ --tool "$(seq -f '%gmm' -s, 1 65)"
expect 64 'judges one tool only' -- "$program" cut --material 6082 --tool 1mm,3mm
expect 64 'one tool only' -- "$program" choose --material 6082 --tool 1mm,3mm --spindle 9000rpm --feed 90mm/min --after chatter

# ---- the shop's own set-up ----
mkdir -p "$work/.config/coolbite" "$work/xdg/coolbite"
own=$work/.config/coolbite/coolbite.ini
setup_() { printf '[format]\nkind = shop\nversion = 1\n[shop]\n'; printf '%s\n' "$@"; }
# said TEXT: the last answer contains it; line breaks count as spaces
said() {
    if tr -s ' \n' '  ' <"$work/out" | grep -qF -- "$1"; then good; else bad "it does not say: $1: $(cat "$work/out")"; fi
}
not_said() {
    if tr -s ' \n' '  ' <"$work/out" | grep -qF -- "$1"; then bad "it says: $1"; else good; fi
}
cut_() { "$program" cut --material 6082 --tool 3mm --spindle 18000rpm --feed 300mm/min --exit-zero "$@"; }
expect 0 '' -- cut_
cp "$work/out" "$work/bare"
not_said 'coolbite.ini'
setup_ 'units = inch' 'machine = trim-router' 'coolant = air' 'at_hand = em-3-2, em-6-2 1/8in' 'hold = vise' 'tolerance = 0.05 mm' 'confidence = 95 %' >"$own"
expect 0 '' -- cut_
said 'trim-router*, air'
said "* From $own: units inch (line 5), machine trim-router (line 6), coolant air (line 7), hold vise (line 9), tolerance 0.05 mm (line 10), confidence 95 % (line 11)"
not_said 'at hand'
said 'Enter spindle 18000 rpm, feed 11.811 in/min'
# an option replaces the key, and is not said to come from the file
expect 0 '' -- cut_ --machine bench-24k --coolant none --tolerance 0.1mm --units metric --confidence 90% --hold vacuum
said 'bench-24k, dry'
not_said 'coolbite.ini'
expect 0 '' -- cut_ --units metric --machine small-vmc
said 'small-vmc, air'
not_said 'trim-router'
# none of it: the option, the variable
expect 0 '' -- cut_ --no-config
cmp -s "$work/out" "$work/bare" && good || bad 'with --no-config the set-up counts'
expect 0 '' -- env COOLBITE_CONFIG=none "$program" cut --material 6082 --tool 3mm --spindle 18000rpm --feed 300mm/min --exit-zero
cmp -s "$work/out" "$work/bare" && good || bad 'with COOLBITE_CONFIG=none the set-up counts'
setup_ 'machine = knee-mill' >"$work/xdg/coolbite/coolbite.ini"
expect 0 '' -- env XDG_CONFIG_HOME="$work/xdg" "$program" cut --material 6082 --tool 3mm --spindle 4000rpm --feed 300mm/min --exit-zero
said 'knee-mill*'
expect 0 '' -- env COOLBITE_CONFIG="$work/xdg/coolbite/coolbite.ini" "$program" cut --material 6082 --tool 3mm --spindle 4000rpm --feed 300mm/min --exit-zero
said 'knee-mill*'
expect 66 'nowhere.ini' -- env COOLBITE_CONFIG="$work/nowhere.ini" "$program" cut --material 6082
# JSON
expect 0 '' -- cut_ --format json --machine small-vmc
tr -d ' \n' <"$work/out" | grep -q '"shop":{"file":"'"$own"'","keys":\[{"key":"units","text":"inch","line":5},{"key":"coolant","text":"air","line":7},' && good || bad 'the JSON of the set-up'
tr -d ' \n' <"$work/out" | grep -q '"name":"tolerance","value":5e-5,[^}]*"given":false' && good || bad 'a tolerance of the set-up is not given'
expect 0 '' -- cut_ --format json --no-config
tr -d ' \n' <"$work/out" | grep -q '"shop":null' && good || bad 'the JSON without a set-up'
# choose and window compare the tools at hand if none is named
expect 0 '' -- "$program" choose --material 6082 --feature-depth 1mm --exit-zero
said 'at hand em-3-2, em-6-2 1/8in (line 8)'
grep -qE '^Next best tool: (em-3-2|em-6-2|1/8in) ' "$work/out" && good || bad 'choose without --tool'
expect 0 '' -- "$program" choose --material 6082 --feature-depth 1mm --tool 3mm --exit-zero
not_said 'at hand'
expect 0 '' -- "$program" window --material 6082 --depth 0.4mm --exit-zero
expect 64 '--tool is missing' -- "$program" choose --material 6082 --no-config
expect 0 '' -- "$program" list tools --diameter 3mm
grep -q '0.1181 in' "$work/out" && good || bad 'the units of a list'
# a job's own keys win; units and confidence by option first
small_job own >"$work/own.ini"
expect 0 '' -- "$program" job "$work/own.ini" --exit-zero
said "machine trim-router (line 6), coolant air (line 7), at hand em-3-2, em-6-2 1/8in (line 8), tolerance 0.05 mm (line 10), confidence 95 % (line 11)"
not_said 'hold vise'
printf '[machine]\nname = small-vmc\n[fluids]\ncoolant = none\n[tools]\nat_hand = 2mm\n' >>"$work/own.ini"
expect 0 '' -- "$program" job "$work/own.ini" --exit-zero --units metric --confidence 90%
said "from $own: tolerance 0.05 mm (line 10)."
expect 0 '' -- "$program" job "$work/own.ini" --exit-zero --no-config
not_said 'coolbite.ini'
# its faults, each with line and key
while IFS='|' read -r line want; do
    setup_ "$line" >"$own"
    expect 65 "$want" -- cut_
    expect 0 '' -- cut_ --no-config
done <<'END'
machine = lathe|coolbite.ini:5: shop:machine: there is no machine named lathe
hold = chewing-gum|coolbite.ini:5: shop:hold: there is no hold named
coolant = beer|coolbite.ini:5
units = furlong|coolbite.ini:5
tolerance = 0.05|coolbite.ini:5
tolerance = 3 m|coolbite.ini:5
tolerance = -1 mm|coolbite.ini:5
tolerance = nan mm|coolbite.ini:5
confidence = 20 %|coolbite.ini:5
machin = trim-router|did you mean machine
at_hand = em-3-2, em-33|coolbite.ini:5: shop:at_hand: there is no tool named em-33
at_hand = 3|coolbite.ini:5: shop:at_hand: 3 is a bare number
at_hand = 900mm|coolbite.ini:5: shop:at_hand
END
setup_ "at_hand = $(seq -f %gmm -s, 1 65)" >"$own"
expect 65 'at_hand names more than 64 (put them into a tool list' -- cut_
setup_ "at_hand = em-33" >"$own"
expect 65 'coolbite.ini:5: shop:at_hand' -- "$program" job "$work/own.ini"
printf '[format]\nkind = tools\nversion = 1\n' >"$own"
expect 65 'coolbite.ini' -- cut_
printf '\377\376' >"$own"
expect 65 'coolbite.ini' -- cut_
rm "$own"; mkdir "$own"
expect 66 'coolbite.ini' -- cut_
rmdir "$own"
setup_ >"$own"
expect 0 '' -- cut_
cmp -s "$work/out" "$work/bare" && good || bad 'an empty set-up changes the answer'
expect 64 'would be overwritten' -- cut_ --format text --output "$own"

# ---- tool lists ----
rm -f "$own"
cat >"$work/drawer.csv" <<'END'
name,kind,DC [mm],ZEFP,APMX [mm],DCONMS [mm],LPR [mm],RE [mm],SIG,KAPR,SUBSTRATE
T1,end-mill,3,2,9,6,20,,,,HW
T2,ball-nose,4,2,8,6,,,,,carbide
T3,drill,2.5,2,30,2.5,,,118,,HSS
END
expect 0 '' -- "$program" list tools --tools "$work/drawer.csv"
grep -qx 't1  *3 mm  *2  *end-mill  *9 mm  *20 mm' "$work/out" && [ "$(grep -c '^t[123] ' "$work/out")" -eq 3 ] && [ "$(grep -c '^em-' "$work/out")" -eq 0 ] && good || bad "the tools of a list: $(cat "$work/out")"
expect 0 '' -- "$program" list tools --tools "$work/drawer.csv" --kind drill
grep -q '^t3 ' "$work/out" && good || bad 'the drill of a list'
expect 0 '' -- "$program" show T2 --tools "$work/drawer.csv"
said "file $work/drawer.csv"
said 'corner_radius 2 mm'
expect 0 '' -- cut_ --tools "$work/drawer.csv"
expect 0 '' -- "$program" cut --material 6082 --tool T1 --spindle 18000rpm --feed 300mm/min --exit-zero --tools "$work/drawer.csv"
expect 66 'did you mean t1' -- "$program" cut --material 6082 --tool T11 --spindle 18000rpm --feed 300mm/min --tools "$work/drawer.csv"
expect 0 '' -- "$program" choose --material 6082 --tool any --feature-depth 1mm --exit-zero --tools "$work/drawer.csv"
grep -q '^Next best tool: t[12] ' "$work/out" && good || bad "any of a list: $(cat "$work/out")"
expect 0 '' -- "$program" job "$work/own.ini" --exit-zero --tools "$work/drawer.csv"
small_job listed | grep -v '^spindle' >"$work/listed.ini"
expect 0 '' -- "$program" job "$work/listed.ini" --exit-zero --tools "$work/drawer.csv"
said "all tools of $work/drawer.csv"
expect 0 '' -- "$program" choose --material 6082 --tool T3 --operation drill --feature-depth 5mm --exit-zero --tools "$work/drawer.csv"
said '2.5 mm hss drill'
# a list that was written is read again with the same sizes
"$program" list tools >"$work/before"
expect 0 '' -- "$program" list tools --output "$work/all.csv"
expect 0 '' -- "$program" list tools --tools "$work/all.csv"
sed 's/[0-9.]* mm\*//g; s/2\.381[23] mm//' "$work/before" >"$work/a"; sed 's/[0-9.]* mm\*//g; s/2\.381[23] mm//' "$work/out" >"$work/b"
cmp -s "$work/a" "$work/b" && good || bad "a list read back: $(diff "$work/a" "$work/b" | head -n 4)"
expect 64 'it is the tool list' -- "$program" list tools --tools "$work/all.csv" --output "$work/all.csv"
# by the set-up, from its folder; the option replaces it
cp "$work/drawer.csv" "$work/.config/coolbite/"
setup_ 'tool_list = drawer.csv' >"$own"
expect 0 '' -- "$program" list tools
grep -q '^t1 ' "$work/out" && good || bad 'the tool list of the set-up'
expect 0 '' -- cut_
said 'tool list drawer.csv (line 5)'
expect 0 '' -- "$program" list tools --tools "$work/tables/tools.ini"
grep -q '^em-3-2 ' "$work/out" && good || bad 'a table of tools as the list'
expect 0 '' -- "$program" list tools --no-config
grep -q '^em-3-2 ' "$work/out" && good || bad 'no tool list without a set-up'
setup_ 'tool_list = nowhere.csv' >"$own"
expect 66 'nowhere.csv' -- "$program" list tools
rm "$own"
# its faults: nothing is taken
printf 'name,DC [mm]\nT1,3\nT2,900\n' >"$work/bad.csv"
expect 65 'bad.csv:3: T2:DC' -- "$program" list tools --tools "$work/bad.csv"
[ ! -s "$work/out" ] && good || bad 'half a list was shown'
expect 65 'there is no column named diamter' -- sh -c 'printf "name,diamter\nT1,3\n" | tee "$2" >/dev/null; "$1" list tools --tools "$2"' sh "$program" "$work/bad.csv"
expect 66 'nowhere.csv' -- "$program" list tools --tools "$work/nowhere.csv"
expect 66 'is a folder' -- "$program" list tools --tools "$work/tables"
finish
