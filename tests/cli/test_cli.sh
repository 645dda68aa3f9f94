#!/bin/sh
# SPDX-License-Identifier: GPL-3.0-or-later
# The program in the hands of new and of hostile users: exit statuses, one clear line for an error,
# valid JSON, complete files.
set -u
source=${BITE_TEST_SOURCE:-.}
build=${BITE_TEST_BUILD:-.}
program=$build/coolbite
work=$(mktemp -d "${TMPDIR:-/tmp}/bite-cli-XXXXXX") || exit 99
trap 'chmod -R u+w "$work"; rm -rf "$work"' EXIT
passed=0
failed=0

# The tables and plugins are copied to a private folder, so that the test passes in a clone with any
# umask or owner.
mkdir -m 755 "$work/families" "$work/tables" "$work/tables/materials"
cp "$source"/tables/*.ini "$work/tables/" && cp "$source"/tables/materials/*.ini "$work/tables/materials/" || exit 99
cp "$build"/plugins/.libs/*.so "$work/families/" || exit 99
chmod 644 "$work"/families/*.so
export COOLBITE_FAMILY_PATH="$work/families" COOLBITE_TABLE_PATH="$work/tables" HOME="$work" LC_ALL=C
unset XDG_CONFIG_HOME XDG_DATA_HOME NO_COLOR

good() { passed=$((passed + 1)); }
bad() { failed=$((failed + 1)); echo "FAILED: $*"; }

# expect STATUS TEXT -- COMMAND: the command exits with the status and writes one line with the text
# to stderr ('': no line)
expect() {
    want=$1 says=$2
    shift 3
    "$@" >"$work/out" 2>"$work/err"
    got=$?
    lines=$(wc -l <"$work/err")
    if [ "$got" -ne "$want" ]; then bad "$*: exit status $got, not $want: $(cat "$work/err")"; return; fi
    if [ -n "$says" ]; then
        [ "$lines" -eq 1 ] || { bad "$*: $lines lines on stderr: $(cat "$work/err")"; return; }
        grep -qF -- "$says" "$work/err" || { bad "$*: the message is $(cat "$work/err"), without: $says"; return; }
    else
        [ "$lines" -eq 0 ] || { bad "$*: an unexpected message: $(cat "$work/err")"; return; }
    fi
    good
}

cut_() { "$program" cut --material acrylic/cast --tool 0.8mm --flutes 2 --spindle 12000rpm --feed 200mm/min --depth 0.4mm "$@"; }

# ---- help, lists and records ----
expect 0 '' -- "$program" --help
expect 0 '' -- "$program" --version
expect 64 '' -- sh -c "'$program' 2>/dev/null"
for command in cut choose window list show explain; do expect 0 '' -- "$program" $command --help; done
for what in materials families tools holders machines coolants holds symptoms left-out limits values inputs; do
    expect 0 '' -- "$program" list $what
    [ "$what" = left-out ] || [ -s "$work/out" ] || bad "list $what is empty"
    expect 0 '' -- "$program" list $what --format json
done
for name in acrylic/cast aluminium polycarbonate/sheet bench-24k em-0.8-2 collet mist tape; do
    expect 0 '' -- "$program" show $name
    expect 0 '' -- "$program" show $name --format json
done
for name in $("$program" list limits | cut -d' ' -f1) $("$program" list values | cut -d' ' -f1) $("$program" list inputs | cut -d' ' -f1); do
    expect 0 '' -- "$program" explain "$name"
done
expect 64 'as wide as its drill' -- "$program" choose --material 6061 --tool any --operation drill --feature-depth 3mm
expect 0 '' -- cut_ --exit-zero
expect 0 '' -- cut_ --exit-zero --rows --sources --units inch
expect 0 '' -- cut_ --exit-zero --format json

# two command lines that describe one cut give the same answer
cut_ --exit-zero --format json >"$work/a.json"
"$program" cut --material pmma/cast --tool em-0.8-2 --spindle 200Hz --feed 0.00833333333333333mm/tooth --depth 0.4mm --exit-zero --format json >"$work/b.json"
python=$(command -v python3 || true)
if [ -n "$python" ]; then
    "$python" - "$work/a.json" "$work/b.json" <<'PY' && good || bad 'JSON of one cut described in two ways'
import json, sys
a, b = (json.load(open(p)) for p in sys.argv[1:])
for key in ('schema', 'coolbite', 'verdict', 'chance', 'draws', 'enter', 'inputs', 'values', 'limits', 'change_first', 'measure_first', 'cautions'):
    assert key in a, key
va, vb = ({v['name']: v['value'] for v in d['values']} for d in (a, b))
assert va.keys() == vb.keys() and len(va) > 25
for name in va:
    if va[name] is not None:
        assert abs(va[name] - vb[name]) <= 1e-9 * abs(va[name]), (name, va[name], vb[name])
for limit in a['limits']:
    assert limit['applies'] or limit['why'], limit
    assert limit['verdict'] in ('clear', 'tight', 'over', 'not_judged')
for v in a['inputs'] + a['values'] + a['limits']:
    assert 'unit' in v and 'source' in v and 'grade' in v, v
assert all(v['grade'] for v in a['values']), [v['name'] for v in a['values'] if not v['grade']]
assert a['draws'] == 4096 and 0 <= a['chance'] <= 1
for v in a['values']:
    assert v['value'] is None or v['low'] <= v['value'] <= v['high'], v
for limit in a['limits']:
    assert not limit['applies'] or 0 <= limit['chance'] <= 1, limit
assert all(isinstance(name, str) for name in a['measure_first'])
assert any(i['given'] for i in a['inputs']) and any(not i['given'] for i in a['inputs'])
PY
    for what in materials machines left-out limits inputs; do
        "$program" list $what --format json | "$python" -c 'import json, sys; json.load(sys.stdin)' && good || bad "list $what is not JSON"
    done
fi

# metric and inch output
cut_ --exit-zero | grep -q 'mm/min' && good || bad 'metric output'
cut_ --exit-zero --units inch | grep -q 'in/min' && good || bad 'inch output'
# no escape sequences, and only ASCII in the C locale
cut_ --exit-zero | LC_ALL=C grep -q '[^ -~]' && bad 'characters beyond ASCII in the C locale' || good

# extruded acrylic has a caution that cast acrylic does not have
"$program" cut --material acrylic/extruded --tool 0.8mm --spindle 12000rpm --feed 200mm/min --exit-zero --rows | grep -q 'Extruded sheet' && good || bad 'extruded acrylic lacks its caution'
cut_ --exit-zero --rows | grep -q 'Extruded sheet' && bad 'cast acrylic has the caution of extruded' || good

# ---- the screen: lines within the width, at most 24 of them, one system of units, no colour without a terminal ----
alu() { "$program" cut --material 6061 --tool 3mm --flutes 2 --machine desktop-light --spindle 10000rpm --feed 400mm/min --depth 1.5mm "$@"; }
poly() { "$program" cut --material pc --tool 1/8in --spindle 18000rpm --feed 60in/min --depth 0.04in --width 0.02in --inside-radius 2mm "$@"; }
calm() { "$program" cut --material acrylic/cast --tool 3mm --flutes 1 --machine small-vmc --spindle 8000rpm --feed 500mm/min --depth 0.5mm --coolant flood --width 0.3mm "$@"; }
for job in cut_ alu poly calm; do
    for units in metric inch; do
        for columns in 80 60 44; do
            COLUMNS=$columns $job --exit-zero --units $units >"$work/screen" 2>"$work/err" || bad "$job $units: $(cat "$work/err")"
            widest=$(awk '{ if (length($0) > most) most = length($0) } END { print most }' "$work/screen")
            [ "$widest" -le $columns ] && good || bad "$job $units: a line of $widest at $columns columns"
            # a web address is one word, longer than the narrowest screen
            sources=--sources; [ $columns -ge 60 ] || sources=
            COLUMNS=$columns $job --exit-zero --units $units --rows $sources >"$work/screen" 2>/dev/null
            widest=$(awk '{ if (length($0) > most) most = length($0) } END { print most }' "$work/screen")
            [ "$widest" -le $columns ] && good || bad "$job $units --rows $sources: a line of $widest at $columns columns"
        done
        $job --exit-zero --units $units >"$work/screen"
        [ "$(wc -l <"$work/screen")" -le 24 ] && good || bad "$job $units: more than 24 lines"
        LC_ALL=C grep -q "$(printf '[\200-\377]')" "$work/screen" && bad "$job: characters beyond ASCII in the C locale" || good
        grep -q "$(printf '\033')" "$work/screen" && bad "$job: colour without a terminal" || good
    done
done

# ---- choose: the settings to enter ----
pick() { "$program" choose --material acrylic/cast --tool 1/32in --flutes 2 --machine bench-24k --feature-depth 0.6mm --tolerance 0.05mm "$@"; }
expect 0 '' -- pick --goal cool
grep -q '^Enter  spindle [0-9]* rpm, feed [0-9]* mm/min, depth 0.[0-9]* mm' "$work/out" && good || bad 'choose shows the settings to enter'
[ "$(wc -l <"$work/out")" -le 24 ] && good || bad 'choose writes more than 24 lines'
expect 0 '' -- "$program" choose --material acrylic/cast --tool 1/32in --flutes 2 --machine bench-24k --feature-depth 2mm --tolerance 0.05mm --goal cool
grep -q '^Chosen to be cool, then fast: [0-9]* passes' "$work/out" && good || bad 'choose shows its passes'
expect 0 '' -- pick --units inch --tool 0.5mm --goal fast --exit-zero
grep -q ' mm' "$work/out" && bad 'choose in inches shows millimetres' || good
expect 0 '' -- pick --goal cool --format json
for key in '"enter"' '"binding"' '"relax"' '"next_best"' '"passes"' '"goal": "cool"'; do
    grep -q -- "$key" "$work/out" && good || bad "choose's JSON has no $key"
done
far() { "$program" choose --material 6061 --tool 3mm --machine bench-24k --feature-depth 5mm --stickout 60mm --tolerance 0.02mm "$@"; }
expect 2 '' -- far
grep -q '^Smallest change that makes it clear: ' "$work/out" && good || bad 'choose does not name the change that makes a cut clear'
expect 2 '' -- far --format json
for key in '"conflict"' '"freed_by"' '"enter"' '"size"'; do
    grep -q -- "$key" "$work/out" && good || bad "choose's JSON has no $key"
done
expect 64 '--tool is missing' -- "$program" choose --material acrylic/cast
expect 64 'cool, gentle, fine, fast or usual' -- pick --goal quick
expect 66 'no tool named' -- pick --tool no-such-tool

# a feature with a width is divided into passes in depth and width, and the width to enter is shown
expect 0 '' -- pick --goal cool --feature-width 2mm
grep -q '^Enter  .* depth 0.[0-9]* mm, width 0.[0-9]* mm$' "$work/out" && good || bad 'choose shows the width to enter'
tr -s '\n ' ' ' <"$work/out" | grep -q ' Chosen to be cool\(, then fast\)\{0,1\}: [0-9]* depth pass\(es\)\{0,1\} of 0.[0-9]* mm, [3-9] width passes of 0.[0-9]* mm' && good || bad 'choose shows the passes in depth and in width'
expect 0 '' -- pick --goal fast --feature-width 2mm --format json --exit-zero
grep -q '"side_passes": [3-9]' "$work/out" && grep -q '"width_unit": "mm"' "$work/out" && good || bad "choose's JSON has the passes in width and the width to enter"
# a default grade is marked, a given one is not; a joint chance that no single limit explains is
# reported
mdf_() { "$program" cut --tool 6.35mm --flutes 2 --machine trim-router --spindle 12000rpm --feed 1905mm/min --depth 1mm --exit-zero "$@"; }
expect 0 '' -- mdf_ --material acrylic
grep -q '^acrylic/extruded\*, ' "$work/out" && good || bad 'a default grade is marked'
expect 0 '' -- mdf_ --material acrylic/extruded
grep -q '^acrylic/extruded, ' "$work/out" && good || bad 'a given grade is not marked'
expect 1 '' -- "$program" cut --material 6061 --tool 3mm --flutes 2 --spindle 18000rpm --feed 2000mm/min --depth 0.8mm
tr -s '\n ' ' ' <"$work/out" | grep -q 'chance of exceeding a limit: [0-9]* %, no limit is tight alone' && good || bad 'limits that are only tight together are reported'
expect 0 '' -- cut_ --feature-width 2mm --exit-zero
grep -q 'width 0.66667 mm\*$' "$work/out" && grep -q '^\* Defaults used: .*width 0.66667 mm' "$work/out" && good || bad 'the default width in a wide feature is not a full slot, and is shown'

# the wall of a pocket, and a bridge
expect 0 '' -- cut_ --set wall_ends=held --wall 0.8mm --set wall_length=8mm --set bridge_span=6mm --set bridge_thickness=0.8mm --rows --exit-zero
grep -q '^ part_bend' "$work/out" && good || bad 'a bridge and a pocket wall are judged'
expect 64 'wall_ends' -- cut_ --set wall_ends=loose

# ---- two records side by side ----
expect 0 '' -- "$program" show acrylic/cast acrylic/extruded
grep -q '^\* softening  *80 degC  *70 degC' "$work/out" && good || bad 'two grades side by side show their softening'
expect 0 '' -- "$program" show bench-24k small-vmc --units inch
grep -qE ' (mm|um|degC)' "$work/out" && bad 'two machines in inches show millimetres' || good
expect 0 '' -- "$program" show em-0.8-2 em-3-1 --format json
expect 66 'no machine named small-vmx (did you mean small-vmc?)' -- "$program" show bench-24k small-vmx
expect 66 'no material named bench-24k' -- "$program" show acrylic/cast bench-24k
expect 64 'two names of one kind' -- "$program" show a b c
for columns in 80 60; do
    for pair in 'acrylic/cast pc' '6061 acrylic/extruded' 'desktop-light knee-mill'; do
        COLUMNS=$columns "$program" show $pair --sources >"$work/screen" 2>/dev/null
        widest=$(awk '{ if (length($0) > most) most = length($0) } END { print most }' "$work/screen")
        [ "$widest" -gt 20 ] && [ "$widest" -le $columns ] && good || bad "show $pair: a line of $widest at $columns columns"
    done
done

# the program gives the answers that the README shows
grep -q '^\$ coolbite' "$source/README.md" && good || bad 'the README shows an answer'
LC_ALL=C.UTF-8 awk -v program="$program" -v grades="sh '$source/tests/support/table_grades.sh' '$source/tables'" \
    -f "$source/tests/cli/readme.awk" "$source/README.md" >"$work/anew"
diff "$source/README.md" "$work/anew" >"$work/diff" && good || bad "an answer of the README is not the program's (make readme): $(head -n 5 "$work/diff")"

# the C program of the README is the one that the tests build, and its answer is that of the command
sed -n '/^```c$/,/^```$/{/^```/!p;}' "$source/README.md" >"$work/shown.c"
sed 1,2d "$source/tests/api/readme_example.c" | diff - "$work/shown.c" >"$work/diff" && good || bad "the README's program is not tests/api/readme_example.c"
says=$("$build/tests/api/readme_example") || bad "the C program of the README fails"
there=$("$program" cut --material acrylic/cast --tool 1/32in --spindle 12000rpm --feed 8in/min --depth 0.4mm --exit-zero | sed -n 's/^Temperature: surface \([0-9]*\).*/\1/p')
case $says in *"surface $there degC"*|*"surface $((there + 1)) degC"*) good ;; *) bad "the C program of the README prints $says, the command $there" ;; esac

