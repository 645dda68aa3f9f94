# SPDX-License-Identifier: GPL-3.0-or-later
# The knee mill has play in its screws: climb milling pulls the table. What does the plan say?
ask job "$source/tables/jobs/bracket.ini" --format json
holds 'a machining centre climbs' 'all(p["path"]["direction"] in ("climb", "") for p in d["passes"])'
sed 's/small-vmc/knee-mill/' "$source/tables/jobs/bracket.ini" >"$work/knee.ini"
ask job "$work/knee.ini" --format json
holds 'a knee mill cuts its walls against the feed, and is judged so' \
    'all(p["path"]["direction"] == "conventional" and named(p["inputs"], "side")["text"] == "conventional" for p in d["passes"] if p["work"] in ("rough", "finish"))'
holds 'a drill has no direction' 'all(p["path"]["direction"] == "" for p in d["passes"] if p["work"] == "drill")'
ask job "$work/knee.ini"
says 'conventional; step-over'
