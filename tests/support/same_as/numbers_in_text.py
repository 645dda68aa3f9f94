# SPDX-License-Identifier: GPL-3.0-or-later
"""The numbers of a sentence, with their units.

Two wordings of the same result must carry the same tokens. A token is a number with its unit, a
word that contains digits (6061-T6), a verdict, or a picture drawn in characters (a bar, a row of
the operating window).
"""
import collections
import re

Token = collections.namedtuple("Token", "key context")

UNITS = frozenset("""
mm um µm μm nm cm m in inch thou mil tenth tenths uin ft deg ° rad rpm 1/min Hz hz kHz 1/s rev/s
mm/min mm/s m/min m/s in/min ipm in/s ft/min sfm fpm mm/tooth um/tooth in/tooth ipt thou/tooth
mil/tooth degC degF °C °F K N kN mN lbf Pa kPa MPa GPa N/mm2 psi ksi W kW hp Nm Nmm mNm in-lbf
lbf-in ozf-in s min h % m2 cm2 mm2 in2 m/s2 mm/s2 in/s2 N/um N/mm N/m kN/m lbf/in J/m2 kJ/m2
kg/m3 g/cm3 lb/in3 J/kg/K J/g/K kJ/kg/K W/m/K 1/K um/m/K W/m2/K mm3/s mm3/min cm3/min in3/min
m3/s J/mm3 J/m3 1/deg 1/rad
""".split())
# After a number "in" is the inch, unless one of these shows that it is the preposition.
AFTER_PREPOSITION = frozenset("a an the this that these those it its one each all any both".split())
VERDICTS = frozenset(["clear", "tight", "over"])
SHOUTED = frozenset(["CLEAR", "TIGHT", "OVER", "DANGER"])

NUMBER = re.compile(r"[±+~]?(-?(?:\d+(?:\.\d+)?|\.\d+)(?:[eE][-+]?\d+)?)(.*)\Z", re.DOTALL)
BAR = re.compile(r"[█▒·|#=.:+*-]{8,}\Z")
MAP_ROW = re.compile(r"\|\S{20,}\Z")
OPENING = "([{<\"'`«“‘,;"
CLOSING = ")]}>\"'`»”’.,;:!?*"
CONTEXT_WORDS = 4


def bare(chunk):
    """A chunk without the punctuation around it."""
    return chunk.lstrip(OPENING).rstrip(CLOSING)


def unit_after(chunks, at):
    """The unit that stands after the number at that place, or an empty text."""
    if at + 1 >= len(chunks) or chunks[at][-1] in ",.;:)":
        return ""
    word = bare(chunks[at + 1])
    if word not in UNITS:
        return ""
    follower = bare(chunks[at + 2]) if at + 2 < len(chunks) else ""
    return "" if word == "in" and follower in AFTER_PREPOSITION else word


def number_token(chunks, at, word):
    """The token of a chunk that holds digits: its number and unit, or the chunk as it stands."""
    match = NUMBER.match(word)
    if match is None:
        return word
    number, tail = match.groups()
    if tail == "":
        unit = unit_after(chunks, at)
        return number + " " + unit if unit else number
    if tail in UNITS:
        return number + " " + tail
    # "2-flute" and "2 flutes" are the same number; "6061-T6" is a name.
    return word if re.search(r"\d", tail) else number


def verdict_before_share(chunks, at):
    """Whether a verdict stands before a share, as in "tight 23 %"."""
    if bare(chunks[at]) not in VERDICTS or at + 1 >= len(chunks):
        return False
    return re.match(r"[\d.]+%?\Z", bare(chunks[at + 1])) is not None and (
        bare(chunks[at + 1]).endswith("%") or unit_after(chunks, at + 1) == "%")


def tokens(text):
    """The tokens of a text, in their order."""
    chunks = text.split()
    found = []
    for at, chunk in enumerate(chunks):
        if BAR.match(chunk) or MAP_ROW.match(chunk):
            key = chunk
        elif re.search(r"\d", chunk) and bare(chunk) not in UNITS:
            key = number_token(chunks, at, bare(chunk))
        elif bare(chunk) in SHOUTED or verdict_before_share(chunks, at):
            key = bare(chunk)
        else:
            continue
        near = chunks[max(0, at - CONTEXT_WORDS):at + CONTEXT_WORDS + 1]
        found.append(Token(key, " ".join(near)))
    return found


def keys(found):
    return [token.key for token in found]


def missing(some, others):
    """The tokens of some that are more often there than among others."""
    left = collections.Counter(keys(others))
    result = []
    for token in some:
        if left[token.key] > 0:
            left[token.key] -= 1
        else:
            result.append(token)
    return result


def names(text):
    """Public names, such as tool_break: words with an underscore."""
    return collections.Counter(re.findall(r"\b[a-z]+(?:_[a-z0-9]+)+\b", text))
