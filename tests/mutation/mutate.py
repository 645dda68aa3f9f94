#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Changes the sources in small ways and looks whether a test fails: README.md beside this file."""
import argparse
import collections
import concurrent.futures
import itertools
import json
import math
import os
import queue
import re
import shlex
import shutil
import sys
import tempfile
import threading
import time

from mutant_build import Build, bytes_of, digest, run_limited, text_of
from source_mutants import mutants_of

HERE = os.path.dirname(os.path.abspath(__file__))

# Where tests of a folder are, nearest first. What a test costs and kills decides in the end.
NEAR = {
    "physics": "physics cut reference uncertainty inspection job request statistics",
    "cut": "cut reference physics uncertainty request api plugins field job search library",
    "job": "job report/job cli inspection api",
    "search": "search report/window api job request cli",
}
EXPERIENCE = os.path.join(HERE, "experience.csv")
SCRIPTS = ("tests/cli/test_shop.sh", "tests/cli/test_times.sh")
# A function of a header: its name and its text.
FUNCTION = re.compile(r"(?m)^[A-Za-z_].*?\b(\w+)\([^;]*?\)\n\{\n(?:.*\n)*?\}")


def words_of(names):
    return re.compile(r"\b(?:%s)\b" % "|".join(map(re.escape, sorted(names))))


class Results:
    """What is known from earlier runs, in a file that is written after every mutant."""

    def __init__(self, path):
        self.path, self.lock = path, threading.Lock()
        self.data = {"mutants": {}, "tests": {}, "sound": {}}
        for row in text_of(EXPERIENCE).splitlines()[1:] if os.path.exists(EXPERIENCE) else ():
            folder, name, runs, kills, cpu = row.split(",")
            known = {"runs": int(runs), "kills": int(kills), "cpu": float(cpu)}
            self.data["tests"][folder + " " + name] = known
        if os.path.exists(path):
            own = json.loads(text_of(path))
            own["tests"] = {**self.data["tests"], **own["tests"]}
            if any(isinstance(cpu, bool) for cpu in own["sound"].values()):
                own["sound"], own["mutants"] = {}, {}  # judged before tests had times of their own
            self.data = own

    def write(self):
        with open(self.path + ".new", "w") as file:
            json.dump(self.data, file, indent=0)
        os.replace(self.path + ".new", self.path)

    def write_experience(self):
        with open(EXPERIENCE, "w") as file:
            file.write("folder,test,runs,kills,seconds\n")
            for key, known in sorted(self.data["tests"].items()):
                row = (key.replace(" ", ","), known["runs"], known["kills"], known["cpu"] or 0.0)
                if known["runs"] > 0:
                    file.write("%s,%d,%d,%.2f\n" % row)

    def test(self, folder, name):
        new = {"runs": 0, "kills": 0, "cpu": None}
        return self.data["tests"].setdefault(folder + " " + name, new)

    def cpu(self, folder, name):
        known = self.test(folder, name)["cpu"]
        return known if known is not None else 0.7

    def count(self, folder, name, killed, cpu):
        with self.lock:
            known = self.test(folder, name)
            known["runs"] += 1
            known["kills"] += killed
            if not killed or known["cpu"] is None:
                known["cpu"] = cpu if known["cpu"] is None else 0.5 * (known["cpu"] + cpu)


def answers_of(path):
    """The answered survivors: {(file, before, after): reason}."""
    answers, file, before, after = {}, None, None, None
    for line in text_of(path).splitlines() if os.path.exists(path) else ():
        if line.startswith("- "):
            before = line[2:].strip()
        elif line.startswith("+ "):
            after = line[2:].strip()
        elif line.startswith("  ") and after is not None:
            key = (file, before, after)
            answers[key] = (answers.get(key, "") + " " + line.strip()).strip()
        elif line and not line.startswith("#"):
            file, before, after = line.strip(), None, None
    return answers


