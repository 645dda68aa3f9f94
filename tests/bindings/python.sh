# SPDX-License-Identifier: GPL-3.0-or-later
# Shared by the tests of the Python package, which read it with ". python.sh": python is a Python
# with what they need, and the environment names what was built. Where something is missing, the
# test is skipped with the reason.
umask 022 # plugins that a group may write are refused
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"

skip() {
    echo "not tested here: $*"
    exit 77
}

# find_python MODULE ...: the first one that has these modules
find_python() {
    for python in "${PYTHON:-python3}" /usr/bin/python3; do
        "$python" -c "import sys$(printf ', %s' "$@"); sys.exit(sys.version_info < (3, 9))" \
            2>/dev/null && return 0
    done
    skip "no Python 3.9 with $* (Debian: $(printf 'python3-%s ' "$@"))"
}

# run_tests FILE ...: those of the package
run_tests() {
    cd "$work" || exit 99
    HYPOTHESIS_STORAGE_DIRECTORY=$work/hypothesis "$python" -m pytest -q -rs --tb=short \
        -W ignore::DeprecationWarning -p no:cacheprovider --basetemp="$work/pytest" "$@"
}

case $source in /*) ;; *) source=$PWD/$source ;; esac
package=$source/bindings/python
COOLBITE_LIBRARY=$build/.libs/libcoolbite.so
for file in "$build"/.libs/libcoolbite.so.? "$build"/.libs/libcoolbite.?.dylib; do
    [ ! -e "$file" ] || COOLBITE_LIBRARY=$file
done
[ -e "$COOLBITE_LIBRARY" ] || skip 'there is no shared library'
! grep -q __asan_init "$COOLBITE_LIBRARY" ||
    skip 'a library with sanitizers needs a Python with them'
COOLBITE_PROGRAM=$program
PYTHONPATH=$package
PYTHONDONTWRITEBYTECODE=1
export COOLBITE_LIBRARY COOLBITE_PROGRAM PYTHONPATH PYTHONDONTWRITEBYTECODE