# a spindle with fixed steps runs at one of them
expect 0 '' -- "$program" choose --material 6061 --tool 3mm --machine bench-24k --feature-depth 2mm --coolant air --spindle-steps 1100rpm,2300rpm,4700rpm --exit-zero
grep -q -E '^Enter  spindle (1100|2300|4700) rpm' "$work/out" && good || bad 'the spindle speed is one of the steps'
expect 64 'separated by commas' -- "$program" choose --material 6061 --tool 3mm --spindle-steps 11,2
expect 64 'at least one speed' -- "$program" choose --material 6061 --tool 3mm --spindle-steps ''

# a chamfer: the position of its tool, its removal rate, the limits that do not apply; choose and
# window accept it too
chamfer_() { command=$1; shift; "$program" "$command" --operation chamfer --material 6061 --tool 6mm --machine bench-24k --depth 0.5mm "$@"; }
run_() { chamfer_ cut --spindle 12000rpm --feed 0.03mm/tooth "$@"; }
expect 0 '' -- run_ --exit-zero
tr -s '\n ' ' ' <"$work/out" | grep -q 'chamfer of 45 deg: tip 0.625 mm below the top, axis 0.425 mm from the wall' && good || bad 'the position of the tool of a chamfer is shown'
for units in metric inch; do
    run_ --exit-zero --units $units >"$work/screen"
    [ "$(wc -l <"$work/screen")" -le 24 ] && awk 'length($0) > 80 { exit 1 }' "$work/screen" && good || bad "the screen of a chamfer in $units"
