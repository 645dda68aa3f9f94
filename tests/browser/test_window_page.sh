#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The page of a window in a browser, without a network: its own script runs under its own policy, and
# the reading under the pointer, a finger or the arrow keys is that of the numbers of the window.
# What the page does is driven by a script that is added to a copy of it, whose policy allows that.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"
. "${BITE_TEST_SOURCE:-.}/tests/browser/browser.sh"
[ -n "$browser" ] || { skipped 'no chromium'; exit 77; }
python=$(command -v python3 || true)
[ -n "$python" ] || { skipped 'python3 is needed to read JSON'; exit 77; }

window_() {
    "$program" window --material acrylic/cast --tool 0.8mm --machine bench-24k --spindle 12000rpm --feed 400mm/min \
        --depth 0.2mm --floor 0.6mm --tolerance 0.05mm --inside-radius 0.3mm --hold tape-glue --bond-area 200mm2 --exit-zero "$@"
}

expect 0 '' -- window_ --output "$work/page.html"
expect 0 '' -- window_ --output "$work/window.json"

# the policy names the hashes of the page's own script and style, and nothing in the page comes from
# elsewhere
"$python" - "$work/page.html" >"$work/said" 2>&1 <<'PY' && good || bad "the page: $(tail -n 1 "$work/said")"
import base64, hashlib, re, sys, xml.dom.minidom
page = open(sys.argv[1], encoding="utf-8").read()
xml.dom.minidom.parseString(page.replace("<!DOCTYPE html>\n", ""))
policy = re.search(r'Content-Security-Policy" content="([^"]*)"', page).group(1)
for kind, text in (("script", re.search(r"<script>(.*?)</script>", page, re.S)), ("style", re.search(r"<style>(.*?)</style>", page, re.S))):
    assert len(re.findall("<%s>" % kind, page)) == 1
    right = "sha256-" + base64.b64encode(hashlib.sha256(text.group(1).encode()).digest()).decode()
    assert "%s-src '%s'" % (kind, right) in policy, "the hash of the %s is %s" % (kind, right)
assert policy.startswith("default-src 'none';") and "unsafe" not in policy
for word in (" src=", " href=", "http://", "https://", "@import", " style=", "eval(", "fetch(", "XMLHttp"):
    assert word not in page, word
PY

# its script runs under that policy
browse --virtual-time-budget=3000 --dump-dom "file://$work/page.html" >"$work/dom.html"
grep -q '<html lang="en" class="running">' "$work/dom.html" && good || bad 'the script of the page does not run'
grep -q 'id="live"[^>]*>[0-9.]* rpm, [0-9.]* mm/min: over at every place, by corner; by the other limits clear' "$work/dom.html" &&
    good || bad "the reading at the current point: $(grep -o 'id="live".\{120\}' "$work/dom.html")"
# and without a script there is a reading and a table of places
grep -q '<p id="said">At 12000 rpm and 400 mm/min: over' "$work/page.html" && good || bad 'no reading without a script'
[ "$(grep -o '<details open="open">.*' "$work/page.html" | wc -l)" -eq 1 ] && good || bad 'no table of places'

# drive SCRIPT: what the script says about a copy of the page
drive() {
    "$python" - "$work/page.html" "$work/driven.html" "$1" <<'PY'
import re, sys
page = open(sys.argv[1], encoding="utf-8").read()
page = re.sub(r"script-src '[^']*'", "script-src 'unsafe-inline'", page, count=1)
script = "<script>window.addEventListener('load',function(){var said=[];var field=document.getElementById('field');" \
    "function say(x){said.push(x)}function text(id){return document.getElementById(id).textContent}" \
    "function key(k,shift){field.dispatchEvent(new KeyboardEvent('keydown',{key:k,shiftKey:!!shift,bubbles:true,cancelable:true}))}" \
    "function touch(type,x,y,kind){var b=field.getBoundingClientRect();field.dispatchEvent(new PointerEvent(type,{pointerId:7,pointerType:kind,pressure:0.5,clientX:b.left+x*b.width,clientY:b.bottom-y*b.height,bubbles:true}))}" \
    + sys.argv[3] + ";document.title='SAID '+JSON.stringify(said)})</script></body>"
open(sys.argv[2], "w", encoding="utf-8").write(page.replace("</body>", script))
PY
    browse --window-size=1200,1000 --virtual-time-budget=3000 --dump-dom "file://$work/driven.html" |
        sed -n 's/.*<title>SAID \(\[.*\]\)<\/title>.*/\1/p' | head -n 1 | sed 's/&lt;/</g; s/&gt;/>/g; s/&amp;/\&/g' >"$work/out"
}

# agrees CLAIM EXPRESSION: true of what was said (s), in Python; w is the JSON of the window
agrees() {
    "$python" -c '
import json, sys
s = json.load(open(sys.argv[1], encoding="utf-8"))
w = json.load(open(sys.argv[2], encoding="utf-8"))
def number(text):
    return float(text.split()[0])
def near(text, si, scale):
    return abs(number(text) - si * scale) <= 6e-4 * si * scale
def used(rows, x, y):
    "the rows of the table agree with the utilizations of a place"
    for name, use, chance, word in rows:
        of = [l for l in w["limits"] if l["name"] == name][0]["utilization"][y][x]
        if (use == "-") != (of is None) or (of is not None and use != "%d %%" % min(9999, int(100 * of + 0.5))):
            if of is None or abs(number(use) - 100 * of) > 0.500001:
                return False
    return len(rows) > 10
sys.exit(0 if eval(sys.argv[3]) else 1)' "$work/out" "$work/window.json" "$2" 2>"$work/why" && good || bad "$1: $(tail -n 1 "$work/why") $(head -c 300 "$work/out")"
}
rows='say(Array.prototype.map.call(document.querySelectorAll("section tbody tr"),function(r){return Array.prototype.map.call(r.cells,function(c){return c.textContent})}))'
where='say([text("across"),text("up"),text("verdict")])'

