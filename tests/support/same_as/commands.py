# SPDX-License-Identifier: GPL-3.0-or-later
"""Reads the list of commands.

A line is one command: its steps stand between ";;" and share one folder. A step is an exit status
(where it is not a verdict's 0, 1 or 2), variables of the environment, and the program's arguments:

    64 cut --speed 12
    LC_ALL=C.UTF-8 COLUMNS=60 cut --material 6061 --tool 3mm ...
    job cover-lens.ini --took 90min ;; list times

{here} is the folder that the command runs in, {tables} and {families} are the program's own. What
several commands share has a name: after "define SLOT --material ..." they write {SLOT}. A line that
ends with a backslash goes on in the next.
"""
import re
import shlex
from lines import joined_lines

VARIABLE = re.compile(r"([A-Z_]+)=(.*)\Z", re.DOTALL)
VERDICTS = frozenset([0, 1, 2])


class CommandError(Exception):
    """A line of the list that cannot be read."""


class Step:
    """One call of the program."""

    def __init__(self, statuses, variables, arguments):
        self.statuses = statuses
        self.variables = variables
        self.arguments = arguments


class Command:
    """One line of the list."""

    def __init__(self, text, line, steps):
        self.text = text
        self.line = line
        self.steps = steps


def read_step(words, line):
    statuses = VERDICTS
    if words and words[0].isdigit():
        statuses = frozenset([int(words[0])])
        words = words[1:]
    variables = {}
    while words and VARIABLE.match(words[0]):
        name, value = VARIABLE.match(words[0]).groups()
        variables[name] = value
        words = words[1:]
    if not words and statuses == VERDICTS:
        raise CommandError("line %d: a step without arguments" % line)
    return Step(statuses, variables, words)


def read_command(text, line):
    try:
        words = shlex.split(text)
    except ValueError as error:
        raise CommandError("line %d: %s" % (line, error)) from error
    steps, step = [], []
    for word in words + [";;"]:
        if word == ";;":
            steps.append(read_step(step, line))
            step = []
        else:
            step.append(word)
    return Command(text, line, steps)


def read_commands(text):
    """All commands of the list; none may stand there twice."""
    commands, defined, seen = [], {}, {}
    for number, line in joined_lines(text):
        for name, words in defined.items():
            line = line.replace("{%s}" % name, words)
        define = re.match(r"define ([A-Z_]+) (.*)\Z", line)
        if define:
            defined[define.group(1)] = define.group(2)
            continue
        if re.search(r"{[A-Z_]+}", line):
            raise CommandError("line %d: names what is not defined before it" % number)
        if line in seen:
            raise CommandError("line %d: stands already on line %d" % (number, seen[line]))
        seen[line] = number
        commands.append(read_command(line, number))
    return commands
