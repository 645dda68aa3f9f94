# SPDX-License-Identifier: GPL-3.0-or-later
# Thread mills in a tool list keep their pitches: written as CSV, edited, read again, in both systems
# of units. How to ask for one where one cut is judged.
for units in metric inch; do
    ask list tools --kind thread-mill --units $units --format json
    cp "$work/out" "$work/table.json"
    ask list tools --kind thread-mill --units $units --format csv --output "$work/drawer.csv"
    exits 0
    ask list tools --kind thread-mill --tools "$work/drawer.csv" --format json
    exits 0
    holds "$units: all come back" 'len(d) >= 16 and len(d) == len(json.load(open("'"$work"'/table.json")))'
    holds "$units: each with its pitches, teeth and form" 'all(t["full_form"] == o["full_form"] and all(abs(t[k] / o[k] - 1) < 1e-6 for k in ("pitch_least", "pitch_most", "flute_length")) for t in d for o in json.load(open("'"$work"'/table.json")) if o["name"] == t["name"])'
    ask show M6 --material 6061 --tools "$work/drawer.csv" --tool tm-2.8
    exits 64 65
    says 'does not cut the pitch of this thread'
    ask show M6 --material 6061 --tools "$work/drawer.csv" --tool tmf-1 --format json
    exits 0
    holds "$units: full-form, thirteen rows" 'd["milling"]["rows"] == 13'
done
# typed by hand: a single pitch, no pitch, the range the wrong way round
cat >"$work/own.csv" <<'END'
name,kind,DC [mm],ZEFP,APMX [mm],LU [mm],DN [mm],TPN [mm],TPX [mm],TP [mm]
ring,thread-mill,4,3,1,15,2.6,0.5,1,
comb,thread-mill,4,3,12,,,,,1
END
ask list tools --tools "$work/own.csv" --format json
holds 'a ring and a comb' '[t["full_form"] for t in d] == [False, True] and d[1]["pitch_least"] == d[1]["pitch_most"] == 1e-3'
printf 'name,kind,DC [mm]\nring,thread-mill,4\n' >"$work/own.csv"
ask list tools --tools "$work/own.csv"
exits 65
says 'needs its pitches, TPN and TPX, or TP'
printf 'name,kind,DC [mm],TPN [mm],TPX [mm]\nring,thread-mill,4,1,0.5\n' >"$work/own.csv"
ask list tools --tools "$work/own.csv"
exits 65
says 'the least pitch, TPN, is above the largest'
# one cut is no thread: the command says how to ask
ask cut --material 6061 --operation thread-mill --thread M6
exits 64
says 'ask coolbite show M6 --material 6061'
ask choose --material 6061 --thread M6 --tool tm-4.2
exits 64 65
says 'ask coolbite show M6 --material aluminium/6061-t6 --tool tm-4.2'
