#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# coolbite measure: a record is begun from a job or by hand, readings come from standard input and
# from a terminal, and what was confirmed stays.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"
record=$work/lens.record
measure() { "$program" measure "$record" "$@"; }

# entered STATUS TEXT LINES [OPTION ...]: what these lines on standard input do
entered() {
    want=$1 says=$2
    printf '%b' "$3" >"$work/in"
    shift 3
    measure "$@" <"$work/in" >"$work/out" 2>"$work/err"
    judge $? "measure: $(tr '\n' '|' <"$work/in")"
}
# wrote LINE: the last output has this line, but for the number of its line
wrote() {
    sed 's/^line [0-9]*: //' "$work/out" | grep -qxF -- "$1" && good ||
        bad "the output lacks \"$1\": $(cat "$work/out")"
}
# holds COUNT WORD: so many lines of the record do that
holds() {
    count=$(grep -cE "^[0-9]+ $2 " "$record")
    [ "$count" -eq "$1" ] && good || bad "$count lines of $2, not $1: $(tail -n 5 "$record")"
}
by_hand() {
    cat >"$record" <<'END'
[format]
kind = record
version = 1
[record]
part_name = lens cover
part_number = LC-7
count = 10
[characteristic.1]
what = thickness
measures = thickness
nominal = 3 mm
lower = 2.9 mm
upper = 3.1 mm
instrument_title = micrometer
uncertainty = 3 um
resolution = 0.001 mm
expansion = 70 um/m/K
[characteristic.2]
what = width
nominal = 30 mm
lower = 29.9 mm
upper = 30.1 mm
instrument_title = caliper
uncertainty = 12 um
resolution = 0.01 mm
[characteristic.3]
what = "thread M3"
judged = yes
END
}

# ---- begun from a job ----
{ small_job 'A lens'; printf '[check.a]\nwhat = thickness\nmeasures = thickness\nnominal = 2 mm\ntolerance = 0.1 mm\n'; } >"$work/lens.ini"
expect 0 '' -- measure --job "$work/lens.ini" --draws 16 --field part_number=LC-7 --field lot=A3
grep -qx 'part_number = "LC-7"' "$record" && grep -qx 'job = "A lens"' "$record" && good || bad 'the head of a new record'
cp "$record" "$work/before"
expect 73 'such a file already' -- measure --job "$work/lens.ini" --draws 16
cmp -s "$record" "$work/before" && good || bad 'a record was overwritten'
rm "$record"
expect 66 'did you mean part_number' -- measure --job "$work/lens.ini" --draws 16 --field part_numer=7
expect 64 'NAME=TEXT' -- measure --job "$work/lens.ini" --field part_number
expect 66 'none.ini: cannot be opened' -- measure --job "$work/none.ini"
[ ! -e "$record" ] && good || bad 'a record was begun in spite of an error'
expect 66 'cannot be opened' -- measure
expect 64 'takes one record' -- "$program" measure
expect 64 'needs --job' -- measure --field lot=3
mkdir "$work/closed" && chmod 500 "$work/closed"
if [ "$(id -u)" -ne 0 ]; then
    expect 73 'Permission denied' -- "$program" measure "$work/closed/lens.record" --job "$work/lens.ini" --draws 16
    [ -z "$(ls "$work/closed")" ] && good || bad 'something was left in a folder that is read-only'
else
    skipped 'a folder that is read-only, as root'
fi

