#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What reaches a spreadsheet, a browser or a terminal: no formula, no markup, no script, no escape
# sequence, no change of direction, whoever wrote the names and paths.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"
cd "$work" || exit 99

# ---- CSV: what a spreadsheet would take for a formula ----
cat >formulas.csv <<'EOF'
id,tool,spindle [rpm],feed [mm/min],depth
"=HYPERLINK(""x"")",3mm,9000,300,0.2mm
-A12,3mm,9000,300,0.2mm
-1+1,3mm,9000,300,0.2mm
@sum,3mm,9000,300,0.2mm
  +b,3mm,9000,300,0.2mm
-12,3mm,9000,300,0.2mm
-1.5e-3,3mm,9000,300,0.2mm
-0.2mm,3mm,9000,300,0.2mm
A-12,3mm,9000,300,0.2mm
ok,3mm,9000,=1+1,0.2mm
EOF
batch() { "$program" batch --material acrylic/cast --results verdict "$@"; }
batch formulas.csv >out 2>err
cut -d, -f1-5 out >fields
field() { check "a row repeats $1" grep -qxF -- "$1" fields; }
field "\"'=HYPERLINK(\"\"x\"\")\",3mm,9000,300,0.2mm"
field "'-A12,3mm,9000,300,0.2mm"
field "'-1+1,3mm,9000,300,0.2mm"
field "'@sum,3mm,9000,300,0.2mm"
field "'+b,3mm,9000,300,0.2mm"
field '-12,3mm,9000,300,0.2mm'
field '-1.5e-3,3mm,9000,300,0.2mm'
field '-0.2mm,3mm,9000,300,0.2mm'
field 'A-12,3mm,9000,300,0.2mm'
field "ok,3mm,9000,'=1+1,0.2mm"
check 'all rows but the last are judged' [ "$(grep -c ',clear,\|,tight,\|,over,' out)" -eq 9 ]
check 'no field begins as a formula' [ "$(tr ',' '\n' <out | grep -c '^"*[=@]')" -eq 0 ]
printf '{"id": "=1+1", "tool": "3mm", "spindle": "9000rpm", "feed": "300mm/min", "depth": "0.2mm"}\n' >one.jsonl
batch one.jsonl >out 2>err
check 'JSON is exact' grep -q '"id": "=1+1"' out

# ---- pages: markup is text, and the content policy allows no script ----
small_job "\"<script>alert(1)</script> & 'x' =1+1\"" >job.ini
"$program" job job.ini --draws 1 --exit-zero --sheet sheet.html >plan.txt 2>err
check 'the sheet is written' [ -s sheet.html ]
check 'markup in a title is text' \
    grep -q '&lt;script&gt;alert(1)&lt;/script&gt; &amp; &#39;x&#39; =1+1' sheet.html
check 'the sheet has no script' [ "$(grep -ciE '<script|javascript:| on[a-z]+="' sheet.html)" -eq 0 ]
check 'the sheet loads nothing' [ "$(grep -ciE '(src|href)="(https?:|//)|@import|url\(.?http' sheet.html)" -eq 0 ]
policy() { grep -o 'Content-Security-Policy" content="[^"]*"' "$1"; }
check 'the policy allows nothing that it does not name' \
    [ "$(policy sheet.html | grep -c "default-src 'none'; .*base-uri 'none'; form-action 'none'")" -eq 1 ]
check 'and names no script' [ "$(policy sheet.html | grep -c script)" -eq 0 ]
"$program" window --material acrylic/cast --tool 3mm --depth 0.2mm --spindle 9000rpm --feed 300mm/min \
    --draws 1 --exit-zero --format html >window.html 2>err
check 'the script of a window is allowed by its hash alone' \
    [ "$(policy window.html | grep -c "script-src 'sha256-[A-Za-z0-9+/=]*'; style-src 'sha256-")" -eq 1 ]
if command -v xmllint >/dev/null 2>&1; then
    check 'the sheet is well-formed' xmllint --noout --nonet sheet.html
    check 'the window is well-formed' xmllint --noout --nonet window.html
else
    skipped 'well-formed pages: no xmllint'
fi

# ---- terminal: escape sequences, changes of direction and odd bytes in what a user names ----
escape=$(printf '\033]0;owned\007')
turn=$(printf 'a\342\200\256fdp.ini')
bytes=$(printf 'odd\377\376.ini')
line=$(printf 'two\nlines.ini')
mark=$(printf '\342\200\256')
safe() { # CLAIM COMMAND: it says something, in UTF-8, without control characters but those of lines
    claim=$1
    shift
    "$@" >out 2>err
    cat out err >shown
    check "$claim: something is said" [ -s shown ]
    check "$claim: no control characters" \
        [ "$(LC_ALL=C tr -d '\n\t' <shown | LC_ALL=C tr -cd '\001-\037\177' | wc -c)" -eq 0 ]
    check "$claim: UTF-8" iconv -f UTF-8 -t UTF-8 shown -o converted
    check "$claim: no mark of direction" [ "$(grep -c "$mark" shown)" -eq 0 ]
}
number=0
for name in "$escape" "$turn" "$bytes" "$line"; do
    number=$((number + 1))
    safe "name $number as a job" "$program" job "$name"
    safe "name $number as a record" "$program" measure "$name"
    safe "name $number as a batch" "$program" batch --material acrylic "$name"
    safe "name $number as a material" "$program" cut --material "$name" --tool 3mm
    safe "name $number as a tool" "$program" cut --material acrylic --tool "$name"
    safe "name $number as a quantity" "$program" cut --material acrylic --tool 3mm --feed "$name"
    safe "name $number as an option" "$program" cut "--$name"
    safe "name $number as a command" "$program" "$name"
    safe "name $number as a list of tools" "$program" list tools --tools "$name"
    safe "name $number as a word to explain" "$program" explain "$name"
    mkdir "folder $name" && sed 's/^title = .*/nonsense = 1/' job.ini >"folder $name/$number" || exit 99
    safe "name $number in the path of a faulty job" "$program" job "folder $name/$number"
    cp job.ini "folder $name/$number" || exit 99
    safe "name $number in the path of a sheet" \
        "$program" job "folder $name/$number" --draws 1 --exit-zero --sheet "folder $name/sheet.html"
    check "name $number: the sheet is written" [ -s "folder $name/sheet.html" ]
done
for text in "$escape" "$turn" "$bytes"; do
    small_job "\"$text\"" >odd.ini
    safe 'a job with an odd title' "$program" job odd.ini --draws 1 --exit-zero
    printf 'id,tool\n%s,3mm\n' "$text" >odd.csv
    safe 'a batch with an odd id' "$program" batch odd.csv --material acrylic/cast
done

finish
