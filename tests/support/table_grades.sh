#!/bin/sh
# SPDX-License-Identifier: CC0-1.0
# How many figures of the tables have a source of each grade, in two lines for README.md (make readme):
#   sh table_grades.sh FOLDER-OF-TABLES
set -u
export LC_ALL=C
cat "$1"/*.ini "$1"/materials/*.ini | awk '
match($0, /^[a-z0-9_.]+\.source = "?[a-z-]+/) {
    grade = substr($0, RSTART, RLENGTH)
    sub(/.*= "?/, "", grade)
    count[grade]++
    all++
}
END {
    count["common practice or standard"] = count["common-practice"] + count["standard"]
    grades = split("estimate,memory,datasheet,handbook,paper,common practice or standard", name, ",")
    for (i = 1; i <= grades; i++) {
        shares = shares sprintf("%s%.0f %% %s", i == 1 ? "" : i == grades ? " and " : i == 5 ? ",\n  " : ", ",
                                100 * count[name[i]] / all, name[i])
        named += count[name[i]]
    }
    if (named != all) {
        print "a source has a grade that is not known here" > "/dev/stderr"
        exit 1
    }
    printf "- Of %d figures of the tables %s (`make table-grades`).\n", all, shares
}'
