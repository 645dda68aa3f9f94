# SPDX-License-Identifier: GPL-3.0-or-later
"""A catalogue on a cluster: a scheduler and two workers, processes on loopback."""
import csv
import os
import pathlib
import signal
import subprocess
import sys
import time

import pytest

distributed = pytest.importorskip("distributed", reason="python3-distributed is not here")

EXAMPLES = str(pathlib.Path(__file__).resolve().parents[1] / "examples")
sys.path.insert(0, EXAMPLES)

import sweep  # noqa: E402

TOOLS = ("0.8mm", "2mm", "1/8in", "none-such")
CASES = sweep.catalogue(sweep.MATERIALS[:2], TOOLS)
PATIENCE = 30  # s


def slow_settings(case):
    """A case that lasts long enough for its worker to be killed meanwhile."""
    time.sleep(0.1)
    return {**sweep.settings_of(case), "worker": os.getpid()}


@pytest.fixture(scope="module")
def client():
    path = os.pathsep.join([EXAMPLES, os.path.dirname(__file__), os.environ.get("PYTHONPATH", "")])
    os.environ["PYTHONPATH"] = path  # of the workers
    with distributed.LocalCluster(n_workers=2, threads_per_worker=1, host="127.0.0.1",
                                  dashboard_address=None, silence_logs=50) as cluster, \
            distributed.Client(cluster, timeout=PATIENCE) as client:
        client.wait_for_workers(2, timeout=PATIENCE)
        yield client


@pytest.fixture(scope="module")
def alone():
    return [sweep.settings_of(case) for case in CASES]


def test_the_catalogue_has_settings_and_faults(alone):
    assert len(alone) == 16 and [row["tool"] for row in alone] == [case["tool"] for case in CASES]
    for row in alone:
        if row["tool"] == "none-such":
            assert "none-such" in row["fault"] and row["verdict"] == ""
        else:
            assert row["fault"] == "" and row["verdict"] in ("clear", "tight", "over")
            assert row["spindle_rpm"] > 0 and row["feed_mm_min"] > 0
    assert len({row["spindle_rpm"] for row in alone}) > 5


def test_two_workers_have_the_answers_of_one_process(client, alone):
    workers = client.run(os.getpid)
    assert len(set(workers.values()) - {os.getpid()}) == 2
    assert all(address.startswith("tcp://127.0.0.1:") for address in workers)
    assert sweep.sweep(client, CASES) == alone


def test_the_example_on_a_cluster_that_runs(client, alone):
    """As a program, whose functions are sent to the workers by value."""
    table = subprocess.run([sys.executable, os.path.join(EXAMPLES, "sweep.py"), "--scheduler",
                            client.scheduler.address, "--tools", "0.8mm"], check=True,
                           capture_output=True, text=True).stdout
    rows = list(csv.DictReader(table.splitlines()))
    expected = [row for row in alone if row["tool"] == "0.8mm"]
    assert len(rows) == len(sweep.MATERIALS) * len(sweep.MACHINES)
    assert rows[:len(expected)] == [{name: str(value) for name, value in row.items()}
                                    for row in expected]


def test_the_kill_of_a_worker_loses_nothing(client, alone):
    before = set(client.run(os.getpid).values())
    futures = client.map(slow_settings, CASES, pure=False, retries=2)
    begun = time.monotonic()
    while sum(future.done() for future in futures) < 4 and time.monotonic() - begun < PATIENCE:
        time.sleep(0.02)
    unfinished = sum(not future.done() for future in futures)
    victim = min(before)
    os.kill(victim, signal.SIGKILL)
    rows = client.gather(futures)
    assert unfinished > 4  # it was killed at work
    assert [{name: row[name] for name in row if name != "worker"} for row in rows] == alone
    assert victim not in set(client.run(os.getpid).values())
    assert len({row["worker"] for row in rows} - {victim}) >= 1
