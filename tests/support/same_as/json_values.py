# SPDX-License-Identifier: GPL-3.0-or-later
"""Compares two JSON texts: structure, every number as it was written, every word."""
import json
import re
from outcome import DIFFERENT, IDENTICAL, LISTED, Outcome, different
from prose import compare_prose

NOTES_MOST = 12


class Number(str):
    """A number as it stands in the text."""


class Pairs(list):
    """An object: its keys and values in their order."""


def parse(text):
    """The value of a JSON text; None where it is none."""
    if text.lstrip()[:1] not in ("{", "["):
        return None
    try:
        return json.loads(text, object_pairs_hook=Pairs, parse_float=Number, parse_int=Number,
                          parse_constant=Number)
    except ValueError:
        return None


def brief(value):
    """A value in a few words."""
    if isinstance(value, Pairs):
        return "{%s}" % ", ".join(key for key, _ in value[:4])
    if isinstance(value, list):
        return "[%d]" % len(value)
    text = value if isinstance(value, Number) else json.dumps(value, ensure_ascii=False)
    return text if len(text) <= 70 else text[:67] + "..."


def part_of(at, value):
    """What stands in a path for a list's entry: its name, or else its place."""
    name = dict(value).get("name") if isinstance(value, Pairs) else None
    plain = isinstance(name, str) and not isinstance(name, Number) and name != ""
    return name if plain else str(at)


def names_of(values):
    """The names of a list's objects, where all have one."""
    found = [dict(value).get("name") for value in values if isinstance(value, Pairs)]
    return found if len(found) == len(values) and all(isinstance(n, str) for n in found) else None


class Comparison:
    """One walk over both values."""

    def __init__(self, rules):
        self.rules = rules
        self.outcome = Outcome()
        self.count = 0

    def fault(self, path, note):
        self.count += 1
        self.outcome.level = DIFFERENT
        if self.count <= NOTES_MOST:
            self.outcome.notes.append("%s: %s" % (path or "the whole", note))

    def allow(self, level=LISTED):
        self.outcome.level = max(self.outcome.level, level)

    def walk(self, path, old, new):
        if isinstance(old, Pairs) and isinstance(new, Pairs):
            self.walk_object(path, old, new)
        elif type(old) is not type(new):
            self.fault(path, "%s -> %s" % (brief(old), brief(new)))
        elif isinstance(old, list):
            self.walk_list(path, old, new)
        elif isinstance(old, str) and not isinstance(old, Number):
            self.compare_text(path, old, new)
        elif old != new:
            self.fault(path, "%s -> %s" % (brief(old), brief(new)))

    def below(self, path, key):
        return path + "." + key if path else key

    def renamed(self, path, old):
        """The older object's pairs under this program's keys."""
        result = Pairs()
        for key, value in old:
            new_key = self.rules.new_key(path, key)
            if new_key != key:
                self.allow()
            result.append((new_key, value))
        return result

    def walk_object(self, path, old, new):
        old = self.renamed(path, old)
        old_values, new_values = dict(old), dict(new)
        if len(old_values) < len(old) or len(new_values) < len(new):
            self.fault(path, "a key stands there twice")
            return
        self.note_keys(path, old, new_values, "json-removed", "key %s is gone")
        self.note_keys(path, new, old_values, "json-added", "key %s is new")
        shared = [key for key, _ in old if key in new_values]
        if shared != [key for key, _ in new if key in old_values]:
            if self.rules.any_path("json-order", path or "*"):
                self.allow()
            else:
                self.fault(path, "its keys stand in another order")
        for key in shared:
            self.walk(self.below(path, key), old_values[key], new_values[key])

    def note_keys(self, path, pairs, others, kind, note):
        for key, _ in pairs:
            if key in others:
                continue
            if self.rules.any_path(kind, self.below(path, key)):
                self.allow()
            else:
                self.fault(path, note % key)

    def walk_list(self, path, old, new):
        if len(old) != len(new):
            note = "%d entries -> %d" % (len(old), len(new))
            old_names, new_names = names_of(old), names_of(new)
            if old_names is not None and new_names is not None:
                gone = [name for name in old_names if name not in new_names]
                come = [name for name in new_names if name not in old_names]
                note += "".join(" -" + name for name in gone) + "".join(" +" + n for n in come)
            self.fault(path, note)
            return
        for at, (one, other) in enumerate(zip(old, new)):
            self.walk(self.below(path, part_of(at, other)), one, other)

    def compare_text(self, path, old, new):
        if old == new:
            return
        if self.rules.json_words.get(old) == new or self.rules.everywhere.replace(old) == new:
            self.allow()
            return
        if not self.rules.any_path("json-prose", path):
            self.fault(path, "%s -> %s" % (brief(old), brief(new)))
            return
        outcome = compare_prose(old, new, self.rules, ordered=False)
        if outcome.level == DIFFERENT:
            self.fault(path, "; ".join(outcome.notes))
        else:
            self.allow(outcome.level)


def rename_in_text(text, rules):
    """The older text under this program's keys and words, without parsing; None if that might
    make one key of two."""
    keys = dict((old, new) for old, new in rules.key_pairs if "." not in old)
    if any('"%s":' % new in text for new in keys.values()):
        return None
    if keys:
        pattern = re.compile('"(%s)":' % "|".join(re.escape(key) for key in keys))
        text = pattern.sub(lambda match: '"%s":' % keys[match.group(1)], text)
    return rules.everywhere.replace(text)


def compare_json(old, new, rules):
    """Compares two texts that both should be JSON."""
    if old == new:
        return Outcome(IDENTICAL)
    if rename_in_text(old, rules) == new:
        return Outcome(LISTED)
    old_value, new_value = parse(old), parse(new)
    if old_value is None or new_value is None:
        return different("one of the two is not JSON")
    comparison = Comparison(rules)
    comparison.walk("", old_value, new_value)
    if comparison.count > NOTES_MOST:
        comparison.outcome.notes.append("and %d more" % (comparison.count - NOTES_MOST))
    if comparison.outcome.level == IDENTICAL:
        return Outcome(LISTED, ["only the blanks between the values differ"])
    return comparison.outcome
