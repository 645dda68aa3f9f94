# SPDX-License-Identifier: GPL-3.0-or-later
# What spoils a milled thread is refused before anything is cut: the mill too large, too short or of
# another pitch, the hole missing, wide or shallow, and a thread mill used for other work.
try() {
    sed "$1" "$tasks/threads-milled.ini" >"$work/tried.ini"
    ask job "$work/tried.ini"
    exits 65
    says "$2"
}
try 's/thread = M6/thread = M6\ntool = 4.3mm/' 'is too large for this thread'
try 's/thread = M6/thread = M6\ntool = tm-4.4/' 'at most 4.2 mm fits'
try 's/thread = M6/thread = M6\ntool = tm-2.8/' 'does not cut a pitch of 1 mm'
try 's/thread = M6/thread = M6\ntool = em-4-3/' 'em-4-3 is not a thread mill'
try 's/thread = M6/thread = M66/' 'there is no thread named M66 (did you mean'
try 's/thread = M6/count = 4/;s/count = 4//' 'the pass names no thread to be milled'
try 's/drill-5/drill-5.9/' 'tool = drill-5, and the same count (4)'
try 's/= 9.5 mm/= 8.9 mm/' 'needs 9 mm'
try 's/thread = M6/thread = M6\nhole = bores/' 'names the pass bores, which does not exist'
try 's/thread = M6/thread = M6\nwidth = 1 mm/' 'width has no effect when a thread is milled'
try 's/thread = M6/thread = M6\nlead = 2/' 'lead belongs to tapping'
# deeper than the neck is long: by the table's mill, and by one that is named
try 's/thickness = 12/thickness = 20/;s/= 8 mm/= 15.6 mm/;s/= 9.5 mm/= 18 mm/' 'reaches 16 mm, and this pass needs 16.1 mm'
try 's/thickness = 12/thickness = 20/;s/= 8 mm/= 15.6 mm/;s/= 9.5 mm/= 18 mm/;s/thread = M6/thread = M6\ntool = tm-4.2/' 'tm-4.2 is too short'
sed 's/thickness = 12/thickness = 20/;s/= 8 mm/= 15.5 mm/;s/= 9.5 mm/= 18 mm/' "$tasks/threads-milled.ini" >"$work/tried.ini"
ask job "$work/tried.ini"
exits 0 1
# of the tools at hand; a mill known by its diameter alone is assumed to have a neck that fits
try 's/\[hold\]/[tools]\nat_hand = 3mm tm-2.8\n[hold]/' 'add tm-4.2 to at_hand'
sed 's/thread = M6/thread = M6\ntool = 4mm/' "$tasks/threads-milled.ini" >"$work/tried.ini"
ask job "$work/tried.ini" --format json
exits 0
holds 'its neck is as long as the thread' 'named([p for p in d["passes"] if p["pass"] == "thread"][0]["inputs"], "neck_length")["value"] == 8e-3'
# it mills nothing else, and is not picked for other work
ask cut --material 6061 --tool tm-4.2 --spindle 9000rpm --feed 300mm/min
exits 64 65
says 'a thread mill, which cuts threads only'
ask list tools --kind thread-mill --format json
holds 'they are listed' 'len(d) >= 8 and all(t["kind"] == "thread-mill" for t in d)'
