# SPDX-License-Identifier: GPL-3.0-or-later
"""Compares SVG and HTML: what is drawn byte for byte, what is written as prose."""
import html
import re
from numbers_in_text import keys, tokens
from outcome import DIFFERENT, IDENTICAL, LISTED, WORDS, Outcome, different
from prose import compare_prose, compare_tokens

PIECE = re.compile(r"(<style\b.*?</style>|<[^>]*>)", re.DOTALL)
DRAWING = re.compile(r"<svg\b.*?</svg>", re.DOTALL)
NOTES_MOST = 6


def split(text):
    """The tags, and the texts around them: one more than there are tags."""
    pieces = PIECE.split(text)
    return pieces[1::2], [html.unescape(piece) for piece in pieces[0::2]]


def short(tag):
    return tag if len(tag) <= 90 else tag[:87] + "..."


def tag_notes(old, new):
    notes = ["%s -> %s" % (short(a), short(b)) for a, b in zip(old, new) if a != b][:NOTES_MOST]
    if len(old) != len(new):
        notes.append("%d tags -> %d" % (len(old), len(new)))
    return notes


def compare_texts(old, new, rules):
    """The texts between the same tags, one by one, and where that fails as a whole."""
    outcome = Outcome()
    for one, other in zip(old, new):
        outcome.add(compare_prose(one, other, rules))
    if outcome.level != DIFFERENT:
        return outcome
    whole = compare_prose(" ".join(old), " ".join(new), rules)
    return whole


def compare_svg(old, new, rules):
    """Geometry and attributes byte for byte; texts as prose."""
    if old == new:
        return Outcome(IDENTICAL)
    listed = rules.everywhere.replace(rules.without_lines(old, "old"))
    new = rules.without_lines(new, "new")
    if listed == new:
        return Outcome(LISTED)
    old_tags, old_texts = split(listed)
    new_tags, new_texts = split(new)
    if old_tags != new_tags:
        return different(*tag_notes(old_tags, new_tags))
    return compare_texts(old_texts, new_texts, rules).add(Outcome(LISTED))


def compare_page(old, new, rules):
    """A page without its drawings."""
    if old == new:
        return Outcome(IDENTICAL)
    listed = rules.everywhere.replace(rules.without_lines(old, "old"))
    new = rules.without_lines(new, "new")
    if listed == new:
        return Outcome(LISTED)
    old_tags, old_texts = split(listed)
    new_tags, new_texts = split(new)
    if old_tags == new_tags:
        return compare_texts(old_texts, new_texts, rules).add(Outcome(LISTED))
    if sorted(keys(tokens(" ".join(old_tags)))) != sorted(keys(tokens(" ".join(new_tags)))):
        return different(*tag_notes(old_tags, new_tags))
    lines = [rules.without_text(rules.text.replace(" ".join(texts)) if side == "old"
                                else " ".join(texts), side)
             for side, texts in (("old", old_texts), ("new", new_texts))]
    return compare_tokens(lines[0], lines[1], True).add(Outcome(WORDS, ["other tags"]))


def compare_html(old, new, rules):
    """Each drawing as SVG, the page around them as text between tags."""
    if old == new:
        return Outcome(IDENTICAL)
    old_drawings, new_drawings = DRAWING.findall(old), DRAWING.findall(new)
    if len(old_drawings) != len(new_drawings):
        return different("%d drawings -> %d" % (len(old_drawings), len(new_drawings)))
    outcome = Outcome()
    for at, (one, other) in enumerate(zip(old_drawings, new_drawings), 1):
        outcome.add(compare_svg(one, other, rules), "drawing %d: " % at)
    page = compare_page(DRAWING.sub("<svg/>", old), DRAWING.sub("<svg/>", new), rules)
    return outcome.add(page)
