#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# What the program says when memory runs out at its n-th request: "no memory" and status 70, or all
# that it says with enough memory, and nothing between. Each line below is a command, with the step
# from one n to the next; `places`: one n for each place in the program that requests memory, unless
# a command before had it. BITE_MEMORY_STEP=places does so for all and for some more commands (an
# hour), BITE_MEMORY_STEP=1 tries every n (a day), BITE_MEMORY_ONLY=WORD the commands that hold that
# word, BITE_MEMORY_HOW=once only those ways of running out (once rest full).
set -u
source=${BITE_TEST_SOURCE:-.}
build=${BITE_TEST_BUILD:-.}
sweep=$build/tests/memory/sweep
shim=$build/tests/memory/.libs/fail_malloc.so
program=$build/.libs/coolbite
[ -x "$program" ] || program=$build/coolbite
# The same with arenas that request memory for each piece, for one request that fails alone: what is
# wrong then shows only if the next ones succeed.
pieces=$build/tests/memory/coolbite_in_pieces
if [ ! -f "$shim" ]; then
    echo "no allocator to put before the program: another C library, or a sanitizer"
    exit 77
fi
work=$(mktemp -d "${TMPDIR:-/tmp}/bite-memory-XXXXXX") || exit 99
trap 'rm -rf "$work"' EXIT

