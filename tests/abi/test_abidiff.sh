#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The binary interface against the first header: symbols may be added and structures may grow at
# their end; nothing else may change. Skipped without abidiff (abigail-tools).
set -u
source=${BITE_TEST_SOURCE:-.}
build=${BITE_TEST_BUILD:-.}
library=$build/.libs/libcoolbite.so
command -v abidiff >/dev/null 2>&1 || { echo "abidiff is not here"; exit 77; }
[ -e "$library" ] || { echo "there is no shared library"; exit 77; }
readelf -S "$library" | grep -q debug_info || { echo "no debug information"; exit 77; }
work=$(mktemp -d) || exit 99
trap 'rm -rf "$work"' EXIT

# A library with every function of a header, none of which does anything.
stub() { # name; the header is in $work/name/coolbite
    (cd "$work/$1" && gcc -aux-info prototypes -fsyntax-only -x c coolbite/coolbite.h &&
        { echo '#include "coolbite/coolbite.h"'
          sed -n 's,^/\* [^*]*coolbite/coolbite\.h:[^*]*\*/ extern \(.*\);$,\1 { __builtin_trap(); },p' prototypes
        } >stub.c) || exit 99
    soname=$(readelf -d "$library" | sed -n 's/.*SONAME.*\[\(.*\)\]/\1/p')
    gcc -g -w -shared -fPIC -Wl,-soname,"$soname" -Wl,--version-script="$source/core/coolbite.map" \
        -I"$work/$1" "$work/$1/stub.c" -o "$work/$1/libcoolbite.so" || exit 99
}

# What abidiff reports, without members behind the end of the older structure.
differences() { # name
    abidiff --no-added-syms "$work/$1/libcoolbite.so" "$library" >"$work/$1/report" 2>&1
    status=$?
    [ "$status" -lt 8 ] || echo "symbols are gone, or abidiff failed ($status)"
    awk '
        /type size changed from/ { for (i = 1; i < NF; i++) if ($i == "from") end = $(i + 1) + 0 }
        /, at offset [0-9]+ \(in bits\)/ && !/changed/ {
            offset = $0; sub(/.*at offset /, "", offset)
            if (offset + 0 < end) print "a member was inserted: " $0
        }
        /data member deletion|data member change|offset changed|type changed from|return type changed/ { print }
        /(parameter|enumerator).*(added|removed|deleted|deletion)/ { print }
        /[1-9][0-9]* Removed/ { print }
    ' "$work/$1/report"
}

mkdir -p "$work/first/coolbite" "$work/other/coolbite"
cp "$source/tests/abi/first/coolbite/coolbite.h" "$work/first/coolbite/"
stub first
[ "$(grep -c '__builtin_trap' "$work/first/stub.c")" -ge 70 ] || { echo "the stubs were not made"; exit 1; }
found=$(differences first)
if [ -n "$found" ]; then
    printf 'programs that were built with the first header would break:\n%s\n' "$found"
    exit 1
fi

# A structure that had a member in its middle, which is gone now, must be found.
awk '/uint32_t line;  / && !done { print "    uint64_t extra;"; done = 1 } { print }' \
    "$source/tests/abi/first/coolbite/coolbite.h" >"$work/other/coolbite/coolbite.h"
cmp -s "$work/first/coolbite/coolbite.h" "$work/other/coolbite/coolbite.h" && { echo "nothing was changed"; exit 1; }
stub other
[ -n "$(differences other)" ] || { echo "a member that moved was not found"; exit 1; }
echo "the first header holds"
