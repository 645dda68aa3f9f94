#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The five programs of the manual, built against an installed tree with nothing but what pkg-config and
# CMake say of it, then run as a reader of the manual would.
set -u
source=${BITE_TEST_SOURCE:-.}
build=${BITE_TEST_BUILD:-.}
case $source in /*) ;; *) source=$PWD/$source ;; esac
case $build in /*) ;; *) build=$PWD/$build ;; esac
work=$(mktemp -d "${TMPDIR:-/tmp}/bite-programs-XXXXXX") || exit 99
trap 'rm -rf "$work"' EXIT
passed=0
failed=0
good() { passed=$((passed + 1)); }
bad() { failed=$((failed + 1)); echo "FAILED: $*"; }
check() {
    claim=$1
    shift
    if "$@"; then good; else bad "$claim"; fi
}

# ---- an installed tree, as a package has it ----
. "$source/tests/support/installed_tree.sh"
mandir=$(told mandir)
check 'every program is installed as an example' [ "$(ls "$stage$docdir"/examples/*.c | wc -l)" -eq 5 ]
check 'the pages of section 3 are installed' [ "$(ls "$stage$mandir"/man3/libcoolbite-*.3 | wc -l)" -ge 19 ]

# runs FOLDER: the programs in it say what the manual says that they do
runs() {
    folder=$1
    "$folder/one_cut" >"$work/out" 2>"$work/err"
    check "$folder: one_cut: exit status" [ $? -eq 0 ]
    check "$folder: one_cut: a verdict" grep -qE '^verdict: (clear|tight|over)$' "$work/out"
    # the band holds the estimate
    sed -n 's/^wall error: \([0-9.]*\) um, 5 % to 95 %: \([0-9.]*\) to \([0-9.]*\) um$/\1 \2 \3/p' "$work/out" >"$work/band"
    check "$folder: one_cut: the band" awk '{ exit !($2 <= $1 && $1 <= $3 && $3 > $2) } END { if (NR != 1) exit 1 }' "$work/band"
    "$folder/choose_settings" >"$work/out" 2>"$work/err"
    check "$folder: choose_settings: exit status" [ $? -eq 0 ]
    check "$folder: choose_settings: clear" grep -qx 'verdict: clear' "$work/out"
    check "$folder: choose_settings: passes" grep -qE '^passes: [1-9][0-9]*$' "$work/out"
    "$folder/many_cuts" >"$work/out" 2>"$work/err"
    check "$folder: many_cuts: exit status" [ $? -eq 0 ]
    check "$folder: many_cuts: of all" grep -qE '^[0-9]+ of 100000 cuts are clear$' "$work/out"
    "$folder/own_allocator" >"$work/out" 2>"$work/err"
    check "$folder: own_allocator: exit status" [ $? -eq 0 ]
    check "$folder: own_allocator: refused" grep -q 'half of that: BITE_NO_MEMORY, 0 bytes left behind' "$work/out"
    "$folder/plan_job" "$stage$tables/jobs/cover-lens.ini" "$work/sheet.html" >"$work/out" 2>"$work/err"
    check "$folder: plan_job: exit status" [ $? -eq 0 ]
    check "$folder: plan_job: clear" grep -qx 'verdict: clear' "$work/out"
    check "$folder: plan_job: a sheet" grep -q '</html>' "$work/sheet.html"
    sed 's/^thickness = .*/thickness = -2 mm/; s/^title = .*/nonsense = 1/' "$stage$tables/jobs/cover-lens.ini" >"$work/bad.ini"
    rm -f "$work/none.html"
    "$folder/plan_job" "$work/bad.ini" "$work/none.html" >"$work/out" 2>"$work/err"
    check "$folder: plan_job: a faulty job" [ $? -eq 1 ]
    check "$folder: plan_job: each fault with its line" [ "$(grep -cE 'bad\.ini:[0-9]+: ' "$work/err")" -ge 2 ]
    check "$folder: plan_job: no sheet" [ ! -e "$work/none.html" ]
}

# ---- pkg-config and make ----
cp -r "$stage$docdir/examples" "$work/make"
make -C "$work/make" CC="$compiler" CFLAGS="-O1 -std=c99 -Wall -Wextra -pedantic -Werror $sanitizers" >"$work/log" 2>&1
check "make builds them: $(cat "$work/log")" [ $? -eq 0 ]
runs "$work/make"

# ---- CMake ----
if command -v cmake >/dev/null 2>&1; then
    cp -r "$stage$docdir/examples" "$work/cmake"
    (cd "$work/cmake" && mkdir -p out && cd out &&
        cmake -DCMAKE_PREFIX_PATH="$stage$libdir/cmake" -DCMAKE_C_COMPILER="${compiler##* }" \
            -DCMAKE_C_FLAGS="$sanitizers" .. && cmake --build .) >"$work/log" 2>&1
    check "CMake builds them: $(tail -n 5 "$work/log")" [ $? -eq 0 ]
    runs "$work/cmake/out"
    # another version is not taken
    sed -i 's/find_package(coolbite 0.1 /find_package(coolbite 0.2 /' "$work/cmake/CMakeLists.txt"
    (cd "$work/cmake" && rm -rf out && mkdir out && cd out && cmake -DCMAKE_PREFIX_PATH="$stage$libdir/cmake" ..) >"$work/log" 2>&1
    check 'a version that is not there is refused' [ $? -ne 0 ]
else
    echo 'not tested here: cmake is not installed'
fi

printf '%d passed, %d failed\n' $passed $failed
[ $failed -eq 0 ]
