#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# analyse.sh [TOOL ...]
# Runs analysers of the code and of running tests, each on a new build below analysis/ in the folder
# of the build, and compares what they find with answers.txt. A finding without an answer fails; so
# does an answer without a reason. An answer that answers nothing is reported. README.md lists the
# tools. ANALYSE_JOBS: processes at a time, 2. ANALYSE_LAUNCHER: before the compiler, as ccache.
set -u
here=$(cd "$(dirname "$0")" && pwd)
source=$(cd "${BITE_TEST_SOURCE:-$here/../..}" && pwd)
build=$(cd "${BITE_TEST_BUILD:-.}" && pwd)
jobs=${ANALYSE_JOBS:-2}
launcher=${ANALYSE_LAUNCHER:-}
all='cppcheck clang-tidy fanalyzer asan tsan msan memcheck helgrind'
work=$build/analysis
failed=0
unavailable=''
mkdir -p "$work"

have() { command -v "$1" >/dev/null 2>&1; }
sources() { (cd "$source" && find core plugins bindings -name '*.c' ! -path '*/build/*' | sort); }

# new_build TOOL COMPILER CFLAGS CONFIGURE-WORD ...: library, program and plugins
new_build() {
    folder=$work/$1 compiler=$2 flags=$3
    shift 3
    rm -rf "$folder"
    mkdir "$folder"
    (cd "$folder" && "$source/configure" -q CC="${launcher:+$launcher }$compiler" CFLAGS="$flags" \
        --disable-hardening "$@" && make -k -s -j"$jobs") >"$folder.log" 2>&1 || {
        echo "$tool: the build failed, see $folder.log"
        tail -n 5 "$folder.log"
        return 1
    }
}

# What this tool says of the program or test is kept in its log, and a status other than 0 too. A
# program ends at the first fault that its sanitizer finds.
run_one() { # NAME COMMAND ...
    name=$1
    shift
    "$@" >"$work/$tool/one.log" 2>&1 </dev/null
    status=$?
    cat "$work/$tool/one.log" >>"$work/$tool.log"
    [ $status -eq 0 ] || echo "run $name: exit status $status" >>"$work/$tool.log"
}

# run_tests TEST ...: builds them, and runs each as make check does, in one process. Words before a
# program are in $under.
run_tests() {
    (cd "$work/$tool" && make -s -j"$jobs" test-modules "$@") >"$work/$tool/tests.log" 2>&1 || {
        echo "$tool: tests were not built, see $work/$tool/tests.log"
        return 1
    }
    for test in "$@"; do
        # shellcheck disable=SC2086
        (cd "$work/$tool" &&
            export BITE_TEST_SOURCE="$source" BITE_TEST_BUILD="$PWD" BITE_TEST_SHORT=1 &&
            export CK_FORK=no CK_DEFAULT_TIMEOUT=0 &&
            run_one "$test" ./libtool --mode=execute $under "$test")
    done
}

