#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Reports as QIF 3.0 of records of every kind: valid by the part of the schema that they use
# (qif/README.md), or by the whole schema if BITE_QIF_SCHEMA names it. And documents that break one
# rule are refused, because of that rule: the check can fail.
set -u
build=${BITE_TEST_BUILD:-.}
source=${BITE_TEST_SOURCE:-.}
schema=${BITE_QIF_SCHEMA:-$source/tests/report/inspection/qif/measurement_results.xsd}
report=$build/tests/report/inspection/test_inspection_report
command -v xmllint >/dev/null 2>&1 || { echo 'no xmllint: skipped'; exit 77; }
work=$(mktemp -d "${TMPDIR:-/tmp}/bite-qif-XXXXXX") || exit 99
trap 'rm -rf "$work"' EXIT
passed=0
failed=0
good() { passed=$((passed + 1)); }
bad() { failed=$((failed + 1)); echo "FAILED: $*"; }

valid() { xmllint --noout --nonet --schema "$schema" "$1" >"$work/log" 2>&1; }

# number FILE XPATH: what it is
number() { xmllint --nonet --xpath "number($2)" "$1" 2>"$work/log" || cat "$work/log"; }

# What no schema says: n is how many there are, idMax is the largest id.
counted() {
    [ "$(number "$1" 'count(//*[@n != count(*)])')" = 0 ] && good || bad "$2: another n"
    [ "$(number "$1" 'count(//*[@id > /*/@idMax])')" = 0 ] && good || bad "$2: an id above idMax"
    [ "$(number "$1" 'count(//*[@id = /*/@idMax])')" = 1 ] && good || bad "$2: idMax is no id"
}

kinds=$("$report" --kinds)
[ "$(echo "$kinds" | wc -l)" -ge 16 ] && good || bad "only these kinds of records: $kinds"
for kind in $kinds; do
    for units in metric inch; do
        file=$work/$kind-$units.qif
        "$report" --write "$file" qif $units "$kind" >"$work/log" 2>&1 ||
            { cat "$work/log"; exit 99; }
        valid "$file" && good || bad "$kind, $units: $(head -n 3 "$work/log")"
        counted "$file" "$kind, $units"
    done
done
grep -q '<UnitName>inch</UnitName>' "$work/example-inch.qif" && good || bad 'inch: another unit'
grep -q -e "$(printf '[\001\033\177]')" -e "$(printf '\342\200\256')" \
    "$work/odd-texts-metric.qif" && bad 'odd texts: a control character' || good
many=$(number "$work/many-parts-metric.qif" 'count(//*[local-name() = "ActualComponent"])')
[ "$many" = 600 ] && good || bad 'many parts: not each has a component'
[ "$(number "$work/without-characteristics-metric.qif" 'count(//*[@n])')" = 2 ] &&
    good || bad 'without characteristics: more than the standard and the part'

# What is refused, by the words of xmllint.
order='not expected'
missing='not expected|Missing child'
enumeration="'enumeration'"
dangling='No match found for key-sequence'
double='Duplicate key-sequence'
pattern="'pattern'"
value='not a valid value of the'
attribute='is required but missing|attribute .* is not allowed'
fixed='fixed value constraint'

# refused NAME WHY: $work/fault.qif is, and differs from $base
refused() {
    cmp -s "$base" "$work/fault.qif" && bad "$1: nothing was changed"
    if valid "$work/fault.qif"; then
        bad "$1: accepted"
    else
        grep -E -q "$2" "$work/log" && good || bad "$1: refused, but: $(head -n 2 "$work/log")"
    fi
}

# fault NAME WHY SED: the document with this change
fault() { sed "$3" "$base" >"$work/fault.qif"; refused "$1" "$2"; }

# swapped A B: neighbours on a line, one after the other
swapped() { fault "$2 before $1" "$order" "s|\(<$1[ >].*</$1>\)\(<$2[ >].*</$2>\)|\2\1|"; }

# lists A B: the document in lines of an element each, A and all that is in it after B, or nowhere
lists() {
    xmllint --nonet --format "$base" | sed 's/^ *//' >"$work/lines.qif"
    awk -v first="$1" -v second="$2" '
        index($0, "<" first ">") == 1 || index($0, "<" first " ") == 1 { held = 1 }
        held { lines = lines $0 "\n" } !held { print }
        index($0, "</" first ">") > 0 { held = 0 }
        index($0, "</" second ">") > 0 { printf "%s", lines; lines = "" }' "$work/lines.qif" \
        >"$work/fault.qif"
    cmp -s "$work/lines.qif" "$work/fault.qif" && bad "$1, $2: nothing was moved"
}

# later A B: the first after the second, with all that is in it
later() { lists "$1" "$2"; refused "$1 after $2" "$order"; }

# without_list A: it is not there, nor what is in it
without_list() { lists "$1" none; refused "no $1" "$missing"; }

# without A: no such element on any line
without() { fault "no $1" "$missing" "s|<$1[ >].*</$1>||"; }

# id A: of the first of them
id() { number "$base" "(//*[local-name() = '$1'])[1]/@id"; }

