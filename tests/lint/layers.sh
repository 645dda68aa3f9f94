#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# layers.sh SOURCE BUILD: reads every include of the source tree and every call in the objects of the
# build tree. Fails on an upward dependency, on a cycle between files, on a physics file that knows
# `bite_cut`, on a source without a header of its own where other files use what it defines, and on
# a writer that computes: core/report may call only what reads a result (the list `reads`).
set -eu
source=${1:-.}
build=${2:+$(cd "$2" && pwd)}
cd "$source"
work=$(mktemp -d)
trap 'rm -rf "$work"' EXIT

# includes: FROM TO
find core bindings plugins -name '*.[ch]' | sort | xargs grep -E '^[[:space:]]*#[[:space:]]*include[[:space:]]*"' |
    sed -E 's/^([^:]+):[^"]*"([^"]+)".*/include \1 \2/' >"$work/facts"

# calls: which object defines a symbol, which one needs it
if [ -n "$build" ]; then
    (cd "$build" && find core -path '*/.libs/*.o' | sort | while read -r object; do
        nm "$object" | awk -v object="$(echo "$object" | sed 's#\.libs/##; s#libbite_la-##')" '
            NF == 3 && $2 ~ /^[TDRBC]$/ { print "defines", object, $3 }
            NF == 2 && $1 == "U" && $2 ~ /^bite_/ { print "needs", object, $2 }'
    done) >>"$work/facts"
    grep -q '^needs' "$work/facts" || { echo "layers: no objects under $build: build first"; exit 1; }
fi

grep -nE '\bbite_cut\b' -r core/physics --include='*.[ch]' | sed 's/^/physics knows bite_cut: /' >"$work/physics" || :

awk '
BEGIN {
    split("core/base core/units core/tables core/names core/physics core/cut core/uncertainty " \
          "core/library core/request core/search core/job core/report bindings plugins " \
          "core/statistics core/inspection core/cases", folder, " ")
    split("0 1 2 2 3 4 5 5 6 7 8 9 10 11 1 6 9.5", level, " ")
    folders = 17
    # what a writer may call of the folders that compute: names, and values of finished results;
    split("bite_axis_at bite_axis_nearest bite_axis_share bite_cut_missing_figure " \
          "bite_defaults_source bite_goal_word " \
          "bite_suspect_weight bite_window_chance bite_window_clear " \
          "bite_window_fixed_verdict " \
          "bite_window_margin bite_window_utilization bite_window_verdict bite_window_worst", \
          read, " ")
    for (i in read) reads[read[i]] = 1
    split("core/physics core/cut core/uncertainty core/search", computing, " ")
}
function place(path,   i) {
    for (i = 1; i <= folders; i++) if (index(path, folder[i] "/") == 1) return i
    return 0
}
function stem(path) { sub(/\.[cho]$/, "", path); return path }
function fault(text) { print text; faults++ }
function edge(from, to, why,   a, b) {
    a = place(from); b = place(to)
    if (b == 0) { fault(from ": " why " " to ": not a path from the root"); return }
    if (level[a] >= 10) {
        if (a != b && folder[a] != "plugins") fault(from ": " why " " to ": sees more than the public header")
        else if (a != b) fault(from ": " why " " to ": a plugin sees the public header alone")
        return
    }
    if (level[b] > level[a]) fault(from ": " why " " to ": climbs")
    else if (level[b] == level[a] && a != b) fault(from ": " why " " to ": siblings do not know each other")
    # library knows neither physics nor cut
    if (folder[a] == "core/library" && (folder[b] == "core/physics" || folder[b] == "core/cut"))
        fault(from ": " why " " to ": the library knows no physics")
    from = stem(from); to = stem(to)
    if (from != to && !((from, to) in seen)) {
        seen[from, to] = 1
        uses[from] = uses[from] " " to
        nodes[from] = 1; nodes[to] = 1
    }
}
# a writer computes nothing
function writer_call(from, symbol, to,   i) {
    if (index(from, "core/report/") != 1 || symbol in reads) return
    for (i in computing)
        if (index(to, computing[i] "/") == 1)
            fault(from ": uses " symbol " of " to ": a writer computes nothing")
}
$1 == "include" { edge($2, $3, "includes") }
$1 == "defines" { owner[$3] = $2 }
$1 == "needs" { need[++needs] = $2 " " $3 }
# Tarjan: strongly connected components of more than one file are cycles
function visit(v,   n, list, i, w, members) {
    order[v] = low[v] = ++counter
    stack[++top] = v; on[v] = 1
    n = split(uses[v], list, " ")
    for (i = 1; i <= n; i++) {
        w = list[i]
        if (!(w in order)) { visit(w); if (low[w] < low[v]) low[v] = low[w] }
        else if (on[w] && order[w] < low[v]) low[v] = order[w]
    }
    if (low[v] == order[v]) {
        members = ""
        do { w = stack[top--]; on[w] = 0; members = members " " w } while (w != v)
        if (split(members, list, " ") > 1) { cycles++; fault("cycle:" members) }
    }
}
END {
    for (i = 1; i <= needs; i++) {
        split(need[i], part, " ")
        if (part[2] in owner && owner[part[2]] != part[1]) {
            calls++
            edge(part[1], owner[part[2]], "uses " part[2] " of")
            writer_call(part[1], part[2], owner[part[2]])
        }
    }
    for (v in nodes) if (!(v in order)) visit(v)
    printf "layers: %d calls across files, %d cycles, %d faults\n", calls, cycles, faults
    exit faults > 0
}' "$work/facts" && awked=0 || awked=1
cat "$work/physics"
[ "$awked" -eq 0 ] && [ ! -s "$work/physics" ]