class Session:
    def __init__(self, options):
        self.options = options
        self.build = Build(options.source, options.build, os.path.join(options.build, "mutation"))
        self.results = Results(self.build.path("results.json"))
        self.answers = answers_of(os.path.join(HERE, "survivors.txt"))
        self.texts = {}
        for root in ("core", "tests", "plugins", "bindings/cli", "include"):
            for folder, _, names in os.walk(os.path.join(self.build.source, root)):
                for name in names:
                    if name.endswith((".c", ".h", ".sh", ".py", ".ini")):
                        path = os.path.relpath(os.path.join(folder, name), self.build.source)
                        self.texts[path] = text_of(os.path.join(folder, name))
        tree = (p + t for p, t in sorted(self.texts.items()) if "tests/mutation/" not in p)
        self.state = digest(*tree)
        self.library = digest(bytes_of(os.path.join(self.build.library, "libmutation.so")).hex())
        self.tests = list(self.build.tests) + list(SCRIPTS)
        self.tests += sorted(p for p in self.texts if re.match(r"tests/job/tasks/[^/]+\.sh$", p))
        self.sound_lock = threading.Lock()

    # ---- mutants ----

    def choose(self, folder, count):
        """The first ones in an order by seed and text, which an edit elsewhere does not change."""
        found = []
        for path, text in self.texts.items():
            if path.startswith("core/%s/" % folder) and path.endswith((".c", ".h")):
                if self.options.only in path:
                    found += mutants_of(path, text)
        found.sort(key=lambda mutant: mutant.order(self.options.seed))
        if self.options.match:
            return [mutant for mutant in found if self.options.match in mutant.before]
        return found[:count]

    def users_of(self, mutant):
        """The sources of the library whose code a change of a header's function can change, and the
        names by which code reaches it."""
        if not mutant.path.endswith(".h"):
            return [mutant.path], set()
        names = {mutant.function}
        if not mutant.function:
            names = set(re.findall(r"\bbite_\w+(?=\()", self.texts[mutant.path]))
        while True:
            pattern = words_of(names)
            more = set()
            for path, text in self.texts.items():
                if path.endswith(".h") and pattern.search(text):
                    found = FUNCTION.finditer(text)
                    more |= {match.group(1) for match in found if pattern.search(match.group())}
            if more <= names:
                break
            names |= more
        copies = self.build.copies
        return [p for p in copies if p in self.texts and pattern.search(self.texts[p])], names

    # ---- tests ----

    def test_text(self, test):
        if not test.endswith(".sh"):
            return "".join(self.texts.get(p, "") for p in self.sources_of(test))
        return self.texts[test] + self.texts["tests/job/test_tasks.sh"]

    def sources_of(self, test):
        objects = self.build.tests[test]
        return [re.sub(r"(^|/)(?:[^/-]*-)?([^/-]+)\.o$", r"\1\2.c", name) for name in objects]

    def command_of(self, test):
        if not test.endswith(".sh"):
            return [self.build.program_of(test)]
        if "/tasks/" not in test:
            return ["sh", os.path.join(self.build.source, test)]
        script = os.path.join(self.build.source, "tests/job/test_tasks.sh")
        return ["env", "BITE_TEST_TASK=" + os.path.basename(test)[:-3], "sh", script]

    def order_of(self, folder, mutant):
        """What kills soonest by experience first; without any, a test that uses the header, or has
        words of the file's name in its own."""
        words = set(re.split(r"[_./]", os.path.basename(mutant.path)))
        words -= {"c", "h", "plan", "block", "limits"}
        header = os.path.splitext(mutant.path)[0] + ".h"
        ranked = []
        for test in self.tests:
            starts = enumerate(NEAR.get(folder, "").split())
            near = next((k for k, start in starts if test[6:].startswith(start + "/")), None)
            known = self.results.test(folder, test)
            cpu = self.results.cpu(folder, test)
            if near is None or cpu > self.options.slowest:
                continue
            alike = len(words & set(re.split(r"[_./-]", os.path.basename(test))))
            alike += header in self.test_text(test)
            chance = (known["kills"] + (0.3 if near == 0 else 0.03)) / (known["runs"] + 1.0)
            chance += 0.5 * min(alike, 2)
            ranked.append((-chance / (cpu + 0.05), test))
        return [test for _, test in sorted(ranked)]

    def usual_cpu(self, test, folder):
        """The seconds of a test without a mutation; None if it fails, for then it kills nothing."""
        key = test + " " + digest(self.library, self.test_text(test))
        with self.sound_lock:
            if key not in self.results.data["sound"]:
                status, cpu = self.run_test(self.command_of(test), self.build.library, 60, 900)
                self.results.count(folder, test, False, cpu)
                if status != 0:
                    print("not used: %s fails without a mutation (%s)" % (test, status), flush=True)
                    return None
                self.results.data["sound"][key] = cpu
            return self.results.data["sound"][key]

    def run_test(self, command, library, cpu, wall):
        with tempfile.TemporaryDirectory(prefix="mutation-") as work:
            where = self.build.environment(library, work)
            return run_limited(command, work, where, cpu, wall)

    def fails(self, test, folder, command, library):
        """Whether a test fails with a mutated library, and what it cost."""
        known = self.results.test(folder, test)["cpu"]
        limit = self.options.slowest + 1.0 if known is None else 4.0 * known + 2.0
        status, cpu = self.run_test(command, library, limit, 20.0 + 20.0 * limit)
        if status in (0, 77) or cpu < limit:
            return status not in (0, 77), cpu
        # Out of time. Either the mutant does not end, or the test takes longer than it did.
        usual = self.usual_cpu(test, folder)
        if usual is None or 4.0 * usual <= cpu:
            return usual is not None, cpu
        self.results.test(folder, test)["cpu"] = usual
        if usual > self.options.slowest:
            return False, usual
        limit = 4.0 * usual + 2.0
        status, again = self.run_test(command, library, limit, 20.0 + 20.0 * limit)
        return status not in (0, 77), cpu + again

    # ---- one mutant ----

    def judge(self, folder, mutant, worker):
        """A result: invalid, equivalent, killed or survived."""
        overlay = os.path.join(worker, "overlay")
        shutil.rmtree(overlay, ignore_errors=True)
        sources, names = self.users_of(mutant)
        for path in {mutant.path, *sources}:
            os.makedirs(os.path.dirname(os.path.join(overlay, path)), exist_ok=True)
            with open(os.path.join(overlay, path), "w") as file:
                file.write(self.texts[path])
        for i, source in enumerate(sources):
            if not self.build.compile(overlay, source, os.path.join(worker, "before%d.o" % i)):
                raise SystemExit("mutation: %s does not compile as it is" % source)
        with open(os.path.join(overlay, mutant.path), "w") as file:
            file.write(mutant.applied(self.texts[mutant.path]))
        changed = {}
        for i, source in enumerate(sources):
            out = os.path.join(worker, "after%d.o" % i)
            if not self.build.compile(overlay, source, out):
                return {"result": "invalid"}
            if bytes_of(out) != bytes_of(os.path.join(worker, "before%d.o" % i)):
                changed[source] = out
        if not changed and not names:
            return {"result": "equivalent"}
        library = self.build.library
        if changed:
            library = os.path.join(worker, "library")
            if self.build.link(library, changed).returncode != 0:
                return {"result": "invalid"}
        return self.run_tests(folder, mutant, worker, library, names, bool(changed))

    def run_tests(self, folder, mutant, worker, library, names, changed):
        pattern = words_of(names) if names else None
        spent, rebuilt = 0.0, 0
        for test in self.order_of(folder, mutant):
            commands = [self.command_of(test)] if changed else []
            if pattern and not test.endswith(".sh") and pattern.search(self.test_text(test)):
                again = self.rebuild(test, pattern, worker)
                if again is None:
                    return {"result": "invalid"}
                rebuilt += 1
                commands.append([again])
            for command in commands:
                if spent > self.options.seconds:
                    return {"result": "survived", "spent": spent}
                killed, cpu = self.fails(test, folder, command, library)
                killed = killed and self.usual_cpu(test, folder) is not None
                spent += cpu
                self.results.count(folder, test, killed, cpu)
                if killed:
                    text = digest(self.test_text(test))
                    return {"result": "killed", "test": test, "test_text": text}
        return {"result": "survived" if changed or rebuilt else "equivalent", "spent": spent}

    def rebuild(self, test, pattern, worker):
        """The test with the mutated header in its own code."""
        overlay, objects = os.path.join(worker, "overlay"), []
        flags = shlex.split(self.build.made["test_flags"]) + ["-w"]
        for made, source in zip(self.build.tests[test], self.sources_of(test)):
            if not pattern.search(self.texts.get(source, "")):
                objects.append(made)
                continue
            os.makedirs(os.path.dirname(os.path.join(overlay, source)), exist_ok=True)
            with open(os.path.join(overlay, source), "w") as file:
                file.write(self.texts[source])
            objects.append(os.path.join(worker, "test%d.o" % len(objects)))
            if not self.build.compile(overlay, source, objects[-1], flags):
                return None
        out = os.path.join(worker, "test")
        self.build.link_program(out, objects, force=True)
        return out

    def known(self, mutant):
        """An earlier result, if what it rests on is unchanged; a survivor that is answered is not
        tried again."""
        answered = (mutant.path, mutant.before, mutant.after) in self.answers
        if answered and not self.options.recheck:
            return {"result": "survived"}
        old = self.results.data["mutants"].get(digest(mutant.identity()))
        if old is None or self.options.fresh or old["file"] != digest(self.texts[mutant.path]):
            return None
        if old["result"] == "killed":
            test = old["test"]
            known = test in self.tests and old["test_text"] == digest(self.test_text(test))
            return old if known else None
        return old if old["result"] != "survived" or self.is_same_try(old) else None

    def is_same_try(self, old):
        return old["state"] == self.state and old["limit"] >= self.options.seconds

    def run(self):
        share = self.options.count // len(self.options.folders)
        folders = self.options.folders
        columns = [[(folder, one) for one in self.choose(folder, share)] for folder in folders]
        chosen = [pair for row in itertools.zip_longest(*columns) for pair in row if pair]
        print("%d mutants, seed %s" % (len(chosen), self.options.seed), flush=True)
        workers = queue.Queue()
        for _ in range(self.options.workers):
            workers.put(tempfile.mkdtemp(prefix="worker-", dir=self.build.folder))
        done = []

        def one(pair):
            folder, mutant = pair
            result = self.known(mutant)
            if result is None:
                worker = workers.get()
                try:
                    result = self.judge(folder, mutant, worker)
                finally:
                    workers.put(worker)
                result["limit"] = self.options.seconds
                result["file"], result["state"] = digest(self.texts[mutant.path]), self.state
                with self.results.lock:
                    self.results.data["mutants"][digest(mutant.identity())] = result
                    self.results.write()
            return folder, mutant, result

        with concurrent.futures.ThreadPoolExecutor(self.options.workers) as pool:
            for folder, mutant, result in pool.map(one, chosen):
                done.append((folder, mutant, result))
                if result["result"] == "survived" or self.options.verbose:
                    self.show(mutant, result)
        while not workers.empty():
            shutil.rmtree(workers.get())
        return self.report(done)

    # ---- the report ----

    def show(self, mutant, result):
        reason = self.answers.get((mutant.path, mutant.before, mutant.after))
        where = "%s:%d %s" % (mutant.path, mutant.line, mutant.function)
        print(result["result"], where, result.get("test", ""))
        print("- %s\n+ %s\n%s" % (mutant.before, mutant.after, "  " + reason if reason else ""))
        sys.stdout.flush()

    def report(self, done):
        counts = {folder: collections.Counter() for folder in self.options.folders}
        open_ones = 0
        for folder, mutant, result in done:
            kind = result["result"]
            if kind == "survived":
                reason = self.answers.get((mutant.path, mutant.before, mutant.after), "")
                kind = "equivalent" if reason.lower().startswith("equivalent") else "survived"
                open_ones += not reason
            counts[folder][kind] += 1
        head = ("folder", "mutants", "invalid", "equivalent", "killed", "survived")
        print("%-8s %7s %7s %10s %7s %8s" % head)
        total = collections.Counter()
        for folder, count in list(counts.items()) + [("all", total)]:
            tried = count["killed"] + count["survived"]
            low, high = interval(count["killed"], tried)
            row = (folder, sum(count.values())) + tuple(count[kind] for kind in head[2:])
            share = (100.0 * count["killed"] / max(1, tried), 100.0 * low, 100.0 * high)
            print("%-8s %7d %7d %10d %7d %8d" % row, end="  ")
            print("%.1f %% killed, by chance %.0f to %.0f %%" % share)
            total.update(count)
        tried = total["killed"] + total["survived"]
        if open_ones:
            print("%d survivors have neither a test nor a reason in survivors.txt" % open_ones)
        return 1 if open_ones > 0 or total["killed"] < self.options.least * tried else 0


