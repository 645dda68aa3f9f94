# SPDX-License-Identifier: GPL-3.0-or-later
"""How two outputs compare, from the best to the worst."""

IDENTICAL, LISTED, WORDS, REORDERED, SHORTER, CHANGED, DIFFERENT = range(7)
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


def different(*notes):
    return Outcome(DIFFERENT, notes)
