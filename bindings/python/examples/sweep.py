#!/usr/bin/env python3
# SPDX-License-Identifier: GPL-3.0-or-later
"""A catalogue of materials, tools and machines on a cluster of Dask: the settings of each pair.

    python3 sweep.py                                   two processes of this computer
    python3 sweep.py --scheduler tcp://10.0.0.5:8786   a cluster that runs already
    python3 sweep.py --here                            this process alone
    python3 sweep.py --tools 2mm,3mm                   of these tools

It writes CSV. Each case is computed by itself and always the same, so that the table does not
depend on the workers, and a case that was lost with a worker is computed again by another one.
Workers need the package, the library and the same tables.
"""
from __future__ import annotations

import argparse
import csv
import itertools
import sys
from typing import Any, Dict, Iterable

import coolbite

MATERIALS = ("acrylic/cast", "polycarbonate/sheet", "aluminium/6061-T6")
TOOLS = ("0.8mm", "2mm", "3mm", "1/8in", "6mm")
MACHINES = ("bench-24k", "gantry-router")
COLUMNS = ("material", "tool", "machine", "verdict", "chance", "spindle_rpm", "feed_mm_min",
           "fault")


Case = Dict[str, str]


def catalogue(materials: Iterable[str] = MATERIALS, tools: Iterable[str] = TOOLS,
              machines: Iterable[str] = MACHINES) -> list[Case]:
    """Every combination, in order."""
    return [dict(zip(("material", "tool", "machine"), names))
            for names in itertools.product(materials, tools, machines)]


def settings_of(case: Case) -> dict[str, Any]:
    """The settings of a case. What cannot be cut is a row with its fault, and stops nothing."""
    row: dict[str, Any] = {**dict.fromkeys(COLUMNS, ""), **case}
    try:
        found = coolbite.choose(material=case["material"], tool=case["tool"],
                                machine=case["machine"], depth="0.3mm", effort="quick",
                                draws=256)
    except coolbite.Error as error:
        row["fault"] = str(error)
        return row
    row.update(verdict=found.verdict, chance=found.chance)
    if found.enter.spindle is not None and found.enter.feed is not None:
        row.update(spindle_rpm=found.enter.spindle.value, feed_mm_min=found.enter.feed.value)
    return row


def sweep(client: Any, cases: list[Case]) -> list[dict[str, Any]]:
    """The rows of the cases, in their order, by the workers of a client."""
    futures = client.map(settings_of, cases, pure=False, retries=2)
    return client.gather(futures)


def on_cluster(address: str | None, cases: list[Case]) -> list[dict[str, Any]]:
    from distributed import Client, LocalCluster
    if address:
        with Client(address) as client:
            return sweep(client, cases)
    with LocalCluster(n_workers=2, threads_per_worker=1, host="127.0.0.1",
                      dashboard_address=None) as cluster, Client(cluster) as client:
        return sweep(client, cases)


def main(arguments: list[str]) -> int:
    parser = argparse.ArgumentParser(description="Settings of materials, tools and machines.")
    parser.add_argument("--scheduler", help="address of a scheduler that runs")
    parser.add_argument("--here", action="store_true", help="in this process")
    parser.add_argument("--tools", default=",".join(TOOLS), help="names, separated by commas")
    options = parser.parse_args(arguments)
    cases = catalogue(tools=options.tools.split(","))
    rows = map(settings_of, cases) if options.here else on_cluster(options.scheduler, cases)
    writer = csv.DictWriter(sys.stdout, COLUMNS)
    writer.writeheader()
    writer.writerows(rows)
    return 0


if __name__ == "__main__":  # processes of a cluster import this file
    sys.exit(main(sys.argv[1:]))