done
expect 0 '' -- run_ --exit-zero --taper 30deg --tip-diameter 0.2mm --tip-below 1mm --format json
if [ -n "$python" ]; then
    "$python" -c '
import json, math, sys
d = json.load(sys.stdin)
v = {x["name"]: x["value"] for x in d["values"]}
why = {x["name"]: x["why"] for x in d["limits"] if not x["applies"]}
given = {x["name"]: x["given"] for x in d["inputs"]}
assert abs(v["removal_rate"] / (0.125e-6 * math.tan(math.pi / 6) * 0.012) - 1) < 1e-9, v
assert abs(v["surface_speed"] / (math.pi * (0.2e-3 + 3e-3 * math.tan(math.pi / 6)) * 200) - 1) < 1e-9, v
assert v["surface_speed_small"] < v["surface_speed"] and v["wall_error"] > 0
limits = {l["name"]: l for l in d["limits"]}
assert limits["deflection"]["applies"] and limits["chatter"]["applies"] and "given" in why["corner"] and "given" in why["gap"]
assert given["taper"] and given["tip_below"] and not given["helix"]
' <"$work/out" && good || bad 'JSON of a chamfer'
fi
# the surface speed is that of the upper end of the chamfer, 2.125 mm in diameter
expect 0 '' -- chamfer_ cut --spindle 100m/min --tip-diameter 0.6mm --feed 500mm/min --tip-below 0.2625mm --exit-zero --format json
grep -A1 '"name": "surface_speed",' "$work/out" | grep -q '"value": 1.66666666667' && good || bad 'a surface speed of a chamfer'
expect 0 '' -- chamfer_ choose
grep -q '^Enter  spindle [0-9]* rpm, feed [0-9]* mm/min, depth 0.5 mm' "$work/out" && good || bad 'choose finds the settings of a chamfer'
for goal in gentle fine fast; do expect 0 '' -- chamfer_ choose --goal $goal --feature-depth 0.5mm --exit-zero; done
grep -q 'passes' "$work/out" && bad 'a chamfer in passes' || good
expect 0 '' -- chamfer_ window --spindle 12000rpm --feed 0.03mm/tooth --up tip_below=0.1mm..2mm --exit-zero
expect 0 '' -- chamfer_ window --spindle 12000rpm --feed 0.03mm/tooth --up depth --exit-zero --output "$work/chamfer.svg"
expect 64 'needs a cone radius of 4.05 mm; at most the radius of the tool, 3 mm' -- run_ --depth 3mm
expect 64 'follows from its depth and its taper' -- run_ --width 0.5mm
expect 64 'a chamfer is entered from the side' -- run_ --entry plunge
expect 64 'no corner radius' -- run_ --corner-radius 0.2mm
expect 64 'taper' -- run_ --taper 89deg
expect 64 'one of mill, drill, chamfer' -- run_ --operation bevel

# a groove that is engraved with a cone: its form, what it removes, what is refused
groove_() { verb=$1; shift; "$program" "$verb" --material brass/c360 --machine bench-24k "$@"; }
engrave_() { groove_ cut --tool vg-60-01 --spindle 20000rpm --feed 300mm/min --exit-zero "$@"; }
expect 0 '' -- engrave_ --depth 0.2mm
tr -s '\n ' ' ' <"$work/out" | grep -q 'depth 0.2 mm, a groove of 60 deg, 0.33094 mm wide at the top' && good || bad 'an engraved groove says its form'
expect 0 '' -- engrave_ --depth 0.2mm --format json
if [ -n "$python" ]; then
    "$python" -c '
import json, math, sys
d = json.load(sys.stdin)
v = {x["name"]: x["value"] for x in d["values"]}
t = math.tan(math.pi / 6)
assert abs(v["removal_rate"] / ((0.1e-3 + 0.2e-3 * t) * 0.2e-3 * 0.005) - 1) < 1e-9, v
assert abs(v["surface_speed"] / (math.pi * (0.1e-3 + 0.4e-3 * t) * 20000 / 60) - 1) < 1e-9, v
' <"$work/out" && good || bad 'JSON of an engraved groove'
fi
expect 0 '' -- engrave_ --feature-depth 0.2mm
grep -q 'depth 0.2 mm' "$work/out" && good || bad 'a groove is cut in one pass'
expect 0 '' -- groove_ choose --tool vg-90-02 --depth 0.4mm
expect 0 '' -- groove_ cut --tool 3mm --taper 15deg --tip-diameter 0.1mm --spindle 20000rpm --feed 300mm/min --depth 0.2mm --exit-zero
expect 64 'the width of a groove milled with a cone follows' -- engrave_ --depth 0.2mm --width 0.1mm
expect 64 'a groove milled with a cone is cut in one pass' -- engrave_ --depth 0.2mm --feature-depth 0.5mm
expect 64 'wider than the tool' -- engrave_ --depth 4mm
expect 64 'engraves; it does not drill' -- engrave_ --operation drill --depth 1mm
expect 64 'is a chamfer mill, which cuts chamfers only' -- groove_ cut --tool cm-6-90 --spindle 20000rpm --feed 300mm/min --depth 1mm

# an entry that is too fast is reported as the entry, not the corner, and its feed is the remedy
in_() { "$program" cut --material 6061 --tool 3mm --machine bench-24k --spindle 18000rpm --feed 900mm/min --depth 0.5mm "$@"; }
for entry in plunge ramp helix; do
    expect 2 '' -- in_ --entry $entry --entry-feed 9000mm/min
    tr -s ' \n' ' ' <"$work/out" >"$work/flat"
    grep -q 'OVER feed_fast uses 300 % of its capacity, at entry;' "$work/flat" && good || bad "$entry: $(cat "$work/out")"
    grep -q 'feed_fast .* over 100 % entry' "$work/out" && good || bad "$entry: a limit at entry"
    grep -q 'Change first: entry feed from 9000 mm/min to 2300 mm/min, because of feed_fast' "$work/flat" && good || bad "$entry: the entry feed is the first change"
    grep -q 'inside corner\| corner$' "$work/out" && bad "$entry: a corner that was not given" || good
done
# if no change of one input is enough, the advice is about the entry as well
expect 2 '' -- in_ --entry plunge --entry-feed 20000mm/min --draws 1
tr -s ' \n' ' ' <"$work/out" | grep -q 'Change first: Enter more slowly: reduce the entry feed' && good || bad "$(cat "$work/out")"
expect 0 '' -- in_ --entry plunge --entry-feed 9000mm/min --format json --exit-zero
grep -A14 '"name": "feed_fast"' "$work/out" | grep -q '"in_entry": true' && good || bad 'JSON of an entry move'
grep -q '"in_corner": true' "$work/out" && bad 'JSON reports the entry move as a corner' || good

