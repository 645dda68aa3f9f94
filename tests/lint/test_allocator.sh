#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Memory that does not come from the allocator of a library is that which SECURITY.md names: a file of
# core/ that takes any from the C library, or lets another library do so, is listed here with the words
# by which SECURITY.md names it.
set -u
source=${BITE_TEST_SOURCE:-.}
cd "$source" || exit 99
passed=0
failed=0
good() { passed=$((passed + 1)); }
bad() { failed=$((failed + 1)); echo "FAILED: $*"; }

listed='core/base/file_output.c|`bite_file_output_open`
core/base/memory.c|`malloc`
core/inspection/record.c|`bite_record_open`
core/library/tool_list_mtconnect.c|expat
core/request/shop.c|`bite_shop_open`
core/request/single_change.c|all that draws
core/search/operating_window.c|all that draws
core/tables/ini_load.c|iniparser
core/uncertainty/draw_samples.c|all that draws
core/uncertainty/monte_carlo.c|all that draws'

# Where a caller gave no allocator, the C library's is meant: those lines hold a comparison with NULL,
# or are the second line of one.
taken=$({
    grep -rn 'bite_memory_default()' core --include='*.c' | grep -vE 'NULL \?|== NULL|[:?] *\*?bite_memory_default'
    grep -rnE '(^|[^_[:alnum:]])(malloc|calloc|realloc|strdup|strndup|asprintf|getline)\(|XML_ParserCreate' core --include='*.c' |
        grep -vE '\.c:[0-9]+: *(\*|/\*)'
} | cut -d: -f1 | sort -u)
for file in $taken; do
    words=$(printf '%s\n' "$listed" | sed -n "s,^$file|,,p")
    if [ -z "$words" ]; then
        bad "$file takes memory that is not the library's, and SECURITY.md does not name it"
    elif sed -n '/^## Memory/,/^## One/p' SECURITY.md | tr '\n' ' ' | grep -qF -- "$words"; then
        good
    else
        bad "SECURITY.md does not name $words, of $file"
    fi
done
[ "$(printf '%s\n' $taken | wc -l)" -ge 8 ] && good || bad 'fewer files than are known were found: the search finds nothing'
for file in $(printf '%s\n' "$listed" | cut -d'|' -f1); do
    printf '%s\n' $taken | grep -qxF "$file" && good || bad "$file is listed, and takes none"
done
printf '%d passed, %d failed\n' $passed $failed
[ $failed -eq 0 ]
