# SPDX-License-Identifier: GPL-3.0-or-later
"""The add-in in a headless office program: python3 spreadsheet_session.py EXAMPLE WORK -env:...

Compares every computed cell of the example with the answers of the command COOLBITE_PROGRAM, gives
the functions what they cannot take, and times a sheet of a thousand cells.
"""
import csv
import json
import os
import pathlib
import re
import signal
import subprocess
import sys
import time

import uno
from com.sun.star.beans import PropertyValue
from com.sun.star.connection import NoConnectException

PROGRAM = os.environ["COOLBITE_PROGRAM"]
NONE_GIVEN = 504  # Err:504, error in parameter list: of Calc itself
counts = {True: 0, False: 0}


def check(claim, passed):
    counts[bool(passed)] += 1
    if not passed:
        print(f"FAILED: {claim}")


def same(claim, found, expected):
    check(f"{claim}: {found!r}, not {expected!r}", found == expected)


def command(*words):
    return subprocess.run([PROGRAM, words[0], "--no-config", "--exit-zero", *words[1:]]
                          if words[0] != "batch" else [PROGRAM, *words, "--no-config"],
                          capture_output=True, check=True, encoding="utf-8").stdout


# ---- the office program --------------------------------------------------------------------------


def connect(process, pipe):
    """The context of the program that was started; it takes some seconds to answer."""
    context = uno.getComponentContext()
    resolver = context.ServiceManager.createInstanceWithContext(
        "com.sun.star.bridge.UnoUrlResolver", context)
    end = time.monotonic() + 60
    while time.monotonic() < end and process.poll() is None:
        try:
            return resolver.resolve(f"uno:pipe,name={pipe};urp;StarOffice.ComponentContext")
        except NoConnectException:
            time.sleep(0.1)
    raise SystemExit("the office program did not answer within 60 s")


def options(**given):
    return tuple(PropertyValue(name, 0, value, 0) for name, value in given.items())


def load(desktop, address, **given):
    return desktop.loadComponentFromURL(address, "_blank", 0, options(Hidden=True, **given))


def content(cell):
    """A number, a text, or the number of an error as Calc has it, ("error", 504)."""
    if cell.getError():
        return "error", cell.getError()
    if cell.Type.value == "FORMULA":
        is_number = cell.FormulaResultType2 == 1  # com.sun.star.sheet.FormulaResult.VALUE
    else:
        is_number = cell.Type.value == "VALUE"
    return cell.Value if is_number else cell.String


# ---- the example ---------------------------------------------------------------------------------


def find_row(rows, first, start=0):
    return next(at for at in range(start, len(rows)) if rows[at][0] == first)


def block(rows, start):
    """The line of names at start, and the rows below it to the first one that is not full."""
    width = next((at for at, name in enumerate(rows[start]) if not name), len(rows[start]))
    end = start + 1
    while end < len(rows) and all(rows[end][:width]):
        end += 1
    return rows[start][:width], [row[:width] for row in rows[start + 1:end]]


def exported(document, work):
    """What the sheet says as CSV, with all digits."""
    target = work / "example.csv"
    document.storeToURL(target.as_uri(), options(
        FilterName="Text - txt - csv (StarCalc)",
        FilterOptions="44,34,76,1,,0,false,true,false,false,false,-1"))
    file, = work.glob("example*.csv")
    with open(file, encoding="utf-8", newline="") as lines:
        return list(csv.reader(lines))


def common_words(rows):
    start = find_row(rows, "material")
    words = []
    for row in rows[start:]:
        if not row[0]:
            return words
        words += [f"--{row[0]}", row[1]]
    return words


def number(text):
    """Of a cell: CSV has a share as percent."""
    return float(text[:-1]) / 100 if text.endswith("%") else float(text)


def same_text(claim, found, expected):
    """Text, or numbers that agree but for the last digit of a percentage."""
    try:
        passed = abs(number(found) - float(expected)) <= 1e-12 * abs(float(expected))
    except ValueError:
        passed = found == expected
    check(f"{claim}: {found}, not {expected}", passed)


def compare_cuts(rows, work):
    names, cuts = block(rows, find_row(rows, "tool"))
    given = names.index("verdict")
    results = [name.split()[0] for name in names[given:]]
    file = work / "cuts.csv"
    with open(file, "w", encoding="utf-8", newline="") as lines:
        writer = csv.writer(lines)
        writer.writerow(names[:given])
        writer.writerows([["" if text == "-" else text for text in cut[:given]] for cut in cuts])
    answers = list(csv.DictReader(command(
        "batch", str(file), "--draws", "4096", "--results", ",".join(results),
        *common_words(rows)).splitlines()))
    same("cuts", len(cuts), 6)
    same("answers", len(answers), len(cuts))
    for cut, answer in zip(cuts, answers):
        same("fault", answer["fault"], "")
        for name, found in zip(names[given:], cut[given:]):
            same_text(f"{cut[0]}: {name}", found, answer[name])
    check("one cut of each verdict", {cut[given] for cut in cuts} == {"clear", "tight", "over"})
    hottest = rows[find_row(rows, "hottest surface [degC]")][1]
    same("hottest surface", float(hottest),
         max(float(answer["surface_temperature [degC]"]) for answer in answers))


