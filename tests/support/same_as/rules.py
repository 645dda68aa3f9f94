# SPDX-License-Identifier: GPL-3.0-or-later
"""The list of wanted changes: what may differ between the older program and this one, and why."""
import fnmatch
import re
import shlex
from lines import joined_lines


class RuleError(Exception):
    """A line of the list that cannot be read."""


# kind: fewest arguments, most arguments, whether a reason is needed
KINDS = {
    "json-key": (2, 2, False),
    "json-word": (2, 2, False),
    "json-prose": (1, None, False),
    "json-added": (1, None, True),
    "json-removed": (1, None, True),
    "json-order": (1, None, True),
    "word": (2, 2, False),
    "text-word": (2, 2, False),
    "drop-line": (2, 2, True),
    "drop-text": (2, 2, True),
    "fits": (1, None, True),
    "command": (2, 2, True),
    "argument": (2, 2, False),
    "file-word": (2, 2, False),
}
SIDES = {"old": ("old",), "new": ("new",), "both": ("old", "new")}


class Rule:
    """One line: its kind, its arguments, the commands that it is for, and its reason."""

    def __init__(self, kind, arguments, scope, reason, line):
        self.kind = kind
        self.arguments = arguments
        self.scope = scope
        self.reason = reason
        self.line = line


def compiled(pattern, line):
    try:
        return re.compile(pattern)
    except re.error as error:
        raise RuleError("line %d: %s: %s" % (line, pattern, error)) from error


def read_rule(text, line):
    """KIND ARGUMENT ... [for REGEX] [-- reason]"""
    try:
        words = shlex.split(text, posix=True)
    except ValueError as error:
        raise RuleError("line %d: %s" % (line, error)) from error
    reason = ""
    if "--" in words:
        at = words.index("--")
        words, reason = words[:at], " ".join(words[at + 1:])
    scope = None
    if len(words) > 2 and words[-2] == "for":
        scope = compiled(words[-1], line)
        words = words[:-2]
    kind, arguments = words[0], words[1:]
    if kind not in KINDS:
        raise RuleError("line %d: no rule is called %s; there are %s"
                        % (line, kind, ", ".join(sorted(KINDS))))
    fewest, most, needs_reason = KINDS[kind]
    if len(arguments) < fewest or (most is not None and len(arguments) > most):
        raise RuleError("line %d: %s takes %s arguments" % (line, kind, fewest))
    if needs_reason and not reason:
        raise RuleError("line %d: %s needs a reason: -- why" % (line, kind))
    return Rule(kind, compiled_arguments(kind, arguments, line), scope, reason, line)


def compiled_arguments(kind, arguments, line):
    """The arguments with their regular expressions made ready."""
    if kind in ("drop-line", "drop-text"):
        if arguments[0] not in SIDES:
            raise RuleError("line %d: the side is old, new or both" % line)
        return [arguments[0], compiled(arguments[1], line)]
    if kind == "fits":
        return [compiled(pattern, line) for pattern in arguments]
    if kind == "command":
        if not re.match(r"\d+\Z", arguments[1]):
            raise RuleError("line %d: command REGEX STATUS" % line)
        return [compiled(arguments[0], line), int(arguments[1])]
    return arguments


def word_pattern(word):
    """A whole word or phrase; its blanks may be any white space."""
    body = r"\s+".join(re.escape(part) for part in word.split()) or re.escape(word)
    before = r"(?<![\w-])" if re.match(r"\w", word) else ""
    after = r"(?![\w-])" if re.search(r"\w\Z", word) else ""
    return before + body + after


class Words:
    """Words and what takes their place, replaced in one pass, the longest first."""

    def __init__(self, pairs):
        self.pairs = dict((" ".join(old.split()), new) for old, new in pairs)
        longest_first = sorted(self.pairs, key=len, reverse=True)
        pattern = "|".join("(?:%s)" % word_pattern(word) for word in longest_first)
        self.pattern = re.compile(pattern) if pattern else None

    def replace(self, text):
        if self.pattern is None:
            return text
        return self.pattern.sub(lambda match: self.pairs[" ".join(match.group().split())], text)


def path_matches(path, pattern):
    """A pattern with dots is for the end of a path; one without is for its last name."""
    if "." in pattern:
        return fnmatch.fnmatchcase(path, pattern) or fnmatch.fnmatchcase(path, "*." + pattern)
    named = [part for part in path.split(".") if not part.isdigit()]
    return bool(named) and fnmatch.fnmatchcase(named[-1], pattern)


class CommandRules:
    """The rules that hold for one command."""

    def __init__(self, rules, command):
        self.rules = [rule for rule in rules if rule.scope is None or rule.scope.search(command)]
        everywhere = self.pairs("word")
        self.everywhere = Words(everywhere)
        self.text = Words(everywhere + self.pairs("text-word"))
        # The lists of commands and files have this program's words; the older one needs its own.
        self.arguments = Words([(new, old) for old, new in self.pairs("argument")])
        self.files = Words([(new, old) for old, new in self.pairs("file-word")])
        self.json_words = dict(self.pairs("json-word"))
        self.key_pairs = self.pairs("json-key")
        self.changed = self.naming("command", command)
        self.fitted = self.naming("fits", command)
        self.matched = {}

    def of_kind(self, kind):
        return [rule for rule in self.rules if rule.kind == kind]

    def naming(self, kind, command):
        """The rules of that kind whose first argument matches the command."""
        return [rule for rule in self.of_kind(kind) if rule.arguments[0].search(command)]

    def pairs(self, kind):
        return [tuple(rule.arguments) for rule in self.of_kind(kind)]

    def any_path(self, kind, path):
        """Whether a rule of that kind names this path of a JSON answer."""
        known = self.matched.get((kind, path))
        if known is None:
            known = any(path_matches(path, pattern)
                        for rule in self.of_kind(kind) for pattern in rule.arguments)
            self.matched[(kind, path)] = known
        return known

    def new_key(self, parent, key):
        """The key in this program of a key of the older one."""
        for old, new in self.key_pairs:
            if old == key or ("." in old and path_matches(parent + "." + key, old)):
                return new
        return self.everywhere.replace(key)

    def dropped(self, kind, side):
        return [rule.arguments[1] for rule in self.of_kind(kind)
                if side in SIDES[rule.arguments[0]]]

    def without_lines(self, text, side):
        patterns = self.dropped("drop-line", side)
        if not patterns:
            return text
        return "".join(line for line in text.splitlines(keepends=True)
                       if not any(pattern.search(line) for pattern in patterns))

    def without_text(self, text, side):
        """The text in one line, without what the list drops."""
        text = " ".join(text.split())
        for pattern in self.dropped("drop-text", side):
            text = pattern.sub(" ", text)
        return " ".join(text.split())


    def without_counts(self, text):
        """The text without its counts of what the screen has no place for."""
        for rule in self.fitted:
            for pattern in rule.arguments[1:]:
                text = pattern.sub(" ", text)
        return text


class Rules:
    """The whole list."""

    def __init__(self, rules):
        self.rules = rules

    @classmethod
    def read(cls, text):
        return cls([read_rule(line, number) for number, line in joined_lines(text)])

    def of_command(self, command):
        return CommandRules(self.rules, command)
