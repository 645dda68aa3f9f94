# SPDX-License-Identifier: GPL-3.0-or-later
"""Shows that this tree gives the answers of an older commit: make same-as REV=<commit>."""
import argparse
import collections
import concurrent.futures
import difflib
import os
import re
import shutil
import sys
import tempfile
import time

sys.dont_write_bytecode = True
from build import BuildError, build_commit, full_hash, make_sides
from commands import CommandError, read_commands
from compare import compare_runs
from outcome import CHANGED, DIFFERENT, IDENTICAL, NAMES, WORDS, different
from rules import RuleError, Rules
from run import run_command

HERE = os.path.dirname(os.path.abspath(__file__))
COMMANDS = os.path.join(HERE, "..", "same_as_commands.txt")
CHANGES = os.path.join(HERE, "..", "same_as_changes.txt")
FEWEST_COMMANDS = 250
NOTES_MOST = 12
DIFF_MOST = 60
EXIT_DIFFERENT, EXIT_USAGE, EXIT_NOT_BUILT = 1, 64, 70

Result = collections.namedtuple("Result", "command outcome statuses seconds diff")
Job = collections.namedtuple("Job", "old new rules diff")
shared = {}


def progress(text):
    print(text, flush=True)


def read(path):
    with open(path, encoding="utf-8") as file:
        return file.read()


def surprises(command, new):
    """Steps of this program that do not end as the list of commands says."""
    return ["step %d ends %s; the list of commands has %s"
            % (at, ran.status, " or ".join(str(status) for status in sorted(step.statuses)))
            for at, (step, ran) in enumerate(zip(command.steps, new.steps), 1)
            if ran.status not in step.statuses]


def texts_of(run):
    """All that a run said, under a name each."""
    texts = {}
    for at, ran in enumerate(run.steps, 1):
        texts["%d stdout" % at] = ran.output
        texts["%d stderr" % at] = ran.errors
    texts.update(run.files)
    return texts


def unified(old, new):
    """Both runs as a diff, for a reader."""
    lines = []
    one, other = texts_of(old), texts_of(new)
    for name in sorted(set(one) | set(other)):
        lines += list(difflib.unified_diff(
            one.get(name, "").splitlines(), other.get(name, "").splitlines(),
            "old " + name, "new " + name, n=0, lineterm=""))[:DIFF_MOST]
    return lines


def judge(command):
    """Runs a command with both programs and compares."""
    job = shared["job"]
    start = time.monotonic()
    rules = job.rules.of_command(command.text)
    old = run_command(job.old, command, rules)
    new = run_command(job.new, command, rules)
    outcome = compare_runs(old, new, rules)
    if outcome.level != CHANGED:
        for note in surprises(command, new):
            outcome.add(different(note))
    diff = unified(old, new) if job.diff and outcome.level > IDENTICAL else []
    statuses = [ran.status for ran in new.steps]
    return Result(command, outcome, statuses, time.monotonic() - start, diff)


def start_worker(job):
    shared["job"] = job


def judge_all(job, commands, workers, show):
    """All commands, several at once; each result is shown in the order of the list."""
    results = []
    with concurrent.futures.ProcessPoolExecutor(workers, initializer=start_worker,
                                                initargs=(job,)) as pool:
        for result in pool.map(judge, commands):
            show(result)
            results.append(result)
    return results


def printable(text):
    return text.encode("utf-8", "backslashreplace").decode("utf-8")


def describe(result, most):
    """A result's lines: its class, its command, and what was seen."""
    notes = result.outcome.notes
    lines = ["%s: %s" % (NAMES[result.outcome.level], result.command.text)]
    lines += ["    " + note for note in notes[:most]]
    if len(notes) > most:
        lines.append("    and %d more" % (len(notes) - most))
    lines += ["    " + line for line in result.diff]
    return [printable(line) for line in lines]


def summary(results, seconds):
    """Counts by class and by exit status."""
    levels = collections.Counter(result.outcome.level for result in results)
    statuses = collections.Counter(status for result in results for status in result.statuses)
    lines = ["%5d %s" % (levels[level], NAMES[level]) for level in range(len(NAMES))]
    lines.append("%d commands, %d calls of each program in %.0f s; exit statuses: %s" % (
        len(results), sum(statuses.values()), seconds,
        ", ".join("%s %d times" % (status, count)
                  for status, count in sorted(statuses.items(), key=str))))
    return lines


def options(words):
    parser = argparse.ArgumentParser(prog="same-as", description=__doc__)
    parser.add_argument("--rev", default="", help="the older commit")
    parser.add_argument("--source", help="this tree")
    parser.add_argument("--build", help="this tree's build folder")
    parser.add_argument("--only", metavar="REGEX", help="only the commands that match")
    parser.add_argument("--verbose", action="store_true", help="a line for every command")
    parser.add_argument("--diff", action="store_true", help="a diff of all that is not identical")
    parser.add_argument("--jobs", type=int, default=os.cpu_count() or 1, metavar="COUNT",
                        help="commands at once")
    parser.add_argument("--report", metavar="FILE", help="the class of each command")
    parser.add_argument("--self-test", action="store_true",
                        help="whether this tool notices what it should")
    given = parser.parse_args(words)
    if not given.self_test and not (given.rev and given.source and given.build):
        parser.error("--rev, --source and --build are needed: make same-as REV=<commit>")
    return given


def chosen_commands(given):
    commands = read_commands(read(COMMANDS))
    if len(commands) < FEWEST_COMMANDS:
        raise CommandError("%d commands; at least %d are needed" % (len(commands), FEWEST_COMMANDS))
    if given.only:
        commands = [command for command in commands if re.search(given.only, command.text)]
        if not commands:
            raise CommandError("no command matches %s" % given.only)
    return commands


def compare_all(given, work):
    """Builds, runs and compares; the exit status of this tool."""
    source, build = os.path.realpath(given.source), os.path.realpath(given.build)
    commands, rules = chosen_commands(given), Rules.read(read(CHANGES))
    commit = full_hash(source, given.rev)
    home = build_commit(source, build, commit, progress)
    old, new = make_sides(source, build, home, os.path.join(HERE, "files"), work)
    start, lines = time.monotonic(), []

    def show(result):
        lines.extend(describe(result, sys.maxsize))
        noted = result.outcome.level > WORDS or result.diff
        if noted or given.verbose:
            progress("\n".join(describe(result, NOTES_MOST)))

    results = judge_all(Job(old, new, rules, given.diff), commands, given.jobs, show)
    totals = summary(results, time.monotonic() - start)
    with open(given.report or os.path.join(build, "same-as", "report.txt"), "w",
              encoding="utf-8") as file:
        file.write("\n".join(["against " + commit] + totals + [""] + lines) + "\n")
    progress("\n".join(["this tree against " + commit] + totals))
    return EXIT_DIFFERENT if any(r.outcome.level == DIFFERENT for r in results) else 0


def main(words):
    given = options(words)
    if given.self_test:
        from self_test import run_tests
        return run_tests()
    os.umask(0o022)
    work = os.path.realpath(tempfile.mkdtemp(prefix="same-as-"))
    try:
        return compare_all(given, work)
    except BuildError as error:
        sys.stderr.write("same-as: %s\n" % error)
        return EXIT_NOT_BUILT
    except (CommandError, RuleError) as error:
        sys.stderr.write("same-as: %s\n" % error)
        return EXIT_USAGE
    finally:
        shutil.rmtree(work, ignore_errors=True)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
