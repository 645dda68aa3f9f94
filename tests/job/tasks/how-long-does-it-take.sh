# SPDX-License-Identifier: GPL-3.0-or-later
# A quote: how long does the job take, what is it made of, and how much of it needs a person?
for file in bracket cover-lens sensor-window; do
    ask job "$source/tables/jobs/$file.ini" --format json
    exits 0 1
    holds "$file: the whole is the sum of its parts" \
        '(lambda t: abs(t["whole"] - t["feed_only"] - t["cornering"] - t["entries"] - t["air"] - t["rapids"] - t["pauses"] - t["tool_changing"] - t["spindle_starts"] - t["zeroing"] - t["mounting"] - t["cure"] - t["releasing"] - t["soak"] - t["cleaning"]) < 1e-6)(d["time"])'
    holds "$file: hands, machine and waiting are the whole too" \
        '(lambda t: abs(t["whole"] - t["hands"] - t["machine_alone"] - t["waiting"]) < 1e-6)(d["time"])'
    holds "$file: the passes are the cutting, the moves and the pauses" \
        'abs(sum(p["seconds"] for p in d["passes"]) - d["time"]["cutting"] - d["time"]["ways"] - d["time"]["pauses"]) < 1e-6'
    holds "$file: every entry into a closed feature takes time" \
        'all(p["entry_seconds"] > 0 for p in d["passes"] if p["entry_move"]["kind"] in ("ramp", "helix", "plunge"))'
    holds "$file: nothing is faster than its feed" \
        'all(p["seconds"] >= p["feed_seconds"] for p in d["passes"])'
done
ask job "$source/tables/jobs/bracket.ini" --format json
holds 'a machining centre changes its tools in seconds, and needs no hand for it' \
    'd["time"]["tool_changer"] and d["time"]["tool_changing"] / d["time"]["tool_changes"] < 20'
sed 's/small-vmc/knee-mill/' "$source/tables/jobs/bracket.ini" >"$work/knee.ini"
ask job "$work/knee.ini" --format json
holds 'on a knee mill a change takes minutes of handwork' \
    'not d["time"]["tool_changer"] and d["time"]["tool_changing"] / d["time"]["tool_changes"] >= 60 and d["time"]["hands"] > d["time"]["tool_changing"]'
ask job "$source/tables/jobs/cover-lens.ini"
says 'feed alone'
says 'acceleration and corners'
says 'cure'
says 'the next blank mounted meanwhile'
ask job "$source/tables/jobs/cover-lens.ini" --format json
holds 'glue cures while other work goes on: two plates give a blank sooner than one' \
    'd["time"]["waiting"] > 0 and d["time"]["overlapped"] < d["time"]["whole"]'
