# SPDX-License-Identifier: GPL-3.0-or-later
"""What the tests share. tests/bindings/test_python.sh of the source tree names the library, the
tables and the command in the environment."""
import json
import os
import pathlib
import subprocess

import pytest

import coolbite

SLOT = {"material": "acrylic/cast", "tool": "0.8mm", "flutes": 2, "machine": "bench-24k",
        "stickout": "6mm", "spindle": "12000rpm", "feed": "200mm/min", "depth": "0.4mm",
        "floor": "0.6mm", "tolerance": "0.05mm"}
DRAWS = 256
ROOT = pathlib.Path(__file__).resolve().parents[3]


@pytest.fixture
def slot():
    """A slot in a thin part, as words of a request."""
    return dict(SLOT)


@pytest.fixture(scope="session")
def command():
    """Runs the command with such words and returns its JSON."""
    program = os.environ.get("COOLBITE_PROGRAM")
    if not program:
        pytest.skip("COOLBITE_PROGRAM does not name the command")

    def run(verb, words, *options):
        line = [program, verb, "--no-config", "--exit-zero", "--format", "json",
                "--draws", str(DRAWS), *options]
        for word, value in words.items():
            line += [f"--{word.replace('_', '-')}", str(value)]
        return json.loads(subprocess.run(line, capture_output=True, check=True).stdout)

    return run


@pytest.fixture(scope="session")
def template():
    """The same without what varies in a batch."""
    return coolbite.request(**{word: SLOT[word] for word in SLOT
                               if word not in ("spindle", "feed", "depth")})


@pytest.fixture(scope="session")
def source_tree():
    """The root of the source tree; not there where the package is tested from its archive."""
    if not (ROOT / "include/coolbite/coolbite.h").exists():
        pytest.skip("not in the source tree")
    return ROOT
