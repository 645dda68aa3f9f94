#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# All that can be tested, from the build folder, one leg after the other, with the time of each:
#
#   make check-all                            all of it: some hours
#   make check-all CHECK_ALL='check machine'  these legs alone
#   make check-all FUZZ_SECONDS=3600          fuzzing for an hour per target, 60 s otherwise
#
# A leg whose tools are not installed is skipped, and the last lines say so. Its output is kept in
# check-all/LEG.log.
set -u
source=${BITE_TEST_SOURCE:?is set by make check-all}
build=${BITE_TEST_BUILD:?is set by make check-all}
case $source in /*) ;; *) source=$(cd "$source" && pwd) ;; esac
cd "$build" || exit 99
export FUZZ_SECONDS="${FUZZ_SECONDS:-60}" BITE_TEST_SOURCE="$source" BITE_TEST_BUILD="$build"
logs=$build/check-all
mkdir -p "$logs"

legs='check reference field oracle kills machine memory valgrind sanitizers fuzz analysers coverage mutation'

# A second build, below this one.
configured() { # folder, then words of configure
    folder=$logs/$1
    shift
    mkdir -p "$folder" && cd "$folder" || return 1
    [ -f Makefile ] || "$source/configure" -q "$@"
}

needs() {
    for tool in "$@"; do
        command -v "$tool" >/dev/null 2>&1 || {
            echo "not installed: $tool"
            return 77
        }
    done
}

leg_check() { make check; }
leg_reference() { make tests/reference/test_reference && sh "$source/tests/support/with_families.sh" . tests/reference/test_reference; }
leg_field() { make tests/field/test_field && sh "$source/tests/support/with_families.sh" . tests/field/test_field; }
leg_oracle() { needs python3 && make check-oracle; }
leg_kills() { BITE_TEST_KILLS=1000 make check TESTS=$kill_tests; }
leg_machine() { needs python3 strace && BITE_MACHINE_EVERY=1 sh "$source/tests/machine/test_machine.sh"; }
leg_memory() { BITE_MEMORY_STEP=${BITE_MEMORY_STEP:-places} sh "$source/tests/memory/test_memory.sh"; }
leg_valgrind() { needs valgrind && make check-valgrind; }
leg_sanitizers() {
    configured sanitizers --with-sanitizers=address,undefined CFLAGS='-O1 -g' &&
        ASAN_OPTIONS=detect_leaks=1:abort_on_error=1 make check
}
leg_fuzz() {
    needs clang && configured fuzz CC=clang CFLAGS='-O1 -g -fsanitize=fuzzer-no-link' \
        --with-sanitizers=address,undefined && make fuzz
}
leg_analysers() { make analyse; }
leg_coverage() { make coverage; }
leg_mutation() { make mutation; }

kill_tests=$(cd "$source" && grep -rl 'getenv("BITE_TEST_KILLS")' tests --include='*.c' | sed 's/\.c$//' | tr '\n' ' ')
failed=0
total=0
summary=$logs/summary
: >"$summary"
for leg in ${CHECK_ALL:-$legs}; do
    case " $legs " in *" $leg "*) ;; *)
        echo "check-all: there is no leg named $leg; expected some of: $legs" >&2
        exit 64
        ;;
    esac
    began=$(date +%s)
    (leg_"$leg") >"$logs/$leg.log" 2>&1
    status=$?
    took=$(($(date +%s) - began))
    total=$((total + took))
    case $status in
        0) word=passed ;;
        77) word=skipped ;;
        *) word="FAILED ($status)" failed=$((failed + 1)) ;;
    esac
    printf '%-12s %6d s  %s\n' "$leg" "$took" "$word" | tee -a "$summary"
    [ "$status" -eq 0 ] || tail -n 15 "$logs/$leg.log"
done
echo
cat "$summary"
echo "$total s in all, $failed legs failed; logs: $logs"
[ "$failed" -eq 0 ]