# inputs that contradict each other or have no effect are refused
said_() { "$program" cut --material 6061 --tool 3mm --machine bench-24k --spindle 9000rpm --feed 300mm/min --depth 1mm --draws 1 --exit-zero "$@"; }
expect 64 'width has no effect in operation drill' -- said_ --operation drill --width 0.5mm
expect 64 'feature_width has no effect in operation drill' -- said_ --operation drill --feature-width 5mm
expect 64 'entry has no effect in operation drill' -- said_ --operation drill --entry ramp
expect 0 '' -- said_ --operation drill --entry outside
expect 64 'point_angle has no effect in operation mill (leave it out, or use operation drill)' -- said_ --point-angle 118deg
expect 64 'taper has no effect in operation drill' -- said_ --operation drill --taper 45deg
expect 64 'tip_diameter has no effect without taper' -- said_ --tip-diameter 0.1mm
expect 64 'feature_width has no effect in operation chamfer' -- chamfer_ cut --spindle 9000rpm --feed 300mm/min --feature-width 3mm
expect 64 'depth of 1 mm is more than feature_depth of 0.5 mm' -- said_ --feature-depth 0.5mm
expect 0 '' -- said_ --feature-depth 1mm
expect 64 'width of 2 mm is more than feature_width of 1 mm' -- said_ --width 2mm --feature-width 1mm
expect 64 'entry_feed has no effect when the tool enters from outside the part' -- said_ --entry-feed 100mm/min
expect 64 'wall_length has no effect without wall_thickness' -- said_ --set wall_length=5mm
expect 64 'bridge_span has no effect without bridge_thickness' -- said_ --set bridge_span=5mm
expect 64 'spindle_slowest of 30000 rpm is more than spindle_fastest' -- said_ --set spindle_slowest=30000rpm
expect 64 'side has no effect in operation drill' -- said_ --operation drill --side climb
expect 64 'side has no effect in operation drill' -- said_ --operation drill --side conventional
expect 64 'blind has no effect in operation drill' -- said_ --operation drill --chips closed
expect 64 'wall_thickness has no effect in operation drill' -- said_ --operation drill --wall 1mm
expect 64 'inside_radius has no effect in operation drill' -- said_ --operation drill --inside-radius 1mm
expect 0 '' -- said_ --operation drill --chips open
expect 64 'feature_depth of 2 mm differs from depth of 0.5 mm, but a chamfer is cut in one pass (give the depth of the chamfer only once' -- chamfer_ choose --feature-depth 2mm
expect 64 'the neck is thicker than the tool' -- said_ --neck 4mmx4mm
expect 0 '' -- said_ --neck 3mmx4mm
# a cut deeper than the stock or the part is refused
expect 64 'feature_depth of 3 mm, with the floor_thickness under it, is more than stock_thickness of 3 mm' -- said_ --set stock_thickness=3mm --feature-depth 3mm --floor 0.5mm
expect 0 '' -- said_ --set stock_thickness=3.5mm --feature-depth 3mm --floor 0.5mm
expect 64 'depth of 3 mm is more than part_thickness of 1 mm' -- said_ --set part_thickness=1mm --depth 3mm
expect 0 '' -- said_ --set part_thickness=3mm --depth 3.5mm
expect 0 '' -- said_ --set part_thickness=1mm --set stock_thickness=4mm --depth 3mm
# a tolerance of zero is refused; a tolerance below the runout has a caution
expect 64 'tolerance of 0mm is outside what any shop runs: 0.1 um to 10 mm' -- said_ --tolerance 0mm
expect 0 '' -- said_ --tolerance 5um --runout 8um --rows
tr -s ' \n' ' ' <"$work/out" | grep -q 'Caution: A tolerance of 5 um is less than the runout of 8 um' && good || bad 'a tolerance under the runout'
expect 0 '' -- said_ --tolerance 9um --runout 8um --rows
grep -q 'less than the runout' "$work/out" && bad 'a tolerance above the runout has the caution' || good
# no line is wider than the screen, however high a limit's utilization
expect 0 '' -- "$program" cut --material 6061 --tool 3mm --spindle 123456rpm --feed 12345.6789mm/min --depth 3.23456789mm --stickout 99.3333mm --units inch --exit-zero --rows
awk 'length($0) > 80 { exit 1 }' "$work/out" && grep -q '[0-9][0-9][0-9][0-9][0-9] %' "$work/out" && good || bad 'a utilization of five digits fits into the line'
# the long name of a limit is separated from its demand
cut_ --exit-zero --rows --units inch | grep -q '^ [a-z_]*[a-z][0-9]' && bad 'the name of a limit touches its demand' || good
# the default depth is at most that of the feature
"$program" cut --material 6061 --tool 3mm --spindle 9000rpm --feed 300mm/min --feature-depth 0.2mm --exit-zero >"$work/out"
grep -q 'depth 0.2 mm\*' "$work/out" && good || bad 'no pass goes deeper than its feature'
expect 64 'exclude each other' -- "$program" choose --material 6061 --tool 3mm --depth 1mm --spindle 9000rpm --spindle-steps 1000rpm,9000rpm
expect 64 'exclude each other' -- "$program" window --material 6061 --tool 3mm --depth 1mm --spindle 9000rpm --feed 300mm/min --spindle-steps 9000rpm
expect 64 'does not choose others; leave out --goal' -- "$program" choose --after dust --goal fast --material 6061 --tool 3mm --depth 1mm --spindle 9000rpm --feed 300mm/min
expect 64 '--goal has no effect' -- "$program" window --goal fast --material 6061 --tool 3mm --depth 1mm --spindle 9000rpm --feed 300mm/min
expect 64 'width has no effect in this operation' -- "$program" window --operation drill --up width --material 6061 --tool 3mm --depth 1mm --spindle 9000rpm --feed 300mm/min

# a face that is thinner than its pass depth is cut in one pass
cat >"$work/thin.ini" <<'END'
[format]
kind = job
version = 1
[part]
material = acrylic/cast
length = 38 mm
width = 26 mm
thickness = 1.6 mm
[stock]
nominal = 2 mm
thinnest = 1.8 mm
thickest = 1.9 mm
[tools]
at_hand = 3mm
[pass.face]
work = face
pass_depth = 1 mm
END
expect 0 '' -- "$program" job "$work/thin.ini" --exit-zero
tr '\n' ' ' <"$work/out" | tr -s ' ' | grep -q '; 0.3 mm deep' && good || bad 'a face is cut no deeper than the stock above the part'

# the worst advisory limit that will probably be exceeded, if there is one, is listed after the
# verdict
advised_() { "$program" cut --material 6061 --tool 6.35mm --machine bench-24k --flutes 3 --spindle 10000rpm --feed 900mm/min --coolant air --stickout 44.45mm --exit-zero "$@"; }
advised_ --depth 2.5mm | tr -s '\n ' ' ' | grep -q 'chance of exceeding a limit: [0-9.]* %; advisory: chatter [0-9]* %' && good || bad 'chatter is listed after the verdict'
advised_ --depth 2.5mm --format json | grep -A1 '"advice": {' | grep -q chatter && good || bad 'JSON: the worst advisory limit'
advised_ --depth 0.2mm | grep -q 'advisory: ' && bad 'no advisory limit is over' || good
advised_ --depth 0.2mm --format json | grep -q '"advice": null' && good || bad 'JSON: no advisory limit is over'
# the line of an advisory limit does not displace a caution
"$program" cut --material acrylic/cast --tool 3mm --flutes 2 --machine bench-24k --spindle 9000rpm --feed 2900mm/min --depth 0.4mm --exit-zero >"$work/out"
tr -s '\n ' ' ' <"$work/out" | grep -q 'advisory: edge_chip [0-9]* %' && grep -q '^ edge_chip .* advisory$' "$work/out" && grep -q '^Caution: Keep alcohol' "$work/out" && good || bad 'an advisory limit displaced a caution'
# the chips of a metal leave a dry slot that is closed at both ends less readily
packed_() { "$program" cut --material 6061 --tool 3mm --machine bench-24k --spindle 18000rpm --feed 1000mm/min --depth 0.8mm --exit-zero --rows "$@" | sed -n 's/^ chip_packing .* \([0-9]*\) % .*[#=|].*/\1/p'; }
[ "$(packed_ --chips closed)" -gt "$(packed_ --chips open)" ] && good || bad "chips of a closed slot: $(packed_ --chips closed) %, of an open one $(packed_ --chips open) %"
# what a table lacks is named, and the cut is neither clear nor tight
cp -r "$work/tables" "$work/lacking"
sed '/^packing_limit/d' "$work/tables/materials/brass.ini" >"$work/lacking/materials/brass.ini"
lacks_() { COOLBITE_TABLE_PATH=$work/lacking "$program" cut --material brass/c360 --tool 3mm --machine bench-24k --spindle 18000rpm --depth 0.5mm "$@"; }
expect 3 '' -- lacks_ --feed 1000mm/min
grep -q '^UNKNOWN ' "$work/out" && grep -q '^Missing  packing_limit$' "$work/out" && good || bad "a missing figure: $(cat "$work/out")"
expect 0 '' -- lacks_ --feed 1000mm/min --exit-zero
expect 2 '' -- lacks_ --feed 60000mm/min
lacks_ --feed 1000mm/min --format json | tr -d ' \n' | grep -q '"missing":\["packing_limit"\]' && good || bad 'JSON of a missing figure'

# help and lists fit into the width
for command in '' cut choose window job list show explain; do
    "$program" $command --help >"$work/out"
    awk 'length($0) > 80 || / $/ { exit 1 }' "$work/out" && good || bad "help of $command is wider than 80 columns"
    COLUMNS=60 "$program" $command --help | awk 'length($0) > 60 && !/--material acrylic/ { exit 1 }' && good || bad "help of $command is wider than 60 columns"
done
for what in materials tools holds layers fluids symptoms inputs values limits; do
    "$program" list $what | awk 'length($0) > 80 || / $/ { exit 1 }' && good || bad "list $what is wider than 80 columns"
    test "$("$program" list $what | grep -v '^name  \|^\* by default$' | grep -c '^[^ ]')" = "$("$program" list $what --format json | grep -c '"name"')" && good || bad "list $what: each name starts a line"
done