# ---- standard input ----
by_hand
entered 0 '' '3.012\n30.02mm\naccept\n' --person Ann --temperature 23degC
wrote 'part 1, 1 thickness: 3.012mm, inside; 3.0114 mm +/- 0.006 mm at 20 degC'
wrote 'part 1, 2 width: 30.02mm, inside'
wrote 'part 1, 3 thread M3: accept, accepted'
holds 3 read
grep -q '^31 read characteristic=1 part=1 trial=1 value="3.012mm" temperature=23degC time=20[0-9-]*T[0-9:]*Z person="Ann" ~[0-9a-f]*$' "$record" && good || bad 'the form of a line'
entered 0 '' '3.098\n1.183in\nr\n' # part 2: the guard band, inches, rejected
wrote 'part 2, 1 thickness: 3.098mm, in the guard band: not proven'
wrote 'part 2, 2 width: 1.183in, inside'
wrote 'part 2, 3 thread M3: reject, rejected'
entered 0 '' '# a remark\n\nperson Ben\ntemperature 22degC\n3.2\nundo\n3.02\nskip no caliper\nok\n'
wrote 'part 3, 1 thickness: 3.2mm, outside; 3.1996 mm +/- 0.006 mm at 20 degC'
holds 9 read
holds 1 undo
holds 1 skip
entered 0 '' 'correct 31 3.021\nundo 32 the jaws were dirty\n'
wrote 'part 1, 1 thickness: 3.021mm, inside; 3.0204 mm +/- 0.006 mm at 20 degC'
holds 1 correct
grep -q 'of=32 .*note="the jaws were dirty"' "$record" && good || bad 'the reason of an undo'
grep -q '^31 read .*value="3.012mm"' "$record" && good || bad 'the original of a correction'
entered 0 '' '30.05\n' # what was withdrawn is asked for again
wrote 'part 1, 2 width: 30.05mm, inside'
entered 0 '' 'part 7\n2: 30.01\n1: 2.99\n'
wrote 'part 7, 2 width: 30.01mm, inside'
wrote 'part 7, 1 thickness: 2.99mm, inside'

# a fault ends the input: what would follow belongs to another characteristic
says_first() { # STATUS TEXT LINES: the first message has the text, the second says where it stopped
    printf '%b' "$3" | measure >"$work/out" 2>"$work/err"
    status=$?
    [ "$status" -eq "$1" ] && sed -n 1p "$work/err" | grep -qF -- "$2" &&
        sed -n 2p "$work/err" | grep -qF 'stopped at line' && good ||
        bad "$3: $status: $(cat "$work/err")"
}
before=$(grep -c . "$record")
says_first 65 'standard input:1: 300.1mm is far outside the limits; 30.01 mm may have been meant' '2: 300.1\n2: 30\n'
says_first 65 '1.181mm is far outside the limits; 29.9974 mm may' '2: 1.181\n'
says_first 65 '1e5mm is far outside the limits (if it is right' '2: 1e5mm\n'
says_first 65 '0mm is far outside the limits (if' '1: 0\n'
says_first 65 '301mm is far outside the limits; 30.1 mm may' 'correct 32 301\n'
says_first 65 'standard input:1: there is no characteristic 9' '9: 3\n'
says_first 65 'standard input:1: ' '3,01\n'
says_first 65 'standard input:1: ' 'width\n'
says_first 65 'the line has a zero byte' '3.0\00001\n'
says_first 65 'not a judgement' '3: 3.01\n'
says_first 65 'is not a part' 'part 11\n'
says_first 65 'the reason is missing' 'skip\n'
says_first 65 'cannot be in a record' 'person "Ann"\n'
says_first 65 'nothing was recorded in this session' 'undo\n'
says_first 66 'is not a reading' 'undo 3\n'
says_first 65 'nothing was asked' 'y\n'
[ "$(grep -c . "$record")" -eq "$before" ] && good || bad 'a line with a fault was recorded'
entered 0 '' '2: 300.1!\n'
entered 0 'is finer than the instrument reads' '2: 30.0123\n'
entered 64 '--part must be' '' --part 0
entered 64 '--temperature' '' --temperature 23

# ---- a part that is named stays the part, though nothing is due on it ----
by_hand
sed '/^what/a every = 10' "$record" >"$work/sparse" && mv "$work/sparse" "$record"
if grep -q '^every = 10' "$record"; then
    entered 0 '' 'part 2\n1: 3.02\npart 3\n1: 3.03\n'
    wrote 'part 2, 1 thickness: 3.02mm, inside'
    wrote 'part 3, 1 thickness: 3.03mm, inside'
    says_first 65 'nothing is due on part 4; which characteristic is meant' 'part 4\n3.01\n'
    says_first 65 'nothing is left to be skipped on this part' 'part 4\nskip no time\n'
else
    bad 'no characteristic of the record is measured on some parts only'
