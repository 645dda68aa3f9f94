#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# coolbite new-material writes a table that audit accepts, that says it is to be filled in, and that
# can be filled in by removing the # of its lines; it never touches a file that is there.
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"
cd "$work" || exit 99

expect 0 '' -- "$program" new-material soap --like acrylic/cast
check 'it says where' grep -qF 'soap.ini was written' "$work/out"
expect 0 '' -- "$program" audit soap.ini
check 'its grade can be cut' grep -q '1 grade, 0 self-tests and 4 trial cuts$' "$work/out"
check 'every figure is a comment' sh -c '! grep -q "^[a-z_]*\.source" soap.ini'
check 'the figures of the physics are in it' sh -c \
    '[ "$(grep -c "^# [a-z_]*.source = GRADE: WHERE" soap.ini)" -ge 40 ]'

# in use it says that it is not filled in
mkdir -p own/materials
cp soap.ini own/materials/
export COOLBITE_TABLE_PATH="$work/own:$work/tables"
"$program" cut --material soap --tool 3mm --spindle 12000rpm --feed 600mm/min --depth 1mm \
    --exit-zero >answer.txt
check 'answers say that it is not filled in' sh -c \
    'tr "\n" " " <"$1" | tr -s " " | grep -q "The table of soap is not filled in yet: its figures are those of acrylic/cast"' - answer.txt
expect 64 'have a family soap already' -- "$program" new-material soap --output "$work/own/soap.ini"
export COOLBITE_TABLE_PATH="$work/tables"

# filled in: the line of the figure and of its source, without the #
sed -e 's/^# density = VALUE \([^ ]*\) .*/density = 1050 \1 (1000 .. 1100)/' \
    -e 's/^# \(density.source\) = .*/\1 = memory: weighed/' soap.ini >own/soap.ini
check 'two lines were filled in' [ "$(diff soap.ini own/soap.ini | grep -c '^>')" -eq 2 ]
expect 0 '' -- "$program" audit own/soap.ini
sed 's/^# density = VALUE/density = VALUE/' soap.ini >own/soap.ini
"$program" audit own/soap.ini >out.txt
check 'what is half filled in is a fault' [ $? -eq 1 ]
check 'and is named' grep -q '^own/soap.ini:[0-9]*:[0-9]*: grade.plain:density: ' out.txt

# without a grade that it is like
expect 0 '' -- "$program" new-material suds/white --output own/suds.ini
expect 0 '' -- "$program" audit own/suds.ini
check 'figures are missing' grep -q '1 grade without the figures for a cut$' "$work/out"
expect 0 '' -- "$program" new-material suds --output -
check 'to standard output' sh -c 'head -n 1 "$1" | grep -qx "# TO BE FILLED IN: the table of suds."' - "$work/out"

# never over a file
cp soap.ini before.ini
expect 73 'the file exists' -- "$program" new-material soap
check 'the file is as it was' cmp -s soap.ini before.ini
: >foam.ini
expect 73 'the file exists' -- "$program" new-material foam
check 'an empty file is kept' [ ! -s foam.ini ]
ln -s "$work/elsewhere" moss.ini
expect 73 'the file exists' -- "$program" new-material moss
check 'nothing is written through a link' [ ! -e elsewhere ]
expect 73 'No such file' -- "$program" new-material moss --output nowhere/moss.ini

# names
expect 64 'have a family acrylic already' -- "$program" new-material acrylic
expect 66 'did you mean acrylic/cast?' -- "$program" new-material moss --like acrylic/kast
expect 64 'must have the name moss.ini' -- "$program" new-material moss --output x.ini
for name in '' X 'a b' ../a a/ /a a/b/c "$(printf '%065d' 0)" 'a
b'; do
    expect 64 'takes one name' -- "$program" new-material "$name"
done
expect 64 'takes one name' -- "$program" new-material
expect 64 'takes one name' -- "$program" new-material a b
finish
