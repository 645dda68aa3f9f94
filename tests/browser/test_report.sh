#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# An inspection report in a browser, on A4 and on Letter, in both systems of units: nothing is wider
# than the screen, down to that of a phone; the first sheet, which is filed alone, is one page; and
# the pages are numbered in the margin.
set -u
build=${BITE_TEST_BUILD:-.}
work=$(mktemp -d "${TMPDIR:-/tmp}/bite-report-XXXXXX") || exit 99
trap 'rm -rf "$work"' EXIT
passed=0
failed=0
good() { passed=$((passed + 1)); }
bad() { failed=$((failed + 1)); echo "FAILED: $*"; }

. "${BITE_TEST_SOURCE:-.}/tests/browser/browser.sh"
[ -n "$browser" ] || { echo 'no chromium: skipped'; exit 77; }

for units in metric inch; do
    "$build/tests/report/inspection/test_inspection_report" --write "$work/$units.html" html $units \
        >"$work/log" 2>&1 || { cat "$work/log"; exit 99; }
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
        # five sections, of which that of the readings may take two pages
        [ "$count" -ge 5 ] && [ "$count" -le 6 ] && good || bad "$units, $paper: $count pages"
        if command -v pdftotext >/dev/null 2>&1; then
            pdftotext -layout "$work/paper.pdf" "$work/paper.txt"
            grep -q "Page $count of $count" "$work/paper.txt" && good || bad "$units, $paper: the last page has no number"
        fi
        sed '/<section class="sheet" aria-labelledby="results"/,/<\/main>/d' "$work/paper.html" >"$work/first.html"
        rm -f "$work/first.pdf"
        browse --no-pdf-header-footer --print-to-pdf="$work/first.pdf" "file://$work/first.html" >/dev/null
        count=$(pages "$work/first.pdf")
        [ "$count" -eq 1 ] && good || bad "$units, $paper: $count pages for the first sheet"
    done
    for wide in 360 800 1200; do
        told=$(told "$work/$units.html" .sheet,p,dd $wide)
        case $told in
            W*) ;;
            *) bad "$units, $wide px: nothing was told"; continue ;;
        esac
        told=${told#W}
        [ "${told%% *}" -le $wide ] && [ "${told##*O}" -eq 0 ] && good || bad "$units: wider than $wide px: $told"
    done
done
printf '%d passed, %d failed\n' $passed $failed
[ $failed -eq 0 ]
