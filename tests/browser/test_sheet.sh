#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A job's sheet in a browser, on A4 and on Letter, in both systems of units: nothing is wider than the
# screen, down to that of a phone. The made-up job has two setups. Its page has six sheets: one for
# each setup, which go to the machine, and one for the bench, each on one page of paper; three that
# stay at the desk (stock, warp, time and fluids; pictures of the room to move; cautions), of which
# the first may take two pages. A sheet that grows over its page fails here.
set -u
build=${BITE_TEST_BUILD:-.}
work=$(mktemp -d "${TMPDIR:-/tmp}/bite-sheet-XXXXXX") || exit 99
trap 'rm -rf "$work"' EXIT
passed=0
failed=0
good() { passed=$((passed + 1)); }
bad() { failed=$((failed + 1)); echo "FAILED: $*"; }

. "${BITE_TEST_SOURCE:-.}/tests/browser/browser.sh"
[ -n "$browser" ] || { echo 'no chromium: skipped'; exit 77; }

for units in metric inch; do
    "$build/tests/report/job/test_html" --write "$work/$units.html" $units >"$work/log" 2>&1 || { cat "$work/log"; exit 99; }
    sheets=$(grep -c '<section class="sheet"' "$work/$units.html")
    [ "$sheets" -eq 6 ] && good || bad "$units: $sheets sheets"
    if command -v xmllint >/dev/null 2>&1; then
        xmllint --noout --nonet "$work/$units.html" 2>"$work/log" && good || bad "$units: $(head -n 3 "$work/log")"
    fi
    refuses_scripts "$work/$units.html" && good || bad "$units: a script that was put into the page ran"
    for paper in A4 letter; do
        sed "s/@page{/@page{size:$paper;/" "$work/$units.html" >"$work/paper.html"
        cmp -s "$work/$units.html" "$work/paper.html" && bad "$paper: the size was not set"
        rm -f "$work/paper.pdf"
        browse --no-pdf-header-footer --print-to-pdf="$work/paper.pdf" "file://$work/paper.html" >/dev/null
        [ -s "$work/paper.pdf" ] || { echo 'the browser prints nothing here: skipped'; exit 77; }
        count=$(pages "$work/paper.pdf")
        [ "$count" -ge "$sheets" ] && [ "$count" -le $((sheets + 1)) ] && good || bad "$units, $paper: $count pages for $sheets sheets"
        # without what stays at the desk: the setups and the bench
        sed '/<section class="sheet" aria-labelledby="desk"/,/<\/main>/d' "$work/paper.html" >"$work/shop.html"
        rm -f "$work/shop.pdf"
        browse --no-pdf-header-footer --print-to-pdf="$work/shop.pdf" "file://$work/shop.html" >/dev/null
        count=$(pages "$work/shop.pdf")
        [ "$count" -eq 3 ] && good || bad "$units, $paper: $count pages for two setups and the bench"
    done
    # neither the page itself is wider than its place, nor what lies in a frame of its own
    for wide in 360 800 1200; do
        told=$(told "$work/$units.html" .wide,.sheet,td,th $wide)
        width=$(echo "$told" | sed -n 's/W\([0-9]*\) O.*/\1/p')
        over=$(echo "$told" | sed -n 's/.* O\([0-9]*\)$/\1/p')
        [ -n "$width" ] || { bad "$units at $wide px: no answer: $told"; continue; }
        [ "$width" -le $wide ] && good || bad "$units: $width px wide on a screen of $wide"
        [ "$over" -eq 0 ] && good || bad "$units: $over parts wider than their place at $wide px"
    done
done
echo "$passed checks passed, $failed failed"
[ $failed -eq 0 ]