fi

# ---- trials of two persons, as for a gauge study ----
by_hand
entered 0 '' '3.01\n3.02\n30.01\n30.02\na\na\n3.03\n3.04\n' --person Ann --trials 2
wrote 'part 2, 1 thickness: 3.03mm, inside'
entered 0 '' '3.011\n3.021\n' --person Ben --trials 2
wrote 'part 1, 1 thickness: 3.011mm, inside'
grep -q 'characteristic=1 part=1 trial=2 value="3.021mm" .*person="Ben"' "$record" && good || bad 'the trials of a second person'

# ---- CSV ----
by_hand
csv() { # STATUS TEXT CSV: what --readings does
    want=$1 says=$2
    printf '%b' "$3" >"$work/readings.csv"
    measure --readings "$work/readings.csv" --person Ann >"$work/out" 2>"$work/err"
    judge $? "$3"
}
csv_bad() { # TEXT CSV: all rows are checked, nothing is recorded
    printf '%b' "$2" >"$work/readings.csv"
    measure --readings "$work/readings.csv" >"$work/out" 2>"$work/err"
    [ $? -eq 65 ] && grep -qF -- "$1" "$work/err" && grep -q 'nothing was recorded$' "$work/err" && good ||
        bad "$2: $(cat "$work/err")"
    [ "$(grep -c . "$record")" -eq "$before" ] && good || bad "$2: something was recorded"
}
csv 0 '' 'characteristic,part,value,person,temperature,# of the gauge\n1,1,3.012,,23degC,x\n2,1,1.1815in,,,\nthread M3,1,accept,Ben,,\n\n1,1,3.013,,,\n'
grep -qx '4 readings recorded' "$work/out" && good || bad "a CSV: $(cat "$work/out")"
grep -q 'characteristic=1 part=1 trial=2 value="3.013mm" time=[^ ]* person="Ann" ~' "$record" && good || bad 'a second trial of a CSV'
grep -q 'characteristic=3 .*person="Ben"' "$record" && good || bad 'the person of a row'
before=$(grep -c . "$record")
measure --readings "$work/readings.csv" --person Ann >"$work/out" 2>"$work/err" # once more
[ $? -eq 0 ] && grep -qx '0 readings recorded' "$work/out" && good || bad "a CSV once more: $(cat "$work/out" "$work/err")"
csv_bad 'readings.csv:2: value: 300.1mm is far outside the limits; 30.01 mm may be meant' 'characteristic,part,value\n2,2,300.1\n1,2,3.01\n'
csv_bad 'did you mean value?' 'characteristic,part,vaule\n1,2,3.01\n'
csv_bad 'columns characteristic, part and value' 'characteristic,value\n1,3.01\n'
csv_bad 'two columns have this name' 'characteristic,part,value,value\n1,2,3.01,3\n'
csv_bad 'readings.csv:3: characteristic: the record has no such' 'characteristic,part,value\n1,2,3.01\n7,2,3.01\n'
csv_bad 'more values than there are columns' 'characteristic,part,value\n1,2,3,01\n'
csv_bad 'a whole number was expected' 'characteristic,part,value\n1,2.5,3.01\n'
csv_bad 'the record has fewer parts' 'characteristic,part,value\n1,11,3.01\n'
csv_bad 'the part is missing' 'characteristic,part,value\n1,,3.01\n'
csv_bad 'the characteristic is missing' 'characteristic,part,value\n,2,3.01\n'
csv_bad 'the value is missing' 'characteristic,part,value\n1,2,\n'
csv_bad 'does not end' 'characteristic,part,value\n1,2,"3.01\n'
csv_bad 'this is not a time' 'characteristic,part,value,time\n1,2,3.01,noon\n'
csv_bad 'cannot be in a record' 'characteristic,part,value,note\n1,2,3.01,a\\\\b\n'
csv_bad 'the record has 3.012mm for this trial' 'characteristic,part,value,person\n1,1,3.02,Ann\n'
csv_bad 'were expected' ''
csv 0 '' 'part;characteristic;value [in];trial\r\n2;2;1.1815;3\r\n2;2;300.1mm!;4\r\n'
grep -q 'part=2 trial=3 value="1.1815in"' "$record" && grep -q 'trial=4 value="300.1mm"' "$record" && good || bad 'semicolons and a unit'
printf 'characteristic,value\n1,3.07\n' | measure --readings - --part 5 >"$work/out" 2>"$work/err"
[ $? -eq 0 ] && grep -q 'characteristic=1 part=5 trial=1 value="3.07mm"' "$record" && good || bad "a CSV of standard input: $(cat "$work/err")"
expect 66 'cannot be opened' -- measure --readings "$work/none.csv"