# refers A IN OTHER NAME: the first reference A in an element IN is to another
refers() { fault "$4" "$dangling" "s|\(<$2[ >].*<$1>\)[0-9]*<|\1$3<|"; }

base=$work/example-metric.qif

later QPId Header
later StandardsDefinitions FileUnits
later Product Characteristics
later MeasurementResources Product
later CharacteristicDefinitions CharacteristicNominals
later CharacteristicNominals CharacteristicItems
later MeasurementResultsSet ActualComponentSets
swapped Application Description
swapped Description Scope
swapped Organization Designator
swapped Designator Year
swapped SIUnitName UnitName
swapped UnitName UnitConversion
swapped ModelNumber Version
swapped Name Tolerance
swapped MinValue DefinedAsLimit
swapped CharacteristicDefinitionId Name
swapped Name TargetValue
swapped PassValues FailValues
swapped Name CharacteristicDesignator
swapped MeasurementDeviceIds CharacteristicNominalId
swapped Description Status
swapped Status CharacteristicItemId
swapped CharacteristicItemId TimeStamp
swapped TimeStamp ActualComponentId
swapped ActualComponentId MeasurementDeviceIds
swapped MeasurementDeviceIds Value
swapped InspectionStatus ActualComponentIds
swapped Status Traceability
swapped SampleNumber LotNumber
swapped InspectingOrganization PurchaseOrderNumber
swapped PurchaseOrderNumber ReportNumber
swapped InspectionStart InspectionEnd

for name in QPId PrimaryUnits UnitName Factor Organization StandardsOrganizationEnum Designator \
    Part ToleranceValue DefinedAsLimit WhatToMeasure CharacteristicDefinitionId \
    CharacteristicNominalId CharacteristicStatusEnum CharacteristicItemId InspectionStatus \
    InspectionStatusEnum Id; do
    without $name
done
fault 'no status of a characteristic' "$missing" \
    's|<Status><CharacteristicStatusEnum>[A-Z_]*</CharacteristicStatusEnum></Status>||'
fault 'no status of a part' "$missing" 's|<Status><InspectionStatusEnum>.*</Status>||'
fault 'a device without a name' "$missing" \
    's|\(<MeasurementDevice id="[0-9]*">\)<Name>.*</Name>|\1|'
fault 'no tolerance' "$missing" 's|<Tolerance>.*</Tolerance>||'
fault 'no limit in a tolerance' "$missing" 's|<MaxValue>.*</MinValue>||'
fault 'no string in a list of them' "$missing" 's|<StringValue>[^<]*</StringValue>||'
for name in CharacteristicDefinitions CharacteristicNominals MeasurementResultsSet \
    CharacteristicMeasurements; do
    without_list $name
done
fault 'no measurements' "$missing" '/^<[A-Za-z]*CharacteristicMeasurement /d'
fault 'no definitions in their list' "$missing" '/^<[A-Za-z]*CharacteristicDefinition /d'
fault 'no parts' "$missing" '/^<ActualComponent /d'

fault 'an element that there is not' "$order" 's|<Scope>|<Reach>|; s|</Scope>|</Reach>|'
fault 'the kind that stands for others' 'abstract' \
    's/LengthCharacteristicItem\([ >]\)/CharacteristicItem\1/g'
fault 'the kind of another list' "$order" \
    's/LengthCharacteristicItem\([ >]\)/LengthCharacteristicNominal\1/g'
fault 'text between elements' 'Character content' 's|<Product>|<Product>of ours|'
fault 'two tolerances' "$order" 's|\(<Tolerance>.*</Tolerance>\)|\1\1|'
fault 'two values' "$order" 's|\(<Value.*</Value>\)|\1\1|'
fault 'another namespace' 'No matching global' 's|/xsd/qif3"|/xsd/qif2"|'
fault 'another version' "$fixed" 's/versionQIF="3.0.0"/versionQIF="2.1.0"/'
fault 'another unit of length' "$fixed" 's|<SIUnitName>meter<|<SIUnitName>metre<|'

fault 'a status of a characteristic' "$enumeration" 's/>PASS</>GOOD</'
fault 'a status of another list' "$enumeration" \
    's|<InspectionStatusEnum>PASS<|<InspectionStatusEnum>INDETERMINATE<|'
fault 'an organization' "$enumeration" 's/>ISO</>OURS</'
fault 'a small letter' "$enumeration" 's/>ISO</>iso</'

first=$(id LengthCharacteristicDefinition)
fault 'a definition twice' "$double" \
    "s/\(ThicknessCharacteristicDefinition id=\"\)[0-9]*/\1$first/"
fault 'the id of another kind' "$double" "s/<Part id=\"[0-9]*\"/<Part id=\"$first\"/"
fault 'a part twice' "$double" "s/<ActualComponent id=\"[0-9]*\"/<ActualComponent id=\"999\"/"
refers CharacteristicDefinitionId LengthCharacteristicNominal 999 'a definition that does not exist'
refers CharacteristicDefinitionId LengthCharacteristicNominal \
    "$(id ThicknessCharacteristicDefinition)" 'the definition of another kind'
