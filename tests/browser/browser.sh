#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Shared by the tests of pages in a browser, which read it with ". browser.sh" once $work is a folder of
# theirs. $browser is empty if there is none.
browser=
for name in chromium chromium-browser google-chrome; do
    command -v $name >/dev/null 2>&1 && browser=$name && break
done

# a browser that asks nothing of the net, in a home of its own; `timeout` ends one that hangs
browse() {
    timeout 120 $browser --headless --no-sandbox --disable-gpu --disable-quic --no-first-run --disable-background-networking \
        --disable-component-update --disable-sync --user-data-dir="$work/home" "$@" 2>/dev/null
}

# pages FILE: pages of a PDF, from the count of its tree's root
pages() { tr -d '\0' <"$1" | grep -ao '/Count [0-9]*' | awk '{ if ($2 > most) most = $2 } END { print most + 0 }'; }

# shown FILE SELECTORS WIDE: the page, with a script put into it, in a frame of that width, as "W640 O0":
# how wide it is, and how many of these parts are wider than their place. It is shown in a frame,
# because the window of a browser has a least width. Nothing if the page's policy stops the script.
shown() {
    probe="<script>addEventListener(\"load\",function(){var o=0;document.querySelectorAll(\"$2\").forEach(function(e){if(e.scrollWidth>e.clientWidth+1)o++});parent.postMessage(\"W\"+document.documentElement.scrollWidth+\" O\"+o,\"*\")})</script>"
    sed "s|</body>|$probe</body>|" "$1" >"$work/probe.html"
    printf '<!DOCTYPE html><title></title><script>addEventListener("message",function(e){document.title=e.data})</script><iframe src="probe.html" width="%s" height="900" style="border:0"></iframe>' \
        "$3" >"$work/frame.html"
    browse --window-size=1300,1000 --virtual-time-budget=3000 --dump-dom "file://$work/frame.html" |
        grep -o '<title>[^<]*' | head -n 1 | sed 's/<title>//'
}

# told FILE SELECTORS WIDE: the same of the page without its policy
told() {
    sed '/<meta http-equiv="Content-Security-Policy"/d' "$1" >"$work/open.html"
    shown "$work/open.html" "$2" "$3"
}

# refuses_scripts FILE: the page's policy stops a script that was put into it
refuses_scripts() { [ -z "$(shown "$1" main 800)" ]; }
