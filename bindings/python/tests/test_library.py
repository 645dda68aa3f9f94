# SPDX-License-Identifier: GPL-3.0-or-later
"""Open tables: own paths, tool lists, a shop's set-up, threads, memory."""
import concurrent.futures
import gc
import os
import pathlib
import pickle
import resource
import subprocess
import sys
import threading
import time
import tracemalloc

import pytest
from conftest import DRAWS, SLOT

import coolbite

OWN_TOOL = """[format]
kind = tools
version = 1
[tool_material.carbide]
title = carbide
tool_modulus = 580 GPa
tool_modulus.source = memory
tool_poisson = 0.22
tool_poisson.source = memory
[tool.own-08]
title = 0.8 mm of the drawer
source = common-practice
tool_material = carbide
diameter = 0.8 mm
flutes = 1
flute_length = 2.4 mm
shank_diameter = 3 mm
"""


def test_collections():
    with coolbite.Library() as library:
        assert "acrylic/cast" in library.names("grades")
        assert "bench-24k" in library.names("machines") and library.names("left_out") == ()
        with pytest.raises(coolbite.UnknownNameError):
            library.names("cars")
    with pytest.raises(coolbite.ArgumentError, match="closed"):
        library.names("grades")
    library.close()


def test_a_window_keeps_its_tables(slot):
    library = coolbite.Library()
    made = library.window(**slot, draws=DRAWS, columns=5, rows=5)
    expected = made.csv()
    library.close()
    del library
    gc.collect()
    assert made.csv() == expected


def test_tool_list(tmp_path, slot):
    path = tmp_path / "drawer.ini"
    path.write_text(OWN_TOOL)
    slot["tool"] = "own-08"
    del slot["flutes"]
    with coolbite.Library(tools=path) as library:
        assert library.names("tools") == ("own-08",)
        assert library.cut(**slot, draws=1).inputs["flutes"].value == 1
    path.write_text(OWN_TOOL.replace("= 2.4 mm", "= long"))
    with pytest.raises(coolbite.FileFormatError) as raised:
        coolbite.Library(tools=path)
    assert raised.value.file == str(path) and raised.value.line == 16


def test_shop(tmp_path, slot, command):
    path = tmp_path / "coolbite.ini"
    path.write_text("[format]\nkind = shop\nversion = 1\n[shop]\nunits = inch\n"
                    "machine = bench-24k\nconfidence = 80%\n")
    del slot["machine"]
    with coolbite.Library(shop=path) as library:
        answer = library.cut(**slot, draws=DRAWS)
        assert answer.enter.feed.unit == "in/min" and "bench-24k" in answer.text
        assert answer.chance == library.cut(**slot, draws=DRAWS, confidence=0.95).chance
        assert library.cut(**slot, draws=DRAWS, units="metric").enter.feed.unit == "mm/min"
    path.write_text(path.read_text().replace("bench-24k", "bench-25k"))
    with pytest.raises(coolbite.FileFormatError, match="bench-25k") as raised:
        coolbite.Library(shop=path)
    assert raised.value.line == 6


def test_own_tables_come_first(tmp_path, slot):
    tables = tmp_path / "own"
    tables.mkdir()
    (tables / "tools.ini").write_text(OWN_TOOL)
    library = coolbite.Library(table_path=(folder for folder in [tables]))
    assert "own-08" in library.names("tools") and "own-08" in pickle.loads(
        pickle.dumps(library)).names("tools")
    with pytest.raises(coolbite.ArgumentError, match="colon"):
        coolbite.Library(table_path=["/a:/b"])
    with pytest.raises(coolbite.ArgumentError, match="null"):
        coolbite.Library(table_path="/a\0b")
    for words in ({"table_path": b"/tmp"}, {"table_path": 5}, {"tools": 5}):
        with pytest.raises(TypeError, match="path"):
            coolbite.Library(**words)
    for words in ({"shop": ""}, {"tools": ""}):
        with pytest.raises(coolbite.ArgumentError, match="empty"):
            coolbite.Library(**words)


