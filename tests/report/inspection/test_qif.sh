#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Reports as QIF 3.0: valid by the part of the schema that they use (qif/README.md), or by the whole
# schema if BITE_QIF_SCHEMA names it; and documents with a fault are not.
set -u
build=${BITE_TEST_BUILD:-.}
source=${BITE_TEST_SOURCE:-.}
schema=${BITE_QIF_SCHEMA:-$source/tests/report/inspection/qif/measurement_results.xsd}
command -v xmllint >/dev/null 2>&1 || { echo 'no xmllint: skipped'; exit 77; }
work=$(mktemp -d "${TMPDIR:-/tmp}/bite-qif-XXXXXX") || exit 99
trap 'rm -rf "$work"' EXIT
passed=0
failed=0
good() { passed=$((passed + 1)); }
bad() { failed=$((failed + 1)); echo "FAILED: $*"; }

valid() { xmllint --noout --nonet --schema "$schema" "$1" >"$work/log" 2>&1; }

for units in metric inch; do
    "$build/tests/report/inspection/test_inspection_report" --write "$work/$units.qif" qif $units \
        >"$work/log" 2>&1 || { cat "$work/log"; exit 99; }
    valid "$work/$units.qif" && good || bad "$units: $(head -n 3 "$work/log")"
done
grep -q '<UnitName>inch</UnitName>' "$work/inch.qif" && good || bad 'inch: another unit'

# fault NAME SED: the document with this change must be refused
fault() {
    sed "$2" "$work/metric.qif" >"$work/fault.qif"
    cmp -s "$work/metric.qif" "$work/fault.qif" && bad "$1: nothing was changed"
    valid "$work/fault.qif" && bad "$1: accepted" || good
}
fault 'a status that does not exist' 's/>PASS</>GOOD</'
fault 'an id twice' 's/Definition id="8"/Definition id="7"/'
fault 'an item that does not exist' 's|\(<CharacteristicItemId>\)15<|\199999<|'
fault 'a device that does not exist' 's|\(<MeasurementDeviceIds n="1"><Id>\)3<|\199999<|'
fault 'no status' 's|<Status><CharacteristicStatusEnum>[A-Z_]*</CharacteristicStatusEnum></Status>||'
fault 'an exponent' 's|>38\.[0-9]*<|>3.8e1<|'
fault 'another version' 's/versionQIF="3.0.0"/versionQIF="2.1.0"/'
printf '%d passed, %d failed\n' $passed $failed
[ $failed -eq 0 ]
