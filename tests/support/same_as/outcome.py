# SPDX-License-Identifier: GPL-3.0-or-later
"""How two outputs compare, from the best to the worst."""

IDENTICAL, LISTED, WORDS, REORDERED, SHORTER, CHANGED, DIFFERENT = range(7)
SHOWN_BEFORE, SHOWN_BEHIND = 30, 50
NAMES = (
    "identical",
    "identical after listed changes",
    "same numbers, other words",
    "same numbers in another order, other words",
    "same numbers as far as both screens show them",
    "changed on purpose",
    "DIFFERENT",
)


class Outcome:
    """The class of a comparison, and what was seen."""

    def __init__(self, level=IDENTICAL, notes=()):
        self.level = level
        self.notes = list(notes)

    def add(self, other, where=""):
        """Takes another outcome in: the worse class holds."""
        self.level = max(self.level, other.level)
        self.notes.extend(where + note for note in other.notes)
        return self


def change(old, new):
    """Two long texts as a note: what stands about the first place where they differ."""
    at = 0
    while at < min(len(old), len(new)) and old[at] == new[at]:
        at += 1
    start = max(0, at - SHOWN_BEFORE)
    ends = [" ".join(text[start:at + SHOWN_BEHIND].split()) for text in (old, new)]
    return "%s%s -> %s" % ("..." if start > 0 else "", ends[0], ends[1])


def different(*notes):
    return Outcome(DIFFERENT, notes)
