# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads the lines of both lists."""


def joined_lines(text):
    """The lines that say something, with their numbers; a backslash joins a line to the next."""
    held, start = "", 0
    for number, line in enumerate(text.splitlines(), 1):
        start = start if held else number
        line = held + line.strip()
        held = line[:-1].rstrip() + " " if line.endswith("\\") else ""
        if not held and line and not line.startswith("#"):
            yield start, line
