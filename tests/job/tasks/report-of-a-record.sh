# A customer wants a report with the lenses. The shop looks at what the readings of the record prove,
# files the page, and asks what to type in at the machine before the next part.
record=$source/tables/jobs/cover-lens.record

ask measure "$record" --report -
exits 1 # one flatness is not proven
says 'NOT PROVEN HI-2041 cover lens'
says '6 of 6 parts were measured.'
says '5 are proven to conform in all that was measured, 1 is not proven either way, 0 do not conform'
says '1 corrected later; all are listed.'
says 'flatness, part free: not proven'
says 'the force of the instrument changes a reading by about 148 um'
# 38.027 mm instead of 38 mm, and growing: 31 um for the next part, half of it on each wall
says 'does not cover it: 10 um on each wall come from'
says 'The next part would have 38.031 mm.'
says 'add -0.016 mm to the wear offset of the tool'"'"'s radius, or -0.031 mm if the control takes the diameter'

# The same in inches, and whatever the verdict is.
ask measure "$record" --report - --units inch --exit-zero
exits 0
says 'limits 1.49409 to 1.49803 in'

# The page is whole, and says whose readings these are.
ask measure "$record" --report "$work/lens.html"
exits 1
cp "$work/lens.html" "$work/out"
says 'All readings of this record are invented'
says '<h1 id="report">Inspection report</h1>'
says 'FAI Report Number'
says_not '<script'

# For the customer's own software, also with a name that is markup, and in inches.
ask measure "$record" --report "$work/lens.qif"
exits 1
grep -q '<QIFDocument xmlns="http://qifstandards.org/xsd/qif3" versionQIF="3.0.0"' "$work/lens.qif" && good || bad "$task: no QIF document"
sed 's/^part_name = .*/part_name = "<lens> \&amp; 50% ]]>"/' "$record" >"$work/odd.record"
ask measure "$work/odd.record" --report "$work/odd.qif" --units inch --exit-zero
exits 0
grep -q 'label="&lt;lens&gt; &amp;amp; 50% ]]&gt;"' "$work/odd.qif" && good || bad "$task: another name"
grep -q '<UnitName>inch</UnitName>' "$work/odd.qif" && good || bad "$task: another unit"
if command -v xmllint >/dev/null 2>&1; then
    for qif in lens odd; do
        xmllint --noout --nonet --schema "$source/tests/report/inspection/qif/measurement_results.xsd" "$work/$qif.qif" 2>"$work/err" && good || bad "$task: $(head -n 2 "$work/err")"
    done
fi

# For his own sums: SI, null for what is missing.
ask measure "$record" --report - --format json
exits 1
holds 'the reading that was corrected is kept' 'any(r["state"] == "corrected later" and r["read"].startswith("0.660") for r in d["characteristics"][0]["readings"])'
holds 'the offset is in m' 'abs(d["characteristics"][3]["next_cut"]["radius_wear"] + 1.56e-5) < 3e-7'
holds 'what is not stated is null' 'd["record"]["serial"] is None and d["characteristics"][1]["lower"] is None'
holds 'six parts are too few for capability' 'd["characteristics"][3]["capability"] is None and "fewer than 10" in d["characteristics"][3]["spread_unknown_because"]'

# Slips.
ask measure "$record" --report "$work/lens.pdf"
exits 64
says 'use .txt, .json, .csv, .html or .qif'
ask measure "$record" --report - --person Ann
exits 64
says 'leave out one of them'
ask measure "$record" --format json
exits 64
says 'add --report FILE'
cp "$record" "$work/copy.record"
ask measure "$work/copy.record" --report "$work/copy.record" --format json
exits 64
says 'would be overwritten'
cmp -s "$record" "$work/copy.record" && good || bad "$task: the record was changed"

# A record of which a byte was lost proves no conformity, and says so.
sed 's/value="0.604mm"/value="0.605mm"/' "$record" >"$work/copy.record"
ask measure "$work/copy.record" --report -
exits 1
says 'cannot be read, and nobody has settled'
