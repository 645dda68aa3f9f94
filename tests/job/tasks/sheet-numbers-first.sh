# SPDX-License-Identifier: GPL-3.0-or-later
# At the machine: what is entered comes first on the page, the dangers beside or below it in one box;
# the plan on a narrow terminal has the same order, and no line is wider than it.
ask job "$source/tables/jobs/cover-lens.ini" --sheet "$work/sheet.html"
exits 0
checked=$("$python" - "$work/sheet.html" <<'PY'
import re, sys
page = open(sys.argv[1], encoding="utf-8").read()
sheets = page.split('<section class="sheet"')[1:]
setups = [s for s in sheets if 'id="setup-' in s]
assert len(setups) == 2
for sheet in setups:
    assert 0 < sheet.index('class="enter" data-name="Spindle"') < sheet.index("DANGER")
    assert sheet.count('class="warnings"') == 1
    first = sheet.index("DANGER")
    assert sheet.rindex("DANGER") < sheet.index("</ul>", first)
numbers = [int(n) for s in setups for n in re.findall(r'<td class="place">(\d+)</td>', s)]
assert len(numbers) >= 6 and numbers == list(range(1, len(numbers) + 1)), numbers
print("ok")
PY
) || true
[ "$checked" = ok ] && good || bad "$task: the order of the sheet"
for columns in 80 60; do
    COLUMNS=$columns ask job "$source/tables/jobs/cover-lens.ini"
    exits 0
    awk -v most=$columns 'length($0) > most { exit 1 }' "$work/out" && good || bad "$task: a line is wider than $columns columns"
    last=$(grep -n 'Enter$\|Enter spindle\|^ *spindle' "$work/out" | tail -n 1 | cut -d: -f1)
    danger=$(grep -n '^DANGER' "$work/out" | head -n 1 | cut -d: -f1)
    [ -n "$last" ] && [ -n "$danger" ] && [ "$last" -lt "$danger" ] && good || bad "$task: a danger before the numbers at $columns columns"
done