# fluids on a material, without a job
expect 0 '' -- "$program" show IPA --material acrylic/cast
grep -q '^NO: isopropyl alcohol on acrylic/cast' "$work/out" && good || bad 'alcohol on acrylic is refused'
expect 0 '' -- "$program" show acrylic/cast --format json
grep -q '"fluids": ' "$work/out" && good || bad 'a material has its fluids'
expect 66 'did you mean isopropanol' -- "$program" show isoproponal --material acrylic/cast
expect 66 'no material named nonsense' -- "$program" show ipa --material nonsense
expect 66 'no fluid named acrylic/cast' -- "$program" show acrylic/cast --material acrylic/cast
expect 64 'takes one name, that of a fluid' -- "$program" show ipa acetone --material acrylic/cast
expect 64 'add --material' -- "$program" show ipa --format csv
expect 64 'applies to list fluids only' -- "$program" list tools --material acrylic/cast
expect 64 'list fluids --material NAME' -- "$program" list fluids --format csv
for fluids in 'list fluids' 'show ipa' 'show meths' 'show water'; do
    "$program" $fluids --material acrylic/cast >"$work/out"
    awk 'length($0) > 80 || / $/ { exit 1 }' "$work/out" && good || bad "$fluids is wider than 80 columns"
done

# choose --after a symptom: its causes, the changes that help, the checks that the settings cannot
# answer
after_() { "$program" choose --material acrylic/cast --tool 0.8mm --machine bench-24k --spindle 24000rpm --feed 60mm/min --depth 0.4mm --exit-zero --after "$@"; }
for symptom in $("$program" list symptoms | cut -d' ' -f1); do
    expect 0 '' -- after_ "$symptom"
    grep -q '^Check also, since the settings do not show it:' "$work/out" && good || bad "$symptom names no checks beyond the settings"
    grep -q ' from .* to :' "$work/out" && bad "$symptom proposes nothing: $(grep ' to :' "$work/out")" || good
    expect 0 '' -- after_ "$symptom" --format json --units inch
done
after_ melted-edge >"$work/out"
grep -q '^[12]\. spindle speed from 24000 rpm to 12000 rpm' "$work/out" && good || bad 'a lower spindle speed is among the first two remedies for a melted edge'
after_ chipped-edge >"$work/out"
grep -q 'do not explain it' "$work/out" && good || bad 'small chips do not explain a chipped edge'
expect 66 'did you mean melted-edge' -- after_ melted-egde
expect 0 '' -- after_ 'Chips welded'
grep -q '^chips welded: ' "$work/out" && good || bad 'a symptom is found by its title'
expect 66 'did you mean chattering' -- after_ chatterign
# a limit that can never apply is not a suspect; one that lacks an input is reported
"$program" choose --after melted-edge --material 6061 --tool 3mm --spindle 18000rpm --feed 400mm/min --depth 1mm --exit-zero >"$work/out"
grep -q "chip_weld" "$work/out" && good || bad "chip welding of a metal is suspected"
grep -q "softening\|craze" "$work/out" && bad "a metal neither softens nor crazes" || good
after_ squeal >"$work/out"
tr -s "\n " " " <"$work/out" | grep -q "part_bend not requested" && good || bad "a thin wall is not reported as not requested"
expect 64 'spindle_speed' -- "$program" choose --material acrylic/cast --tool 0.8mm --feed 60mm/min --after strings

# the window in text, CSV, JSON and SVG
window_() { "$program" window --material acrylic/cast --tool 0.8mm --machine bench-24k --spindle 12000rpm --feed 200mm/min --depth 0.2mm --exit-zero "$@"; }
expect 0 '' -- window_
grep -q '@' "$work/out" && grep -q 'spindle speed, rpm' "$work/out" && good || bad 'the map shows the point and its axes'
awk 'length($0) > 80 { exit 1 }' "$work/out" && good || bad 'the map is wider than 80 columns'
test "$(wc -l <"$work/out")" -le 24 && good || bad 'the map fits a screen'
expect 0 '' -- window_ --across flutes=1..3 --up feed
awk 'length($0) > 80 || / $/ { exit 1 }' "$work/out" && grep -q '^At flutes 2 and 200 mm/min' "$work/out" && good || bad 'a map of flutes is 80 columns wide and names them'
window_ --across flutes=1..3 --format csv | awk -F, 'NR > 1 && $1 != int($1) { exit 1 } END { exit NR != 3 * 73 + 1 }' && good || bad 'the axis of flutes has whole steps'
expect 64 'whole number' -- window_ --across flutes=1..2.5
expect 0 '' -- window_ --units inch --up depth
grep -q 'depth, ' "$work/out" && good || bad 'another axis'
# JSON and CSV use one unit whatever the size
for deep in 0.05mm 1.5mm; do cut_ --depth $deep --exit-zero --format json | grep -q '"depth_unit": "mm"' && good || bad "JSON: $deep in mm"; done
window_ --up depth=0.02mm..0.09mm --depth 0.05mm --format csv | head -1 | grep -q 'depth \[mm\]' && good || bad 'CSV: small depths in mm'
# the extension of the output file selects the format and must agree with --format
expect 64 'window has no output format with the extension .png; use .txt, .json, .csv, .svg or .html, or give --format' -- window_ --output "$work/w.png"
test -e "$work/w.png" && bad 'text in a .png' || good
expect 64 'no output format with the extension .png' -- window_ --format svg --output "$work/w.png"
expect 64 'the extension is that of json' -- window_ --format svg --output "$work/w.json"
expect 64 'cut has no output format with the extension .svg; use .txt or .json' -- cut_ --output "$work/c.svg"
expect 0 '' -- cut_ --exit-zero --output "$work/c.json"
head -1 "$work/c.json" | grep -q '^{$' && good || bad 'JSON selected by the extension'
expect 0 '' -- cut_ --exit-zero --format text --output "$work/c.log"
expect 64 'must end in .html' -- "$program" job "$source/tables/jobs/cover-lens.ini" --sheet "$work/sheet.pdf"
expect 0 '' -- window_ --output "$work/w.svg"
grep -q '<title id="window-title">acrylic/cast' "$work/w.svg" && grep -q '</svg>' "$work/w.svg" && good || bad 'SVG selected by the extension'
window_ --format csv >"$work/w.csv"
awk -F, 'NR == 1 { n = NF } NF != n { exit 1 } END { exit NR != 97 * 73 + 1 }' "$work/w.csv" && good || bad 'CSV: one line for each point, with the same number of fields'
expect 64 'takes words' -- window_ --across side
expect 64 'is not an input' -- window_ --across speed
expect 64 'both axes' -- window_ --across feed
expect 64 'LEAST..MOST' -- window_ --up depth=3mm..1mm
expect 64 'not given' -- window_ --up finish
expect 64 'text, json, csv, svg or html' -- window_ --format pdf
expect 64 'text or json' -- cut_ --format svg
expect 64 'one tool' -- window_ --tool 1mm
# the program draws the picture of the README; only its texts are compared, since coordinates may
# differ by a rounding
# shellcheck disable=SC2046
"$program" $(sed -e ':join' -e '/\\$/{N;s/\\\n//;b join' -e '}' "$source/README.md" | sed -n 's/^coolbite \(window .*\) --output window.svg$/\1/p') --format svg >"$work/readme.svg"
sed -n 's/.*<text.*>\(.*\)<\/text>.*/\1/p' "$source/bindings/cli/window.svg" >"$work/words.there"
sed -n 's/.*<text.*>\(.*\)<\/text>.*/\1/p' "$work/readme.svg" >"$work/words.here"
[ -s "$work/words.here" ] && diff "$work/words.there" "$work/words.here" >"$work/diff" && good || bad "the README's picture is not the program's (make readme): $(head -n 5 "$work/diff")"
if [ -n "$python" ]; then
    window_ --format json | "$python" -c '
import json, sys
d = json.load(sys.stdin)
n, m = len(d["across"]["at"]), len(d["up"]["at"])
assert (n, m) == (97, 73) and len(d["verdicts"]) == m and all(len(r) == n for r in d["verdicts"])
for limit in d["limits"]:
    for low, high in zip(limit["utilization"], limit["utilization_high"]):
        assert all(a is None or a <= b * (1 + 1e-9) for a, b in zip(low, high))
' && good || bad 'JSON of a window'
    "$python" -c 'import sys, xml.dom.minidom as x; x.parse(sys.argv[1])' "$work/w.svg" && good || bad 'the SVG is well-formed'
fi

