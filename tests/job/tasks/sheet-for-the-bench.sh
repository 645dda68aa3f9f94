# SPDX-License-Identifier: GPL-3.0-or-later
# The part goes to the bench with a page of its own. Whoever planned to wipe acrylic with acetone
# reads NO there, what to use instead, how long to wait and what to measure.
sed -e 's/^cleaner = .*/cleaner = acetone/' -e 's/^marking = .*/remover = isopropanol/' \
    "$source/tables/jobs/cover-lens.ini" >"$work/wiped.ini"
ask job "$work/wiped.ini" --sheet "$work/sheet.html"
exits 2
checked=$("$python" - "$work/sheet.html" <<'PY'
import html, re, sys
page = open(sys.argv[1], encoding="utf-8").read()
bench = [s for s in page.split('<section class="sheet"') if 'id="bench"' in s]
assert len(bench) == 1
rows = re.findall(r"<tr>.*?</tr>", bench[0], flags=re.S)
words = [" ".join(html.unescape(re.sub(r"<[^>]*>", " ", r)).split()) for r in rows]
no = [w for w in words if w.startswith("NO ")]
safe = [w for w in words if w.startswith("SAFE ")]
assert len(no) == 1 and len(safe) == 1
assert "acetone (this job's cleaner)" in no[0] and "isopropyl alcohol (this job's remover)" in no[0]
assert "naphtha (flammable)" in safe[0]
assert "soapy water" in safe[0] and "acetone" not in safe[0]
text = " ".join(html.unescape(re.sub(r"<[^>]*>", " ", bench[0])).split())
assert "Release" in text and "Pull the part off" in text
assert re.search(r"If a fluid marked NO has touched a part: watch that part for \d+ (days|h)", text), text
assert "Crazes" in text and "web, three places" in text and "micrometer" in text
assert "NO: do not use acetone as cleaner" in text and "Safe instead: water, soapy water" in text
print("ok")
PY
) || true
[ "$checked" = ok ] && good || bad "$task: the page for the bench"
