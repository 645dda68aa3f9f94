#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""Runs commands on a machine that is short of something, and judges what they make of it.

    failing_limits.py PROGRAM FOLDER

Few descriptors, small files, a small stack, closed or full outputs, a reader that has gone, folders
that are not there, a disk that is full, has no inodes or is read-only, tables that change while they
are read. Judged as by failing_calls.py, which says what FOLDER holds.
"""
import os
import resource
import shutil
import signal
import subprocess
import sys
import tempfile
import threading

import failing_calls as calls

KIB = 1024


def limited(kind, most):
    return lambda: resource.setrlimit(kind, (most, most))


def closed(*descriptors):
    def close():
        for descriptor in descriptors:
            os.close(descriptor)
    return close


class Judge:
    def __init__(self, program, folder):
        self.program = program
        self.folder = folder
        self.runs = 0
        self.wrong = 0

    def say(self, text):
        self.wrong += 1
        print("FAILED:", text)

    def whole(self, command):
        return calls.run(self.program, self.folder, command)

    def check(self, what, command, result, spoken=True):
        """spoken: whether the command has a standard error to say something on."""
        self.runs += 1
        fault = calls.fault_of(command, calls.files_before(self.folder, command), self.whole(command), result)
        if fault and (spoken or "without a word" not in fault):
            self.say(f"{command.name}, {what}: {fault}: {result.err.decode(errors='replace')[:200]}")

    def expect(self, what, command, result, statuses):
        self.check(what, command, result)
        if result.status not in statuses:
            self.say(f"{command.name}, {what}: status {result.status}, not {statuses}: {result.err.decode(errors='replace')[:200]}")


def with_limits(judge):
    for command in calls.COMMANDS:
        for most in (3, 4, 5, 6, 8, 12):
            judge.check(f"{most} descriptors", command,
                        calls.run(judge.program, judge.folder, command, preexec_fn=limited(resource.RLIMIT_NOFILE, most)))
        for most in (0, 512, 4 * KIB, 8 * KIB):
            judge.check(f"files of {most} bytes", command,
                        calls.run(judge.program, judge.folder, command, preexec_fn=limited(resource.RLIMIT_FSIZE, most)))
        judge.expect("a stack of 512 KiB", command,
                     calls.run(judge.program, judge.folder, command, preexec_fn=limited(resource.RLIMIT_STACK, 512 * KIB)), {0})


def with_outputs(judge):
    for command in calls.COMMANDS:
        speaks = judge.whole(command).out != b""
        refused = {73, 74} if speaks else {0, 73, 74}
        with open("/dev/full", "wb", buffering=0) as full:
            judge.expect("standard output is full", command, calls.run(judge.program, judge.folder, command, stdout=full), refused)
        judge.expect("standard output is closed", command,
                     calls.run(judge.program, judge.folder, command, preexec_fn=closed(1)), refused)
        judge.check("standard error is closed", command,
                    calls.run(judge.program, judge.folder, command, preexec_fn=closed(2)), spoken=False)
        judge.check("all three are closed", command,
                    calls.run(judge.program, judge.folder, command, preexec_fn=closed(0, 1, 2)), spoken=False)


def with_lost_reader(judge):
    """Ends by SIGPIPE, as tools in a pipe do, or refuses; in both cases quickly and without a file half-written."""
    for command in calls.COMMANDS:
        reader, writer = os.pipe()
        os.close(reader)
        result = calls.run(judge.program, judge.folder, command, stdout=writer,
                           preexec_fn=lambda: signal.signal(signal.SIGPIPE, signal.SIG_DFL))
        os.close(writer)
        if result.status in (-signal.SIGPIPE, 128 + signal.SIGPIPE):
            judge.runs += 1
            for name in command.writes:
                before = calls.files_before(judge.folder, command)[name]
                if result.files[name] != before and result.files[name] != judge.whole(command).files[name] and \
                        not result.files[name].startswith(before):
                    judge.say(f"{command.name}, nobody reads: {name} is half-written")
        else:
            judge.check("nobody reads", command, result)


def with_missing_folders(judge):
    for command in calls.COMMANDS:
        for name in ("TMPDIR", "HOME", "XDG_CONFIG_HOME", "XDG_DATA_HOME"):
            judge.check(f"{name} is not there", command,
                        calls.run(judge.program, judge.folder, command, wrapper=["env", f"{name}=/no/such/folder"]))


def with_disks(judge):
    """A file system of a few pages, of a few inodes, and one that is read-only; for root alone."""
    if os.geteuid() != 0 or shutil.which("unshare") is None:
        print("not tested here: disks that are full, which only root can make")
        return
    script = ('set -e; mount -t tmpfs -o "$1" none "$2"; cd "$2"; cp -r "$3"/* .; shift 3; fill=$1; shift; '
              'case $fill in space) cat /dev/zero >filler 2>/dev/null || :;; inodes) i=0; while touch "filler$i" 2>/dev/null; do i=$((i + 1)); done;; '
              'esac; case $fill in ro) mount -o remount,ro none "$PWD";; esac; "$@"; code=$?; ls; exit $code')
    for command in calls.COMMANDS:
        whole = judge.whole(command)
        for what, options, fill in (("no space", "size=4m", "space"), ("no inodes", "nr_inodes=200", "inodes"), ("read-only", "size=4m", "ro")):
            with tempfile.TemporaryDirectory(prefix="bite-disk-") as disk:
                environment = dict(os.environ, HOME=disk, LC_ALL="C", COOLBITE_TABLE_PATH=disk + "/tables",
                                   COOLBITE_FAMILY_PATH=disk + "/families")
                done = subprocess.run(["unshare", "-m", "sh", "-c", script.replace("set -e; ", ""), "sh", options, disk, judge.folder, fill,
                                       judge.program, *command.words], env=environment, input=command.input, capture_output=True,
                                      timeout=calls.LONGEST, check=False)
            judge.runs += 1
            listed = [name for name in done.stdout.decode(errors="replace").split() if name.endswith(".tmp")]
            if b"mount" in done.stderr or b"unshare" in done.stderr:
                print("not tested here: disks that are full:", done.stderr.decode()[:120])
                return
            if listed:
                judge.say(f"{command.name}, {what}: it leaves {listed} behind")
            if done.returncode < 0 or done.returncode >= 128 or (done.returncode and done.returncode not in calls.STATUSES):
                judge.say(f"{command.name}, {what}: status {done.returncode}: {done.stderr.decode(errors='replace')[:200]}")
            elif done.returncode and not done.stderr.strip():
                judge.say(f"{command.name}, {what}: it fails without a word")
            elif done.returncode == 0 and command.writes and command.name != "measure":  # a short line fits into the last page
                judge.say(f"{command.name}, {what}: it succeeds, though nothing can be written")
            elif done.returncode == 0 and not done.stdout.startswith(whole.out):
                judge.say(f"{command.name}, {what}: it succeeds with another result")


def with_changing_tables(judge):
    """The table of tools is one version or the other, each put in place whole: so is each result."""
    command = calls.COMMANDS[0]
    with tempfile.TemporaryDirectory(prefix="bite-change-") as work:
        shutil.copytree(judge.folder, work, dirs_exist_ok=True)
        path = os.path.join(work, "tables", "materials", "acrylic.ini")
        with open(path, encoding="utf-8") as file:
            one = file.read()
        other = "\n".join(line.replace("density = 1190", "density = 1180") for line in one.split("\n")) + "\n# another version\n" * 400
        results = []
        for text in (one, other):
            with open(path, "w", encoding="utf-8") as file:
                file.write(text)
            results.append(calls.run(judge.program, work, command).out)
        stop = threading.Event()

        def change():
            turn = 0
            while not stop.is_set():
                with open(path + ".new", "w", encoding="utf-8") as file:
                    file.write((one, other)[turn % 2])
                os.replace(path + ".new", path)
                turn += 1

        changer = threading.Thread(target=change)
        changer.start()
        environment = dict(os.environ, HOME=work, LC_ALL="C", COOLBITE_TABLE_PATH=os.path.join(work, "tables"),
                           COOLBITE_FAMILY_PATH=os.path.join(work, "families"))
        seen = set()
        for _ in range(60):
            done = subprocess.run([judge.program, *command.words], cwd=work, env=environment, capture_output=True, timeout=calls.LONGEST,
                                  check=False)
            judge.runs += 1
            if done.returncode == 0:
                seen.add(done.stdout)
            elif done.returncode not in calls.STATUSES or not done.stderr.strip():
                judge.say(f"tables that change: status {done.returncode}: {done.stderr.decode(errors='replace')[:200]}")
        stop.set()
        changer.join()
        if not seen or not seen <= set(results):
            judge.say(f"tables that change: {len(seen - set(results))} results are of neither version")


def main():
    judge = Judge(sys.argv[1], sys.argv[2])
    for command in calls.COMMANDS:
        whole = judge.whole(command)
        if whole.status != 0:
            sys.exit(f"failing_limits.py: {command.name} fails by itself: {whole.status} {whole.err.decode(errors='replace')}")
    for part in (with_limits, with_outputs, with_lost_reader, with_missing_folders, with_disks, with_changing_tables):
        before = judge.runs
        part(judge)
        print(f"{part.__name__[5:].replace('_', ' ')}: {judge.runs - before} runs", flush=True)
    print(f"{judge.runs} runs, {judge.wrong} wrong")
    return 1 if judge.wrong else 0


if __name__ == "__main__":
    sys.exit(main())
