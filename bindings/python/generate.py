#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Writes coolbite/_header.py from the public header and the option table of the command.

    python3 generate.py            writes it anew
    python3 generate.py --check    exit status 1 if it is not what the header says

Nothing in coolbite/_header.py is written by hand: declarations are those of
include/coolbite/coolbite.h without comments, words are those of bindings/cli/option_table.c.
"""
import pathlib
import re
import sys

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
TARGET = HERE / "coolbite" / "_header.py"
MARKS = ("BITE_API", "BITE_CHECKED")


def without_comments(text):
    return re.sub(r"/\*.*?\*/", " ", text, flags=re.S)


def declarations(header):
    """The declarations and the whole-number constants of the header, as cffi reads them."""
    text = without_comments(header).replace("\\\n", " ")
    constants = []
    for name, value in re.findall(r"^#define (BITE_\w+)[ \t]+(\S.*)$", text, flags=re.M):
        value = {"UINT32_MAX": "0xffffffff"}.get(value.strip(), value.strip())
        if re.fullmatch(r"\d+|0x[0-9a-f]+", value):
            constants.append(f"#define {name} {value}")
    text = re.sub(r'#ifdef __cplusplus\n.*?#endif', "", text, flags=re.S)
    text = re.sub(r"^#.*$", "", text, flags=re.M)
    # what the header defines in itself is over functions that are declared
    text = re.sub(r"^(BITE_CHECKED )?static inline [^{]*\{.*?^\}", "", text, flags=re.M | re.S)
    for mark in MARKS:
        text = re.sub(rf"\b{mark}\b", "", text)
    return "\n".join(constants) + "\n" + one_a_line(text)


def one_a_line(text):
    """Declarations on lines of at most 98 characters: layout of the header does not count."""
    lines = []
    for statement in re.findall(r"[^;{}]*[;{}]", re.sub(r"\s+", " ", text)):
        line = ""
        for word in statement.split():
            if line and len(line) + 1 + len(word) > 96:
                lines.append(line)
                line = "   "
            line = f"{line} {word}" if line else word
        lines.append(line)
    return "\n".join(lines) + "\n"


def version(header):
    return re.search(r'#define BITE_VERSION_TEXT "([^"]+)"', header).group(1)


def soname_number(configure):
    """Of the libtool triple current:revision:age, what Linux puts behind .so."""
    triple = re.search(r"BITE_LIBTOOL_VERSION\], \[(\d+):(\d+):(\d+)\]", configure)
    return int(triple.group(1)) - int(triple.group(3))


def words(table):
    """Words of options: of inputs whose name is another one, and of records."""
    inputs, records = {}, {}
    for word, kind, name, collection in re.findall(
            r'\{"([\w-]+)", [^,]+, OPTION_(INPUT|ITEM|TOOL), (?:"(\w+)"|NULL), (\w+),', table):
        word = word.replace("-", "_")
        if kind == "INPUT" and word != name:
            inputs[word] = name
        elif kind != "INPUT":
            records[word] = collection
    return inputs, records


def dictionary(name, comment, entries):
    rows = "".join(f'    "{key}": "{entry}",\n' for key, entry in entries.items())
    return f"# {comment}\n{name} = {{\n{rows}}}\n"


def module():
    header = (ROOT / "include/coolbite/coolbite.h").read_text(encoding="utf-8")
    table = (ROOT / "bindings/cli/option_table.c").read_text(encoding="utf-8")
    configure = (ROOT / "configure.ac").read_text(encoding="utf-8")
    inputs, records = words(table)
    return (
        "# SPDX-License-Identifier: GPL-3.0-or-later\n"
        "# Made by generate.py from include/coolbite/coolbite.h: do not edit.\n"
        f'VERSION = "{version(header)}"\n'
        f"SONAME_NUMBER = {soname_number(configure)}\n"
        + dictionary("INPUT_WORDS", "Words of the command for inputs, where they differ.", inputs)
        + dictionary("RECORD_WORDS", "Words of the command for records, and their collections.",
                     records)
        + f'DECLARATIONS = """\n{declarations(header)}"""\n')


def main(arguments):
    text = module()
    if arguments == ["--check"]:
        if TARGET.read_text(encoding="utf-8") == text:
            return 0
        print("coolbite/_header.py is not what the header says; run: "
              "python3 bindings/python/generate.py", file=sys.stderr)
        return 1
    if arguments:
        print(__doc__, file=sys.stderr)
        return 64
    TARGET.write_text(text, encoding="utf-8")
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
