#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""The share of the branches of core/ that the tests took, by folder, from what gcov counted.

A branch is a way out of a condition of the source, in each function, wherever it was compiled:
one of a header is taken if it was taken in any file that includes it. Lines without a condition
are left out: their branches are those of library functions that the compiler put in their place,
and of loops over lanes that it split. Conditions on memory that ran out count like all others,
and are shown apart as well: tests/memory takes them in builds without counters."""
import argparse
import collections
import json
import os
import re
import subprocess
import sys

CONDITION = re.compile(
    r"\b(?:if|while|for|switch|case|default|do|BITE_EACH_LANE)\b|[?<>!]|&&|\|\||==|:"
)
MEMORY = re.compile(r"NO_MEMORY|out_of_memory|== NULL|!= NULL|alloc|status [!=]= BITE_OK|failed")


def counters_of(build):
    for folder, _, names in os.walk(build):
        for name in sorted(names):
            if name.endswith(".gcda"):
                yield os.path.join(folder, name)


def add_file(path, source, found):
    done = subprocess.run(
        ["gcov", "--json-format", "--stdout", "--branch-counts", "--branch-probabilities", path],
        cwd=os.path.dirname(path),
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        check=True,
    )
    for text in done.stdout.splitlines():
        unit = json.loads(text)
        for file in unit["files"]:
            name = os.path.join(unit["current_working_directory"], file["file"])
            name = os.path.relpath(os.path.realpath(name), source)
            if name.startswith("core/"):
                add_lines(name, file["lines"], found)


def add_lines(name, lines, found):
    for line in lines:
        counts = [branch["count"] for branch in line["branches"] if not branch["throw"]]
        if counts:
            key = (name, line.get("function_name", ""), line["line_number"])
            variants = found[key]
            old = variants.get(len(counts), [0] * len(counts))
            variants[len(counts)] = [a + b for a, b in zip(old, counts)]


def folded(variants):
    """The counts of a line that was compiled several times, in each function that it was put into
    once or more often: the branches of one copy, with the counts of all."""
    least = min(len(counts) for counts in variants)
    sums = [0] * least
    for counts in variants:
        if len(counts) % least == 0:
            for i, count in enumerate(counts):
                sums[i % least] += count
    return sums


def rows_of(found, source):
    """(file, line, text, branches, taken) of each line with a condition."""
    texts, lines, rows = {}, collections.defaultdict(list), []
    for (name, _, number), variants in found.items():
        lines[(name, number)] += variants.values()
    for (name, number), variants in sorted(lines.items()):
        if name not in texts:
            with open(os.path.join(source, name), encoding="utf-8") as file:
                texts[name] = file.read().splitlines()
        text = texts[name][number - 1].strip() if number <= len(texts[name]) else ""
        if CONDITION.search(text):
            counts = folded(variants)
            taken = sum(count > 0 for count in counts)
            rows.append((name, number, text, len(counts), taken))
    return rows


def folder_of(name):
    return "/".join(name.split("/")[:2])


def main():
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("--source", required=True)
    parser.add_argument("--build", required=True)
    parser.add_argument("--missing", action="store_true", help="list lines with branches not taken")
    parser.add_argument("--least", type=float, default=0.0, help="per cent below which to fail")
    options = parser.parse_args()
    source = os.path.realpath(options.source)
    found = collections.defaultdict(dict)
    for path in counters_of(os.path.abspath(options.build)):
        add_file(path, source, found)
    all_rows = rows_of(found, source)
    totals = collections.defaultdict(lambda: [0, 0, 0])
    for name, number, text, branches, taken in all_rows:
        for folder in (folder_of(name), "core"):
            totals[folder][0] += branches
            totals[folder][1] += taken
            totals[folder][2] += (branches - taken) * bool(MEMORY.search(text))
        if options.missing and taken < branches:
            print("%s:%d: %d of %d: %s" % (name, number, taken, branches, text))
    head = ("folder", "branches", "taken", "share", "not taken, of errors")
    print("%-18s %8s %8s %7s %22s" % head)
    for folder, (branches, taken, memory) in sorted(totals.items()):
        share = 100.0 * taken / branches
        print("%-18s %8d %8d %6.1f%% %22d" % (folder, branches, taken, share, memory))
    branches, taken, _ = totals["core"]
    return 0 if branches and 100.0 * taken / branches >= options.least else 1


if __name__ == "__main__":
    sys.exit(main())