# arrow keys move by a place of the grid, with Shift by eight, not beyond its edge; Home goes back
drive "$where;key('ArrowRight');$where;key('ArrowUp');$where;key('ArrowLeft',true);$where;key('Home');$where;for(var i=0;i<20;i++){key('ArrowDown',true);key('ArrowLeft',true)}$where;$rows"
agrees 'one place right' 'number(s[1][0]) > number(s[0][0]) and s[1][1] == s[0][1]'
agrees 'one place up' 'number(s[2][1]) > number(s[1][1]) and s[2][0] == s[1][0]'
agrees 'eight places left' 'abs(w["across"]["at"].index(min(w["across"]["at"], key=lambda a: abs(60 * a - number(s[3][0])))) - w["across"]["at"].index(min(w["across"]["at"], key=lambda a: abs(60 * a - number(s[2][0]))))) == 8'
agrees 'Home' 's[4] == s[0]'
agrees 'the lower left corner' 'near(s[5][0], w["across"]["at"][0], 60) and near(s[5][1], w["up"]["at"][0], 60000)'
agrees 'each limit in the lower left corner' 'used(s[6], 0, 0)'

# the pointer and a finger read the place under them; what binds has a row in bold
drive "touch('pointermove',0.25,0.75,'mouse');$where;$rows;touch('pointerdown',0.9999,0.0001,'touch');$where;touch('pointermove',0.5,1.7,'touch');$where;$rows;say(document.querySelectorAll('tr.binds').length);say(document.activeElement===field);say(document.getElementById('cross-up').getAttribute('y1'))"
agrees 'the place under a mouse' 'near(s[0][0], w["across"]["at"][24], 60) and near(s[0][1], w["up"]["at"][54], 60000) and used(s[1], 24, 54)'
agrees 'the place under a finger' 'near(s[2][0], w["across"]["at"][96], 60) and near(s[2][1], w["up"]["at"][0], 60000)'
agrees 'a finger that leaves the picture' 'near(s[3][0], w["across"]["at"][48], 60) and near(s[3][1], w["up"]["at"][72], 60000) and used(s[4], 48, 72)'
agrees 'what binds' 's[5] == 1 and [r for r in s[4] if r[3] == "binds"] != []'
agrees 'the finger gives the focus, and the cross is at the top' 's[6] and float(s[7]) == 92'

# buttons, their size, the focus that shows, and the field over the frame of the plot
drive "document.querySelector('[data-key=ArrowUp]').click();$where;document.querySelector('[data-key=Home]').click();$where;var least=1000;document.querySelectorAll('button,summary').forEach(function(b){var r=b.getBoundingClientRect();least=Math.min(least,r.width,r.height)});say(least);field.focus();say(getComputedStyle(field).outlineStyle+' '+parseFloat(getComputedStyle(field).outlineWidth));var f=field.getBoundingClientRect(),p=document.querySelector('rect.plot').getBoundingClientRect();say(Math.max(Math.abs(f.left-p.left),Math.abs(f.right-p.right),Math.abs(f.top-p.top),Math.abs(f.bottom-p.bottom)));say(getComputedStyle(field).touchAction)"
agrees 'a button moves' 'number(s[0][1]) > number(s[1][1]) and s[0][0] == s[1][0]'
agrees 'targets of a finger have 44 px' 's[2] >= 44'
agrees 'the focus shows' 's[3].startswith("solid") and float(s[3].split()[1]) >= 2'
agrees 'the field is over the plot' 's[4] <= 2'
agrees 'a finger reads and does not scroll' 's[5] == "none"'

# what a screen reader hears: the reading is said again after it has changed, with its limit
drive "key('ArrowUp',true);key('ArrowUp',true);key('ArrowUp',true);key('ArrowUp',true);setTimeout(function(){document.title='SAID '+JSON.stringify([text('live'),document.getElementById('live').getAttribute('aria-live'),field.getAttribute('aria-describedby'),text('help').length,field.getAttribute('tabindex'),document.querySelectorAll('th:not([scope])').length])},600)"
agrees 'the reading is said' '"feed_fast binds" in s[0] and "% used, chance" in s[0] and s[1] == "polite"'
agrees 'the picture has a name, help and tables' 's[2] == "help" and s[3] > 20 and s[4] == "0" and s[5] == 0'

# narrow screens: nothing is wider than the page
for wide in 360 700 1100; do
    printf '<!DOCTYPE html><title></title><script>addEventListener("message",function(e){document.title="SAID "+e.data})</script><iframe src="driven.html" width="%s" height="900" style="border:0"></iframe>' $wide >"$work/frame.html"
    drive "parent.postMessage('['+document.documentElement.scrollWidth+']','*')"
    browse --window-size=1300,1000 --virtual-time-budget=3000 --dump-dom "file://$work/frame.html" | sed -n 's/.*<title>SAID \(\[.*\]\)<\/title>.*/\1/p' | head -n 1 >"$work/out"
    agrees "at $wide px" "0 < s[0] <= $wide"
done

# on paper it is two pages at most, without keys
browse --no-pdf-header-footer --print-to-pdf="$work/paper.pdf" "file://$work/page.html" >/dev/null
if [ -s "$work/paper.pdf" ]; then
    count=$(tr -d '\0' <"$work/paper.pdf" | grep -ao '/Count [0-9]*' | awk '{ if ($2 > most) most = $2 } END { print most + 0 }')
    [ "$count" -ge 1 ] && [ "$count" -le 2 ] && good || bad "$count pages of paper"
fi
finish
