#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Runs each fuzz target under AFL++ for some seconds, from the same seeds as fuzz.sh:
#
#   ../configure CC=afl-clang-fast CFLAGS='-O1 -g'
#   make fuzz-afl FUZZ_SECONDS=60
#
# An input on which a target crashes or hangs is kept below fuzz-findings/, as by fuzz.sh, and becomes a
# file of tests/fuzz/seeds/TARGET once its fault is mended. FUZZ_ONLY and FUZZ_SEED as in fuzz.sh.
set -u
source=${BITE_TEST_SOURCE:-.}
build=${BITE_TEST_BUILD:-.}
seconds=${FUZZ_SECONDS:-10}
cd "$build" || exit 99
command -v afl-fuzz >/dev/null 2>&1 || {
    echo "afl-fuzz is not here"
    exit 77
}
mkdir -p fuzz-findings
# no screen, no demands on how this machine keeps crashes and clocks its processors
export AFL_NO_UI=1 AFL_SKIP_CPUFREQ=1 AFL_NO_AFFINITY=1 AFL_I_DONT_CARE_ABOUT_MISSING_CRASHES=1

seed_words() { [ "${FUZZ_SEED:-1}" = 0 ] || echo "-s ${FUZZ_SEED:-1}"; }

# A figure of afl-fuzz's own statistics; 0 if it wrote none.
statistic() { # file, name
    figure=$(sed -n "s/^$2 *: *//p" "$1" 2>/dev/null)
    echo "${figure:-0}"
}

failed=0
total=0
for program in tests/fuzz/fuzz_*; do
    [ -x "$program" ] && [ -f "$program" ] || continue
    name=${program##*/fuzz_}
    case $name in *.* | *-*) continue ;; esac
    [ "${FUZZ_ONLY:-$name}" = "$name" ] || continue
    seeds=fuzz-corpus/afl-$name results=fuzz-findings/afl-$name
    rm -rf "$seeds" "$results"
    mkdir -p "$seeds"
    BITE_FUZZ_SEEDS="$seeds" BITE_FUZZ_ROUNDS=0 "tests/fuzz/replay_$name" >/dev/null
    [ ! -d "$source/tests/fuzz/seeds/$name" ] || cp "$source/tests/fuzz/seeds/$name"/* "$seeds/"
    # shellcheck disable=SC2046
    afl-fuzz -V "$seconds" -t 20000 -m none $(seed_words) -i "$seeds" -o "$results" -- "$program" \
        >"fuzz-findings/afl-$name.log" 2>&1 </dev/null
    status=$?
    statistics=$results/default/fuzzer_stats
    runs=$(statistic "$statistics" execs_done)
    faults=$(($(statistic "$statistics" saved_crashes) + $(statistic "$statistics" saved_hangs)))
    total=$((total + runs))
    if [ $status -ne 0 ] || [ "$faults" -ne 0 ] || [ "$runs" -eq 0 ]; then
        failed=$((failed + 1))
        echo "FAILED: $name, exit status $status, $faults inputs in $results/default"
        tail -n 4 "fuzz-findings/afl-$name.log"
    else
        echo "$name: $runs executions"
    fi
done
echo "$total executions, $failed targets failed"
[ $failed -eq 0 ] && [ "$total" -gt 0 ]