# the screen: at most 24 lines of at most 80 columns, in both systems of units
for units in metric inch; do
    for material in acrylic/cast acrylic/extruded polycarbonate aluminium; do
        LC_ALL=C "$program" cut --material $material --tool 0.8mm --machine bench-24k --spindle 12000rpm --feed 200mm/min --units $units >"$work/screen"
        [ "$(wc -l <"$work/screen")" -le 24 ] && good || bad "the screen of $material in $units has $(wc -l <"$work/screen") lines"
        awk 'length($0) > 80 { exit 1 }' "$work/screen" && good || bad "the screen of $material in $units is wider than 80 columns"
    done
done
# a danger is never among the cautions that the screen only counts
if [ -n "$python" ]; then
    for material in magnesium carbon-laminate phenolic-laminate nickel-alloy peek; do
        set -- cut --material $material --tool 0.8mm --spindle 12000rpm --feed 200mm/min --draws 16 --exit-zero
        "$program" "$@" --format json >"$work/all.json"
        "$program" "$@" >"$work/screen"
        "$python" -c 'import json, sys
dangers = sum(c["severity"] == "danger" for c in json.load(open(sys.argv[1]))["cautions"])
shown = sum(line.startswith("DANGER: ") for line in open(sys.argv[2], encoding="utf-8"))
sys.exit(dangers == 0 or dangers != shown)' "$work/all.json" "$work/screen" && good || bad "the dangers of $material on the screen"
    done
fi
# bands, confidence, and two cuts side by side
cut_ --exit-zero --draws 1 --format json | grep -q '"chance": null' && good || bad 'no draws, no chance'
cut_ --exit-zero --draws 64 --confidence 90% --format json | grep -q '"draws": 64' && good || bad '64 draws'
expect 64 'whole number' -- cut_ --draws 7
for share in 50% 0.5 99.9% 0.999; do expect 0 '' -- cut_ --exit-zero --confidence $share; done
for share in 20% 49.9% 99.91% 100%; do expect 64 'from 50% to 99.9%' -- cut_ --confidence $share; done
expect 0 '' -- cut_ --exit-zero --against --feed 400mm/min
grep -q 'feed_rate  *200 mm/min  *400 mm/min' "$work/out" && good || bad 'the two feeds are side by side'
expect 64 'once' -- cut_ --against --feed 400mm/min --against
expect 0 '' -- cut_ --exit-zero --format json --against --coolant air
[ -n "$python" ] && { "$python" -c 'import json, sys; d = json.load(sys.stdin); assert d["first"]["draws"] == d["second"]["draws"]' <"$work/out" && good || bad 'JSON of two cuts'; }

# ---- a whole job ----
expect 0 '' -- "$program" job --help
expect 64 'job takes one file' -- "$program" job
expect 64 'job takes one file' -- "$program" job a.ini b.ini
expect 66 'cannot be opened' -- "$program" job "$work/none.ini"
expect 66 'folder' -- "$program" job "$work"
for job in "$source"/tables/jobs/*.ini; do
    for units in metric inch; do
        expect 0 '' -- "$program" job "$job" --exit-zero --units $units
        awk 'length($0) > 80 { exit 1 }' "$work/out" && good || bad "$job in $units: a line over 80 columns"
        LC_ALL=C grep -q '[^ -~]' "$work/out" && bad "$job: characters beyond ASCII in the C locale" || good
        grep -q '^Stock ' "$work/out" && grep -q '^Time ' "$work/out" && grep -q '^DANGER: ' "$work/out" && good || bad "$job in $units lacks a part of the plan"
    done
    expect 0 '' -- "$program" job "$job" --exit-zero --format json
    if [ -n "$python" ]; then
        "$python" -c '
import json, sys
d = json.load(sys.stdin)
for key in ("schema", "title", "verdict", "chance", "stock", "warp", "hold", "time", "passes", "tools", "fluids", "checks", "remarks"):
    assert key in d, key
assert d["schema"] == 1 and d["verdict"] in ("clear", "tight", "over") and 0 <= d["chance"] <= 1
assert all(p["enter"] and p["seconds"] > 0 for p in d["passes"]) and d["tools"] and d["remarks"]
assert abs(sum(p["seconds"] for p in d["passes"]) - d["time"]["cutting"] - d["time"]["ways"]) < 1e-6 * d["time"]["whole"]
' <"$work/out" && good || bad "JSON of $job"
    fi
done
"$program" job "$source/tables/jobs/cover-lens.ini" >/dev/null; [ $? -eq 0 ] && good || bad 'the exit status of a clear job is 0'
sed 's/^torque = .*/torque = 2.7 Nm/' "$source/tables/jobs/bracket.ini" >"$work/tight.ini"
"$program" job "$work/tight.ini" >/dev/null; [ $? -eq 1 ] && good || bad 'the exit status of a tight job is 1'
sed 's/^cleaner = .*/cleaner = acetone/' "$source/tables/jobs/cover-lens.ini" >"$work/acetone.ini"
"$program" job "$work/acetone.ini" >/dev/null; [ $? -eq 2 ] && good || bad 'the exit status of a job that is over is 2'

# ten faults give ten lines with their line numbers, and no plan
cat >"$work/ten.ini" <<'INI'
[format]
kind = job
version = 1
[part]
material = acrilic/cast
length = 40
width = 30 mm
thickness = 2 mm
thinnest = 3 mm
colour = red
[stock]
nominal = 1 mm
[machine]
name = bench-24x
[hold]
method = glu
[pass.a]
work = solt
tool = 99
depth = 8 mm
INI
"$program" job "$work/ten.ini" >"$work/out" 2>"$work/err"; [ $? -eq 65 ] && good || bad 'the exit status of ten faults is 65'
[ -s "$work/out" ] && bad 'a faulty job is written' || good
lines=$(sed -n 's/^coolbite: .*ten\.ini:\([0-9]*\).*/\1/p' "$work/err" | sort -n | tr '\n' ' ')
[ "$lines" = '5 6 9 10 12 14 16 18 19 20 ' ] && good || bad "ten faults on lines $lines"
tail -n 1 "$work/err" | grep -q '^coolbite: 10 faults in .*ten\.ini; nothing was planned$' && [ "$(wc -l <"$work/err")" -eq 11 ] && good || bad "ten faults are summed up: $(tail -n 1 "$work/err")"

# passes in a cycle
small() { # title, more lines
    printf '[format]\nkind = job\nversion = 1\n[job]\ntitle = "%s"\n[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 mm\n[pass.a]\nwork = slot\ntool = 2mm\nspindle = 9000rpm\nfeed = 300mm/min\n%b' "$1" "${2:-}"
}
small cycle 'after = b\n[pass.b]\nwork = slot\nafter = a\n' >"$work/cycle.ini"
"$program" job "$work/cycle.ini" >"$work/out" 2>"$work/err"; [ $? -eq 65 ] && good || bad 'the exit status of a cycle is 65'
grep -q 'cycle.ini:16.*: pass.a:after: a, b wait for each other in a cycle' "$work/err" && [ ! -s "$work/out" ] && good || bad "a cycle: $(cat "$work/err")"

# a title with characters that are special in JSON, in a shell or on a terminal
small "it's <b>\${HOME}</b> & 100 %s; #1" >"$work/odd.ini"
expect 0 '' -- "$program" job "$work/odd.ini" --exit-zero
grep -qF "it's <b>\${HOME}</b> & 100 %s; #1: 1 part" "$work/out" && good || bad 'an odd title is shown as it is'
expect 0 '' -- "$program" job "$work/odd.ini" --exit-zero --format json
[ -n "$python" ] && { "$python" -c 'import json, sys; assert json.load(sys.stdin)["title"].startswith("it'"'"'s <b>$")' <"$work/out" && good || bad 'JSON of an odd title'; }
small "$(printf 'red \033[31m')" >"$work/odd.ini"
expect_lines() { "$program" job "$work/odd.ini" >"$work/out" 2>"$work/err"; [ $? -eq 65 ] && [ ! -s "$work/out" ] && ! grep -q "$(printf '\033')" "$work/err" && good || bad "$1"; }
expect_lines 'an escape character in a title is refused and not shown'
head -c 3000 /dev/urandom >"$work/odd.ini"
expect_lines 'random bytes are refused'
: >"$work/odd.ini"
expect_lines 'an empty file is refused'

