# SPDX-License-Identifier: GPL-3.0-or-later
"""Cuts as rows of CSV: those of the command, and what is wrong with a row."""
import csv
import io
import os
import subprocess

import pytest

import coolbite

ROWS = ("id,material,tool,flutes,machine,spindle [rpm],feed [mm/min],depth\n"
        "one,acrylic/cast,0.8mm,2,bench-24k,12000,200,0.4mm\n"
        "two,acrylic/cast,0.8mm,2,bench-24k,24000,100,0.4mm\n")
RESULTS = ["verdict", "chance", "surface_temperature", "softening", "feed_rate"]


def read(text):
    return list(csv.DictReader(io.StringIO(text)))


def test_answers_of_the_command(tmp_path):
    program = os.environ.get("COOLBITE_PROGRAM")
    if not program:
        pytest.skip("COOLBITE_PROGRAM does not name the command")
    cuts = tmp_path / "cuts.csv"
    cuts.write_text(ROWS, encoding="utf-8")
    for draws, units, results in ((0, "metric", RESULTS[2:]), (64, "inch", RESULTS)):
        line = [program, "batch", "--no-config", "--results", ",".join(results), "--units", units,
                "--draws", str(draws or 1), str(cuts)]
        shown = subprocess.run(line, capture_output=True, check=True, text=True).stdout
        assert coolbite.cases(ROWS, results, draws=draws, units=units, threads=2) == shown


def test_a_bad_row_says_why_and_spoils_no_other():
    rows = ROWS.replace("24000,100,0.4mm", "24000,100,-0.4mm")
    first, second = read(coolbite.cases(rows, ["surface_temperature"]))
    assert float(first["surface_temperature [degC]"]) > 20 and first["fault"] == ""
    assert second["surface_temperature [degC]"] == ""
    assert second["fault"] == "depth: -0.4mm is negative; a length cannot be negative"


def test_words_in_common_and_the_words_of_the_command():
    text = "feed [mm/min]\n200\n"
    row, = read(coolbite.cases(text, ["spindle", "verdict"], material="acrylic/cast",
                               tool="0.8mm", machine="bench-24k", spindle="12000rpm",
                               depth="0.4mm"))
    assert float(row["spindle_speed [rpm]"]) == 12000 and row["verdict"] == "clear"


@pytest.mark.parametrize("text, results, kind, says", [
    ("fed [mm/min]\n200\n", ["verdict"], coolbite.FileFormatError, "did you mean feed"),
    ("feed [kg]\n200\n", ["verdict"], coolbite.FileFormatError, "kg is not a unit of feed_rate"),
    (ROWS, ["sufrace_temperature"], coolbite.UnknownNameError, "did you mean surface_temperature"),
    (ROWS, ["verdict"] * 2, coolbite.ArgumentError, "named twice"),
    ("a\0b", ["verdict"], coolbite.ArgumentError, "null character"),
    (ROWS, "verdict", TypeError, "a list of names"),
    (3, ["verdict"], TypeError, "text is expected"),
])
def test_faults(text, results, kind, says):
    with pytest.raises(kind, match=says):
        coolbite.cases(text, results)


def test_nothing_in_nothing_out():
    assert coolbite.cases("material\n", ["verdict"]).splitlines() == ["material,verdict,fault"]
