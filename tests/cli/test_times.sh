#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# --took: recorded after everything else has succeeded, under the whole title; a full table is
# reported and stays usable.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"
export XDG_DATA_HOME="$work/data"
times=$XDG_DATA_HOME/coolbite/tables/times.ini
cd "$work" || exit 99

took() { "$program" job "$1" --draws 1 --exit-zero --took "$2" >"$work/out" 2>"$work/err"; }
records() { "$program" list times 2>/dev/null | grep -c 'took'; }
works() {
    check "$1: the table is read" [ -z "$("$program" list left-out | grep times)" ]
    check "$1: $2 records" [ "$(records)" -eq "$2" ]
}

# ---- a command that fails records nothing ----
small_job 'A job' >job.ini
expect 73 'cannot be written' -- "$program" job job.ini --draws 1 --took 20min --output none/plan.txt
expect 73 'cannot be written' -- "$program" job job.ini --draws 1 --took 20min --sheet none/sheet.html
expect 64 'would be overwritten' -- "$program" job job.ini --draws 1 --took 20min --format text --output ./job.ini
if [ -w /dev/full ]; then
    "$program" job job.ini --draws 1 --took 20min >/dev/full 2>"$work/err"
    check 'the exit status of a full disk is 73' [ $? -eq 73 ]
fi
check 'nothing was recorded' [ ! -e "$times" ]
(umask 000 && took job.ini 20min)
works 'a job, with a umask of 0' 1
rm -f "$times"
expect 0 '' -- "$program" job job.ini --draws 1 --exit-zero --took 20min --output plan.txt
works 'a job' 1
expect 73 'cannot be written' -- "$program" job job.ini --draws 1 --took forget --output none/plan.txt
works 'a command that fails removes nothing' 1
cp "$times" times.before
expect 64 'would be overwritten' -- "$program" job job.ini --draws 1 --took 30min --format text --output "$times"
check 'the times are not overwritten' cmp -s "$times" times.before

# ---- titles ----
for title in 'Lens 1/2' 'Lens 1-2' 'LENS 1/2' 'Lens  1/2'; do
    small_job "$title" >job.ini
    took job.ini 30min
    took job.ini 40min
done
works 'titles that differ in punctuation' 5
"$program" list times >"$work/out"
for title in 'Lens 1/2' 'Lens 1-2' 'LENS 1/2'; do
    check "the list shows $title" grep -qF "$title: planned" "$work/out"
done
small_job 'Lens 1-2' >job.ini
expect 0 '' -- "$program" job job.ini --draws 1 --exit-zero --took forget
works 'one of them is removed' 4
check 'the other is kept' grep -qF 'title = "Lens 1/2"' "$times"

# ---- a full table ----
{
    printf '[format]\nkind = times\nversion = 1\n'
    i=0
    while [ $i -lt 3199 ]; do
        printf '[time.t%d]\nplanned = 100 s\nplanned.source = memory\ntook = 120 s\ntook.source = memory\n' $i
        i=$((i + 1))
    done
} >"$times"
cp "$times" times.before
works 'a full table' 3199
small_job 'The 3200th' >job.ini
expect 73 'is full and was left unchanged' -- "$program" job job.ini --draws 1 --exit-zero --took 20min
check 'the message says what to do' grep -q 'remove old times' "$work/err"
check 'the message names the table' grep -qF "$times" "$work/err"
check 'a full table is unchanged' cmp -s "$times" times.before
works 'a full table' 3199
expect 0 '' -- "$program" job job.ini --draws 1 --exit-zero
check 'plans are still corrected' grep -q "of this shop's own times" "$work/out"
for title in t1 t2; do
    small_job $title >old.ini
    expect 0 '' -- "$program" job old.ini --draws 1 --exit-zero --took forget
done
expect 0 '' -- "$program" job job.ini --draws 1 --exit-zero --took 20min
works 'after removing two' 3198

# ---- a full disk, killed writers ----
cp "$times" times.before
if unshare -rm true 2>/dev/null; then
    export program work
    unshare -rm sh -c '
        mkdir -p disk && mount -t tmpfs -o size=512k none disk && mkdir -p disk/coolbite/tables || exit 98
        cp times.before disk/coolbite/tables/times.ini
        head -c 1000000 /dev/zero >disk/ballast 2>/dev/null
        XDG_DATA_HOME=$work/disk "$program" job job.ini --draws 1 --exit-zero --took 25min >/dev/null 2>"$work/err"
        [ $? -eq 73 ] && cmp -s times.before disk/coolbite/tables/times.ini &&
            [ "$(ls disk/coolbite/tables)" = times.ini ] && grep -q "No space left" "$work/err"
    '
    status=$?
    if [ "$status" -eq 98 ]; then skipped 'a small disk: none can be mounted'
    else check "a small disk that is full: $(cat "$work/err")" [ "$status" -eq 0 ]; fi
else
    skipped 'a small disk: a private name space is not allowed'
fi
small_job 't5' >killed.ini
i=0
while [ $i -lt 12 ]; do
    GCOV_PREFIX=$work/counters "$program" job killed.ini --draws 1 --exit-zero --took 30min >/dev/null 2>&1 &
    sleep "0.0$((10 + 3 * i))"
    kill -9 $! 2>/dev/null
    wait $! 2>/dev/null
    i=$((i + 1))
done
works 'killed writers' 3198
took killed.ini 31min
works 'after killed writers' 3198
check 'no temporary file is left' [ "$(ls "${times%/*}")" = times.ini ]

finish
