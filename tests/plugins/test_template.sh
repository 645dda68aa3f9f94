#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The template of a plugin, taken from an installed tree to a folder of its own, built there in C and
# in C++, installed for the user, and asked.
set -u
source=${BITE_TEST_SOURCE:-.}
build=${BITE_TEST_BUILD:-.}
case $build in /*) ;; *) build=$PWD/$build ;; esac
work=$(mktemp -d "${TMPDIR:-/tmp}/bite-template-XXXXXX") || exit 99
trap 'rm -rf "$work"' EXIT
passed=0
failed=0
good() { passed=$((passed + 1)); }
bad() { failed=$((failed + 1)); echo "FAILED: $*"; }
. "$source/tests/support/installed_tree.sh"
[ -z "$sanitizers" ] || { echo 'plugins of others have no sanitizers: skipped'; exit 77; }
bindir=$(told bindir)
[ -z "$(ls "$stage$families" | grep -v '\.so$')" ] && good || bad "not only plugins are installed: $(ls "$stage$families")"

# asks WHAT: the family is there, with its limit
asks() {
    "$stage$bindir/coolbite" cut --material soap/hard --tool 6mm --spindle 8000rpm --feed 400mm/min --depth 1mm --rows >"$work/out" 2>"$work/err"
    status=$?
    [ $status -le 2 ] && grep -q '^ smear ' "$work/out" && good || bad "$1: status $status: $(cat "$work/out" "$work/err")"
}

cp -r "$stage$docdir/examples/plugin" "$work/soap" || exit 99
cd "$work/soap" || exit 99
make CC="$compiler" CFLAGS='-O1 -std=c99 -Wall -Wextra -pedantic -Werror' >"$work/log" 2>&1 && good || bad "C: $(cat "$work/log")"
make install >"$work/log" 2>&1 && good || bad "install: $(cat "$work/log")"
asks C
"$stage$bindir/coolbite" show soap/hard >"$work/out" 2>&1
grep -q "plugin $HOME/.local/share/coolbite/plugins/soap.so" "$work/out" && grep -q 'melting_rise *40 K (25 to 60)' "$work/out" && good || bad "show: $(cat "$work/out")"
# it is required
rm "$HOME/.local/share/coolbite/plugins/soap.so"
"$stage$bindir/coolbite" show soap/hard >"$work/out" 2>&1
[ $? -eq 69 ] && grep -q 'requires the plugin soap.so' "$work/out" && good || bad "without it: $(cat "$work/out")"
if command -v c++ >/dev/null 2>&1; then
    make clean >"$work/log" 2>&1 && make cxx CXX=c++ CXXFLAGS='-O1 -std=c++11 -Wall -Wextra -Werror' >"$work/log" 2>&1 && make install >>"$work/log" 2>&1 && good || bad "C++: $(cat "$work/log")"
    asks C++
else
    echo 'not tested here: there is no compiler of C++'
fi
printf '%d passed, %d failed\n' $passed $failed
[ $failed -eq 0 ]