def compare_cautions(rows):
    cut = dict(zip(*(line[:5] for line in (rows[find_row(rows, "tool")],
                                           rows[find_row(rows, "tool") + 1]))))
    answer = json.loads(command(
        "cut", "--format", "json", "--draws", "1", *common_words(rows), "--tool", cut["tool"],
        "--spindle", cut["spindle [rpm]"] + "rpm", "--feed", cut["feed [mm/min]"] + "mm/min",
        "--depth", cut["depth [mm]"] + "mm"))
    expected = [mark + caution["text"] for severity, mark in (("danger", "DANGER: "),
                                                              ("care", "Caution: "))
                for caution in answer["cautions"] if caution["severity"] == severity]
    check("a danger", expected[0].startswith("DANGER: "))
    same("cautions", rows[find_row(rows, "cautions")][1].split("\n"), expected)


def compare_choices(rows):
    names, choices = block(rows, find_row(rows, "tool", find_row(rows, "tool") + 1))
    same("choices", len(choices), 3)
    for choice in choices:
        row = dict(zip(names, choice))
        answer = json.loads(command(
            "choose", "--format", "json", *common_words(rows), "--tool", row["tool"],
            "--feature-depth", row["feature_depth [mm]"] + "mm"))
        check(f"{row['tool']}: the command says clear", answer["clear"])
        for name, found in row.items():
            setting = name.split()[0]
            if setting in ("spindle", "feed", "depth"):
                same_text(f"{row['tool']}: {name}", found, answer["enter"][setting])
                same(name, name.split()[1], f"[{answer['enter'][setting + '_unit']}]")
            elif setting in ("passes", "chance"):
                same_text(f"{row['tool']}: {name}", found, answer[setting])


def test_example(document, work):
    document.calculateAll()
    rows = exported(document, work)
    check("a caution in the sheet", "safety data sheet" in rows[1][0])
    compare_cuts(rows, work)
    compare_cautions(rows)
    compare_choices(rows)
    # what is entered computes anew, and what is wrong with it stands where the numbers were
    sheet = document.Sheets.getByIndex(0)
    first = find_row(rows, "tool") + 1
    place = {name: at for at, name in enumerate(rows[first - 1])}
    verdict = sheet.getCellByPosition(place["verdict"], first)
    feed = sheet.getCellByPosition(place["feed [mm/min]"], first)
    feed.Value = 20000
    check("another feed, another verdict", content(verdict) == "over")
    for typed, says in (("", "Fault: feed is missing: its cell is empty"),
                        ("fast", "Fault: feed: fast does not begin with a number"),
                        ("20 kg", "Fault: feed: ")):
        feed.String = typed
        check(f"{typed}: {content(verdict)}", str(content(verdict)).startswith(says))
    bottom = sheet.getCellByPosition(1, find_row(rows, "hottest surface [degC]"))
    same("the hottest of all but one", content(bottom), "Fault: a cut has no temperature")
    feed.Value = 200
    same("as before", content(verdict), rows[first][place["verdict"]])


def test_readme(document, readme):
    """Its formulas compute: some of them refer to the example."""
    sheet = document.Sheets.getByIndex(0)
    sheet.getCellRangeByName("B2").Value = 12000
    sheet.getCellRangeByName("C2").Value = 300
    code = re.findall(r"^```\n(=.*?)^```", readme.read_text(encoding="utf-8"), re.M | re.S)
    formulas = re.split(r"\n(?==)", code[0])
    same("formulas of the README", len(formulas), 3)
    for formula in formulas:
        cell = sheet.getCellRangeByName("L1")
        cell.Formula = " ".join(formula.split())
        found = content(cell)
        if "VERDICT" in formula:
            same(formula, found, "clear")
        else:
            check(f"{formula}: {found}", isinstance(found, float) and found > 20)


# ---- what the functions cannot take --------------------------------------------------------------

CUT = ('"material";"acrylic/cast";"tool";"0.8mm";"machine";"bench-24k";"spindle";12000;'
       '"feed";200')
