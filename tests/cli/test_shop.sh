#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What a shop has: the list of tools with sizes, several tools in one option.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"

# rows COUNT: the last answer has so many lines that begin with the name of an end mill or cone
rows() {
    lines=$(grep -cE '^(em|bn|cm|vg)-' "$work/out")
    if [ "$lines" -eq "$1" ]; then good; else bad "$lines tools, not $1: $(cat "$work/out")"; fi
}

# ---- list tools ----
expect 0 '' -- "$program" list tools
head -n 1 "$work/out" | grep -qx 'name  *diameter  *flutes  *kind  *flute length  *stick-out' && good || bad 'the columns of list tools'
grep -qx 'em-3-2  *3 mm  *2  *end-mill  *9 mm  *14 mm\*' "$work/out" && good || bad 'the row of em-3-2'
tail -n 1 "$work/out" | grep -qx '\* by default' && good || bad 'what a star means'
all=$(grep -cE '^(em|bn|cm|vg)-' "$work/out")
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
head -n 1 "$work/out" | grep -q '^name,kind,DC \[mm\],ZEFP,APMX \[mm\],' && good || bad 'the head of the CSV'
grep -q '^em-3-2,end-mill,3,2,9,' "$work/out" && good || bad "the CSV: $(cat "$work/out")"
expect 0 '' -- "$program" list tools --diameter 3mm --kind end-mill --units inch --output "$work/inch.csv"
grep -q '^name,kind,DC \[in\]' "$work/inch.csv" && grep -q '^em-3-2,end-mill,0.11811024,2,' "$work/inch.csv" && good || bad 'CSV in inches'
expect 0 '' -- "$program" list tools --diameter 3mm --kind end-mill --format json
tr -d ' \n' <"$work/out" | grep -q '"name":"em-3-2".*"kind":"end-mill","diameter":0.003,"flutes":2.0,"flute_length":0.009,"stickout":0.014,' && good || bad 'the JSON of a tool'
expect 64 'one of end-mill ball-nose' -- "$program" list tools --kind mill
expect 64 'applies to list tools only' -- "$program" list machines --kind drill
expect 64 'applies to list tools only' -- "$program" list inputs --diameter 3mm
expect 64 'applies to list tools only' -- "$program" list materials --format csv
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
finish
