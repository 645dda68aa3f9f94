#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What the public header promises of itself: every exported function is in a docstring that says
# since when it exists; every structure with struct_size has an _init; the lists of exported names
# hold exactly what is declared, and what the first header had beside it.
set -u
source=${BITE_TEST_SOURCE:-.}
header=${1:-$source/include/coolbite/coolbite.h}
work=$(mktemp -d) || exit 99
trap 'rm -rf "$work"' EXIT
failures=0
bad() { echo "$*"; failures=$((failures + 1)); }

# Declarations belong to the comment above them, up to a blank line.
awk '
    /^\/\*\*/ { since = 0; comment = 1 }
    comment && /[Ss]ince [0-9]+\.[0-9]+/ { since = 1 }
    comment && /[Ss]ince$/ { since = 1 }
    /\*\// && comment { comment = 0; next }
    comment { next }
    /^$/ { since = 0 }
    /BITE_API/ && !/^#/ { open = 1; text = "" }
    open { text = text " " $0 }
    open && /;|\{/ {
        open = 0
        name = text; sub(/\(.*/, "", name); sub(/.*[ *]/, "", name)
        print name
        if (!since) print name > "/dev/stderr"
    }
' "$header" >"$work/declared" 2>"$work/undated"
[ "$(wc -l <"$work/declared")" -ge 100 ] || bad "the declarations of the header were not found"
while read -r name; do bad "$name: no docstring says since when it exists"; done <"$work/undated"

sed -n 's/^} \(bite_[a-z_]*\);$/\1/p; /^    \(uint32_t\|size_t\) struct_size;/s/.*/+/p' "$header" |
    awk '/^\+/ { sized = 1; next } { if (sized) print; sized = 0 }' >"$work/sized"
[ "$(wc -l <"$work/sized")" -ge 16 ] || bad "the structures of the header were not found"
while read -r name; do
    grep -q "^static inline void ${name}_init($name \*" "$header" || bad "$name has no ${name}_init"
    grep -q "bite_struct_${name#bite_} = KIND($name," "$source/core/base/struct_size.c" ||
        bad "$name has no first edition in core/base/struct_size.c"
done <"$work/sized"

# Functions of the first header that are functions of the present one by another name.
printf '%s\n' bite_cut_init bite_goal_name bite_request_cut | cat - "$work/declared" | LC_ALL=C sort -u >"$work/expected"
LC_ALL=C sort "$source/core/exported-symbols.txt" | diff "$work/expected" - >"$work/difference" ||
    bad "core/exported-symbols.txt is not what the header declares: $(cat "$work/difference")"
sed -n 's/^        \(bite_[a-z0-9_]*\);$/\1/p' "$source/core/coolbite.map" | LC_ALL=C sort |
    diff "$work/expected" - >"$work/difference" ||
    bad "core/coolbite.map is not what the header declares: $(cat "$work/difference")"

# The checks themselves find what is wrong.
if [ $# -eq 0 ]; then
    {
        printf '\n/** Undated. */\nBITE_API int bite_undated(void);\n\n'
        printf 'typedef struct bite_bare {\n    uint32_t struct_size;\n} bite_bare;\n'
        cat "$header"
    } >"$work/faulty.h"
    found=$(BITE_TEST_SOURCE=$source sh "$0" "$work/faulty.h")
    for fault in 'bite_undated: no docstring' 'bite_bare has no bite_bare_init' 'exported-symbols'; do
        case $found in *"$fault"*) ;; *) bad "the check does not find: $fault" ;; esac
    done
fi
[ "$failures" -eq 0 ]