# ---- damage ----
by_hand
entered 0 '' '3.01\n30.01\na\n'
sed -i '31s/3.01mm/3.02mm/' "$record"
printf '3.03\n' | measure >"$work/out" 2>"$work/err"
[ $? -eq 65 ] && grep -q 'lens.record:31: the checksum of the line is wrong' "$work/err" &&
    grep -q 'until then it proves nothing' "$work/err" && good || bad "a damaged line: $(cat "$work/err")"
printf 'undo 31 read again\n' | measure >"$work/out" 2>"$work/err"
[ $? -eq 0 ] && good || bad "settling a damaged line: $(cat "$work/err")"
entered 0 '' '3.03\n'
sed -i 's/^upper = 3.1 mm/upper = 3.2 mm/' "$record"
printf '\n' | measure >"$work/out" 2>"$work/err"
[ $? -eq 65 ] && grep -q 'the head was changed' "$work/err" && good || bad "a changed head: $(cat "$work/err")"
printf 'seal drawing revision B\n' | measure >"$work/out" 2>"$work/err"
[ $? -eq 0 ] && good || bad "sealing a head: $(cat "$work/err")"
entered 0 '' ''
printf '40 read characteristic=1 par' >>"$record"
entered 0 'this line was cut off' '1: 3.04\n'
grep -q '^40 read characteristic=1 par ~cut$' "$record" && good || bad 'a torn line is closed'
entered 0 '' ''
printf '[format]\nkind = record\nversion = 1\n[characteristic.1]\nlower = 3\n' >"$work/bad.record"
"$program" measure "$work/bad.record" </dev/null >"$work/out" 2>"$work/err"
[ $? -eq 65 ] && grep -q 'bad.record:5:9: characteristic.1:lower' "$work/err" && grep -q '2 faults' "$work/err" &&
    good || bad "a head with faults: $(cat "$work/err")"

# ---- version 1 of the format, with a line from a later time ----
by_hand
cat >>"$record" <<'END'
[readings]
30 seal head=8f7355ac ~47518938
31 read characteristic=1 part=1 trial=1 value="3.012mm" temperature=23degC time=2099-11-30T20:00:55Z person="Ann" ~474e4b66
END
entered 0 'the clock is behind' '30.02\n'
wrote 'part 1, 2 width: 30.02mm, inside'

# the example of the manual page
sed -n '/^\.EX/,/^\.EE/p' "$source/tables/coolbite-record.5" | sed '/^\./d; s/\\-/-/g' >"$record"
entered 0 '' '3.02\n'
wrote 'part 2, 1 thickness: 3.02mm, inside'

# ---- a full disk, a record that is locked or read-only ----
by_hand
entered 0 '' '3.01\n'
blocks=$(($(wc -c <"$record") / 512)) # the next block begins within a few lines
(
    export GCOV_PREFIX="$work/counters" # counters of a coverage build that are cut short spoil all
    ulimit -f "$blocks"
    yes '2: 30.01' | measure >"$work/out" 2>"$work/err"
    echo $? >"$work/status"
) 2>/dev/null
[ "$(cat "$work/status")" -eq 73 ] && grep -q 'nothing was recorded' "$work/err" && good || bad "a full disk: $(cat "$work/err")"
entered 0 '' ''
if command -v flock >/dev/null 2>&1; then
    flock -o "$record" sleep 20 &
    locker=$!
    sleep 0.5
    says_first 74 'another program' '2: 30.01\n'
    kill "$locker"
    wait "$locker" 2>/dev/null
else
    skipped 'a record that is locked: there is no flock'