refers CharacteristicDefinitionId LengthCharacteristicNominal \
    "$(id LengthCharacteristicItem)" 'an item as definition'
refers CharacteristicNominalId FlatnessCharacteristicItem 999 'a nominal that does not exist'
refers CharacteristicNominalId FlatnessCharacteristicItem \
    "$(id ThicknessCharacteristicNominal)" 'the nominal of another kind'
refers CharacteristicItemId UserDefinedAttributeCharacteristicMeasurement 999 \
    'an item that does not exist'
refers CharacteristicItemId UserDefinedAttributeCharacteristicMeasurement \
    "$(id FlatnessCharacteristicItem)" 'the item of another kind'
refers Id LengthCharacteristicItem 999 'a device that does not exist, of an item'
refers Id LengthCharacteristicMeasurement 999 'a device that does not exist, of a measurement'
refers Id LengthCharacteristicMeasurement "$first" 'a definition as device'
refers ActualComponentId LengthCharacteristicMeasurement 999 'a part that does not exist'
refers ActualComponentId LengthCharacteristicMeasurement "$(id MeasurementResults)" \
    'results as part'
fault 'results of a part that does not exist' "$dangling" \
    's|\(<ActualComponentIds n="1"><Id>\)[0-9]*<|\1999<|'
if [ -z "${BITE_QIF_SCHEMA:-}" ]; then # our own rule
    fault 'a standard that does not exist' "$dangling" \
        's|\(<FormalStandardId>\)1<|\1999<|'
fi

for name in '' 1234 '{&}' '&0' 'urn:uuid:&'; do
    fault "the UUID $name" "$pattern" "s|[0-9a-f-]\{36\}|$name|"
done
fault 'a UUID with a letter that is no digit' "$pattern" 's|<QPId>.|<QPId>g|'
fault 'a UUID without dashes' "$pattern" '/QPId/s|-||g'

for number in 3.8e1 NaN INF - '' 3,8 '3.8 mm' 0x3; do
    fault "the size $number" "$value" "s|>38\.[0-9]*</Value>|>$number</Value>|"
    fault "the limit $number" "$value" "s|<MaxValue>[0-9.]*<|<MaxValue>$number<|"
    fault "the target $number" "$value" "s|<TargetValue>[0-9.]*<|<TargetValue>$number<|"
    fault "the tolerance $number" "$value" "s|<ToleranceValue>[0-9.]*<|<ToleranceValue>$number<|"
    fault "the uncertainty $number" "$value" \
        "s|combinedUncertainty=\"[0-9.]*\"|combinedUncertainty=\"$number\"|"
done
fault 'an uncertainty below 0' "'minInclusive'" 's|combinedUncertainty="|&-|'
fault 'a mean error below 0' "'minInclusive'" 's|meanError="0"|meanError="-0.1"|'
fault 'a unit of 0 m' "'minExclusive'" 's|<Factor>[0-9.]*<|<Factor>0<|'
fault 'a judgement that is no word' "$value" 's|<DefinedAsLimit>true<|<DefinedAsLimit>yes<|'
fault 'a time without T' "$value" 's|\(<TimeStamp>[0-9-]*\)T|\1 |'
fault 'a month that there is not' "$value" 's|\(<InspectionStart>[0-9]*\)-[0-9]*|\1-13|'
fault 'a list of 0' "'minInclusive'" 's/<PartSet n="1"/<PartSet n="0"/'
fault 'a list of -1' "$value" 's/<PartSet n="1"/<PartSet n="-1"/'
fault 'the id 0' "$pattern" 's/<Part id="2"/<Part id="0"/'
fault 'an id with zeros before it' "$pattern" 's/<Part id="2"/<Part id="02"/'
fault 'an id of more than 32 bits' "$value" 's/<Part id="2"/<Part id="4294967296"/'
fault 'an id that is a name' "$value|$pattern" 's/<Part id="2"/<Part id="lens"/'
fault 'a reference with a sign' "$value" 's|<FormalStandardId>1<|<FormalStandardId>+1<|'
fault 'a negative idMax' "$value" 's/idMax="/&-/'

fault 'no idMax' "$attribute" 's/ idMax="[0-9]*"//'
fault 'no version' "$attribute" 's/ versionQIF="[0-9.]*"//'
fault 'no id' "$attribute" 's/<Part id="2"/<Part/'
fault 'no n' "$attribute" 's/<PartSet n="1"/<PartSet/'
fault 'an attribute that there is not' "$attribute" 's/<Part /<Part colour="red" /'

# Rules for what that document does not have.
base=$work/every-measure-metric.qif
swapped Tolerance WhatToMeasure
refers CharacteristicItemId UserDefinedLinearCharacteristicMeasurement 999 'an item not there'
refers CharacteristicItemId DepthCharacteristicMeasurement "$(id HeightCharacteristicItem)" \
    'the item of another kind, of a depth'
base=$work/bare-metric.qif
fault 'another word than measured' "$enumeration" 's/>MEASURED</>KNOWN</'
swapped NonTolerance WhatToMeasure

printf '%d passed, %d failed\n' $passed $failed
[ $failed -eq 0 ]
