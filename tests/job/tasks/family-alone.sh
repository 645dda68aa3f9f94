# SPDX-License-Identifier: GPL-3.0-or-later
# The drawing says only "steel": the settings must suit whatever steel is on the shelf, and the
# screen must say which grade they are for.
ask choose --material steel --tool 4mm --feature-depth 1mm --format json
holds 'the hardest of the grades is taken' 'd["material"] == "steel/4140" and d["material_named"] == "family"'
enter=$("$python" -c 'import json,sys; e = json.load(open(sys.argv[1]))["enter"]; print("--spindle %grpm --feed %gmm/min --depth %gmm" % (e["spindle"], e["feed"], e["depth"]))' "$work/out")
for grade in 1018 1045 4140 12l14; do
    # shellcheck disable=SC2086
    ask cut --material steel/$grade --tool 4mm --feature-depth 1mm $enter --format json
    holds "steel/$grade is clear at these settings" 'd["verdict"] == "clear"'
done
ask choose --material steel --tool 4mm --feature-depth 1mm
says 'steel/4140*'
says 'material steel/4140, the cautious grade of steel'
ask choose --material steel/1018 --tool 4mm --feature-depth 1mm
says_not 'cautious grade'
# a job says it too
sed 's/^material = .*/material = pmma/' "$source/tables/jobs/cover-lens.ini" >"$work/pmma.ini"
ask job "$work/pmma.ini"
says 'material acrylic/extruded, the cautious grade of acrylic'
