#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# Verifies in the built objects what every reference check registers as the function that it runs:
# engine checks call a function that is defined in core/ and that another object of core/ uses, and
# call no textbook form; formula checks call a form in tests/reference/textbook/; arithmetic checks
# call neither. A check is followed through the functions of the tests that it calls. A formula in a
# header of core/ is out of line in the objects of the checks; who else uses it is read in the source.
set -eu
cd "${BITE_TEST_BUILD:-.}"
command -v objdump >/dev/null || { echo "objdump is not installed: skipped"; exit 77; }
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT
tests/reference/test_reference --checks >"$work/facts"

find core -name '*.o' | sort | while read -r object; do
    nm "$object" | awk -v object="$(echo "$object" | sed 's#\.libs/##')" '
        NF == 3 && $2 == "T" { print "core", object, $3 }
        NF == 2 && $1 == "U" { print "uses", object, $2 }'
done >>"$work/facts"

# The same of the formulas in headers: where they are, and the other files that call them.
source=${BITE_TEST_SOURCE:-..}
(cd "$source" && grep -roE '^BITE_FORMULA [a-z_ ]*\bbite_[a-z0-9_]+\(' core --include='*.h') |
    sed -E 's/^([^:]+):.*\b(bite_[a-z0-9_]+)\($/core \1 \2/' >"$work/formulas"
cat "$work/formulas" >>"$work/facts"
(cd "$source" && grep -roE '\bbite_[a-z0-9_]+\(' core --include='*.[ch]') | sort -u |
    sed -E 's/^([^:]+):(.*)\($/uses \1 \2/' |
    awk 'NR == FNR { formula[$3]; next } $3 in formula' "$work/formulas" - >>"$work/facts"

# alias: OBJECT FUNCTION FUNCTION, where the compiler has merged equal functions.
find tests/reference tests/support -name '*.o' | sort | while read -r object; do
    name=$(echo "$object" | sed 's#\.libs/##')
    objdump -t "$object" | awk -v object="$name" '
        $3 != "F" { next }
        ($4, $1) in at { print "alias", object, $NF, at[$4, $1]; next }
        { at[$4, $1] = $NF }'
done >>"$work/facts"

# calls: OBJECT FUNCTION CALLED. A branch is printed with the address after it where a relocation
# names the real target on the next line, so that the relocation takes precedence.
find tests/reference tests/support -name '*.o' | sort | while read -r object; do
    name=$(echo "$object" | sed 's#\.libs/##')
    objdump -dr --no-show-raw-insn "$object" | awk -v object="$name" '
        function call(name) {
            sub(/[-+]0x[0-9a-f]+$/, "", name)
            sub(/\.(isra|part|constprop|cold).*/, "", name)
            if (name != "" && name != within) print "calls", object, within, name
        }
        /^[0-9a-f]+ <.*>:$/ {
            within = $2
            gsub(/[<>:]/, "", within)
            sub(/\.(isra|part|constprop|cold).*/, "", within)
            print "test", object, within
            target = ""
            next
        }
        / R_[A-Z0-9_]+/ || /\tR_[A-Z0-9_]+/ { call($NF); target = ""; next }
        {
            call(target)
            target = ""
            if (match($0, /<[A-Za-z_][^>]*>/)) target = substr($0, RSTART + 1, RLENGTH - 2)
        }
        END { call(target) }'
done >>"$work/facts"
grep -q '^calls' "$work/facts" || { echo "the objects hold no machine code: skipped"; exit 77; }

awk '
function fault(text) { print text; faults++ }
$1 == "check" { check[++checks] = $2; kind[$2] = $3; runs[$2] = $4; next }
$1 == "core" { core[$3] = $2; next }
$1 == "uses" { users[$3] = users[$3] " " $2; next }
$1 == "alias" {
    calls[$2, $3] = calls[$2, $3] " " $4
    calls[$2, $4] = calls[$2, $4] " " $3
    next
}
$1 == "test" {
    test[$2, $3] = 1
    object_of[$3] = $2
    if ($2 ~ /reference\/textbook\//) form[$3] = 1
    if ($2 ~ /reference\/(textbook\/([a-z_]*-)?forms|.*checks_[a-z_]*)\.o$/) home[$3] = home[$3] " " $2
    next
}
{ calls[$2, $3] = calls[$2, $3] " " $4 }

# what a function of the tests reaches: functions of core/ (not followed) and of the tests
function follow(object, name,   list, count, i) {
    if ((object, name) in seen) return
    seen[object, name] = 1
    if (form[name] && object ~ /textbook\//) forms_reached[name] = 1
    count = split(calls[object, name], list, " ")
    for (i = 1; i <= count; i++) {
        if (list[i] in core) core_reached[list[i]] = 1
        else if ((object, list[i]) in test) follow(object, list[i])
        else if (list[i] in object_of) follow(object_of[list[i]], list[i])
    }
}
function used_elsewhere(name,   list, count, i) {
    count = split(users[name], list, " ")
    for (i = 1; i <= count; i++) if (list[i] != core[name]) return 1
    return 0
}
function first(set,   name) { for (name in set) return name; return "" }
function verify(name,   list, count, i, object) {
    split("", seen); split("", forms_reached); split("", core_reached)
    count = split(home[name], list, " ")
    if (count == 0) { fault(name ": no function of that name in the checks"); return }
    for (i = 1; i <= count; i++) follow(list[i], name)
    if (show) {
        printf "%s:", name
        for (i in core_reached) printf " %s", i
        for (i in forms_reached) printf " %s", i
        print ""
    }
    if (kind[name] == "engine") {
        if (!(runs[name] in core)) fault(name ": " runs[name] " is not defined in core/")
        else if (!used_elsewhere(runs[name]))
            fault(name ": nothing else in core/ uses " runs[name])
        if (!(runs[name] in core_reached)) fault(name ": does not call " runs[name])
        if (first(forms_reached) != "")
            fault(name ": an engine check that calls the form " first(forms_reached))
    } else if (kind[name] == "formula") {
        if (!(runs[name] in form))
            fault(name ": " runs[name] " is not in tests/reference/textbook/")
        if (!(runs[name] in forms_reached)) fault(name ": does not call " runs[name])
    } else if (kind[name] == "arithmetic") {
        if (first(core_reached) != "") fault(name ": arithmetic that calls " first(core_reached))
        if (first(forms_reached) != "") fault(name ": arithmetic that calls " first(forms_reached))
    } else fault(name ": unknown kind " kind[name])
    counts[kind[name]]++
}
END {
    for (n = 1; n <= checks; n++) verify(check[n])
    printf "check kinds: %d engine, %d formula, %d arithmetic, %d faults\n",
        counts["engine"], counts["formula"], counts["arithmetic"], faults
    exit faults > 0 || checks == 0
}' show="${BITE_SHOW_CALLS:-0}" "$work/facts"