expect 64 'would be overwritten' -- "$program" job "$work/one.ini" --sheet "$work/one.ini"
expect 64 'would be overwritten' -- "$program" job "$work/one.ini" --sheet "$work/two" --output "$work/two"
# recorded times: added, replaced, used to correct a plan
small 'Time one' >"$work/one.ini"
export XDG_DATA_HOME="$work/data"
times=$XDG_DATA_HOME/coolbite/tables/times.ini
expect 0 '' -- "$program" job "$work/one.ini" --exit-zero --took 20min
[ "$(grep -c '^\[time\.' "$times")" -eq 1 ] && grep -q '^took = 1200 s' "$times" && good || bad 'a time is recorded'
expect 0 '' -- "$program" job "$work/one.ini" --exit-zero --took 30min
[ "$(grep -c '^\[time\.' "$times")" -eq 1 ] && grep -q '^took = 1800 s' "$times" && good || bad 'a second time replaces the first'
expect 0 '' -- "$program" job "$work/one.ini" --exit-zero
grep -q "30 min, corrected by 1 of this shop" "$work/out" && good || bad 'a plan is corrected'
"$program" list times | grep -q '^time-one .*planned .*, took 30 min' && good || bad 'times are listed'
"$program" show time-one | grep -q 'took *30 min' && "$program" show masking-tape | grep -q 'peel' && good || bad 'times and layers are shown'
# entries written by hand are kept; programs that record at the same time do not lose a record
printf '# by hand\n[time.old-job]\ntitle = an old job\nplanned = 100 s\nplanned.source = memory\ntook = 120 s (110 .. 130)\ntook.source = memory' >>"$times"
small 'Time two' >"$work/two.ini"
expect 0 '' -- "$program" job "$work/two.ini" --exit-zero --took 9min
expect 0 '' -- "$program" job "$work/one.ini" --exit-zero --took forget
grep -q '^\[time.time-one' "$times" && bad 'a time is removed' || good
grep -q '^# by hand' "$times" && grep -q '^title = an old job' "$times" && grep -q '^took = 120 s (110 .. 130)' "$times" && grep -q '^took = 540 s' "$times" && good || bad 'everything else is unchanged'
expect 66 'no time is kept for this job' -- "$program" job "$work/one.ini" --exit-zero --took forget
i=0; while [ $i -lt 8 ]; do small "Time $i" >"$work/w$i.ini"; "$program" job "$work/w$i.ini" --exit-zero --took 9min >/dev/null 2>&1 & i=$((i + 1)); done; wait
[ "$(grep -c '^\[time\.' "$times")" -eq 10 ] && good || bad 'eight programs at once record all eight times'
"$program" list left-out | grep -q times && bad 'eight programs at once break the table' || good
expect 64 '--took must be a time' -- "$program" job "$work/one.ini" --took 20
expect 64 '--took must be a time' -- "$program" job "$work/one.ini" --took -3min
cp "$times" "$work/times.before"
small 'Time two' >"$work/two.ini"
(export GCOV_PREFIX="$work/counters"; ulimit -f 1; trap '' XFSZ; i=0; while [ $i -lt 12 ]; do small "Time $i" >"$work/t.ini"; "$program" job "$work/t.ini" --exit-zero --took 9min >/dev/null 2>"$work/err" || break; i=$((i + 1)); done; [ $i -lt 12 ]) && good || bad 'a full disk is an error of --took'
"$program" list left-out | grep -q times && bad 'a full disk left a broken table of times' || good
cp "$work/times.before" "$times"
if [ "$(id -u)" -ne 0 ]; then
    chmod 555 "${times%/*}"
    expect 73 'cannot be written' -- "$program" job "$work/two.ini" --exit-zero --took 9min
    chmod 755 "${times%/*}"
    cmp -s "$times" "$work/times.before" && good || bad 'the old times are unchanged in a read-only folder'
fi
echo '[time.broken' >>"$times"
cp "$times" "$work/times.before"
expect 65 'times.ini' -- "$program" job "$work/two.ini" --exit-zero --took 9min
cmp -s "$times" "$work/times.before" && good || bad 'a broken table of times is unchanged'
unset XDG_DATA_HOME

# ---- exit status by verdict ----
"$program" cut --material polycarbonate --tool 3mm --spindle 18000rpm --feed 1200mm/min --depth 1mm >/dev/null; [ $? -eq 0 ] && good || bad 'the exit status of a clear cut is 0'
"$program" cut --material acrylic/cast --tool 0.8mm --spindle 24000rpm --feed 20mm/min --depth 0.4mm >/dev/null; [ $? -eq 2 ] && good || bad 'the exit status of a melting cut is 2'

# ---- wrong input: one clear message, the right exit status ----
expect 64 '12000rpm or 12000Hz' -- cut_ --spindle 12000
expect 64 'comma' -- cut_ --depth 0,4mm
expect 64 'did you mean' -- cut_ --depth 0.4mmm
expect 64 'negative' -- cut_ --depth -0.4mm
expect 64 'outside what any shop runs' -- cut_ --depth 2m
expect 64 'is a length' -- cut_ --feed 200mm
expect 64 'not a measurable number' -- cut_ --depth nan
expect 64 'larger than the tool' -- cut_ --width 3mm
expect 66 'did you mean acrylic' -- "$program" cut --material acrilic/cast --tool 0.8mm --spindle 12000rpm --feed 200mm/min
expect 66 'no tool named' -- cut_ --tool em-77
expect 66 'no machine named' -- cut_ --machine my-mill
expect 64 '--speed is not an option of cut' -- cut_ --speed 12
expect 64 '--sp stands for several options of choose: --spindle, --spindle-steps; give the whole name' -- pick --sp 12
expect 64 '-x is not an option of cut' -- cut_ --rows -xy
expect 64 '-\xc3 is not an option of cut' -- cut_ -é
expect 64 '--rows does not take a value' -- cut_ --rows=all
expect 64 'unexpected argument stray; cut takes options only' -- cut_ stray
expect 64 'unexpected argument e; usage: coolbite show NAME [NAME]' -- "$program" show a b c d e
expect 64 'needs a value' -- "$program" cut --material
expect 64 'there is no command named mill; expected one of: cut, choose, window, job, measure, list, show, explain' -- "$program" mill
expect 64 'no input named' -- cut_ --set runot=3um
expect 64 'NAME=QUANTITY' -- cut_ --set runout
expect 64 'one of' -- cut_ --side upwards
expect 64 'metric or inch' -- cut_ --units furlong
expect 64 'no material was named' -- "$program" cut --tool 0.8mm --spindle 12000rpm --feed 200mm/min
expect 64 'no tool was named' -- "$program" cut --material acrylic/cast --spindle 12000rpm --feed 200mm/min
expect 64 'spindle_speed is missing' -- "$program" cut --material acrylic/cast --tool 0.8mm --feed 200mm/min
expect 66 'there is no' -- "$program" show nothing-of-the-kind
expect 66 'did you mean softening' -- "$program" explain softning
long=$(head -c 100000 /dev/zero | tr '\0' x)
expect 64 '' -- sh -c "'$program' explain '$(echo "$long" | head -c 50)' 2>/dev/null; [ \$? -eq 66 ] && exit 64"
expect 66 'no material named' -- "$program" cut --material "$long" --tool 0.8mm --spindle 12000rpm --feed 200mm/min
expect 64 'too long for a quantity' -- cut_ --depth "$long"

# ---- tables and plugins that are broken, empty, huge, folders, or writable by others ----
broken() { cp "$source/tables/materials/acrylic.ini" "$work/tables/materials/acrylic.ini"; cp "$build/plugins/.libs/acrylic.so" "$work/families/acrylic.so"; chmod 644 "$work/families/acrylic.so"; }
sed 's/^density = .*/densty = 3/' "$source/tables/materials/acrylic.ini" >"$work/tables/materials/acrylic.ini"
expect 65 'acrylic.ini:' -- cut_
: >"$work/tables/materials/acrylic.ini"
expect 65 'empty' -- cut_
head -c 1000000 /dev/zero | tr '\0' x >"$work/tables/materials/acrylic.ini"
expect 65 'too long' -- cut_
rm "$work/tables/materials/acrylic.ini"; mkdir "$work/tables/materials/acrylic.ini"
expect 66 'folder' -- cut_
rmdir "$work/tables/materials/acrylic.ini"; broken
# a broken table is reported by the commands that need it, and others do not open it
printf '[format]\nkind = material\nversion = 1\n[grade.stone-oak\n' >"$work/tables/materials/wood.ini"
expect 0 '' -- "$program" list tools
expect 0 '' -- "$program" list machines --format json
cut_ >"$work/out" 2>"$work/err"; [ -s "$work/err" ] && bad "a cut in acrylic reports wood.ini: $(cat "$work/err")" || good
expect 0 '' -- "$program" show 6061
expect 0 '1 table or plugin was not loaded' -- "$program" list materials
expect 0 '1 table or plugin was not loaded' -- "$program" list families
expect 65 'wood.ini' -- "$program" show wood
expect 65 'wood.ini' -- "$program" show stone-oak
"$program" list left-out | grep -q 'bracket is not closed' && good || bad 'list left-out does not report wood.ini'
cp "$source/tables/materials/wood.ini" "$work/tables/materials/wood.ini"
printf '[format\n' >"$work/tables/machines.ini"
expect 0 '' -- "$program" list tools
expect 0 '1 table or plugin was not loaded' -- "$program" list machines
cp "$source/tables/machines.ini" "$work/tables/machines.ini"
cp "$build/tests/plugins/.libs/newer.so" "$work/families/acrylic.so"
cut_ >"$work/out" 2>"$work/err"
[ $? -eq 0 ] && tr -s ' \n' ' ' <"$work/out" | grep -q 'left out, for it was built for version 99 .*works alone' && good || bad "a table without its plugin: $(cat "$work/out" "$work/err")"
requires() { broken; sed 's/^name = acrylic$/&\nplugin = required/' "$source/tables/materials/acrylic.ini" >"$work/tables/materials/acrylic.ini"; }
requires; cp "$build/tests/plugins/.libs/newer.so" "$work/families/acrylic.so"
expect 69 'version 99' -- cut_
rm "$work/families/acrylic.so"
expect 69 'requires the plugin acrylic.so' -- cut_
requires; chmod 777 "$work/families"
expect 69 'families: a folder on the path to the plugin can be written by users other than its owner and root' -- cut_
chmod 755 "$work/families"; chmod 666 "$work/families/acrylic.so"
expect 69 'can be written by users other than its owner and root' -- cut_
broken
expect 0 '' -- cut_ --exit-zero