fi
if [ "$(id -u)" -ne 0 ]; then
    chmod 400 "$record"
    says_first 73 'Permission denied' '2: 30.01\n'
    chmod 600 "$record"
else
    skipped 'a record that is read-only, as root'
fi

# ---- killed while readings stream in ----
by_hand
: >"$work/confirmed"
kills=${BITE_TEST_KILLS:-10}
round=0
while [ "$round" -lt "$kills" ]; do
    round=$((round + 1))
    : >"$work/out"
    yes '2: 30.01' | GCOV_PREFIX=$work/counters "$program" measure "$record" >>"$work/out" 2>/dev/null &
    pid=$!
    sleep "0.$((1 + round * 7 % 4))$((round * 3 % 10))"
    kill -9 "$pid" 2>/dev/null
    wait "$pid" 2>/dev/null
    # a last line without its end was not confirmed
    sed -n 's/^line \([0-9]*\): .* inside$/\1/p' "$work/out" >>"$work/confirmed"
done
"$program" measure "$record" </dev/null >"$work/out" 2>"$work/err"
[ $? -eq 0 ] && good || bad "the record after kills: $(cat "$work/err")"
sed -n 's/^\([0-9]*\) read .*/\1/p' "$record" | sort >"$work/lines"
sort "$work/confirmed" | comm -23 - "$work/lines" >"$work/lost"
[ ! -s "$work/lost" ] && [ -s "$work/confirmed" ] && good || bad "lost after kills: $(cat "$work/lost")"
echo "$kills kills of the program: $(wc -l <"$work/confirmed") readings confirmed, $(wc -l <"$work/lost") lost"

# ---- ten parts at a terminal ----
if command -v tmux >/dev/null 2>&1; then
    by_hand
    tmux_() { tmux -L "bite-$$" -f /dev/null "$@"; }
    # waits until the screen has the text
    shows() {
        for _ in $(seq 200); do
            tmux_ capture-pane -p -S -200 -t bite >"$work/screen"
            grep -qF -- "$1" "$work/screen" && return 0
            sleep 0.05
        done
        bad "the terminal does not show \"$1\": $(grep . "$work/screen" | tail -n 12)"
        return 1
    }
    type() {
        tmux_ send-keys -t bite -l -- "$1" && tmux_ send-keys -t bite Enter
        shows "$2"
    }
    tmux_ new-session -d -s bite -x 100 -y 40 \
        "'$program' measure '$record' --person Ann --temperature 23degC; echo ended with \$?; sleep 60"
    shows 'LC-7 lens cover, part 1 of 10: 1 thickness, 2.9 to 3.1 mm, micrometer' && good
    part=1
    while [ "$part" -le 10 ]; do
        if [ "$part" -eq 2 ]; then # slips, and ways to go back
            type 30.02 '3.002 mm may have been meant' && type 3.002 'line 34: 3.002mm, inside' && good
            type 30.0123 'is finer than the instrument reads' && type y 'line 35: 30.0123mm, inside' && good
            type undo 'line 36: line 35 is withdrawn' && type 30.02 'line 37: 30.02mm, inside' && good
            type 3.1 'not a judgement' && type '?' 'all readings are stored already' && good
            type 'skip the gauge is away' '3 skipped: the gauge is away' && good
            type 'part 2' 'Part 2: nothing is due on it' && type 'part 3' 'part 3 of 10' && type 'person Ben' 'part 3 of 10' && good
        else
            type "3.00$((part % 10))" "part $part of 10: 2 width" && type "30.0$((part % 10))" "part $part of 10: 3 thread M3" || break
            [ "$part" -eq 10 ] && type accept 'Everything is measured' || type accept "part $((part + 1)) of 10: 1 thickness" || break
        fi
        part=$((part + 1))
    done
    type quit 'ended with 0' && good
    tmux_ kill-server
    holds 30 read
    holds 1 skip
    holds 1 undo
    [ "$(grep -c 'person="Ben"' "$record")" -eq 24 ] && good || bad 'who measured'
    entered 0 '' ''
else
    skipped 'ten parts at a terminal: there is no tmux'
fi

finish
