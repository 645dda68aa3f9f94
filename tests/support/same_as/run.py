# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs one command of the list with one of the two programs, in a folder of its own."""
import collections
import os
import shutil
import subprocess

SECONDS_MOST = 300
FOLDER_OF_COMMANDS = "run"

# Files that are better made than kept: what no editor shows and no diff likes.
MADE_FILES = {
    "empty.ini": b"",
    "nul.ini": b"[format]\nkind = job\nversion = 1\n\0\n",
    "mark.ini": b"\xef\xbb\xbf[format]\nkind = job\nversion = 1\n",
    "escape.ini": b"[format]\nkind = job\nversion = 1\n[job]\ntitle = red \x1b[31m\n",
    "latin.ini": b"[format]\nkind = job\nversion = 1\n[job]\ntitle = fen\xeatre\n",
    "long-line.ini": b"[format]\nkind = job\nversion = 1\n[job]\ntitle = " + b"x" * 5000 + b"\n",
    "huge.ini": b"# " + b"x" * 98 + b"\n" + (b"# " + b"y" * 97 + b"\n") * 20000,
    "noise.ini": bytes((at * 73 + at // 7) % 256 for at in range(3000)),
}

Ran = collections.namedtuple("Ran", "status output errors as_csv")
Run = collections.namedtuple("Run", "steps files")


class Side:
    """One of the two programs, with its own tables, families and jobs."""

    def __init__(self, name, program, root, hidden, files):
        self.name = name
        self.program = program
        self.root = root
        self.hidden = hidden
        self.files = files

    def plain(self, data):
        """Output as text, without the paths that only this side has."""
        text = data.decode("utf-8", "surrogateescape")
        for path, word in self.hidden:
            text = text.replace(path, word)
        return text


def environment(side, folder, variables):
    """What the program sees: nothing of the user's own settings."""
    kept = dict((name, value) for name, value in os.environ.items()
                if not name.startswith(("LC_", "LANG", "XDG_", "COOLBITE_", "MAKE", "MFLAGS"))
                and name not in ("COLUMNS", "LINES", "NO_COLOR", "TERM"))
    kept.update({
        "COOLBITE_FAMILY_PATH": os.path.join(side.root, "families"),
        "COOLBITE_TABLE_PATH": os.path.join(side.root, "tables"),
        "HOME": os.path.join(folder, "home"),
        "LC_ALL": "C",
        "TERM": "dumb",
        "TZ": "UTC",
    })
    kept.update((name, expanded(side, folder, value)) for name, value in variables.items())
    return kept


def expanded(side, folder, word):
    for name, path in (("here", folder), ("tables", os.path.join(side.root, "tables")),
                       ("families", os.path.join(side.root, "families"))):
        word = word.replace("{%s}" % name, path)
    return word


def copy_input(source, target, words):
    """Copies a file or a folder; words are replaced in the files."""
    if os.path.isdir(source):
        os.mkdir(target)
        for name in sorted(os.listdir(source)):
            copy_input(os.path.join(source, name), os.path.join(target, name), words)
        return
    with open(source, "rb") as file:
        data = file.read()
    if words is not None and words.pattern is not None:
        data = words.replace(data.decode("utf-8", "surrogateescape")).encode(
            "utf-8", "surrogateescape")
    with open(target, "wb") as file:
        file.write(data)


def fill(side, folder, command, words):
    """Puts the files into the folder that the command names."""
    os.makedirs(os.path.join(folder, "home"))
    for name, path in side.files.items():
        if name in command.text:
            copy_input(path, os.path.join(folder, name), words)
    for name, data in MADE_FILES.items():
        if name in command.text:
            with open(os.path.join(folder, name), "wb") as file:
                file.write(data)


def snapshot(folder):
    """The contents of all regular files below a folder, and where its links lead."""
    found = {}
    for parent, _, names in os.walk(folder):
        for name in names:
            path = os.path.join(parent, name)
            if os.path.islink(path):
                data = b"link to " + os.readlink(path).encode()
            else:
                with open(path, "rb") as file:
                    data = file.read()
            found[os.path.relpath(path, folder)] = data
    return found


def written(side, before, after):
    """What is new, changed or gone."""
    names = [name for name in after if before.get(name) != after[name]]
    files = dict((name, side.plain(after[name])) for name in names)
    files.update((name, "(removed)") for name in before if name not in after)
    return files


def run_step(side, folder, step, replace):
    """One call of the program."""
    arguments = [replace(expanded(side, folder, word)) for word in step.arguments]
    try:
        done = subprocess.run(
            [side.program] + arguments, cwd=folder, env=environment(side, folder, step.variables),
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE,
            timeout=SECONDS_MOST, check=False)
    except subprocess.TimeoutExpired:
        return Ran("none after %d s" % SECONDS_MOST, "", "", False)
    as_csv = "csv" in step.arguments
    return Ran(done.returncode, side.plain(done.stdout), side.plain(done.stderr), as_csv)


def run_command(side, command, rules):
    """All steps of a command in a fresh folder. The older program has its own words."""
    older = side.name == "old"
    folder = os.path.join(side.root, FOLDER_OF_COMMANDS, "%04d" % command.line)
    os.makedirs(folder)
    fill(side, folder, command, rules.files if older else None)
    before = snapshot(folder)
    replace = rules.arguments.replace if older else lambda word: word
    steps = [run_step(side, folder, step, replace) for step in command.steps]
    files = written(side, before, snapshot(folder))
    shutil.rmtree(folder, ignore_errors=True)
    return Run(steps, files)