# ---- text from plugins, tables and arguments: no control characters and no invalid UTF-8 in the output ----
escape=$(printf '\033[31mred')
torn=$(printf 'a\377z')
turned=$(printf 'a\342\200\256z')
# shown STATUS TEXT -- COMMAND: as expect, and neither output has a control character or invalid
# UTF-8
shown() {
    expect "$@"
    cat "$work/out" "$work/err" | tr -d '\n' | LC_ALL=C grep -q "$(printf '[\001-\037\177]')" && bad "$*: a control character is shown" || good
    [ -z "$python" ] || "$python" -c 'import sys; [open(p, encoding="utf-8").read() for p in sys.argv[1:]]' "$work/out" "$work/err" && good || bad "$*: the output is not UTF-8"
}
for text in "$escape" "$torn" "$turned"; do
    case $text in
        "$escape") as='\x1b[31mred' ;;
        "$torn") as='a\xffz' ;;
        *) as='a\u202ez' ;;
    esac
    shown 66 "no material named $as" -- "$program" cut --material "$text"
    shown 66 "no material named $as/b" -- "$program" cut --material "$text/b"
    shown 66 "no machine named $as" -- cut_ --machine "$text"
    shown 66 "no tool named $as" -- cut_ --tool "$text"
    shown 64 "$as" -- cut_ --side "$text"
    shown 64 "$as" -- cut_ --depth "0.4$text"
    shown 64 "$as" -- cut_ --set "$text=1mm"
    shown 64 "no command named $as;" -- "$program" "$text"
    shown 64 "--$as is not an option" -- cut_ "--$text"
    shown 64 "cannot list $as;" -- "$program" list "$text"
    shown 66 "named $as" -- "$program" explain "$text"
    shown 66 "named $as" -- "$program" show "$text"
    shown 64 "not $as" -- cut_ --format "$text"
    shown 64 "not $as" -- pick --goal "$text"
    shown 66 "named $as" -- "$program" choose --material acrylic/cast --tool 0.8mm --spindle 12000rpm --feed 200mm/min --after "$text"
    shown 64 "$as" -- window_ --across "$text"
    shown 66 "/$as.ini: cannot be opened" -- "$program" job "$work/$text.ini"
    shown 73 "/$as/plan: cannot be written" -- cut_ --output "$work/$text/plan"
    # files and folders with such names work, and their names are shown escaped
    mkdir -p "$work/$text/tables"
    cp -R "$work/tables/." "$work/$text/tables/"
    shown 0 '' -- env COOLBITE_TABLE_PATH="$work/$text/tables" "$program" list machines --format json
    grep -qF "$(printf %s "$as" | sed 's/\\/\\\\/')" "$work/out" && good || bad "JSON shows the folder $as"
    shown 0 '' -- env COOLBITE_TABLE_PATH="$work/$text/tables" "$program" show bench-24k
    grep -qF "$as" "$work/out" && good || bad "show shows the folder $as"
    printf '[format]\nkind = job\nversion = 1\n[part]\nmaterial = acrylic/cast\nlength = 40 mm\nwidth = 30 mm\nthickness = 2 mm\n[pass.a]\nwork = slot\ntool = 2mm\nspindle = 9000rpm\nfeed = 300mm/min\n' >"$work/$text.ini"
    shown 0 '' -- "$program" job "$work/$text.ini" --exit-zero
    grep -qF "$as.ini: 1 part" "$work/out" && good || bad "a job without a title is named after its file, $as"
    shown 0 '' -- "$program" job "$work/$text.ini" --exit-zero --format json
    shown 0 '' -- "$program" job "$work/$text.ini" --exit-zero --format html
    echo 'colour = red' >>"$work/$text.ini"
    "$program" job "$work/$text.ini" >"$work/out" 2>"$work/err"; [ $? -eq 65 ] && grep -qF "1 fault in $work/$as.ini" "$work/err" && good || bad "a fault in $as.ini"
done
fault() { cp "$build/tests/plugins/.libs/$1.so" "$work/families/acrylic.so" && chmod 644 "$work/families/acrylic.so" || bad "no plugin $1"; }
requires
for format in text json; do
    for how in source_bytes:'that are not UTF-8' source_escape:'a control character' source_turned:'direction of writing' \
        caution_bytes:'that are not UTF-8' caution_escape:'a control character' caution_ignored:'a control character' \
        caution_lines:'a control character' caution_source:'direction of writing' reason_escape:'\x1b[31mfive\xff' table_escape:'plain file name'; do
        fault "${how%%:*}"
        shown 69 "${how#*:}" -- cut_ --format $format
    done
    shown 0 '' -- "$program" list left-out --format $format
done
# a plugin that ends the process with any exit status does not make the command look successful
for how in leaves leaves_politely leaves_filling leaves_cautioning; do
    fault $how
    for format in text json; do
        expect 70 'ended before its answer was complete' -- cut_ --format $format
        [ -s "$work/out" ] && bad "$how: an answer is written" || good
    done
    expect 70 'a plugin' -- pick --goal cool
    expect 70 'a plugin' -- window_
    expect 70 'a plugin' -- "$program" job "$source/tables/jobs/cover-lens.ini"
    case $how in
        leaves_cautioning) ;;
        leaves_filling) expect 70 'a plugin' -- "$program" show acrylic/cast ;;
        *)
            expect 70 'a plugin' -- "$program" show acrylic/cast
            expect 70 'a plugin' -- "$program" list left-out
            ;;
    esac
    expect 0 '' -- "$program" explain softening
done
fault leaves_last # after the output; noticed unless the exit status is the same
over_() { "$program" cut --material acrylic/cast --tool 0.8mm --spindle 24000rpm --feed 20mm/min --depth 0.4mm "$@"; }
expect 70 'ended with exit status 0 instead of 2' -- over_
expect 0 '' -- over_ --exit-zero
fault crashes
(cut_) >"$work/out" 2>"$work/err"
[ $? -eq 139 ] && [ ! -s "$work/out" ] && grep -q '^coolbite: the command crashed' "$work/err" && good || bad "a plugin that crashes: $(cat "$work/err")"
broken

# ---- output: complete or not at all ----
expect 0 '' -- cut_ --exit-zero --output "$work/answer.txt"
[ -s "$work/answer.txt" ] && good || bad 'no answer in the file'
expect 73 'cannot be written' -- cut_ --output "$work/none/answer.txt"
if [ -w /dev/full ]; then
    cut_ --exit-zero >/dev/full 2>"$work/err"; [ $? -eq 73 ] && good || bad 'the exit status of a full disk is 73'
    "$program" --help >/dev/full 2>"$work/err"; [ $? -eq 73 ] && good || bad 'the exit status of help on a full disk is 73'
    expect 73 'cannot be written' -- cut_ --output /dev/full
fi

# ---- locales ----
for locale in de_DE.UTF-8 tr_TR.UTF-8; do
    LC_ALL=$locale cut_ --exit-zero --format json >"$work/c.json" 2>/dev/null
    cmp -s "$work/a.json" "$work/c.json" && good || bad "JSON differs in $locale"
done

echo "$passed passed, $failed failed"
[ "$failed" -eq 0 ]
