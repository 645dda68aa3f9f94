#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Tasks of a shop, each as a machinist would do it with the program and what he would check in the
# answer. A task is tasks/NAME.sh, which uses the functions below, and the files it names.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"
python=$(command -v python3 || true)
[ -n "$python" ] || { skipped 'tasks: python3 is needed to read JSON'; exit 77; }
tasks=$source/tests/job/tasks
case $tasks in /*) ;; *) tasks=$PWD/$tasks ;; esac

# ask ARGUMENTS: runs the program. Its answer is in $work/out, its message in $work/err, its exit
# status in $status
ask() {
    status=0
    "$program" "$@" >"$work/out" 2>"$work/err" || status=$?
}

# exits STATUS ...: the last answer ended with one of these
exits() {
    for allowed in "$@"; do
        if [ "$status" -eq "$allowed" ]; then good; return; fi
    done
    bad "$task: exit status $status, not $*: $(head -c 300 "$work/err")"
}

# says TEXT: the last answer or message contains it; line breaks count as spaces
says() {
    if cat "$work/out" "$work/err" | tr -s ' \n' '  ' | grep -qF -- "$1"; then good; else bad "$task: it does not say: $1"; fi
}

# says_not TEXT: it does not
says_not() {
    if cat "$work/out" "$work/err" | tr -s ' \n' '  ' | grep -qF -- "$1"; then bad "$task: it says: $1"; else good; fi
}

# holds CLAIM EXPRESSION: true of the last answer, which is JSON: in Python, d is the answer, named(l,
# n) the member of the list l whose name is n
holds() {
    if "$python" -c '
import json, math, sys
def named(things, name):
    found = [t for t in things if t.get("name") == name]
    assert len(found) == 1, "%d things named %s" % (len(found), name)
    return found[0]
d = json.load(open(sys.argv[1], encoding="utf-8"))
sys.exit(0 if eval(sys.argv[2]) else 1)' "$work/out" "$2" 2>"$work/why"; then good; else bad "$task: $1: $(tail -n 1 "$work/why")"; fi
}

# plan FILE ARGUMENTS: plans a job of the tasks, as JSON
plan() {
    file=$1
    shift
    ask job "$tasks/$file" --format json "$@"
}

chosen=${BITE_TEST_TASK:-*}
for script in "$tasks"/$chosen.sh; do
    task=$(basename "$script" .sh)
    before=$passed
    . "$script"
    [ "$passed" -gt "$before" ] || bad "$task: nothing was checked"
done
finish
