# SPDX-License-Identifier: GPL-3.0-or-later
# A shop writes down once what it has. Then the day's questions need no more than material and cut.
mkdir -p "$work/shop"
cat >"$work/shop/coolbite.ini" <<'END'
[format]
kind = shop
version = 1

[shop]
machine = trim-router
coolant = air
at_hand = em-3-2 em-6-2
tolerance = 0.05 mm
END
export COOLBITE_CONFIG="$work/shop/coolbite.ini"
ask choose --material 'EN AW-6082' --feature-depth 2mm --format json
exits 0 1
holds 'the cut is for the shop' 'named(d["inputs"], "coolant")["text"] == "air" and named(d["inputs"], "tolerance")["value"] == 5e-5'
holds 'no faster than the router' 'd["enter"]["spindle"] <= 30000 and named(d["inputs"], "spindle_fastest")["value"] == 500'
holds 'one of the two tools at hand' 'named(d["inputs"], "diameter")["value"] in (0.003, 0.006) and d["next_best"]["tool"] in ("em-3-2", "em-6-2")'
holds 'all four keys are said, with their lines' '[(k["key"], k["line"]) for k in d["shop"]["keys"]] == [("machine", 6), ("coolant", 7), ("at_hand", 8), ("tolerance", 9)]'
# the job file has the last word
small_job shop >"$work/shop/job.ini"
printf '[machine]\nname = bench-24k\n' >>"$work/shop/job.ini"
ask job "$work/shop/job.ini" --exit-zero
says 'coolant air (line 7)'
says_not 'trim-router'
# the same question for a customer elsewhere
ask choose --material 'EN AW-6082' --feature-depth 2mm --tool 3mm --no-config
says_not "$COOLBITE_CONFIG"
says 'bench-24k*'
unset COOLBITE_CONFIG
