#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# one_processor.sh FOLDER COMMAND [ARGUMENT ...]
# Runs a command on one processor: on one that no other command holds by a lock in FOLDER, or where
# all are held, on the first. Its threads then count branches without a race, since a counter is
# added to by one instruction.
set -u
locks=$1
shift
command -v taskset >/dev/null 2>&1 && command -v flock >/dev/null 2>&1 || exec "$@"
held=199
processors=$(taskset -cp $$ | sed 's/.*: //' | tr ',' '\n' | while IFS=- read -r first last; do
    seq "$first" "${last:-$first}"
done)
for processor in $processors; do
    flock --nonblock --close --conflict-exit-code "$held" "$locks/processor-$processor" \
        taskset -c "$processor" "$@"
    status=$?
    [ "$status" = "$held" ] || exit "$status"
done
for processor in $processors; do
    exec taskset -c "$processor" "$@"
done
