# SPDX-License-Identifier: GPL-3.0-or-later
# What is entered step by step: no step goes below the feature, and the finish has stock to cut.
for file in bracket cover-lens sensor-window; do
    ask job "$source/tables/jobs/$file.ini" --format json
    holds "$file: the steps are the feature, to the last" \
        'all(abs((p["passes"] - 1) * p["step_down"] + p["last_step"] - p["feature_depth"]) < 1e-9 and p["last_step"] <= p["step_down"] * 1.000001 for p in d["passes"] if p["work"] != "chamfer")'
    holds "$file: every pass says which way it goes round, except for drills" \
        'all((p["path"]["direction"] == "") == (p["work"] == "drill") for p in d["passes"])'
    holds "$file: what a finishing pass takes was left for it" \
        'all(any(q["path"]["allowance_for"] == p["pass"] and abs(q["path"]["allowance"] - named(p["inputs"], "width")["value"]) < 1e-9 for q in d["passes"]) for p in d["passes"] if p["work"] == "finish")'
    holds "$file: stages of a pass come in their order" \
        'all([("whole", "rough", "corners", "wall").index(p["stage"]) for p in d["passes"] if p["pass"] == n] == sorted(("whole", "rough", "corners", "wall").index(p["stage"]) for p in d["passes"] if p["pass"] == n) for n in {p["pass"] for p in d["passes"]})'
done
