#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The add-in of Calc, packed and installed in a profile of its own, and the example with it.
. "${BITE_TEST_SOURCE:-.}/tests/bindings/python.sh"
for need in soffice unopkg; do
    command -v $need >/dev/null 2>&1 || skip "$need is not here (Debian: libreoffice-calc)"
done
find_python uno cffi
sheets=$source/bindings/spreadsheet

"$python" "$sheets/make_example.py" --check
check 'example.fods is what make_example.py writes' [ $? -eq 0 ]
"$python" "$sheets/pack.py" "$work/coolbite.oxt" && "$python" "$sheets/pack.py" "$work/again.oxt"
check 'the same bytes twice' cmp -s "$work/coolbite.oxt" "$work/again.oxt"

# The package in the extension is used, and nothing outside $work is written: what root installs
# goes to all users otherwise.
unset PYTHONPATH
set -- "-env:UserInstallation=file://$work/profile" \
    "-env:UNO_SHARED_PACKAGES=file://$work/shared" \
    "-env:UNO_SHARED_PACKAGES_CACHE=file://$work/shared/cache"
[ "$(id -u)" -ne 0 ] || whose=--shared
unopkg add ${whose:-} "$work/coolbite.oxt" "$@" >"$work/unopkg.log" 2>&1
check "unopkg add: $(cat "$work/unopkg.log")" [ $? -eq 0 ]
unopkg list ${whose:-} "$@" >"$work/unopkg.log" 2>&1
check 'it is registered' grep -q 'is registered: yes' "$work/unopkg.log"
timeout 180 "$python" "$source/tests/bindings/spreadsheet_session.py" "$sheets/example.fods" \
    "$work" "$@" 2>"$work/err"
check "the session: $(cat "$work/err")" [ $? -eq 0 ]

# Without the library each cell says so; without the add-in none shows a number.
convert() {
    rm -f "$work/example.csv"
    timeout 60 soffice --headless "$@" --convert-to csv --outdir "$work" "$sheets/example.fods" \
        >"$work/log" 2>&1
}
COOLBITE_LIBRARY=$work/none.so convert "$@"
check "no library: $(cat "$work/log")" [ "$(grep -o 'Fault: libcoolbite was not found' \
    "$work/example.csv" | wc -l)" -eq 46 ]
unopkg remove ${whose:-} coolbite.spreadsheet "$@" >"$work/unopkg.log" 2>&1
check "unopkg remove: $(cat "$work/unopkg.log")" [ $? -eq 0 ]
convert "$@"
check "no add-in: $(cat "$work/log")" [ "$(grep -o '#NAME?' "$work/example.csv" | wc -l)" -ge 46 ]
finish
