#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Reads every include: a file may use its own floor and those below; library and cut are siblings; bindings and plugins see public headers alone.
set -eu
cd "${1:-.}"
find core bindings plugins -name '*.[ch]' | sort | xargs grep -nE '^[[:space:]]*#[[:space:]]*include[[:space:]]*"' | awk -F: '
function floor_of(path) {
    if (path ~ /^core\/base\//) return 0
    if (path ~ /^core\/(library|cut)\//) return 1
    if (path ~ /^core\/job\//) return 2
    if (path ~ /^core\/sheet\//) return 3
    if (path ~ /^bindings\//) return 4
    if (path ~ /^plugins\//) return 5
    return -1
}
function folder_of(path) { split(path, part, "/"); return part[1] "/" part[2] }
{
    match($0, /"[^"]+"/)
    target = substr($0, RSTART + 1, RLENGTH - 2)
    from = $1
    a = floor_of(from)
    b = floor_of(target)
    why = ""
    if (b < 0) why = "is no path from the root"
    else if (a >= 4 && folder_of(from) != folder_of(target) && from !~ /^plugins/) why = "sees more than the public header"
    else if (a == 5 && target !~ /^plugins\//) why = "a plugin sees the public header alone"
    else if (b > a) why = "climbs"
    else if (a == 1 && b == 1 && folder_of(from) != folder_of(target)) why = "library and cut are siblings"
    if (why != "") { print from ":" $2 ": includes " target ": " why; bad = 1 }
}
END { exit bad }'
