#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# On a stack of 256 KiB the program prints byte for byte what it prints on the usual one.
if grep -q '^BITE_SANITIZE = -f' "${BITE_TEST_BUILD:-.}/Makefile"; then
    echo "sanitizers need more stack"
    exit 77
fi
. "${BITE_TEST_SOURCE:-.}/tests/cli/setup.sh"
cp "$source/tables/jobs/cover-lens.ini" "$work/job.ini" || exit 99
cd "$work" || exit 99

# same WORD ...: output, complaints and status
same() {
    "$program" "$@" >usual.out 2>usual.err
    echo $? >>usual.err
    (
        ulimit -s 256 || exit 98
        "$program" "$@" >small.out 2>small.err
        echo $? >>small.err
    )
    check "$*: there is an answer" [ -s usual.out ]
    check "$*: the same answer" cmp -s usual.out small.out
    check "$*: the same end" cmp -s usual.err small.err
}

material='--material acrylic/cast'
settings="$material --tool 0.8mm --spindle 12000rpm --feed 200mm/min"
same cut $settings --draws 1
same cut $settings --draws 64 --format json
same cut $settings --draws 64 --against --depth 0.2mm
same choose $material --tool 0.8mm --feature-depth 0.9mm --draws 64
same choose $material --tool any --feature-depth 0.9mm --draws 16 --goal fast --format json
same choose $settings --depth 0.4mm --after melted-edge --draws 64
same window $settings --draws 64
same choose --material 6061 --tool 3mm --spindle 30000rpm --depth 0.5mm --draws 64
same job job.ini --draws 16
same job job.ini --draws 16 --format json
# the most passes that a job may have, in one chain
awk 'BEGIN {
    print "[format]\nkind = job\nversion = 1\n[part]\nmaterial = acrylic/cast"
    print "length = 90 mm\nwidth = 60 mm\nthickness = 2 mm"
    for (i = 0; i < 1000; i++) {
        print "[pass.p" i "]\nwork = slot\ntool = " 1 + i % 40 "mm\ndepth = 1 mm"
        print "spindle = 9000rpm\nfeed = 300mm/min"
        if (i > 0) print "after = p" i - 1
    }
}' >many.ini
same job many.ini --draws 1
check "1000 passes are planned" grep -q "1000 passes" usual.out
same list left-out
finish
