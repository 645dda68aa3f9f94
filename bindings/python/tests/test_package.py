# SPDX-License-Identifier: GPL-3.0-or-later
"""The package itself: the header, archive and wheel, the examples of the documents, typing."""
import os
import pathlib
import re
import shutil
import subprocess
import sys
import tarfile
import tempfile
import zipfile

import pytest

import coolbite
from coolbite import _native

PACKAGE = pathlib.Path(__file__).resolve().parents[1]


def run(*line, **options):
    done = subprocess.run(line, capture_output=True, text=True, check=False,
                          **{"cwd": tempfile.gettempdir(), **options})
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_the_header_is_up_to_date(source_tree):
    run(sys.executable, str(PACKAGE / "generate.py"), "--check")


def test_declarations_are_those_of_the_library(source_tree):
    symbols = (source_tree / "core/exported-symbols.txt").read_text().split()
    named = [symbol for symbol in symbols if symbol.startswith("bite_")]
    assert len(named) > 50
    # what the header defines in itself has other symbols for programs of the first header
    named = [symbol for symbol in named
             if symbol not in ("bite_cut_init", "bite_goal_name", "bite_request_cut")]
    for symbol in named:
        assert getattr(_native.lib, symbol), symbol


def test_words_are_those_of_the_command():
    from coolbite import _header
    assert _header.INPUT_WORDS["spindle"] == "spindle_speed" and len(_header.INPUT_WORDS) > 5
    assert set(_header.INPUT_WORDS.values()) <= set(_native.INPUTS)
    assert {"material", "tool", "machine"} <= set(_header.RECORD_WORDS)


def test_version():
    assert coolbite.__version__ == _native.text(_native.lib.bite_version())


def test_all_names_are_there():
    for name in coolbite.__all__:
        thing = getattr(coolbite, name)
        assert not callable(thing) or thing.__doc__ or name in ("Axis", "QuantityLike"), name


@pytest.mark.parametrize("document", ["README.md", "bindings/python/README.md"])
def test_examples_of_the_documents(document, source_tree):
    """Each block of Python runs, and prints what stands behind its last #."""
    text = (source_tree / document).read_text(encoding="utf-8")
    blocks = re.findall(r"```python\n(.*?)```", text, flags=re.S)
    assert blocks
    for block in blocks:
        pytest.importorskip("pandas") if "pandas" in block else None
        printed = run(sys.executable, "-c", block).splitlines()
        expected = re.findall(r"^print\(.*\)  # (.*)$", block, flags=re.M)
        assert printed == expected and expected, block


def built(tmp_path, hook, **environment):
    """What setuptools builds from a copy, without a network; its path."""
    for needed in ("setuptools", "wheel"):
        pytest.importorskip(needed)
    source = tmp_path / "source"
    if not source.exists():
        shutil.copytree(PACKAGE, source, ignore=shutil.ignore_patterns("__pycache__", "tests"))
        for path in (source, *source.rglob("*")):
            path.chmod(path.stat().st_mode | 0o200)
    out = tmp_path / hook
    out.mkdir()
    code = f"import setuptools.build_meta as b; b.build_{hook}({str(out)!r})"
    run(sys.executable, "-W", "ignore", "-c", code, cwd=source,
        env={**os.environ, **environment})
    return next(out.iterdir())


def test_archive_and_plain_wheel(tmp_path):
    archive = built(tmp_path, "sdist")
    with tarfile.open(archive) as opened:
        inside = {name.partition("/")[2] for name in opened.getnames()}
    assert {"pyproject.toml", "setup.py", "generate.py", "README.md", "coolbite/py.typed",
            "coolbite/_header.py", "examples/sweep.py"} <= inside
    wheel = built(tmp_path, "wheel", COOLBITE_BUNDLE="")
    assert wheel.name == f"coolbite-{coolbite.__version__}-py3-none-any.whl"
    with zipfile.ZipFile(wheel) as opened:
        assert "coolbite/py.typed" in opened.namelist()
        assert not any("bundle" in name or "tests" in name for name in opened.namelist())


def test_wheel_with_the_library(tmp_path):
    """It runs without anything else: no variables, no installed library or tables."""
    if shutil.which("pkg-config") is None or not os.environ.get("COOLBITE_LIBRARY"):
        pytest.skip("needs pkg-config and COOLBITE_LIBRARY")
    (tmp_path / "coolbite.pc").write_text(
        f"libdir={os.path.dirname(os.path.abspath(os.environ['COOLBITE_LIBRARY']))}\n"
        f"familydir={os.environ['COOLBITE_FAMILY_PATH']}\n"
        f"tabledir={os.environ['COOLBITE_TABLE_PATH']}\n"
        "Name: coolbite\nDescription: for the test\nVersion: 0\n")
    wheel = built(tmp_path, "wheel", COOLBITE_BUNDLE="1", PKG_CONFIG_PATH=str(tmp_path))
    assert re.fullmatch(r"coolbite-[\d.]+-py3-none-(linux|macosx|manylinux)\w*\.whl", wheel.name)
    site = tmp_path / "site"
    with zipfile.ZipFile(wheel) as opened:
        opened.extractall(site)
    clean = {name: value for name, value in os.environ.items()
             if not name.startswith(("COOLBITE", "XDG"))}
    printed = run(
        sys.executable, "-c",
        "import coolbite\n"
        "answer = coolbite.cut(material='acrylic/cast', tool='0.8mm', spindle='12000rpm', "
        "feed='200mm/min', depth='0.2mm', draws=16)\n"
        "print(coolbite.library_file, answer.verdict, sep='\\n')",
        env={**clean, "PYTHONPATH": str(site), "HOME": str(tmp_path), "PKG_CONFIG": "none-such"})
    path, verdict = printed.split("\n")[:2]
    assert path.startswith(str(site)) and verdict in coolbite.VERDICTS
