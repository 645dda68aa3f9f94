#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Runs each fuzz target for some seconds, from the seeds of replay.c and those of tests/fuzz/seeds:
#
#   ../configure CC=clang CFLAGS='-O1 -g -fsanitize=fuzzer-no-link' --with-sanitizers=address,undefined
#   make fuzz FUZZ_SECONDS=60
#
# An input on which a target fails is kept below fuzz-findings/. Once its fault is mended it becomes a
# file of tests/fuzz/seeds/TARGET, which make check replays. FUZZ_ONLY=TARGET: that one alone.
# FUZZ_SEED: of the random numbers, 1 unless it is given, so that a change is judged by the same inputs as
# the one before; 0: other ones each time.
set -u
source=${BITE_TEST_SOURCE:-.}
build=${BITE_TEST_BUILD:-.}
seconds=${FUZZ_SECONDS:-10}
cd "$build" || exit 99
mkdir -p fuzz-findings
export ASAN_OPTIONS=detect_leaks=1:allocator_may_return_null=1 UBSAN_OPTIONS=print_stacktrace=1
failed=0
total=0
for program in tests/fuzz/fuzz_*; do
    [ -x "$program" ] && [ -f "$program" ] || continue
    name=${program##*/fuzz_}
    case $name in *.* | *-*) continue ;; esac
    [ "${FUZZ_ONLY:-$name}" = "$name" ] || continue
    mkdir -p "fuzz-corpus/$name"
    BITE_FUZZ_SEEDS="fuzz-corpus/$name" BITE_FUZZ_ROUNDS=0 "tests/fuzz/replay_$name" >/dev/null
    [ ! -d "$source/tests/fuzz/seeds/$name" ] || cp "$source/tests/fuzz/seeds/$name"/* "fuzz-corpus/$name/"
    "$program" -seed="${FUZZ_SEED:-1}" -max_total_time="$seconds" -max_len=4096 -timeout=20 -rss_limit_mb=2048 -close_fd_mask=1 -print_final_stats=1 \
        -artifact_prefix="fuzz-findings/$name-" "fuzz-corpus/$name" >"fuzz-findings/$name.log" 2>&1 </dev/null
    status=$?
    runs=$(sed -n 's/^stat::number_of_executed_units: *//p' "fuzz-findings/$name.log")
    total=$((total + ${runs:-0}))
    if [ $status -ne 0 ]; then
        failed=$((failed + 1))
        echo "FAILED: $name, exit status $status"
        grep -E 'ERROR|runtime error|abort|SUMMARY|artifact' "fuzz-findings/$name.log" | head -n 8
    else
        echo "$name: ${runs:-0} executions"
    fi
done
echo "$total executions, $failed targets failed"
[ $failed -eq 0 ] && [ "$total" -gt 0 ]
