# SPDX-License-Identifier: GPL-3.0-or-later
"""Compares sentences: equal, equal after the listed changes, or other words, the same numbers."""
from numbers_in_text import keys, missing, names, tokens
from outcome import DIFFERENT, IDENTICAL, LISTED, REORDERED, SHORTER, WORDS, Outcome

NOTES_MOST = 6
SHOWN_LEAST = 0.7  # of the longer screen's numbers stand on the shorter


def shown(token):
    return "%s (%s)" % (token.key, token.context)


def compare_tokens(old, new, ordered):
    """Compares the numbers of two texts, as a sequence or else as a multiset."""
    old_tokens, new_tokens = tokens(old), tokens(new)
    if keys(old_tokens) == keys(new_tokens):
        return Outcome(WORDS)
    gone, come = missing(old_tokens, new_tokens), missing(new_tokens, old_tokens)
    if not gone and not come:
        return Outcome(REORDERED if ordered else WORDS)
    notes = ["- " + shown(token) for token in gone[:NOTES_MOST]]
    notes += ["+ " + shown(token) for token in come[:NOTES_MOST]]
    more = len(gone) + len(come) - len(notes)
    if more > 0:
        notes.append("and %d more" % more)
    return Outcome(DIFFERENT, notes)


def compare_shown(old, new, rules):
    """Compares screens that show as much as fits: the shorter must hold nothing of its own."""
    old_tokens = tokens(rules.without_counts(old))
    new_tokens = tokens(rules.without_counts(new))
    gone, come = missing(old_tokens, new_tokens), missing(new_tokens, old_tokens)
    shorter, longer = sorted((len(old_tokens), len(new_tokens)))
    if (gone and come) or shorter < SHOWN_LEAST * longer:
        return None
    return Outcome(SHORTER, ["not on both screens: " + " ".join(keys(gone + come))])


def name_notes(old, new):
    """Public names that only one of the texts has: worth a look, no fault by itself."""
    gone, come = names(old) - names(new), names(new) - names(old)
    if not gone and not come:
        return []
    return ["names: " + " ".join(["-" + name for name in sorted(gone)] +
                                 ["+" + name for name in sorted(come)])]


def compare_prose(old, new, rules, ordered=True):
    """Compares two texts as they were printed. ordered: the numbers are to keep their order."""
    if old == new:
        return Outcome(IDENTICAL)
    renamed = rules.text.replace(old)
    if renamed == new:
        return Outcome(LISTED)
    old_line = rules.without_text(rules.without_lines(renamed, "old"), "old")
    new_line = rules.without_text(rules.without_lines(new, "new"), "new")
    if old_line == new_line:
        if " ".join(old.split()) == " ".join(new.split()):
            return Outcome(WORDS, ["only blanks and line breaks differ"])
        return Outcome(LISTED)
    outcome = compare_tokens(old_line, new_line, ordered)
    if outcome.level == DIFFERENT and rules.fitted:
        outcome = compare_shown(old_line, new_line, rules) or outcome
    if outcome.level != DIFFERENT:
        outcome.notes += name_notes(old_line, new_line)
    return outcome