# Commands that reach each layer, as typed in a shop.
run_commands() {
    mkdir -p "$work/$tool/families" "$work/$tool/made"
    cp "$work/$tool"/plugins/.libs/*.so "$work/$tool/families/"
    chmod 755 "$work/$tool"/families/*
    sed "/^#/d; s,@jobs@,$source/tables/jobs,g; s,@tables@,$source/tables,g; s,@here@,$here,g" \
        "$here/commands.txt" >"$work/$tool/commands"
    while read -r line; do
        # shellcheck disable=SC2086
        (cd "$work/$tool/made" && export HOME="$PWD" LC_ALL=C &&
            export COOLBITE_FAMILY_PATH="$work/$tool/families" &&
            export COOLBITE_TABLE_PATH="$source/tables" &&
            run_one "coolbite $line" ../libtool --mode=execute $under ../coolbite $line)
    done <"$work/$tool/commands"
}

# ---- of the text of the program ----

# In one process: with -j version 2.10 does not follow arguments into functions of other files.
analyse_cppcheck() {
    have cppcheck || return 77
    (cd "$source" && sources | xargs -n 1000 cppcheck --quiet --std=c17 -D_GNU_SOURCE \
        -DHAVE_CONFIG_H --enable=warning,style,performance,portability \
        --suppressions-list="$here/cppcheck.txt" -I. -Iinclude -I"$build" \
        --template='{file}: [{id}] {message}') >"$work/cppcheck.log" 2>&1
}

# One file at a time: some checks of version 14 know functions by what the first file had of them.
analyse_clang_tidy() {
    have clang-tidy || return 77
    export here build
    (cd "$source" && sources | xargs -P "$jobs" -n 1 sh -c '
        checks= model="-include $here/model.h"
        case $1 in
            bindings/*) checks=-concurrency-mt-unsafe ;;
            core/base/error.c | core/search/first_interface.c) model= ;;
        esac
        clang-tidy --quiet --config-file="$here/clang-tidy.yaml" --checks="$checks" \
            --header-filter="(core|plugins|bindings|include)/" "$1" -- -std=gnu17 -D_GNU_SOURCE \
            -DHAVE_CONFIG_H -I"$build" -I. -Iinclude $model -DBITE_FAMILY_DIR=\"/f\" \
            -DBITE_TABLE_DIR=\"/t\"' tidy) >"$work/clang-tidy.log" 2>"$work/clang-tidy.errors"
}

analyse_fanalyzer() {
    have gcc || return 77
    new_build fanalyzer gcc '-g -O1 -fanalyzer'
}

# ---- of the program while it runs ----

analyse_asan() {
    have gcc || return 77
    new_build asan gcc '-g -O1' --with-sanitizers=address,undefined,float-cast-overflow || return 1
    export ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=print_stacktrace=0
    under=''
    # shellcheck disable=SC2046
    run_tests $(tests_of asan) && run_commands
}

analyse_tsan() {
    have clang || return 77
    new_build tsan clang '-g -O1' --with-sanitizers=thread || return 1
    export TSAN_OPTIONS='halt_on_error=0 second_deadlock_stack=1' BITE_TEST_ROUNDS=6
    under=''
    # shellcheck disable=SC2046
    run_tests $(tests_of tsan) && run_commands
    unset BITE_TEST_ROUNDS
}

analyse_msan() {
    have clang || return 77
    sh "$here/msan_libraries.sh" "$work/msan-libraries" || return 77
    PKG_CONFIG_PATH=$work/msan-libraries/lib/pkgconfig
    export PKG_CONFIG_PATH
    new_build msan clang '-g -O1 -fsanitize-memory-track-origins' --with-sanitizers=memory ||
        return 1
    unset PKG_CONFIG_PATH
    clang -shared -fPIC -O1 -o "$work/msan/initialized.so" "$here/initialized.c" || return 1
    under="env LD_PRELOAD=$work/msan/initialized.so"
    # shellcheck disable=SC2046
    run_tests $(tests_of msan) && run_commands
}

valgrind_build() {
    have valgrind || return 77
    new_build "$tool" gcc '-g -O1' || return 1
}

analyse_memcheck() {
    valgrind_build || return
    under="valgrind --quiet --error-exitcode=99 --leak-check=full --fullpath-after=$source/"
    under="$under --show-leak-kinds=definite,indirect --errors-for-leak-kinds=definite,indirect"
    # shellcheck disable=SC2046
    run_tests $(tests_of memcheck) && run_commands
}

analyse_helgrind() {
    valgrind_build || return
    export BITE_TEST_ROUNDS=1
    under="valgrind --quiet --tool=helgrind --error-exitcode=99 --fullpath-after=$source/"
    under="$under --suppressions=$here/helgrind.supp"
    # shellcheck disable=SC2046
    run_tests $(tests_of helgrind) && run_commands
    unset BITE_TEST_ROUNDS
}

tests_of() {
    awk -v tool="$1" '!/^#/ { for (i = 2; i <= NF; i++) if ($i == tool) print "tests/" $1 }' \
        "$here/tests.txt"
}

# ---- all of them ----

[ $# -gt 0 ] || set -- $all
for tool in "$@"; do
    case " $all " in *" $tool "*) ;; *) echo "there is no $tool; one of: $all"; exit 64 ;; esac
done
for tool in "$@"; do
    rm -f "$work/$tool.log" "$work/$tool.findings"
    began=$(date +%s)
    "analyse_$(echo "$tool" | tr - _)"
    status=$?
    if [ $status -eq 77 ]; then
        unavailable="$unavailable $tool"
        continue
    fi
    [ $status -eq 0 ] || failed=$((failed + 1))
    awk -v tool="$tool" -v source="$source/" -f "$here/findings.awk" "$work/$tool.log" |
        LC_ALL=C sort -u >"$work/$tool.findings"
    awk -v tool="$tool" -v seconds=$(($(date +%s) - began)) -f "$here/answers.awk" \
        "$here/answers.txt" "$work/$tool.findings" || failed=$((failed + 1))
done
[ -z "$unavailable" ] || echo "not run, for they are not here:$unavailable"
[ $failed -eq 0 ]
