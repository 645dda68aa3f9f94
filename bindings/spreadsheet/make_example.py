#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes example.fods: cuts in cast acrylic, computed in their cells.

    python3 make_example.py            writes it anew
    python3 make_example.py --check    exit status 1 if it is not what this file says

It holds formulas without results, which are computed when it is opened.
"""
import pathlib
import sys
from xml.sax.saxutils import escape, quoteattr

from pack import FUNCTIONS, SERVICE

TARGET = pathlib.Path(__file__).resolve().parent / "example.fods"

CAUTION = ("Caution: chips are sharp and fly, and dust harms: wear eye protection and use a "
           "vacuum. The machine's manual, the safety data sheet and local rules come first.")
NOTES = (
    "Change what is shaded; the rest computes. #NAME? means that the add-in is not installed.",
    "A name may have its unit in brackets; a cell may have its own, such as 8in/min. "
    "- is the usual value (of the width: a full slot).",
    "What is wrong with a cut stands in its cell and begins with Fault. SUM and MAX skip text: "
    "count first, as below the table.")

COMMON = (("material", "acrylic/cast"), ("machine", "bench-24k"), ("coolant", "air"),
          ("flutes", 2))
CUTS_HEADING = ("tool", "spindle [rpm]", "feed [mm/min]", "depth [mm]", "width [mm]")
CUTS = (("0.8mm", 12000, 200, 0.4, "-"), ("0.8mm", 24000, 100, 0.4, "-"),
        ("1/16in", 16000, "30in/min", 0.5, "-"), ("2mm", 18000, 900, 1, 0.5),
        ("3mm", 18000, 1200, 1.5, "-"), ("6mm", 20000, 120, 6, "-"))
RESULTS = ("verdict", "chance", "worst_limit", "surface_temperature [degC]", "wall_error [mm]")
CHOICES_HEADING = ("tool", "feature_depth [mm]")
CHOICES = (("0.8mm", 2), ("2mm", 4), ("3mm", 6))
CHOSEN = ("spindle [rpm]", "feed [mm/min]", "depth [mm]", "passes", "chance")

STYLES = """
<style:style style:name="Default" style:family="table-cell"/>
<style:style style:name="good" style:family="table-cell" style:parent-style-name="Default">
<style:table-cell-properties fo:background-color="#d5ecd4"/></style:style>
<style:style style:name="near" style:family="table-cell" style:parent-style-name="Default">
<style:table-cell-properties fo:background-color="#fdf0c0"/></style:style>
<style:style style:name="bad" style:family="table-cell" style:parent-style-name="Default">
<style:table-cell-properties fo:background-color="#f6c7c1"/></style:style>
"""
VERDICTS = (("clear", "good"), ("tight", "near"), ("over", "bad"))


def automatic_styles():
    maps = "".join(
        f'<style:map style:condition="cell-content()=&quot;{word}&quot;" '
        f'style:apply-style-name="{style}" style:base-cell-address="Cuts.A1"/>\n'
        for word, style in VERDICTS)
    return f"""
<number:number-style style:name="plain"><number:number number:decimal-places="3"
 number:min-integer-digits="1"/></number:number-style>
<number:percentage-style style:name="percent"><number:number number:decimal-places="1"
 number:min-integer-digits="1"/><number:text> %</number:text></number:percentage-style>
<style:style style:name="wide" style:family="table-column">
<style:table-column-properties style:column-width="42mm"/></style:style>
<style:style style:name="title" style:family="table-cell" style:parent-style-name="Default">
<style:text-properties fo:font-size="14pt" fo:font-weight="bold"/></style:style>
<style:style style:name="heading" style:family="table-cell" style:parent-style-name="Default">
<style:text-properties fo:font-weight="bold"/></style:style>
<style:style style:name="input" style:family="table-cell" style:parent-style-name="Default">
<style:table-cell-properties fo:background-color="#e3ecf7"/></style:style>
<style:style style:name="number" style:family="table-cell" style:parent-style-name="Default"
 style:data-style-name="plain"/>
<style:style style:name="share" style:family="table-cell" style:parent-style-name="Default"
 style:data-style-name="percent"/>
