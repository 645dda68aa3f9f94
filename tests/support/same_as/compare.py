# SPDX-License-Identifier: GPL-3.0-or-later
"""Compares what two programs did with one command: exit status, both streams, files written."""
import csv
import io
from json_values import compare_json
from markup import compare_html, compare_svg
from outcome import CHANGED, DIFFERENT, IDENTICAL, LISTED, Outcome, change, different
from prose import compare_prose

NOTES_MOST = 6


def kind_of(text, as_csv):
    """json, svg, html, csv or text: by what the text is."""
    start = text.lstrip()[:15].lower()
    if as_csv and text:
        return "csv"
    if start.startswith(("<svg", "<?xml")):
        return "svg"
    if start.startswith(("<!doctype html", "<html")):
        return "html"
    return "json" if start.startswith(("{", "[")) else "text"


def rename_cells(text, rules):
    """A CSV text under this program's names."""
    out = io.StringIO()
    writer = csv.writer(out, lineterminator="\n")
    for row in csv.reader(io.StringIO(text)):
        writer.writerow([rules.json_words.get(cell, cell) for cell in row])
    return out.getvalue()


def compare_csv(old, new, rules):
    """Cell for cell: names may be listed as renamed, nothing else may differ."""
    if old == new:
        return Outcome(IDENTICAL)
    listed = rules.everywhere.replace(old)
    if listed == new:
        return Outcome(LISTED)
    if rules.json_words:
        listed = rename_cells(listed, rules)
        if listed == new:
            return Outcome(LISTED)
    notes = ["line %d: %s" % (at, change(one, other))
             for at, (one, other) in enumerate(zip(listed.split("\n"), new.split("\n")), 1)
             if one != other]
    if listed.count("\n") != new.count("\n"):
        notes.insert(0, "%d lines -> %d" % (listed.count("\n"), new.count("\n")))
    more = ["and %d more" % (len(notes) - NOTES_MOST)] if len(notes) > NOTES_MOST else []
    return different(*(notes[:NOTES_MOST] + more))


COMPARE = {
    "csv": compare_csv,
    "html": compare_html,
    "json": compare_json,
    "svg": compare_svg,
    "text": compare_prose,
}


def compare_stream(old, new, rules, as_csv=False):
    """Compares two texts by what they are."""
    if old == new:
        return Outcome(IDENTICAL)
    kind = kind_of(old, as_csv)
    if kind != kind_of(new, as_csv):
        return different("%s -> %s" % (kind, kind_of(new, as_csv)))
    return COMPARE[kind](old, new, rules)


def compare_step(old, new, rules):
    """Compares one run of each program."""
    outcome = Outcome()
    if old.status != new.status:
        outcome.add(different("exit status %s -> %s" % (old.status, new.status)))
    outcome.add(compare_stream(old.output, new.output, rules, old.as_csv), "stdout: ")
    return outcome.add(compare_stream(old.errors, new.errors, rules), "stderr: ")


def compare_files(old, new, rules):
    """Compares the files that the programs wrote, by their names."""
    outcome = Outcome()
    old = dict((rules.everywhere.replace(name), text) for name, text in old.items())
    for name in sorted(set(old) | set(new)):
        if name not in new:
            outcome.add(different("file %s is not written" % name))
        elif name not in old:
            outcome.add(different("file %s is written" % name))
        else:
            compared = compare_stream(old[name], new[name], rules, name.endswith(".csv"))
            outcome.add(compared, "file %s: " % name)
    return outcome


def compare_runs(old, new, rules):
    """Compares all that a command did. Each run has its steps and its files."""
    outcome = Outcome()
    for at, (one, other) in enumerate(zip(old.steps, new.steps), 1):
        where = "step %d: " % at if len(new.steps) > 1 else ""
        outcome.add(compare_step(one, other, rules), where)
    outcome.add(compare_files(old.files, new.files, rules))
    if outcome.level == DIFFERENT and rules.changed:
        wanted = rules.changed[0]
        if new.steps[-1].status == wanted.arguments[1]:
            return Outcome(CHANGED, [wanted.reason])
        outcome.add(different("its change is wanted, but with exit status %d, not %s"
                              % (wanted.arguments[1], new.steps[-1].status)))
    return outcome
