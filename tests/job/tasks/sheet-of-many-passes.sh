# SPDX-License-Identifier: GPL-3.0-or-later
# Sixty passes, titles as long as a line of the file allows and full of signs: each pass stays
# whole on its page, none is missing, and a title is only ever text.
{
    sed -n '1,/^\[pass/p' "$source/tables/jobs/cover-lens.ini" | sed '$d' |
        sed "s|^title = .*|title = Window <script>alert(1)</script> \& <img src=x> $(printf 'very %.0s' $(seq 100))long|"
    for i in $(seq 1 59); do
        printf '[pass.p%s]\ntitle = pocket %s </tbody></table> %s\nwork = pocket\nsetup = %s\nspindle = 20000 rpm\nfeed = 400 mm/min\ntool = 1.5mm\nlength = 6 mm\nacross = 4 mm\ndepth = 0.4 mm\n' \
            $i $i "$(printf 'x%.0s' $(seq 300))" $((i / 30 + 1))
    done
    printf '[pass.free]\ntitle = cut free\nwork = cut-free\nsetup = 2\nspindle = 20000 rpm\nfeed = 400 mm/min\ntool = 1.5mm\n'
} >"$work/many.ini"
ask job "$work/many.ini" --draws 64 --sheet "$work/sheet.html"
exits 0 1 2
checked=$("$python" - "$work/sheet.html" <<'PY'
import re, sys, xml.dom.minidom
page = open(sys.argv[1], encoding="utf-8").read()
xml.dom.minidom.parseString(page.replace("<!DOCTYPE html>\n", "")) # every tag is closed
assert "<script" not in page and "<img" not in page
numbers = [int(n) for n in re.findall(r'<tbody class="pass"><tr><td class="place">(\d+)</td>', page)]
assert numbers == list(range(1, 61)), numbers
assert page.count('<tbody class="pass">') == page.count("</tbody>") - page.count("<tbody>")
assert ".passes .pass{break-inside:avoid}" in page
print("ok")
PY
) || true
[ "$checked" = ok ] && good || bad "$task: the sheet"
