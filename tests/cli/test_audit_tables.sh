#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# coolbite audit finds the project's tables sound, and of tables made from a good one by one change
# each it names the change: file, line, section, key, what was expected.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"

expect 0 '' -- "$program" audit "$source/tables"
check 'the tables of the project are sound' grep -q '^sound: [0-9]* tables and 0 plugins; ' "$work/out"
check 'all of them were judged' [ "$(sed -n 's/^sound: \([0-9]*\) .*/\1/p' "$work/out")" -eq \
    "$(ls "$source"/tables/*.ini "$source"/tables/materials/*.ini | wc -l)" ]

mkdir "$work/own"
table=$work/own/soap.ini
cat >"$work/good.ini" <<'END'
[format]
kind = material
version = 1
[family]
name = soap
title = Soap
default = plain
[grade.plain]
like = acrylic/cast
title = plain
density = 1200 kg/m3 (1150 .. 1250)
density.source = handbook: a book
conductivity = 0.2 W/m/K
conductivity.source = memory
softening = 100 degC
softening.source = memory
welding = 160 degC
welding.source = memory
strength.at = 20degC 1, 80degC 0.6
strength.at.source = memory
[caution.slip]
severity = care
when = depth above 2 mm
text = The floor becomes slippery.
source = common-practice
[case.one]
tool = 3mm
spindle_speed = 12000rpm
feed_rate = 600 mm/min
depth = 1mm
source = memory
expect.chip_load = 25um/tooth
within = 1 %
END
cp "$work/good.ini" "$table"
expect 0 '' -- "$program" audit "$table"
check 'the good table is sound' grep -q '^sound: 1 table and 0 plugins; 1 grade, 1 self-test and 4' "$work/out"

# finds LINE TEXT: exit status 1, a line of that place with the text, and one line for each fault
finds() {
    "$program" audit "$table" >"$work/out" 2>"$work/err"
    got=$?
    if [ "$got" -eq 1 ] && [ ! -s "$work/err" ] &&
        grep -F "$table:$1:" "$work/out" | grep -qF -- "$2" &&
        [ "$(sed -n '$s/ .*//p' "$work/out")" -eq $(($(wc -l <"$work/out") - 1)) ]; then
        good
    else
        bad "$change: exit status $got, without $1 $2: $(cat "$work/out" "$work/err")"
    fi
}

# one change each: what sed does, the line, the text
while IFS='|' read -r change line says; do
    sed "$change" "$work/good.ini" >"$table"
    cmp -s "$work/good.ini" "$table" && bad "$change changes nothing"
    finds "$line" "$says"
