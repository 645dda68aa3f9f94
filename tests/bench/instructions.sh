#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# instructions.sh BENCH: instructions of one evaluation of each kind, as counted by valgrind's
# callgrind: where times are noisy, these are not. A kind is run with two numbers of rows; their
# difference leaves out what is done once. Valgrind has AVX2 but not AVX-512: the counts are those
# of the code for x86-64-v3.
set -eu
bench=$1
if ! command -v valgrind >/dev/null; then
    echo "left out: there is no valgrind"
    exit 0
fi
folder=$(mktemp -d "${TMPDIR:-/tmp}/bite-bench-XXXXXX")
trap 'rm -rf "$folder"' EXIT
trap 'exit 1' HUP INT TERM
few=64
many=576

count() {
    valgrind --tool=callgrind --callgrind-out-file="$folder/out" "$bench" --once "$1" "$2" \
        >"$folder/log" 2>&1 || { cat "$folder/log" >&2; exit 1; }
    sed -n 's/^summary: *//p' "$folder/out" >"$folder/count"
    read -r counted <"$folder/count"
}

echo "Instructions of an evaluation in a batch, and their ratio to the slot's"
slot=
"$bench" --kinds >"$folder/kinds"
while IFS= read -r kind; do
    count "$kind" "$few"
    less=$counted
    count "$kind" "$many"
    each=$(((counted - less) / (many - few)))
    slot=${slot:-$each}
    printf '%-36s %9d   %6d.%02d x\n' "$kind" "$each" $((each / slot)) $((each * 100 / slot % 100))
done <"$folder/kinds"
