#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# --output and --sheet: input files are never overwritten, links and devices stay what they are, no
# file is incomplete.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"
mkdir "$work/shop" && cd "$work/shop" || exit 99
small_job 'A small job' >job.ini
cp job.ini job.before

job_() { "$program" job job.ini --draws 1 --exit-zero "$@"; }
same_job() { check "$1: the job is unchanged" cmp -s job.ini job.before; }
job_ >plan.txt || exit 99
has_plan() { cmp -s "$1" plan.txt; }
is_link() { [ -h "$1" ]; }
mode_is() { [ "$(stat -c %a "$1")" = "$2" ]; }
none_left() { [ -z "$(find "$work" -name '*coolbite-*.tmp')" ]; }

# ---- the job is not overwritten under any name ----
ln job.ini hard.ini
ln -s job.ini soft.ini
ln -s soft.ini softer.ini
mkdir below && ln -s ../job.ini below/link.ini
for name in job.ini ./job.ini "$work/shop/job.ini" ../shop/job.ini hard.ini soft.ini softer.ini below/link.ini; do
    expect 64 'would be overwritten' -- job_ --format text --output "$name"
    same_job "--output $name"
done
for name in ./hard.html soft.html; do
    ln -f job.ini "$name"
    expect 64 'would be overwritten' -- job_ --sheet "$name"
    same_job "--sheet $name"
    rm "$name"
done
want=64 says='would be overwritten'
job_ >>job.ini 2>"$work/err"; judge $? 'job >>job.ini'
same_job '>>job.ini'
job_ 1<>job.ini 2>"$work/err"; judge $? 'job 1<>job.ini'
same_job '1<>job.ini'
job_ --format text --output /dev/fd/5 5>>job.ini 2>"$work/err"; judge $? '--output /dev/fd/5 5>>job.ini'
same_job '/dev/fd/5'
check 'the links are links' is_link soft.ini
check 'the links are links' is_link below/link.ini

# ---- the plan and the sheet must be two files ----
expect 64 'would be overwritten' -- job_ --sheet a.html --output ./a.html
expect 64 'would be overwritten' -- job_ --sheet a.html --output "$work/shop/a.html"
ln -s a.html b.html
ln -s a.html c.html
expect 64 'would be overwritten' -- job_ --sheet b.html --output c.html
check 'nothing was written' [ ! -e a.html ]
echo old >a.html
ln a.html d.html
expect 64 'would be overwritten' -- job_ --sheet b.html --output d.html
want=64 says='would be overwritten'
job_ --sheet a.html >>a.html 2>"$work/err"; judge $? 'job --sheet a.html >>a.html'
check 'the sheet is unchanged' [ "$(cat a.html)" = old ]
expect 0 '' -- job_ --sheet /dev/null --output /dev/null
expect 0 '' -- job_ --sheet a.html --output plan2.txt
check 'a sheet' grep -q '<html' a.html
check 'a plan' has_plan plan2.txt

# ---- tables and plugins are not overwritten ----
for file in tables/tools.ini tables/uncertainty.ini tables/materials/acrylic.ini families/acrylic.so; do
    cp "$work/$file" "$work/before"
    expect 64 'would be overwritten' -- "$program" list tools --format text --output "$work/$file"
    ln -sf "$work/$file" link.txt
    expect 64 'would be overwritten' -- "$program" explain softening --output link.txt
    expect 64 'would be overwritten' -- job_ --output link.txt
    check "$file is unchanged" cmp -s "$work/$file" "$work/before"
done
cp "$work/tables/tools.ini" copy.ini
expect 0 '' -- "$program" list tools --format text --output copy.ini

# ---- links are followed ----
mkdir there
echo old >there/file.txt
chmod 640 there/file.txt
ln -s there/file.txt to-file.txt
ln -s to-file.txt to-link.txt
expect 0 '' -- job_ --output to-link.txt
check 'through two links' has_plan there/file.txt
check 'a link stays' is_link to-link.txt
check 'a link stays' is_link to-file.txt
check 'the mode stays' mode_is there/file.txt 640
ln -s there/new.txt to-new.txt
expect 0 '' -- job_ --output to-new.txt
check 'a link to a new file' has_plan there/new.txt
check 'a link stays' is_link to-new.txt
ln -s loop-2.txt loop-1.txt
ln -s loop-1.txt loop-2.txt
expect 73 'loop-1.txt: cannot be written' -- job_ --output loop-1.txt

# ---- descriptors, devices, pipes ----
for name in /dev/stdout /dev/fd/1 /proc/self/fd/1 -; do
    job_ --output "$name" >f 2>"$work/err"
    check "--output $name >f" has_plan f
    job_ --output "$name" 2>"$work/err" | cmp -s - plan.txt
    check "--output $name |" [ $? -eq 0 ]
    check "no message about $name" [ ! -s "$work/err" ]
