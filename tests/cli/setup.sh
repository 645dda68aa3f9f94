# SPDX-License-Identifier: GPL-3.0-or-later
# Shared by the tests of the program, which read it with ". setup.sh". The tables and plugins are
# copied to a private folder, so that the tests pass in a clone with any umask or owner.
set -u
source=${BITE_TEST_SOURCE:-.}
build=${BITE_TEST_BUILD:-.}
case $build in /*) ;; *) build=$PWD/$build ;; esac
program=$build/coolbite
work=$(mktemp -d "${TMPDIR:-/tmp}/bite-cli-XXXXXX") || exit 99
trap 'chmod -R u+w "$work"; rm -rf "$work"' EXIT
passed=0
failed=0
mkdir -m 755 "$work/families" "$work/tables" "$work/tables/materials" || exit 99
cp "$source"/tables/*.ini "$work/tables/" || exit 99
cp "$source"/tables/materials/*.ini "$work/tables/materials/" || exit 99
cp "$build"/plugins/.libs/*.so "$work/families/" || exit 99
chmod 644 "$work"/families/*.so
chmod -R u+w "$work/tables"
export COOLBITE_FAMILY_PATH="$work/families" COOLBITE_TABLE_PATH="$work/tables" HOME="$work" LC_ALL=C
unset XDG_CONFIG_HOME XDG_DATA_HOME COOLBITE_CONFIG NO_COLOR

good() { passed=$((passed + 1)); }
bad() { failed=$((failed + 1)); echo "FAILED: $*"; }
skipped() { echo "not tested here: $*"; }

# check CLAIM COMMAND: the command succeeds
check() {
    claim=$1
    shift
    if "$@"; then good; else bad "$claim"; fi
}

# expect STATUS TEXT -- COMMAND: the command exits with the status and writes one line with the text
# to stderr ('': no line)
expect() {
    want=$1 says=$2
    shift 3
    "$@" >"$work/out" 2>"$work/err"
    judge $? "$*"
}

# judge STATUS COMMAND: the same for a command that has already run, with redirections of the shell;
# want and says are set
judge() {
    lines=$(wc -l <"$work/err")
    if [ "$1" -ne "$want" ]; then bad "$2: exit status $1, not $want: $(cat "$work/err")"; return; fi
    if [ -z "$says" ] && [ "$lines" -ne 0 ]; then bad "$2: an unexpected message: $(cat "$work/err")"; return; fi
    if [ -n "$says" ] && [ "$lines" -ne 1 ]; then bad "$2: $lines lines on stderr: $(cat "$work/err")"; return; fi
    if [ -n "$says" ] && ! grep -qF -- "$says" "$work/err"; then bad "$2: the message is $(cat "$work/err"), without: $says"; return; fi
    good
}

# small_job TITLE: a job of one small pass that is planned quickly
small_job() {
    printf '[format]\nkind = job\nversion = 1\n[job]\ntitle = %s\n' "$1"
    printf '[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 mm\n[hold]\nmethod = tape\n'
    printf '[pass.a]\nwork = cut-free\ntool = 2mm\nspindle = 9000rpm\nfeed = 300mm/min\n'
}

# finish: prints the totals and returns the exit status of the test
finish() {
    echo "$passed passed, $failed failed"
    [ "$failed" -eq 0 ]
}
