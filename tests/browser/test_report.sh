#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# An inspection report in a browser, on A4 and on Letter, in both systems of units: nothing is wider
# than the screen, down to that of a phone; the first sheet, which is filed alone, is one page; and
# the pages are numbered in the margin.
set -u
build=${BITE_TEST_BUILD:-.}
browser=
for name in chromium chromium-browser google-chrome; do
    command -v $name >/dev/null 2>&1 && browser=$name && break
done
[ -n "$browser" ] || { echo 'no chromium: skipped'; exit 77; }
work=$(mktemp -d "${TMPDIR:-/tmp}/bite-report-XXXXXX") || exit 99
trap 'rm -rf "$work"' EXIT
passed=0
failed=0
good() { passed=$((passed + 1)); }
bad() { failed=$((failed + 1)); echo "FAILED: $*"; }

# a browser that asks nothing of the net, in a home of its own; `timeout` ends one that hangs
browse() {
    timeout 120 $browser --headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking \
        --disable-component-update --disable-sync --user-data-dir="$work/home" "$@" 2>/dev/null
}

# pages FILE: pages of a PDF, from the count of its tree's root
pages() { tr -d '\0' <"$1" | grep -ao '/Count [0-9]*' | awk '{ if ($2 > most) most = $2 } END { print most + 0 }'; }

for units in metric inch; do
    "$build/tests/report/inspection/test_inspection_report" --write "$work/$units.html" html $units \
        >"$work/log" 2>&1 || { cat "$work/log"; exit 99; }
    if command -v xmllint >/dev/null 2>&1; then
        xmllint --noout --nonet "$work/$units.html" 2>"$work/log" && good || bad "$units: $(head -n 3 "$work/log")"
    fi
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
    # a copy that tells what is wider than its place, shown in a frame: a window has a least width
    probe='<script>addEventListener("load",function(){var o=0;document.querySelectorAll(".sheet,p,dd").forEach(function(e){if(e.scrollWidth>e.clientWidth+1)o++});parent.postMessage("W"+document.documentElement.scrollWidth+" O"+o,"*")})</script>'
    sed "s|</body>|$probe</body>|" "$work/$units.html" >"$work/probe.html"
    for wide in 360 800 1200; do
        printf '<!DOCTYPE html><title></title><script>addEventListener("message",function(e){document.title=e.data})</script><iframe src="probe.html" width="%s" height="900" style="border:0"></iframe>' \
            $wide >"$work/frame.html"
        told=$(browse --window-size=1300,1000 --virtual-time-budget=3000 --dump-dom "file://$work/frame.html" | grep -o '<title>[^<]*' | head -n 1)
        case $told in
            '<title>W'*) ;;
            *) bad "$units, $wide px: nothing was told"; continue ;;
        esac
        told=${told#<title>W}
        [ "${told%% *}" -le $wide ] && [ "${told##*O}" -eq 0 ] && good || bad "$units: wider than $wide px: $told"
    done
done
printf '%d passed, %d failed\n' $passed $failed
[ $failed -eq 0 ]
