# SPDX-License-Identifier: GPL-3.0-or-later
# What the tests of the program share; they read it with ". setup.sh". Tables and plugins lie in a private folder, so that a clone
# with another umask or owner passes as well.
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
unset XDG_CONFIG_HOME XDG_DATA_HOME NO_COLOR

good() { passed=$((passed + 1)); }
bad() { failed=$((failed + 1)); echo "FAILED: $*"; }
skipped() { echo "not tested here: $*"; }

# check WHAT-IT-SAYS command: the command succeeds
check() {
    claim=$1
    shift
    if "$@"; then good; else bad "$claim"; fi
}

# expect STATUS WORDS-OF-THE-COMPLAINT -- command: that exit status, and one line on stderr that has the words ('': no line)
expect() {
    want=$1 says=$2
    shift 3
    "$@" >"$work/out" 2>"$work/err"
    judge $? "$*"
}

# judge STATUS COMMAND: what expect does, of a command that has run, for one that the shell redirects
judge() {
    lines=$(wc -l <"$work/err")
    if [ "$1" -ne "$want" ]; then bad "$2 ended $1, not $want: $(cat "$work/err")"; return; fi
    if [ -z "$says" ] && [ "$lines" -ne 0 ]; then bad "$2 complains: $(cat "$work/err")"; return; fi
    if [ -n "$says" ] && [ "$lines" -ne 1 ]; then bad "$2: $lines lines on stderr: $(cat "$work/err")"; return; fi
    if [ -n "$says" ] && ! grep -qF -- "$says" "$work/err"; then bad "$2 says $(cat "$work/err"), not $says"; return; fi
    good
}

# a job of one small pass, quickly planned: its title
small_job() {
    printf '[format]\nkind = job\nversion = 1\n[job]\ntitle = %s\n' "$1"
    printf '[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 mm\n[hold]\nmethod = tape\n'
    printf '[pass.a]\nwork = cut-free\ntool = 2mm\nspindle = 9000rpm\nfeed = 300mm/min\n'
}

# finish: the totals, and the exit status of the test
finish() {
    echo "$passed passed, $failed failed"
    [ "$failed" -eq 0 ]
}
