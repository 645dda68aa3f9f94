#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What is installed is built so that a fault in memory is hard to use: relocations are read-only and
# bound at the start, the program runs at any address, no stack is executable, stacks are guarded.
set -u
build=${BITE_TEST_BUILD:-.}
command -v readelf >/dev/null 2>&1 || { echo 'not tested here: readelf is not installed'; exit 77; }
grep -q 'BITE_HARDENED_TRUE=.#' "$build/config.status" 2>/dev/null && hardened=no || hardened=yes
grep -q 'S\["BITE_HARDENED_TRUE"\]="#"' "$build/config.status" && hardened=no
[ "$hardened" = yes ] || { echo 'not tested here: configured without hardening'; exit 77; }
failed=0
bad() { failed=$((failed + 1)); echo "FAILED: $*"; }

for object in "$build/.libs/libcoolbite.so" "$build/.libs/coolbite" "$build"/plugins/.libs/*.so; do
    readelf -lW "$object" | grep -q GNU_RELRO || bad "$object: relocations stay writable"
    readelf -dW "$object" | grep -qE 'BIND_NOW|NOW' || bad "$object: symbols are bound late"
    readelf -lW "$object" | grep -E 'GNU_STACK' | grep -q 'RWE' && bad "$object: its stack is executable"
    readelf -hW "$object" | grep -q 'Type: *DYN' || bad "$object: runs at one address only"
done
readelf -sW "$build/.libs/libcoolbite.so" "$build/.libs/coolbite" | grep -q __stack_chk_fail ||
    bad 'no stack is guarded'
if grep -q 'D_FORTIFY_SOURCE' "$build/config.status"; then
    readelf -sW "$build/.libs/libcoolbite.so" | grep -qE '__(mem|str|sn?printf|vsn?printf|read)[a-z]*_chk' ||
        bad 'no sizes of buffers are checked'
fi
echo "$failed failed"
[ "$failed" -eq 0 ]