done <<'END'
s/^version = 1/version = 9/|3|format:version
s/^version = 1//|1|format: the table does not begin with
s/^kind = material/kind = materiel/|2|format:kind: there is no kind of table named materiel (did you mean material?)
s/^kind = material//|1|format:kind: the file does not say which kind
s/^name = soap/name = suds/|5|family:name: the name of the family is not that of its file
s/^\[grade.plain/[grad.plain/|8|grad.plain
s/^\[grade.plain\]/[grade.plain/|8|
s/^title = plain/title = plain\\x/|10|
s/^like = .*/like = acrylic\/kast/|9|grade.plain:like: acrylic has no grade kast to be like (did you mean acrylic/cast?)
s/^like = .*/like = soap\/plain/|9|grade.plain:like
s/^density = /densety = /|11|did you mean density?
s/^density = .*/density = 1200/|11|grade.plain:density
s/^density = .*/density = 1200 MPa/|11|grade.plain:density
s/^density = .*/density = -1200 kg\/m3/|11|grade.plain:density
s/^density = .*/density = nan kg\/m3/|11|grade.plain:density
s/^density = .*/density = 1200 kg\/m3 (1250 .. 1150)/|11|grade.plain:density
s/^density.source.*//|11|grade.plain:density
s/^density.source.*/density.source = a friend/|12|grade.plain:density
s/^conductivity = .*/conductivity = 400 W\/m\/K/|13|grade.plain:conductivity: conductivity of 400 W/m/K is beyond what amorphous can have
s/^softening = .*/softening = 190 degC/|15|grade.plain:
s/^density = .*/density = 1200 kg\/m3 (1150 .. 1250)\ndensity = 1100 kg\/m3/|12|density
s/^strength.at = .*/strength.at = 80degC 0.6, 20degC 1/|19|grade.plain:strength.at
s/^strength.at = .*/strength.at = 20degC 1/|19|grade.plain:strength.at
s/^severity = .*/severity = grim/|22|caution.slip:severity
s/^severity = .*//|21|caution.slip:severity: a caution needs a severity
s/^when = .*/when = deepness above 2 mm/|23|caution.slip:when
s/^when = .*/when = depth above 2 rpm/|23|caution.slip:when
s/^text = The.*//|21|caution.slip:text
s/^text = The.*/text = The {flor} is wet./|24|caution.slip:text
s/^source = common.*/source = rumour/|25|caution.slip:source
s/^source = common.*//|21|caution.slip:source
s/^tool = 3mm/tool = no-such-mill/|27|case.one:tool
s/^spindle_speed = .*/spindel_speed = 12000rpm/|28|case.one:spindel_speed
s/^expect.chip_load = .*/expect.chip_load = 40um\/tooth/|32|case.one:expect.chip_load: chip_load is 25 um/tooth; 39.6
s/^expect.chip_load = .*//|26|case.one:expect: a case expects nothing
s/^within = .*//|32|case.one:expect.chip_load: what is expected has no tolerance
END

# ---- all at once, in the order of the file ----
change='all at once'
sed -e 's/^density = .*/density = 1200/' -e 's/^conductivity = .*/conductivity = 400 W\/m\/K/' \
    -e 's/^severity = .*/severity = grim/' -e 's/^title = plain/substance = amorphous/' \
    -e 's/^within = .*//' "$work/good.ini" >"$table"
finds 11 'grade.plain:density'
finds 13 'conductivity of 400'
finds 22 'severity'
finds 32 'no tolerance'
check 'in the order of the lines' sh -c \
    'sed "\$d" "$1" | sed "s#^[^:]*:\([0-9]*\):.*#\1#" | sort -nc' - "$work/out"
change='a parent beside another fault'
sed -e 's/^like = .*/like = acrylic\/kast/' -e 's/^density = .*/density = 1200/' "$work/good.ini" >"$table"
finds 9 'grade.plain:like: acrylic has no grade named kast (did you mean acrylic/cast?)'
finds 11 'grade.plain:density'
change='two parents'
sed -e 's/^like = .*/like = acrylic\/kast/' -e 's/^\[caution/[grade.other]\nlike = nothing\/here\n&/' \
    "$work/good.ini" >"$table"
finds 9 'no grade kast'
finds 22 'grade.other:like: there is no family and no grade nothing'

# ---- a table of another kind, under any name ----
table=$work/own/my-mills.ini
printf '[format]\nkind = tools\nversion = 1\n[tool.a]\ntitle = a\ndiameter = 3 mm\nflutes = 2\nsource = memory\n' >"$work/good.ini"
cp "$work/good.ini" "$table"
expect 0 '' -- "$program" audit "$table"
while IFS='|' read -r change line says; do
    sed "$change" "$work/good.ini" >"$table"
    finds "$line" "$says"
done <<'END'
s/diameter/diametre/|6|did you mean diameter?
s/3 mm/3 MPa/|6|tool.a:diameter
s/3 mm/3000 m/|6|tool.a:diameter
s/flutes = 2/flutes = -2/|7|tool.a:flutes
s/^source.*//|6|tool.a:diameter
END
table=$work/own/Upper.ini
change='a name that no library finds'
sed 's/kind = tools/kind = material/' "$work/good.ini" >"$table"
"$program" audit "$table" >"$work/out"
check "$change" grep -qF 'has the name FAMILY.ini' "$work/out"

# ---- what is no table ----
table=$work/own/bytes.ini
change='bytes'
head -c 3000 /dev/urandom >"$table"
"$program" audit "$table" >"$work/out" 2>"$work/err"
check 'random bytes are faults' [ $? -eq 1 ]
check 'nothing of them reaches the terminal' sh -c '! LC_ALL=C grep -q "[^ -~]" "$1"' - "$work/out"
: >"$table"
"$program" audit "$table" >"$work/out" 2>"$work/err"
check 'an empty file is a fault' [ $? -eq 1 ]
head -c 2000000 /dev/zero >"$table"
expect 65 '' -- sh -c '"$1" audit "$2" 2>"$3"' - "$program" "$table" "$work/said"
expect 65 'neither a table nor a plugin' -- "$program" audit "$source/tables/jobs/bracket.ini"
mkdir "$work/nothing"
expect 66 'there is no table' -- "$program" audit "$work/nothing"
expect 64 'one path' -- "$program" audit
expect 64 'time-limit' -- "$program" audit --time-limit 0.1s "$table"

expect 71 'the child process cannot be started' -- sh -c \
    'ulimit -n 8; exec "$1" audit "$2"' - "$program" "$work/good.ini"
mkfifo "$work/own/pipe.ini"
expect 66 'is not a regular file' -- "$program" audit "$work/own/pipe.ini"
rm -f "$work/own/pipe.ini"

# ---- JSON ----
rm -f "$work"/own/*
sed 's/3 mm/3 MPa/' "$work/good.ini" >"$work/own/mills.ini"
"$program" audit "$work/own" --format json >"$work/out.json"
check 'JSON has exit status 1 too' [ $? -eq 1 ]
if command -v python3 >/dev/null; then
    check 'JSON is sound' python3 - "$work/out.json" "$work/own/mills.ini" <<'END'
import json, sys
audit = json.load(open(sys.argv[1]))
assert audit["sound"] is False and audit["faults"] == len(audit["findings"]) == 1, audit
finding = audit["findings"][0]
assert finding["file"] == sys.argv[2] and finding["line"] == 6, finding
assert finding["key"] == "tool.a:diameter" and finding["message"] and finding["hint"] is not None
assert (audit["tables"], audit["plugins"]) == (1, 0), audit
END
else
    skipped 'JSON: no python3'
fi
finish
