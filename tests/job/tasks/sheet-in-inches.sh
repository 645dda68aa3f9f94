# SPDX-License-Identifier: GPL-3.0-or-later
# An inch shop prints the sheet of the bracket: the control takes decimals of an inch, four at most,
# and the depths of all cuts of a pass add up to the feature, not to more.
ask job "$source/tables/jobs/bracket.ini" --units inch --sheet "$work/sheet.html" --format json
exits 0 1 2
checked=$("$python" - "$work/sheet.html" "$work/out" <<'PY'
import html, json, re, sys
page = open(sys.argv[1], encoding="utf-8").read()
plan = json.load(open(sys.argv[2], encoding="utf-8"))
text = html.unescape(re.sub(r"<[^>]*>", "", re.sub(r"<style>.*?</style>", "", page, flags=re.S)))
for unit in (" um", " thou", " uin", "/64", "/32", " mm/min"):
    assert unit not in text, unit
lengths = re.findall(r"(\d+(?:\.\d+)?) in\b(?!/)", text)
assert len(lengths) > 30
for number in lengths:
    assert len(number.partition(".")[2]) <= 4, number
cells = re.findall(r'data-name="Depths">(.*?)</td>', page)
assert len(cells) == len(plan["passes"])
for cell, cut in zip(cells, plan["passes"]):
    words = html.unescape(re.sub(r"<[^>]*>", "", cell))
    sum = 0.0
    for part in words.replace(" in", "").split("+"):
        count, times, each = part.rpartition("\u00d7")
        sum += (float(count) if times else 1.0) * float(each)
    assert sum * 25.4e-3 <= cut["feature_depth"] + 1e-9, (words, cut["feature_depth"])
    assert sum * 25.4e-3 >= cut["feature_depth"] - 2.6e-6, (words, cut["feature_depth"])
assert any("+" in html.unescape(c) for c in cells)
print("ok")
PY
) || true
[ "$checked" = ok ] && good || bad "$task: the lengths of the sheet"