done
ln -s /dev/stdout to-stdout
job_ --output to-stdout >f
check 'a link to /dev/stdout' has_plan f
check 'a link stays' is_link to-stdout
check '/dev/stdout is a link' is_link /dev/stdout
{ echo before; job_ --output /dev/fd/1; echo after; } >f
{ echo before; cat plan.txt; echo after; } >f.wanted
check 'between the output of other commands' cmp -s f f.wanted
job_ --output /dev/fd/7 7>f
check '--output /dev/fd/7 7>f' has_plan f
job_ --output /dev/stderr 2>f >f.out
check '--output /dev/stderr' has_plan f
check 'nothing on standard output' [ ! -s f.out ]
expect 73 'cannot be written' -- job_ --output /dev/fd/77
want=73 says='cannot be written'
job_ --output /dev/fd/0 <job.ini 2>"$work/err"; judge $? '--output /dev/fd/0'
job_ >&- 2>"$work/err"; judge $? 'job >&-'
mkfifo pipe
cat pipe >f &
expect 0 '' -- job_ --output pipe
wait
check 'a pipe' has_plan f
check 'a pipe stays' [ -p pipe ]
expect 0 '' -- job_ --output /dev/null
check '/dev/null stays' [ -c /dev/null ]
if [ -w /dev/full ]; then
    expect 73 'No space left' -- job_ --output /dev/full
    expect 73 'No space left' -- job_ --sheet /dev/full
    want=73 says='No space left'
    job_ >/dev/full 2>"$work/err"; judge $? 'job >/dev/full'
fi

# ---- output that cannot be written ----
for name in . ./ .. there there/ "$work" /; do expect 73 'folder' -- job_ --output "$name"; done
expect 73 'cannot be written' -- job_ --output ''
expect 73 'cannot be written' -- job_ --output none/file.txt
expect 73 'cannot be written' -- job_ --output plan.txt/file.txt
check 'the plan stays' [ -s plan.txt ]
expect 73 'cannot be written' -- job_ --output "$(head -c 5000 /dev/zero | tr '\0' x)"

# ---- a full disk, a read-only folder, a killed writer ----
echo old >full.csv
(
    export GCOV_PREFIX="$work/counters" # counters of a coverage build that are cut short spoil all
    ulimit -f 1000 # half a megabyte or one: enough for the tables, too little for the answer
    trap '' XFSZ
    "$program" window --material acrylic/cast --tool 0.8mm --spindle 12000rpm --feed 200mm/min \
        --depth 0.4mm --exit-zero --draws 1 --format csv --output full.csv 2>"$work/err"
)
check 'the exit status of a file that grows too large is 73' [ $? -eq 73 ]
check 'the message gives the reason' grep -q 'cannot be written: File too large' "$work/err"
check 'the old file is kept on a full disk' [ "$(cat full.csv)" = old ]
check 'no temporary file is left' none_left
if unshare -rm true 2>/dev/null; then
    export program work
    unshare -rm sh -c '
        mkdir disk && mount -t tmpfs -o size=16k none disk && cd disk || exit 98
        echo old >file.txt
        head -c 12000 /dev/zero >ballast
        "$program" job ../job.ini --draws 1 --exit-zero --output file.txt 2>"$work/err"
        [ $? -eq 73 ] && [ "$(cat file.txt)" = old ] && [ "$(ls)" = "ballast
file.txt" ] && grep -q "No space left" "$work/err"
    '
    status=$?
    if [ "$status" -eq 98 ]; then skipped 'a small disk: none can be mounted'
    else check "a small disk that is full: $(cat "$work/err")" [ "$status" -eq 0 ]; fi
else
    skipped 'a small disk: a private name space is not allowed'
fi
if [ "$(id -u)" -ne 0 ]; then
    echo old >there/kept.txt
    chmod 555 there
    expect 73 'cannot be written' -- job_ --output there/kept.txt
    expect 73 'cannot be written' -- job_ --output there/other.txt
    chmod 755 there
    chmod 444 there/kept.txt
    expect 73 'cannot be written' -- job_ --output there/kept.txt
    check 'a read-only file is kept' [ "$(cat there/kept.txt)" = old ]
else
    skipped 'read-only folders: root can write everywhere'
fi
echo old >killed.txt
i=0
while [ $i -lt 12 ]; do
    GCOV_PREFIX=$work/counters "$program" job job.ini --draws 1 --format json --output killed.txt 2>/dev/null &
    sleep "0.0$((10 + 3 * i))"
    kill -9 $! 2>/dev/null
    wait $! 2>/dev/null
    case $(head -c 3 killed.txt)$(tail -c 2 killed.txt) in old* | '{'*'}') good ;; *) bad "a killed writer left an incomplete file: $(head -c 40 killed.txt)" ;; esac
    i=$((i + 1))
done
expect 0 '' -- job_ --format text --output killed.txt
check 'the next writer succeeds' has_plan killed.txt
check 'the next writer removes temporary files' none_left

# several writers at once: the file of one of them, complete
i=0
while [ $i -lt 6 ]; do
    job_ --format text --output both.txt &
    job_ --format json --output both.txt.json &
    i=$((i + 1))
done
wait
check 'several writers at once' has_plan both.txt
check 'several writers at once leave no temporary file' none_left
same_job 'at the end'

finish
