# SPDX-License-Identifier: GPL-3.0-or-later
# A shop's own table of drilling that states the point for blind holes alone: a blunter drill is still
# cautioned about, with the source of the figure that the table has.
mkdir -p "$work/own"
own() {
    {
        printf '[format]\nkind = hole_work\nversion = 1\n[drilling.acrylic]\n'
        printf 'source = "common-practice: ground for acrylic in this shop"\n%s\n' "$1"
        printf 'says = "Polished flutes."\n'
    } >"$work/own/hole_work.ini"
}
tables=$COOLBITE_TABLE_PATH
export COOLBITE_TABLE_PATH="$work/own:$tables"
drilled() { ask choose --material acrylic/cast --tool drill-3.3 --feature-depth 5mm --draws 64 --rows --sources; }
for stated in 'point_blind = 60 deg' 'point = 60 deg'; do
    own "$stated"
    drilled
    exits 0 1 2
    says 'digs in and breaks out the far side'
    says 'ground for acrylic in this shop'
    says 'Polished flutes.'
done
own ''
drilled
exits 0 1 2
says_not 'digs in and breaks out the far side'
says 'Polished flutes.'
export COOLBITE_TABLE_PATH="$tables"