HOSTILE = (
    (f'COOLBITE("surface_temperature";{CUT};"depth";-0.4)', "-0.4 mm is negative"),
    (f'COOLBITE("surface_temperature";{CUT};"depth";"deep")', "depth: deep does not begin with"),
    (f'COOLBITE("surface_temperature";{CUT};"depth";"0.4")', "0.4 is a bare number"),
    (f'COOLBITE("surface_temperature";{CUT};"depth";)', "depth is missing: its cell is empty"),
    (f'COOLBITE("surface_temperature";{CUT};"depth";Z9)', "depth is missing: its cell is empty"),
    (f'COOLBITE("surface_temperature";{CUT};Z8:Z9;Z8:Z9)', "not an empty cell"),
    (f'COOLBITE("surface_temperature";{CUT};"depth")', "depth has no value"),
    (f'COOLBITE("surface_temperature";{CUT};"depth";0)', "empty or 0"),
    (f'COOLBITE("surface_temperature";{CUT};"depth";TRUE())', None),  # 1 mm
    (f'COOLBITE("surface_temperature";{CUT};"depth";1E300)', "depth: "),
    (f'COOLBITE("surface_temperature";{CUT};"depth";0.0000001)', "outside what any shop runs"),
    (f'COOLBITE("surface_temperature";{CUT};"dept";0.4)', "did you mean depth"),
    (f'COOLBITE("surface_temperature";{CUT};"feed";0.4)', "feed is stated twice"),
    (f'COOLBITE("surface_temperature";{CUT};"finish";3.2)', "3.2 is a bare number"),
    (f'COOLBITE("sufrace_temperature";{CUT};"depth";0.4)', "did you mean surface_temperature"),
    (f'COOLBITE("surface_temperature [K]";{CUT};"depth";0.4)', "is in degC here, not in K"),
    (f'COOLBITE("";{CUT};"depth";0.4)', "not an empty cell"),
    (f'COOLBITE(Z9;{CUT};"depth";0.4)', "not an empty cell"),
    (f'COOLBITE("surface_temperature";{CUT};"width";"1"&CHAR(10)&"2")', "a line break"),
    (f'COOLBITE("surface_temperature";{CUT};"units";"imperial")', "metric or inch is expected"),
    ('COOLBITE("surface_temperature";"material";"unobtainium";"tool";"3mm")',
     "no material named unobtainium"),
    ('COOLBITE("surface_temperature")', "material"),
    ('COOLBITE("cautions";"material";"unobtainium")', "no material named unobtainium"),
    ("COOLBITE_VERDICT(5;6)", "a name such as feed"),
    (f'COOLBITE_VERDICT({CUT};"depth";"=1+1")', "depth: "),
    (f'COOLBITE_VERDICT({CUT};"depth";0.4;"draws";3)', "16 to 65536 draws"),
    ('COOLBITE_CHOICE("colour";"material";"acrylic/cast")', "is not a result of a choice"),
    ('COOLBITE_CHOICE("feed";"material";"acrylic/cast";"tool";"0.8mm";"machine";"bench-24k";'
     '"feature_depth";"20mm")', "no settings are clear, because of reach"),
    # an error stays an error
    (f'COOLBITE("surface_temperature";{CUT};"depth";1/0)', ("error", 532)),
    (f'COOLBITE("surface_temperature";{CUT};"depth";NA())', ("error", 32767)),
    (f'COOLBITE("surface_temperature";{CUT};"depth";Y1)', ("error", 532)),
    (f'COOLBITE("surface_temperature";{CUT};Y2:Y3;Y1:Y2)', ("error", NONE_GIVEN)),
    # what computes with a fault has an error, not a number
    (f'COOLBITE("surface_temperature";{CUT};"depth";-0.4)+1', ("error", 519)),
)


def test_hostile(document):
    sheet = document.Sheets.getByIndex(0)
    sheet.getCellRangeByName("Y1").Formula = "=1/0"
    sheet.getCellRangeByName("Y2").String = "depth"
    sheet.getCellRangeByName("Y3").String = "width"
    for at, (formula, says) in enumerate(HOSTILE):
        cell = sheet.getCellByPosition(0, at)
        cell.Formula = "=" + formula
        found = content(cell)
        if says is None:
            check(f"{formula}: {found}", isinstance(found, float))
        elif isinstance(says, tuple):
            same(formula, found, says)
        else:
            check(f"{formula}: {found}",
                  isinstance(found, str) and found.startswith("Fault: ") and says in found)


def test_units(document):
    """The same cut in millimetres, in inches and as text."""
    sheet = document.Sheets.getByIndex(0)
    same_cut = (f'{CUT};"depth";0.5',
                '"material";"acrylic/cast";"tool";"0.8mm";"machine";"bench-24k";"spindle [rpm]";'
                '12000;"feed [mm/s]";200/60;"depth [um]";500',
                '"material";"acrylic/cast";"tool [mm]";0.8;"machine";"bench-24k";"spindle";'
                '"200 1/s";"feed";"0.2 m/min";"depth";"0.5 mm"',
                '"units";"inch";"material";"acrylic/cast";"tool";0.8/25.4;"machine";"bench-24k";'
                '"spindle";12000;"feed";200/25.4;"depth";0.5/25.4')
    found = []
    for at, words in enumerate(same_cut):
        cell = sheet.getCellByPosition(1, at)
        cell.Formula = f'=COOLBITE("wall_error";{words})'
        found.append(content(cell))
    for at, value in enumerate(found):
        expected = found[0] / 25.4 if at == 3 else found[0]
        check(f"{same_cut[at]}: {value}, not {expected}",
              isinstance(value, float) and abs(value / expected - 1) < 1e-7)