# tables and families in a private folder: a clone with another umask or owner must pass as well
mkdir -m 755 "$work/families" "$work/tables" "$work/tables/materials" "$work/temporary"
cp "$source"/tables/*.ini "$work/tables/" || exit 99
# a job whose only pass has a tool and settings to be chosen, and two ways to be compared
cat >"$work/job.ini" <<'END'
[format]
kind = job
version = 1
[part]
material = acrylic/cast
length = 40 mm
width = 30 mm
thickness = 2 mm
thinnest = 1 mm
inside_radius = 1 mm
tolerance = 0.1 mm
[tools]
at_hand = 2mm 3mm
[hold]
method = tape-glue
[pass.web]
work = pocket
length = 20 mm
across = 12 mm
depth = 1 mm
END
# one with stated settings, which is planned without a search: for what is written of a job
cp "$source"/tests/job/tasks/inspect-thin-window.ini "$work/stated.ini" || exit 99
for family in acrylic aluminium polycarbonate; do
    cp "$source/tables/materials/$family.ini" "$work/tables/materials/" &&
        cp "$build/plugins/.libs/$family.so" "$work/families/" || exit 99
done
chmod 644 "$work"/families/*.so
export COOLBITE_FAMILY_PATH="$work/families" COOLBITE_TABLE_PATH="$work/tables"
export HOME="$work" LC_ALL=C
export LD_LIBRARY_PATH="$build/.libs${LD_LIBRARY_PATH:+:$LD_LIBRARY_PATH}" TMPDIR="$work/temporary"
unset XDG_CONFIG_HOME XDG_DATA_HOME NO_COLOR

settings='--material acrylic/cast --tool 0.8mm --spindle 12000rpm --feed 200mm/min --draws 16'
failed=0

# try STEP FILE WORD ...: the command, with all ways in which memory may run out
try() {
    chosen=${BITE_MEMORY_STEP:-$1} file=$2
    shift 2
    case " $* " in *" ${BITE_MEMORY_ONLY:-$1} "*) ;; *) return ;; esac
    echo "coolbite $*"
    for how in ${BITE_MEMORY_HOW:-once rest full}; do
        step=$chosen run=$program
        [ "$chosen" != places ] || step=$work/places-$how
        [ $how != once ] || run=$pieces
        "$sweep" "$shim" $how 1 "$step" "$file" "$run" "$@" || failed=$((failed + 1))
    done
}

try places - cut $settings
try places - cut $settings --format json
try places - cut $settings --rows --sources --units inch
try places "$work/cut.txt" cut $settings --output "$work/cut.txt"
try places - cut $settings --against --depth 0.2mm
try 301 - choose --material acrylic/cast --tool 0.8mm --draws 16
try 2501 - choose --material acrylic/cast --tool any --draws 16 --format json
try 401 - choose $settings --after melted-edge
try 1501 - choose $settings --hold tape --bond-area 100mm2 --after lifted --format json
try 401 - window $settings
try 30001 - window $settings --format json
try 401 - window $settings --format svg
try 151 - job "$work/job.ini" --draws 16
try 601 - job "$work/stated.ini" --draws 16 --format json
try 601 "$work/sheet.html" job "$work/stated.ini" --draws 16 --sheet "$work/sheet.html"
try 601 "$work/lens.record" measure "$work/lens.record" --job "$work/stated.ini" --draws 16
rm -f "$work/lens.record"
"$program" measure "$work/lens.record" --job "$work/stated.ini" --draws 16 </dev/null >/dev/null || exit 99
mv "$work/lens.record" "$work/lens.record.before"
printf 'characteristic,part,value,time,note\n1,1,3.01mm!,2026-11-30T19:25:49Z,"a, b"\n' >"$work/readings.csv"
try places "$work/lens.record" measure "$work/lens.record" --readings "$work/readings.csv"
cp "$work/lens.record.before" "$work/read.record"
rm "$work/lens.record.before"
"$program" measure "$work/read.record" --readings "$work/readings.csv" >/dev/null || exit 99
for format in html json csv qif txt; do
    try places "$work/report.$format" measure "$work/read.record" --report "$work/report.$format"
done
printf 'id,tool,spindle,feed,depth\na,3mm,9000,300,0.2mm\n"b,c",1mm,12000,200mm/min,0.1mm\n' >"$work/rows.csv"
printf '{"tool": "3mm", "spindle": "9000rpm", "feed": 300, "depth": "0.2mm"}\n' >"$work/rows.jsonl"
try places "$work/rows.out" batch "$work/rows.csv" --material acrylic/cast --format csv --output "$work/rows.out"
try places "$work/rows.out" batch "$work/rows.jsonl" --material acrylic/cast --format json --output "$work/rows.out"
try places - list materials
try places - list left-out --format json
try places - list limits
try places - list tools --format json
try places - show acrylic/cast
try places - show acrylic/cast --format json
try places - show 6061 acrylic --format json
try places - show ipa --material acrylic/cast
try places - show ipa --material acrylic/cast --format json
try places - list fluids --material acrylic/cast
try 1501 - list fluids --material acrylic/cast --format json
try places - list fluids --material acrylic/cast --format csv
try 1 - explain softening
try 1 - explain softening --format json
try 1 - --help

# what a step would cost too much for, or hardly find anything in. Not here: audit, which tells of the
# memory that its child lacked, and job --took, which records after all is written.
if [ -n "${BITE_MEMORY_STEP:-}" ]; then
    mkdir -p "$work/shop/coolbite" "$work/shop/data"
    cat >"$work/shop/coolbite/coolbite.ini" <<'END'
[format]
kind = shop
version = 1
[shop]
machine = small-vmc
at_hand = 3mm 6mm 0.8mm
hold = vise
coolant = mist
instruments = low-force-micrometer
END
    cat >"$work/drawer.csv" <<'END'
name,kind,DC [mm],ZEFP,APMX [mm],LPR [mm]
one,end-mill,3,2,9,14
two,end-mill,6,3,16,22
END
    cat >"$work/asset.xml" <<'END'
<?xml version="1.0" encoding="UTF-8"?>
<MTConnectAssets xmlns="urn:mtconnect.org:MTConnectAssets:2.4"><Assets>
<CuttingTool serialNumber="7" toolId="7" assetId="7.1" timestamp="2026-11-30T08:00:00Z">
<CuttingToolLifeCycle><CutterStatus><Status>AVAILABLE</Status></CutterStatus><Measurements>
<CuttingDiameterMax code="DC" units="MILLIMETER">5.975</CuttingDiameterMax>
<DepthOfCutMax code="APMX" units="MILLIMETER">13</DepthOfCutMax>
</Measurements></CuttingToolLifeCycle></CuttingTool></Assets></MTConnectAssets>
END
    fast='--spindle 12000rpm --feed 300mm/min --draws 16'
    try places - job "$source/tables/jobs/cover-lens.ini" --draws 16
    for task in threads-milled tapped-plate hold-of-each-setup inch-sheet vise-jaws \
        inspect-thin-window parts-on-small-sheets refused-cleaner-in-a-job sheet-as-supplied \
        thin-wall boss-in-a-pocket screw-in-the-way gap-of-contour; do
        try 9001 - job "$source/tests/job/tasks/$task.ini" --draws 16
    done
    try 9001 - job "$source/tests/job/tasks/threads-milled.ini" --draws 16 --format json
    try 9001 "$work/sheet.html" job "$source/tests/job/tasks/vise-jaws.ini" --draws 16 --sheet "$work/sheet.html"
    for thread in m4 m8x1; do
        try 601 - show $thread --material 6061
        try 601 - show $thread --material acrylic/cast --format json
    done
    try 601 - choose --material 6061 --operation tap --thread m4 --depth 6mm --draws 16
    try 601 - choose --material 6061 --operation drill --tool drill-3.3 --feature-depth 10mm --draws 16
    try 601 - choose --material acrylic/cast --tool 0.8mm --depth 5mm --draws 16 --format json
    try 601 - choose --material acrylic/cast --tool em-0.8-2,em-1-2 --feature-width 3mm --feature-depth 2mm --draws 16
    try 601 - choose --material 6061 --tool 3mm $fast --depth 2mm --hold tape --after broken-tool --format json
    try 601 - choose --material 6061 --tool 6mm $fast --depth 3mm --hold vise --machine desktop-light --after chatter-marks
    try 601 - window $settings --across depth --up width --format html
    try 601 - window $settings --format csv
    try 601 - cut --material acrylic/cast --tool 3mm --spindle 2000rpm --feed 2000mm/min --depth 5mm --draws 16 --format json --rows
    try 601 - cut --material 6061 --tool cm-6-90 --operation chamfer --depth 0.3mm $fast
    try 601 - list tools --format csv
    try 601 - list tools --tools "$work/drawer.csv"
    try 601 - cut --tools "$work/drawer.csv" --material 6061 --tool one $fast
    try 601 - cut --tools "$work/asset.xml" --material 6061 --tool T7 $fast
    for what in families tools drills threads symptoms sheets inputs values times left-out; do
        try 601 - list $what
        try 601 - list $what --format json
    done
    try 601 - explain feed_rate
    try 601 - explain feed_rate --format json
    try 601 - show em-3-2 em-6-3
    try 601 - show bench-24k --format json
    try 601 "$work/plate.ini" new-material plate/one --like acrylic/cast --output "$work/plate.ini"
    export XDG_CONFIG_HOME="$work/shop" XDG_DATA_HOME="$work/shop/data"
    try 601 - cut --material 6061 --tool 3mm $fast
    try 601 - job "$work/stated.ini" --draws 16
    try 9001 - choose --material acrylic/cast --tool any --draws 16
    try 601 - list times
fi

left=$(ls "$work/temporary" | wc -l)
[ "$left" -eq 0 ] || { echo "$left temporary files were left"; failed=$((failed + 1)); }
[ $failed -eq 0 ] || { echo "FAILED: $failed"; exit 1; }
