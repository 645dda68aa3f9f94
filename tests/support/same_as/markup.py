# SPDX-License-Identifier: GPL-3.0-or-later
"""Compares SVG and HTML: what is drawn byte for byte, what is written as prose."""
import html
import re
from numbers_in_text import keys, tokens
from outcome import DIFFERENT, LISTED, WORDS, Outcome, change, different
from prose import compare_prose

PIECE = re.compile(r"(<style\b.*?</style>|<[^>]*>)", re.DOTALL)
LABEL = re.compile(r"<text\b[^>]*>([^<]*)</text>")
DRAWING = re.compile(r"<svg\b.*?</svg>", re.DOTALL)
NOTES_MOST = 6


def split(text):
    """The tags, and the texts around them: one more than there are tags."""
    pieces = PIECE.split(text)
    return pieces[1::2], [html.unescape(piece) for piece in pieces[0::2]]


def words_of(text):
    """All that is written, without the tags."""
    return " ".join(split(text)[1])


def tags_differ(old, new):
    notes = [change(a, b) for a, b in zip(old, new) if a != b][:NOTES_MOST]
    if len(old) != len(new):
        notes.append("%d tags -> %d" % (len(old), len(new)))
    return different(*notes)


def compare_texts(old, new, rules):
    """The texts between the same tags, one by one, and where that fails as a whole."""
    outcome = Outcome()
    for one, other in zip(old, new):
        outcome.add(compare_prose(one, other, rules))
    if outcome.level != DIFFERENT:
        return outcome
    return compare_prose(" ".join(old), " ".join(new), rules)


def compare_pieces(old, new, rules, tags_changed):
    """Tags byte for byte and texts as prose; where tags differ, tags_changed says what that is."""
    old, new = rules.without_lines(old, "old"), rules.without_lines(new, "new")
    listed = rules.everywhere.replace(old)
    if listed == new:
        return Outcome(LISTED)
    old_tags, old_texts = split(listed)
    new_tags, new_texts = split(new)
    if old_tags == new_tags:
        return compare_texts(old_texts, new_texts, rules).add(Outcome(LISTED))
    return tags_changed(old, listed, new, rules)


def marks_of(text):
    """The labels that are a number alone, such as the marks on an axis, with their places."""
    return [match.group() for match in LABEL.finditer(text)
            if re.match(r"[-\d.]+\Z", match.group(1))]


def compare_labels(old, listed, new, rules):
    """Drawings whose labels moved, as longer words need more space. Everything else must stay, and
    so must the marks of the axes; and labels of the same words have no cause to move."""
    for old_part, new_part in ((split(LABEL.sub("", listed))[0], split(LABEL.sub("", new))[0]),
                               (marks_of(listed), marks_of(new))):
        if old_part != new_part:
            return tags_differ(old_part, new_part)
    old_labels = "".join(match.group() for match in LABEL.finditer(old))
    new_labels = "".join(match.group() for match in LABEL.finditer(new))
    if words_of(old_labels).split() == words_of(new_labels).split():
        return tags_differ(split(old_labels)[0], split(new_labels)[0])
    outcome = compare_texts(split(LABEL.sub("", listed))[1], split(LABEL.sub("", new))[1], rules)
    outcome.add(compare_prose(words_of(old_labels), words_of(new_labels), rules))
    return outcome.add(Outcome(WORDS, ["labels with other words moved"]))


def compare_other_tags(_, listed, new, rules):
    """Pages of other tags: the same numbers in the tags, and in the text."""
    old_tags, new_tags = split(listed)[0], split(new)[0]
    if sorted(keys(tokens(" ".join(old_tags)))) != sorted(keys(tokens(" ".join(new_tags)))):
        return tags_differ(old_tags, new_tags)
    outcome = compare_prose(words_of(listed), words_of(new), rules)
    return outcome.add(Outcome(WORDS, ["other tags"]))


def compare_svg(old, new, rules):
    """A drawing."""
    return Outcome() if old == new else compare_pieces(old, new, rules, compare_labels)


def compare_html(old, new, rules):
    """Each drawing of a page as SVG, the page around them as text between tags."""
    old_drawings, new_drawings = DRAWING.findall(old), DRAWING.findall(new)
    if len(old_drawings) != len(new_drawings):
        return different("%d drawings -> %d" % (len(old_drawings), len(new_drawings)))
    outcome = Outcome()
    for at, (one, other) in enumerate(zip(old_drawings, new_drawings), 1):
        outcome.add(compare_svg(one, other, rules), "drawing %d: " % at)
    old_page, new_page = DRAWING.sub("<svg/>", old), DRAWING.sub("<svg/>", new)
    if old_page == new_page:
        return outcome
    return outcome.add(compare_pieces(old_page, new_page, rules, compare_other_tags))
