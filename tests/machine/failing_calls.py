#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Lets each system call of a command fail once, in turn, and judges what the command makes of it.

    failing_calls.py PROGRAM FOLDER [--every N] [--only WORD] [--verbose]

Every n-th call of each kind returns an error that the kernel could return (by strace, which makes
the call fail without making it). Correct are: the same result as without the failure; or an exit
status of its own with a message on standard error, and no file but what was there before. Wrong are
a signal, a hang, success with another result, a half-written file, a file left behind, a failure
without a word.

FOLDER holds what the commands read: `tables`, `families`, job.ini, cuts.csv, parts.record.
"""
import argparse
import collections
import os
import re
import shutil
import subprocess
import sys
import tempfile

LONGEST = 60.0  # seconds; a longer run is a hang
STATUSES = {64, 65, 66, 69, 70, 71, 73, 74, 75, 77, 78}  # of sysexits.h, as coolbite(1) lists them

# For each system call the errors that it may return on a machine that fails.
ERRORS = {
    "openat": ["EINTR", "EMFILE", "ENOSPC", "EIO", "EACCES"],
    "read": ["EINTR", "EIO"],
    "pread64": ["EINTR", "EIO"],
    "write": ["EINTR", "ENOSPC", "EIO"],
    "pwrite64": ["EINTR", "ENOSPC"],
    "writev": ["EINTR", "ENOSPC"],
    "newfstatat": ["EIO", "EACCES"],
    "fsync": ["EIO", "EINTR"],
    "fdatasync": ["EIO", "EINTR"],
    "ftruncate": ["EINTR", "EIO"],
    "close": ["EINTR", "EIO"],
    "rename": ["EACCES", "ENOSPC"],
    "renameat": ["EACCES", "ENOSPC"],
    "renameat2": ["EACCES", "ENOSPC"],
    "linkat": ["EMLINK", "ENOSPC"],
    "unlink": ["EIO"],
    "memfd_create": ["EMFILE", "ENOSYS"],
    "getdents64": ["EIO"],
    "pipe2": ["EMFILE"],
    "clone": ["EAGAIN"],
    "clone3": ["EAGAIN"],
    "wait4": ["EINTR"],
    "fcntl": ["EINTR", "EDEADLK"],
    "flock": ["EINTR", "ENOLCK"],
    "lseek": ["EIO"],
    "getrandom": ["EINTR", "ENOSYS"],
}

# answers: what a command says of a table that could not be read is a part of its answer, in which it
# goes on with the rest; other commands must not go on
Command = collections.namedtuple("Command", "name words input writes answers", defaults=(False,))
Result = collections.namedtuple("Result", "status out err files")

SETTINGS = "--material acrylic/cast --tool 3mm --spindle 9000rpm --feed 300mm/min --depth 0.2mm --draws 1"
COMMANDS = [
    Command("cut", f"cut {SETTINGS} --exit-zero".split(), b"", []),
    Command("cut-file", f"cut {SETTINGS} --exit-zero --format json --output cut.json".split(), b"", ["cut.json"]),
    Command("choose", "choose --material acrylic/cast --tool any --feature-depth 1mm --draws 16 --exit-zero".split(), b"", []),
    Command("list", ["list", "materials"], b"", [], True),
    Command("job", "job job.ini --draws 1 --exit-zero --sheet sheet.html --output plan.txt".split(), b"",
            ["sheet.html", "plan.txt"]),
    Command("batch", "batch cuts.csv --material acrylic/cast --jobs 1 --output rows.csv".split(), b"", ["rows.csv"], True),
    Command("measure", ["measure", "parts.record"], b"40.01 mm\n", ["parts.record"]),
    Command("report", "measure parts.record --report report.html --exit-zero".split(), b"", ["report.html"]),
]


def contents(folder):
    """The files below the folder, without the tables and families."""
    found = {}
    for at, folders, names in os.walk(folder):
        folders[:] = [name for name in folders if name not in ("tables", "families")]
        for name in names:
            path = os.path.join(at, name)
            with open(path, "rb") as file:
                found[os.path.relpath(path, folder)] = file.read()
    return found


def run(program, folder, command, wrapper=(), **how):
    """Runs the command in a copy of the folder; wrapper: words before it; how: as of subprocess.run."""
    with tempfile.TemporaryDirectory(prefix="bite-failing-") as work:
        shutil.copytree(folder, work, dirs_exist_ok=True)
        for name in command.writes:
            if not os.path.exists(os.path.join(work, name)):
                with open(os.path.join(work, name), "wb") as file:
                    file.write(b"as it was before\n")
        environment = dict(os.environ, HOME=work, TMPDIR=work, LC_ALL="C", COOLBITE_TABLE_PATH=os.path.join(work, "tables"),
                           COOLBITE_FAMILY_PATH=os.path.join(work, "families"))
        how = {"input": command.input, "stdout": subprocess.PIPE, "stderr": subprocess.PIPE, **how}
        try:
            done = subprocess.run([*wrapper, program, *command.words], cwd=work, env=environment, timeout=LONGEST, check=False, **how)
        except subprocess.TimeoutExpired:
            return Result("hang", b"", b"", {})
        return Result(done.returncode, clean(done.stdout or b"", work), clean(done.stderr or b"", work), contents(work))


def traced(log, *words):
    return ["strace", "-f", "-qq", "-o", log, *words]


def files_before(folder, command):
    before = contents(folder)
    for name in command.writes:
        before.setdefault(name, b"as it was before\n")
    return before


def clean(text, work):
    """The text without what differs from run to run: the folder and moments."""
    text = text.replace(os.fsencode(work), b"FOLDER")
    return re.sub(rb"\d{4}-\d\d-\d\d[T ]\d\d:\d\d(:\d\d)?Z?", b"MOMENT", text)


def count_calls(log):
    """How often each kind of call occurs in the process that makes the most of them."""
    counts = collections.defaultdict(collections.Counter)
    with open(log, encoding="utf-8", errors="replace") as file:
        for line in file:
            found = re.match(r"(\d+) +([a-z0-9_]+)\(", line)
            if found:
                counts[found.group(2)][found.group(1)] += 1
    return {call: max(by.values()) for call, by in counts.items()}


def same_files(one, other):
    """Whether the same files were written; times of records and checksums of their lines differ."""
    if set(one) != set(other):
        return False
    return all(one[name] == other[name] or name.endswith(".record") or clean(one[name], "/none") == clean(other[name], "/none")
               for name in one)


def is_told(result):
    """Whether the result says which table or plugin is missing in it."""
    said = b" ".join((result.out + b" " + b" ".join(result.files.values())).split())
    return b"could not be used, so nothing in it counts" in said or b"The plugin of this family was left out" in said


def fault_of(command, before, whole, result):
    """What is wrong with a result, or None."""
    if result.status == "hang":
        return "it hangs"
    if result.status < 0 or result.status >= 128:
        return f"it ends by a signal, status {result.status}"
    left = set(result.files) - set(whole.files) - set(before)
    if left:
        return f"it leaves {', '.join(sorted(left))} behind"
    if b"Sanitizer" in result.err or b"runtime error" in result.err:
        return "a sanitizer reports it"
    if result.status == whole.status and is_told(result):
        return None
    if result.status == whole.status and command.answers and result.err.strip() and not whole.err.strip():
        return None
    if result.status == whole.status:
        if result.out != whole.out:
            return "it succeeds with another result"
        return None if same_files(result.files, whole.files) else "it succeeds with other files"
    if result.status == 127 and b"shared librar" in result.err:
        return None  # the loader, before the program began
    if result.status not in STATUSES:
        return f"the status is {result.status}"
    if not result.err.strip():
        return "it fails without a word"
    for name in command.writes:
        text = result.files.get(name)
        if text not in (before.get(name), whole.files.get(name)) and not name.endswith(".record"):
            return f"{name} is half-written"
        if name.endswith(".record") and not (text or b"").startswith(before[name]):
            return f"{name} has lost what it had"
    return None


def main():
    parser = argparse.ArgumentParser()
    parser.add_argument("program")
    parser.add_argument("folder")
    parser.add_argument("--every", type=int, default=1)
    parser.add_argument("--only", default="")
    parser.add_argument("--verbose", action="store_true")
    given = parser.parse_args()
    wrong = 0
    runs = 0
    outcomes = collections.Counter()
    log = tempfile.NamedTemporaryFile(prefix="bite-calls-")
    for command in COMMANDS:
        if given.only and given.only != command.name:
            continue
        whole = run(given.program, given.folder, command, traced(log.name, "-e", "trace=" + ",".join("?" + call for call in ERRORS)))
        if whole.status != 0:
            sys.exit(f"failing_calls.py: {command.name} fails by itself: {whole.status} {whole.err.decode()}")
        before = files_before(given.folder, command)
        turn = 0
        for call, count in sorted(count_calls(log.name).items()):
            for error in ERRORS[call]:
                for at in range(1, count + 1):
                    turn += 1
                    if turn % given.every:
                        continue
                    result = run(given.program, given.folder, command,
                                 traced(log.name, "-e", f"trace={call}", "-e", f"inject={call}:error={error}:when={at}"))
                    runs += 1
                    fault = fault_of(command, before, whole, result)
                    outcomes["as without it" if result.status == 0 and not fault else
                             "refused" if not fault else "wrong"] += 1
                    if fault:
                        wrong += 1
                        print(f"FAILED: {command.name}: {error} of {call} {at}: {fault}")
                        if given.verbose:
                            print("   ", result.err.decode(errors="replace")[:300])
    print(f"{runs} failing calls: " + ", ".join(f"{number} {what}" for what, number in sorted(outcomes.items())))
    return 1 if wrong else 0


if __name__ == "__main__":
    sys.exit(main())
