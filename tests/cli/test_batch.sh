#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# batch: files and standard input, CSV and JSON lines, bad rows, exit statuses, signals, outputs.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"
cd "$work" || exit 99

cat >good.csv <<'EOF'
id,tool,spindle [rpm],feed [mm/min],depth
1,3mm,9000,300,0.2mm
2,1/8in,9000,0.03,0.01in
3,3mm,18000rpm,0.02mm/tooth,0.2mm
EOF
sed 's/,0.03,/,300,/' good.csv >all.csv
batch() { "$program" batch --material acrylic/cast "$@"; }

# ---- what goes in and comes out ----
expect 0 '' -- batch all.csv
check 'a line for each row and one for the names' [ "$(wc -l <out)" -eq 4 ]
check 'the rows are repeated' grep -q '^3,3mm,18000rpm,0.02mm/tooth,0.2mm,clear,' out
cp out from-file
batch - <all.csv >from-stdin 2>err
check 'standard input is read' cmp -s from-file from-stdin
batch <all.csv >from-stdin 2>err
check 'standard input is what is read without a file' cmp -s from-file from-stdin
expect 0 '' -- batch all.csv --output rows.csv
check 'the output file is what goes to standard output' cmp -s from-file rows.csv
expect 0 '' -- batch all.csv --units inch
check 'results are in inches' grep -q 'wall_error \[in\]' out
expect 65 'it is a result too' -- batch all.csv --results verdict,depth
expect 0 '' -- batch all.csv --jobs 1 --results verdict,wall_error
cp out one-job
batch all.csv --jobs 7 --results verdict,wall_error >out
check 'the number of threads changes nothing' cmp -s one-job out

# the same settings, judged by cut
"$program" cut --material acrylic/cast --tool 3mm --spindle 9000rpm --feed 300mm/min --depth 0.2mm \
    --draws 1 --format json >cut.json 2>err
printf '{"tool": "3mm", "spindle": "9000rpm", "feed": "300mm/min", "depth": "0.2mm"}\n' >one.jsonl
expect 0 '' -- batch one.jsonl --results power_mean
power=$(sed -n 's/.*"power_mean": \([0-9.e-]*\).*/\1/p' out)
cut_power=$(tr -d '\n ' <cut.json | sed -n 's/.*{"name":"power_mean","value":\([0-9.e-]*\).*/\1/p')
check "batch has the number of cut ($power, $cut_power)" \
    awk "BEGIN { exit !($power > 0 && ($power - $cut_power) ^ 2 < (1e-8 * $cut_power) ^ 2) }"

# ---- bad rows ----
"$program" batch good.csv --material acrylic/cast >out 2>err
check 'a bad row does not end the rest' [ $? -eq 0 ]
check 'a bad row is still a row' [ "$(wc -l <out)" -eq 4 ]
check 'it is named with its line' grep -q 'good.csv:3: feed .mm/min.: feed_rate of 0.03' err
check 'bad rows are counted' grep -q '1 of 3 rows were refused' err
batch good.csv --strict --results verdict >out 2>err
check 'strict: a bad row ends with 65' [ $? -eq 65 ]
sed 's/300,0.2mm/9000,2.9mm/' all.csv >hot.csv
batch hot.csv --strict >out 2>err
check 'strict: the status of the worst row' [ $? -ge 1 ]
expect 0 '' -- batch hot.csv
printf 'id,tool,fed\n1,3mm,2\n' >bad.csv
expect 65 'bad.csv:1: fed: there is no input named fed' -- batch bad.csv
expect 65 'separate columns by commas' -- batch /dev/stdin <<'EOF'
tool;feed
3mm;300mm/min
EOF
: >empty.csv
expect 65 'names of columns' -- batch empty.csv

# ---- the command line ----
expect 64 '--jobs must be' -- batch all.csv --jobs 0
expect 64 'no result named wall_eror' -- batch all.csv --results wall_eror
expect 64 'needs draws' -- batch all.csv --results chance
expect 64 'unexpected argument' -- batch all.csv all.csv
expect 66 'nowhere.csv' -- batch nowhere.csv
expect 66 'a folder' -- batch .
expect 64 'would be overwritten' -- batch all.csv --output all.csv
check 'the input is unchanged' [ "$(wc -l <all.csv)" -eq 4 ]
expect 73 'cannot be written' -- batch all.csv --output none/rows.csv
if [ -w /dev/full ]; then
    batch all.csv >/dev/full 2>err
    check 'a full disk ends with 73' [ $? -eq 73 ]
fi

# ---- stopped by a signal: whole rows, in the file too ----
awk 'BEGIN {
    print "id,tool,spindle [rpm],feed [mm/min],depth"
    for (i = 1; i < 1000000; i++) print i ",3mm,9000,300,0.2mm"
}' >many.csv
"$program" batch many.csv --material acrylic/cast --jobs 1 --results verdict,wall_error \
    --output stopped.csv 2>err &
running=$!
sleep 1
kill -TERM "$running"
wait "$running"
check 'a signal ends it as a signal does' [ $? -eq 143 ]
check 'it says how many rows there are' grep -q 'stopped after [0-9]* rows, which are whole' err
rows=$(sed -n 's/.*stopped after \([0-9]*\) rows.*/\1/p' err)
check 'all of them are in the file, before the end' \
    [ "$(wc -l <stopped.csv)" -eq $((rows + 1)) ] && [ "$rows" -lt 999999 ]
check 'the last row is whole' [ "$(tail -n 1 stopped.csv | tr -cd , | wc -c)" -eq 7 ]
check 'no draft is left' [ -z "$(ls ./*.tmp 2>/dev/null)" ]

finish
