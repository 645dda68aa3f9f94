#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Packs the add-in into an extension of the office program: python3 pack.py [FILE.oxt]

The same sources give the same bytes. The package coolbite is inside; the library is not.
"""
import pathlib
import re
import sys
import zipfile

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
EXTENSION = ("META-INF/manifest.xml", "description.txt", "description.xml", "functions.components",
             "functions.idl", "functions.py")
SERVICE = "coolbitesheet.Functions"

WHAT = ("what", "A value, limit or input by its name, or verdict, chance, cautions.")
SETTING = ("what", "spindle, feed, depth, width, passes, side_passes, verdict, chance, cautions.")
WORDS = ("words", "Names of inputs and their values in turn, single or as ranges of the same size.")
FUNCTIONS = {
    "COOLBITE": ("value", "A result of a cut, such as surface_temperature: a number, a word, or "
                 "what is wrong.", (WHAT, WORDS)),
    "COOLBITE_VERDICT": ("verdict", "The verdict of a cut: clear, tight, over or unknown, or what "
                         "is wrong.", (WORDS,)),
    "COOLBITE_CHOICE": ("choice", "A setting to enter, chosen for what is given: a number, or why "
                        "there is none.", (SETTING, WORDS)),
}
"""The name of each function in a cell; its method, its description and those of its arguments."""


def version():
    header = (ROOT / "bindings/python/coolbite/_header.py").read_text(encoding="utf-8")
    return re.search(r'^VERSION = "([0-9.]+)"$', header, flags=re.M).group(1)


def node(name, *content):
    return (f'<node oor:name="{name}" oor:op="replace">', *content, "</node>")


def prop(name, text):
    return f'<prop oor:name="{name}"><value xml:lang="en">{text}</value></prop>'


def configuration():
    """The functions as the wizard of the office program shows them."""
    methods = []
    for name, (method, description, arguments) in FUNCTIONS.items():
        parameters = [line for word, says in arguments for line in node(
            word, prop("DisplayName", "name or value" if word == "words" else word),
            prop("Description", says))]
        methods += node(
            method, prop("DisplayName", name), prop("CompatibilityName", name),
            '<prop oor:name="Category"><value>Add-In</value></prop>',
            prop("Description", description), '<node oor:name="Parameters">', *parameters,
            "</node>")
    return "\n".join((
        '<?xml version="1.0" encoding="UTF-8"?>',
        '<oor:component-data xmlns:oor="http://openoffice.org/2001/registry"',
        ' oor:name="CalcAddIns" oor:package="org.openoffice.Office">',
        '<node oor:name="AddInInfo">',
        *node(SERVICE, '<node oor:name="AddInFunctions">', *methods, "</node>"), "</node>",
        "</oor:component-data>", ""))


def members():
    """The path of each file in the extension, and its bytes."""
    for name in EXTENSION:
        text = (HERE / "extension" / name).read_text(encoding="utf-8")
        yield name, text.replace("@VERSION@", version()).encode()
    yield "functions.xcu", configuration().encode()
    yield "COPYING", (ROOT / "COPYING").read_bytes()
    yield "pythonpath/coolbite_cells.py", (HERE / "cells.py").read_bytes()
    for path in sorted((ROOT / "bindings/python/coolbite").glob("*.py")):
        yield f"pythonpath/coolbite/{path.name}", path.read_bytes()


def pack(target):
    with zipfile.ZipFile(target, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, content in members():
            entry = zipfile.ZipInfo(name)  # of 1980: not the time of packing
            entry.compress_type = zipfile.ZIP_DEFLATED
            entry.external_attr = 0o644 << 16
            archive.writestr(entry, content)


if __name__ == "__main__":
    if len(sys.argv) > 2 or sys.argv[1:2] in (["--help"], ["-h"]):
        sys.exit(__doc__)
    pack(sys.argv[1] if len(sys.argv) > 1 else "coolbite.oxt")