def interval(killed, tried):
    """Wilson's interval of a share, 95 %."""
    if tried == 0:
        return 0.0, 1.0
    z, p = 1.96, killed / tried
    middle = p + z * z / (2 * tried)
    half = z * math.sqrt(p * (1 - p) / tried + z * z / (4 * tried * tried))
    return (middle - half) / (1 + z * z / tried), (middle + half) / (1 + z * z / tried)


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--source", default=os.path.join(HERE, "..", ".."))
    parser.add_argument("--build", default=".")
    parser.add_argument("--seed", default="1")
    parser.add_argument("--count", type=int, default=500, help="in equal shares of the folders")
    parser.add_argument("--folders", default="physics cut job search", type=str.split)
    parser.add_argument("--workers", type=int, default=1)
    parser.add_argument("--seconds", type=float, default=40.0, help="of all tests of a mutant")
    parser.add_argument("--slowest", type=float, default=30.0, help="seconds of a test that is run")
    parser.add_argument("--least", type=float, default=0.9, help="share that must be killed")
    parser.add_argument("--only", default="", help="files whose path contains this")
    parser.add_argument("--match", default="", help="all mutants of lines that contain this")
    parser.add_argument("--recheck", action="store_true", help="try answered survivors too")
    parser.add_argument("--fresh", action="store_true", help="forget earlier results")
    parser.add_argument("--verbose", action="store_true", help="killed ones too")
    parser.add_argument("--learn", action="store_true", help="write experience.csv")
    options = parser.parse_args()
    start = time.monotonic()
    session = Session(options)
    status = session.run()
    if options.learn:
        session.results.write_experience()
    print("%.0f s" % (time.monotonic() - start))
    return status


if __name__ == "__main__":
    sys.exit(main())