def test_one_library_in_many_threads():
    depths = [f"0.{tenths}mm" for tenths in range(1, 6)]
    expected = [coolbite.cut(**{**SLOT, "depth": depth}, draws=DRAWS) for depth in depths]
    with coolbite.Library() as library, concurrent.futures.ThreadPoolExecutor(8) as pool:
        asked = [pool.submit(library.cut, **{**SLOT, "depth": depth}, draws=DRAWS)
                 for depth in depths * 6]
        assert [one.result() for one in asked] == expected * 6


def test_the_interpreter_lock_is_released():
    """Another thread of Python counts while a long cut is judged."""
    counted = 0
    ended = threading.Event()

    def count():
        nonlocal counted
        while not ended.is_set():
            counted += 1
            time.sleep(0.001)

    counter = threading.Thread(target=count)
    request = coolbite.request(**SLOT)
    counter.start()
    before = counted
    for _ in range(3):
        request._judged(65536, None, None, 1)  # one long call of C
    during = counted - before
    ended.set()
    counter.join()
    assert during >= 10, during  # with the lock held: between the calls only


def resident():
    pages = pathlib.Path("/proc/self/statm").read_text().split()[1]
    return int(pages) * resource.getpagesize()


@pytest.mark.skipif(not os.path.exists("/proc/self/statm"), reason="needs /proc")
def test_a_thousand_answers_leave_nothing():
    def some(count):
        for _ in range(count):
            coolbite.cut(**SLOT, draws=16)
            with pytest.raises(coolbite.QuantityError):
                coolbite.cut(**{**SLOT, "feed": "100mm"})
        for _ in range(count // 100):
            coolbite.window(**SLOT, draws=16, columns=5, rows=5).csv()
            coolbite.Library().close()
        gc.collect()

    some(300)  # until the allocators have what they keep
    memory, blocks = resident(), sys.getallocatedblocks()
    some(1000)
    # One answer has 60 KB in C: a thousand that were kept would be 60 MB.
    assert resident() - memory < 12_000_000, resident() - memory
    assert sys.getallocatedblocks() - blocks < 5000


def test_objects_of_answers_are_released():
    coolbite.cut(**SLOT, draws=16)
    gc.collect()
    tracemalloc.start()
    for _ in range(20):
        coolbite.cut(**SLOT, draws=16)
    gc.collect()
    kept = tracemalloc.get_traced_memory()[0]
    tracemalloc.stop()
    assert kept < 50_000, kept  # an answer has 300 KB


def run_python(code, **environment):
    return subprocess.run([sys.executable, "-c", code], env={**os.environ, **environment},
                          capture_output=True, text=True, check=False)


def test_a_library_that_is_not_there(tmp_path):
    none = run_python("import coolbite", COOLBITE_LIBRARY=str(tmp_path / "none.so"))
    assert "LibraryFileError: libcoolbite was not found" in none.stderr
    assert "COOLBITE_LIBRARY" in none.stderr
    other = run_python("import coolbite", COOLBITE_LIBRARY="libm.so.6")
    assert "LibraryFileError: libm.so.6: this file is not a libcoolbite" in other.stderr


def test_a_library_that_does_not_fit():
    for change, says in (
            ("h.VERSION = '9.1.0'", "this is version"),
            ("h.DECLARATIONS = h.DECLARATIONS.replace('double spindle_speed;',"
             " 'double other; double spindle_speed;')", "of a bite_cut in the library"),
            ("h.DECLARATIONS = h.DECLARATIONS.replace('double spindle_speed; double feed_rate;',"
             " '').replace('double feed_rate;', '', 1).replace('double spindle_speed;',"
             " 'double feed_rate; double spindle_speed;')", "at byte"),
            ("h.DECLARATIONS = h.DECLARATIONS.replace('double heat_share[4];', '')",
             "bite_result")):
        asked = run_python(
            "import importlib.util, sys, pathlib, types; "
            "spec = importlib.util.find_spec('coolbite'); "
            "folder = pathlib.Path(spec.submodule_search_locations[0]); "
            "package = types.ModuleType('coolbite'); package.__path__ = [str(folder)]; "
            "sys.modules['coolbite'] = package; import coolbite._header as h; "
            f"{change}; import coolbite._native")
        assert "LibraryFileError" in asked.stderr and says in asked.stderr, asked.stderr