def test_descriptions(context):
    known = context.ServiceManager.createInstanceWithContext(
        "com.sun.star.sheet.FunctionDescriptions", context)
    for name, says in (("COOLBITE", "A result of a cut"), ("COOLBITE_VERDICT", "The verdict"),
                       ("COOLBITE_CHOICE", "A setting to enter")):
        found = {entry.Name: entry.Value for entry in known.getByName(name)}
        check(f"{name}: {found}", found["Description"].startswith(says)
              and all(argument.Description for argument in found["Arguments"]))


def test_csv(desktop, work):
    """The way without the add-in: what coolbite batch writes is read as it is, and not run."""
    file = work / "notes.csv"
    file.write_text("note,material,tool,machine,spindle [rpm],feed [mm/min],depth [mm]\n"
                    "=1+1,acrylic/cast,0.8mm,bench-24k,12000,200,0.4\n"
                    "@SUM(1),acrylic/cast,0.8mm,bench-24k,12000,200,-1\n", encoding="utf-8")
    answer = command("batch", str(file), "--results", "verdict,surface_temperature")
    (work / "judged.csv").write_text(answer, encoding="utf-8")
    document = load(desktop, (work / "judged.csv").as_uri(),
                    FilterName="Text - txt - csv (StarCalc)", FilterOptions="44,34,76,1")
    sheet = document.Sheets.getByIndex(0)
    rows = [[sheet.getCellByPosition(column, row) for column in range(10)] for row in range(3)]
    same("headings", [content(cell) for cell in rows[0][7:]],
         ["verdict", "surface_temperature [degC]", "fault"])
    check("no formula", all(cell.Type.value != "FORMULA" for row in rows for cell in row))
    same("a note as text", content(rows[1][0]), "'=1+1")
    same("a verdict", content(rows[1][7]), "clear")
    same("a number", content(rows[1][8]), float(list(csv.reader(answer.splitlines()))[1][8]))
    check("a fault", "-1 mm" in content(rows[2][9]) and not content(rows[2][8]))
    document.close(True)


def test_thousand(document):
    sheet = document.Sheets.getByIndex(0)
    names = ("surface_temperature", "wall_error", "power_mean", "softening", "chip_load")
    rows = []
    for at in range(200):
        words = CUT.replace("200", str(100 + at)) + ';"depth";0.4'
        rows.append(tuple(f'=COOLBITE("{name}";{words})' for name in names))
    area = sheet.getCellRangeByPosition(30, 0, 34, 199)
    began = time.monotonic()
    area.setFormulaArray(tuple(rows))
    document.calculateAll()
    first, values = time.monotonic() - began, area.getDataArray()
    began = time.monotonic()
    document.calculateAll()
    again = time.monotonic() - began
    check("a thousand numbers", all(isinstance(value, float) for row in values for value in row))
    same("the same numbers", area.getDataArray(), values)
    print(f"1000 cells: {first:.2f} s, computed anew {again:.2f} s")
    check(f"computed anew within 5 s: {again:.2f} s", again < 5)


def main():
    work = pathlib.Path(sys.argv[2]).resolve()
    # a copy: what may not be written is opened with cells that cannot be emptied
    example = work / "example.fods"
    example.write_bytes(pathlib.Path(sys.argv[1]).read_bytes())
    pipe = f"coolbite-{os.getpid()}"
    process = subprocess.Popen(
        ["soffice", *sys.argv[3:], "--headless", "--norestore", "--nologo",
         f"--accept=pipe,name={pipe};urp"], start_new_session=True)
    try:
        context = connect(process, pipe)
        desktop = context.ServiceManager.createInstanceWithContext(
            "com.sun.star.frame.Desktop", context)
        test_descriptions(context)
        document = load(desktop, example.as_uri())
        test_example(document, work)
        test_readme(document, pathlib.Path(sys.argv[1]).resolve().parent / "README.md")
        document.close(True)
        document = load(desktop, "private:factory/scalc")
        test_hostile(document)
        test_units(document)
        test_thousand(document)
        document.close(True)
        test_csv(desktop, work)
        desktop.terminate()
        process.wait(20)
    finally:
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGKILL)
    print(f"{counts[True]} passed, {counts[False]} failed")
    return counts[False] > 0


if __name__ == "__main__":
    sys.exit(main())
