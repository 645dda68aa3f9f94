#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A job's sheet in a browser, on A4 and on Letter, in both systems of units: nothing is wider than the
# screen, down to that of a phone. The made-up job has two setups. Its page has six sheets: one for
# each setup, which go to the machine, and one for the bench, each on one page of paper; three that
# stay at the desk (stock, warp, time and fluids; pictures of the room to move; cautions), of which
# the first may take two pages. A sheet that grows over its page fails here.
set -u
build=${BITE_TEST_BUILD:-.}
browser=
for name in chromium chromium-browser google-chrome; do
    command -v $name >/dev/null 2>&1 && browser=$name && break
done
[ -n "$browser" ] || { echo 'no chromium: skipped'; exit 77; }
work=$(mktemp -d "${TMPDIR:-/tmp}/bite-sheet-XXXXXX") || exit 99
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
    "$build/tests/report/job/test_html" --write "$work/$units.html" $units >"$work/log" 2>&1 || { cat "$work/log"; exit 99; }
    sheets=$(grep -c '<section class="sheet"' "$work/$units.html")
    [ "$sheets" -eq 6 ] && good || bad "$units: $sheets sheets"
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
        [ "$count" -ge "$sheets" ] && [ "$count" -le $((sheets + 1)) ] && good || bad "$units, $paper: $count pages for $sheets sheets"
        # without what stays at the desk: the setups and the bench
        sed '/<section class="sheet" aria-labelledby="desk"/,/<\/main>/d' "$work/paper.html" >"$work/shop.html"
        rm -f "$work/shop.pdf"
        browse --no-pdf-header-footer --print-to-pdf="$work/shop.pdf" "file://$work/shop.html" >/dev/null
        count=$(pages "$work/shop.pdf")
        [ "$count" -eq 3 ] && good || bad "$units, $paper: $count pages for two setups and the bench"
    done
    # a copy that tells what is wider than its place: the page itself, and what lies in a frame of
    # its own. It is shown in a frame, because the window of a browser has a least width.
    probe='<script>addEventListener("load",function(){var o=0;document.querySelectorAll(".wide,.sheet,td,th").forEach(function(e){if(e.scrollWidth>e.clientWidth+1)o++});parent.postMessage("W"+document.documentElement.scrollWidth+" O"+o,"*")})</script>'
    sed "s|</body>|$probe</body>|" "$work/$units.html" >"$work/probe.html"
    for wide in 360 800 1200; do
        printf '<!DOCTYPE html><title></title><script>addEventListener("message",function(e){document.title=e.data})</script><iframe src="probe.html" width="%s" height="900" style="border:0"></iframe>' \
            $wide >"$work/frame.html"
        told=$(browse --window-size=1300,1000 --virtual-time-budget=3000 --dump-dom "file://$work/frame.html" | grep -o '<title>[^<]*' | head -n 1)
        width=$(echo "$told" | sed -n 's/.*W\([0-9]*\) O.*/\1/p')
        over=$(echo "$told" | sed -n 's/.* O\([0-9]*\)$/\1/p')
        [ -n "$width" ] || { bad "$units at $wide px: no answer: $told"; continue; }
        [ "$width" -le $wide ] && good || bad "$units: $width px wide on a screen of $wide"
        [ "$over" -eq 0 ] && good || bad "$units: $over parts wider than their place at $wide px"
    done
done
echo "$passed checks passed, $failed failed"
[ $failed -eq 0 ]