<style:style style:name="judged" style:family="table-cell" style:parent-style-name="Default">
{maps}</style:style>
"""


def cell(content, style="Default"):
    """A formula, a number or text."""
    named = f' table:style-name="{style}"'
    if isinstance(content, (int, float)):
        return f'<table:table-cell{named} office:value-type="float" office:value="{content}"/>'
    if content.startswith("="):
        for name, (method, _, _) in FUNCTIONS.items():
            content = content.replace(f"{name}(", f"{SERVICE}.{method}(".upper())
        return f"<table:table-cell{named} table:formula={quoteattr('of:' + content)}/>"
    if not content:
        return "<table:table-cell/>"
    return (f'<table:table-cell{named} office:value-type="string"><text:p>{escape(content)}'
            "</text:p></table:table-cell>")


def row(*cells):
    return "<table:table-row>\n" + "\n".join(cells) + "\n</table:table-row>"


def style_of(result):
    name = result.split()[0]
    shown = {"verdict": "judged", "chance": "share", "surface_temperature": "number",
             "wall_error": "number"}
    return shown.get(name, "Default")


def function(result):
    return "COOLBITE_VERDICT(" if result == "verdict" else "COOLBITE("


def column(index):
    return "ABCDEFGHIJ"[index]


def blocks(names, heading, inputs, results, call):
    """A line of names, then a row for each cut: inputs, and a formula for each result."""
    first = len(names) + 1  # rows so far
    last = column(len(heading) - 1)
    common = f"[.$A${COMMON_ROW}:.$A${COMMON_END}];[.$B${COMMON_ROW}:.$B${COMMON_END}]"
    yield row(*(cell(name, "heading") for name in (*heading, *results)))
    for at, cut in enumerate(inputs, first + 1):
        given = f"{common};[.$A${first}:.${last}${first}];[.$A{at}:.${last}{at}]"
        computed = []
        for index, result in enumerate(results, len(heading)):
            what = "" if result == "verdict" else f"[.{column(index)}${first}];"
            computed.append(cell(f"={call(result)}{what}{given})", style_of(result)))
        yield row(*(cell(value, "input") for value in cut), *computed)


COMMON_ROW = 3 + len(NOTES) + 2
COMMON_END = COMMON_ROW + len(COMMON) - 1


def rows():
    made = [row(cell("Cuts in cast acrylic", "title")), row(cell(CAUTION, "heading")),
            row(cell(""))]
    made += [row(cell(note)) for note in NOTES]
    made += [row(cell(""))]
    made += [row(cell(name, "heading"), cell(value, "input")) for name, value in COMMON]
    made += [row(cell(""))]
    made += [row(cell("Given settings: will the cut hold?", "heading"))]
    first = len(made) + 2
    made += blocks(made, CUTS_HEADING, CUTS, RESULTS, function)
    at = column(len(CUTS_HEADING) + RESULTS.index("surface_temperature [degC]"))
    temperatures = f"[.{at}{first}:.{at}{len(made)}]"
    made += [row(cell("hottest surface [degC]", "heading"),
                 cell(f"=IF(COUNT({temperatures})=ROWS({temperatures});MAX({temperatures});"
                      '"Fault: a cut has no temperature")', "number"))]
    ranges = (f"[.$A${COMMON_ROW}:.$A${COMMON_END}];[.$B${COMMON_ROW}:.$B${COMMON_END}];"
              f"[.$A${first - 1}:.$E${first - 1}];[.$A${first}:.$E${first}]")
    made += [row(cell("cautions", "heading"), cell(f'=COOLBITE("cautions";{ranges})'))]
    made += [row(cell("")), row(cell("Chosen settings: what do I enter?", "heading"))]
    made += blocks(made, CHOICES_HEADING, CHOICES, CHOSEN, lambda _: "COOLBITE_CHOICE(")
    return "\n".join(made)


def document():
    spaces = {"office": "office", "table": "table", "text": "text", "style": "style",
              "number": "datastyle", "fo": "xsl-fo-compatible"}
    names = "\n ".join(f'xmlns:{prefix}="urn:oasis:names:tc:opendocument:xmlns:{name}:1.0"'
                       for prefix, name in spaces.items())
    return f"""<?xml version="1.0" encoding="UTF-8"?>
<!-- SPDX-License-Identifier: GPL-3.0-or-later -->
<office:document {names}
 xmlns:of="urn:oasis:names:tc:opendocument:xmlns:of:1.2" office:version="1.2"
 office:mimetype="application/vnd.oasis.opendocument.spreadsheet">
<office:styles>{STYLES}</office:styles>
<office:automatic-styles>{automatic_styles()}</office:automatic-styles>
<office:body><office:spreadsheet>
<table:table table:name="Cuts">
<table:table-column table:style-name="wide" table:number-columns-repeated="10"/>
{rows()}
</table:table>
</office:spreadsheet></office:body>
</office:document>
"""


if __name__ == "__main__":
    if sys.argv[1:] == ["--check"]:
        sys.exit(TARGET.read_text(encoding="utf-8") != document())
    if sys.argv[1:]:
        sys.exit(__doc__)
    TARGET.write_text(document(), encoding="utf-8")
