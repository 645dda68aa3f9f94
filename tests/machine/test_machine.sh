#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# A machine that fails: each system call of seven commands fails once in turn (every BITE_MACHINE_EVERY-th of
# them; 1 tries all, which takes some minutes), and the machine is short of descriptors, space, inodes,
# stack, outputs. BITE_MACHINE_ONLY=WORD: that command alone.
set -u
source=${BITE_TEST_SOURCE:-.}
build=${BITE_TEST_BUILD:-.}
case $source in /*) ;; *) source=$PWD/$source ;; esac
case $build in /*) ;; *) build=$PWD/$build ;; esac
command -v python3 >/dev/null 2>&1 || { echo 'no python3: skipped'; exit 77; }
program=$build/.libs/coolbite
[ -x "$program" ] || program=$build/coolbite
if LC_ALL=C grep -aq __asan_init "$program"; then
    echo 'a sanitizer holds files and memory of its own: skipped'
    exit 77
fi
work=$(mktemp -d "${TMPDIR:-/tmp}/bite-machine-XXXXXX") || exit 99
trap 'rm -rf "$work"' EXIT
export LD_LIBRARY_PATH="$build/.libs${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH}" LC_ALL=C PYTHONDONTWRITEBYTECODE=1
unset XDG_CONFIG_HOME XDG_DATA_HOME COOLBITE_CONFIG NO_COLOR

mkdir -m 755 "$work/families" "$work/tables" "$work/tables/materials" || exit 99
cp "$source"/tables/*.ini "$work/tables/" || exit 99
for family in acrylic polycarbonate; do
    cp "$source/tables/materials/$family.ini" "$work/tables/materials/" &&
        cp "$build/plugins/.libs/$family.so" "$work/families/" || exit 99
done
chmod 644 "$work"/families/*.so
chmod -R u+w "$work/tables"
cat >"$work/job.ini" <<'END'
[format]
kind = job
version = 1
[job]
title = A small job
[part]
material = acrylic/cast
length = 40 mm
width = 30 mm
thickness = 2 mm
[hold]
method = tape
[pass.a]
work = cut-free
tool = 2mm
spindle = 9000rpm
feed = 300mm/min
[check.length]
nominal = 40 mm
END
printf 'id,tool,spindle [rpm],feed [mm/min],depth\n1,3mm,9000,300,0.2mm\n2,2mm,9000,300,0.2mm\n' >"$work/cuts.csv"
(cd "$work" && COOLBITE_TABLE_PATH="$work/tables" COOLBITE_FAMILY_PATH="$work/families" HOME="$work" \
    "$program" measure parts.record --job job.ini --draws 1) >"$work/begun" 2>&1 || { cat "$work/begun"; exit 99; }
rm "$work/begun"

failed=0
python3 "$source/tests/machine/failing_limits.py" "$program" "$work" || failed=1
if command -v strace >/dev/null 2>&1 && strace -o /dev/null true 2>/dev/null; then
    python3 "$source/tests/machine/failing_calls.py" "$program" "$work" --every "${BITE_MACHINE_EVERY:-23}" \
        --only "${BITE_MACHINE_ONLY:-}" || failed=1
else
    echo 'not tested here: calls that fail; strace is not installed, or may not trace'
fi
exit $failed
