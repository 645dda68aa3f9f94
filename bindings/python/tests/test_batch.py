# SPDX-License-Identifier: GPL-3.0-or-later
"""Batches: the numbers of single cuts, from columns that are read where they are."""
import os
import signal
import threading
import time

import pytest

numpy = pytest.importorskip("numpy")

import coolbite  # noqa: E402
from coolbite import batches  # noqa: E402

OUTPUTS = ["verdict", "worst_limit", "surface_temperature", "power_mean", "softening",
           "softening.demand", "softening.capacity", "chip_weld"]
ROWS = 40


@pytest.fixture
def columns():
    draw = numpy.random.default_rng(7)
    return {"spindle": draw.uniform(100, 400, ROWS), "feed": draw.uniform(0.001, 0.02, ROWS),
            "depth": draw.uniform(1e-4, 6e-4, ROWS)}


def test_rows_are_single_cuts(template, columns):
    made = coolbite.batch(template, columns, OUTPUTS)
    assert set(made) == {*OUTPUTS, "status"} and not made["status"].any()
    for row in range(ROWS):
        words = {word: float(column[row]) for word, column in columns.items()}
        answer = coolbite.cut(**template.words, **words, draws=1)
        assert coolbite.VERDICTS[made["verdict"][row]] == answer.verdict
        assert coolbite.LIMITS[made["worst_limit"][row]] == answer.worst.name
        softening = answer.limits["softening"]
        for name, expected in (
                ("surface_temperature", answer.values["surface_temperature"].value),
                ("power_mean", answer.values["power_mean"].value),
                ("softening", softening.utilization), ("softening.demand", softening.demand),
                ("softening.capacity", softening.capacity),
                ("chip_weld", answer.limits["chip_weld"].utilization)):
            assert made[name][row] == pytest.approx(expected, rel=1e-11), (row, name)


def test_columns_are_not_copied(columns):
    wide = numpy.zeros((ROWS, 3))
    wide[:, 1] = columns["feed"]
    one = numpy.float64(2e-4)
    given = {"spindle": columns["spindle"], "feed": wide[:, 1], "depth": one,
             "width": numpy.broadcast_to(numpy.array([5e-4]), (ROWS,))}
    taken = batches.Columns(given)
    pointers = [int(batches.ffi.cast("uintptr_t", column.data)) for column in taken.columns]
    assert pointers[0] == columns["spindle"].ctypes.data
    assert pointers[1] == wide.ctypes.data + 8 and taken.columns[1].stride == 3
    assert taken.columns[2].stride == 0 and taken.columns[3].stride == 0
    assert pointers[3] == given["width"].ctypes.data


def test_other_columns_are_converted(template, columns):
    expected = coolbite.batch(template, columns, OUTPUTS)
    reverse = {word: column[::-1] for word, column in columns.items()}
    swapped = {word: column.astype(">f8") for word, column in columns.items()}
    listed = {word: list(column) for word, column in columns.items()}
    for given, order in ((reverse, -1), (swapped, 1), (listed, 1)):
        made = coolbite.batch(template, given, OUTPUTS)
        for name in expected:
            assert numpy.array_equal(made[name], expected[name][::order], equal_nan=True), name
    packed = numpy.zeros(ROWS, dtype=[("skipped", "i1"), ("feed", "f8")])  # not aligned
    packed["feed"] = columns["feed"]
    made = coolbite.batch(template, {**columns, "feed": packed["feed"]}, OUTPUTS)
    assert numpy.array_equal(made["softening"], expected["softening"])
    whole = coolbite.batch(template, {**columns, "spindle": numpy.arange(200, 200 + ROWS)})
    same = coolbite.batch(template, {**columns, "spindle": numpy.arange(200.0, 200 + ROWS)})
    assert numpy.array_equal(whole["worst_limit"], same["worst_limit"])


def test_numbers_do_not_depend_on_threads(template, columns):
    many = {word: numpy.tile(column, 500) for word, column in columns.items()}
    single = coolbite.batch(template, many, OUTPUTS, threads=1)
    for threads in (2, 5):
        several = coolbite.batch(template, many, OUTPUTS, threads=threads)
        for name in single:
            assert numpy.array_equal(single[name], several[name], equal_nan=True)


def test_a_bad_row_spoils_no_other(template, columns):
    expected = coolbite.batch(template, columns, OUTPUTS)
    columns["spindle"][[3, 9, 11]] = numpy.nan, numpy.inf, -1e300
    made = coolbite.batch(template, columns, OUTPUTS)
    refused = numpy.isin(numpy.arange(ROWS), (3, 9, 11))
    assert ((made["status"] != 0) == refused).all()
    assert made["status"][3] == 5 and made["status"][9] == 4  # missing, out of range
    for name in OUTPUTS:
        assert numpy.array_equal(made[name][~refused], expected[name][~refused], equal_nan=True)
    assert (made["verdict"][refused] == -1).all() and (made["worst_limit"][refused] == -1).all()
    assert numpy.isnan(made["softening"][refused]).all()


def test_masked_numbers_are_not_given(template, columns):
    feed = numpy.ma.masked_array(columns["feed"], numpy.arange(ROWS) == 5)
    made = coolbite.batch(template, {**columns, "feed": feed})
    assert list(numpy.nonzero(made["status"])[0]) == [5]


def test_frames_with_other_columns(template, columns):
    pandas = pytest.importorskip("pandas")
    frame = pandas.DataFrame(columns)
    frame["feed"] = pandas.date_range("2020-01-01", periods=ROWS)
    for other, says in ((frame, "datetime64"),
                        (pandas.DataFrame(columns).astype({"feed": str}), "object"),
                        (pandas.DataFrame(numpy.ones((3, 2)), columns=["feed", "feed"]),
                         "several columns")):
        with pytest.raises(coolbite.ArgumentError, match=says):
            coolbite.batch(template, other)


def test_no_rows(template):
    made = coolbite.batch(template, {"spindle": numpy.empty(0), "feed": 0.002, "depth": 2e-4})
    assert len(made["verdict"]) == len(made["status"]) == 0


def test_frames(template, columns):
    pandas = pytest.importorskip("pandas")
    expected = coolbite.batch(template, columns, OUTPUTS)
    frame = pandas.DataFrame(columns, index=[f"row {row}" for row in range(ROWS)])
    made = coolbite.batch(template, frame, OUTPUTS)
    assert list(made) == [*OUTPUTS, "status"] and (made.index == frame.index).all()
    assert [coolbite.VERDICTS.index(word) for word in made["verdict"]] == list(
        expected["verdict"])
    assert [coolbite.LIMITS.index(word) for word in made["worst_limit"]] == list(
        expected["worst_limit"])
    assert numpy.array_equal(made["softening"], expected["softening"])
    taken = batches.Columns(frame)
    for column, name in zip(taken.columns, frame):
        series = frame[name].to_numpy()
        assert int(batches.ffi.cast("uintptr_t", column.data)) == series.ctypes.data
    frame["depth"] = frame["depth"].astype("Float64")
    frame.loc["row 4", "depth"] = pandas.NA
    frame.loc["row 5", "spindle"] = numpy.nan
    refused = coolbite.batch(template, frame, OUTPUTS)
    assert list(refused.index[refused["status"] != 0]) == ["row 4", "row 5"]
    assert refused["verdict"].isna().sum() == 2


@pytest.mark.parametrize("change, kind, says", [
    ({"feedrate": 1.0}, coolbite.UnknownNameError, "did you mean feed_rate?"),
    ({"side": 1.0}, coolbite.ArgumentError, "word"),
    ({"feed_rate": 1.0}, coolbite.ArgumentError, "twice"),
    ({"feed": ["1mm/min"] * ROWS}, coolbite.ArgumentError, "coolbite.si"),
    ({"feed": numpy.zeros((ROWS, 2))}, coolbite.ArgumentError, "2 dimensions"),
    ({"feed": numpy.zeros(ROWS - 1)}, coolbite.ArgumentError, "39 rows"),
    ({"feed": numpy.zeros(ROWS, dtype=complex)}, coolbite.ArgumentError, "complex"),
    ({"feed": [None] * ROWS}, coolbite.ArgumentError, "object"),
    ({"feed": [[1.0], [1.0, 2.0]]}, coolbite.ArgumentError, "lists"),
    ({"feed": numpy.zeros(ROWS, dtype="M8[s]")}, coolbite.ArgumentError, "datetime"),
    ({"feed": numpy.zeros(ROWS, dtype=bool)}, coolbite.ArgumentError, "bool"),
    ({"fe\0ed": 1.0}, coolbite.ArgumentError, "null"),
    ({7: 1.0}, TypeError, "names of inputs"),
])
def test_bad_columns(template, columns, change, kind, says):
    with pytest.raises(kind) as raised:
        coolbite.batch(template, {**columns, **change})
    assert says in str(raised.value)


def test_bad_calls(template, columns):
    for outputs, kind in (("softening", TypeError), ([], coolbite.MissingError),
                          (["softenin"], LookupError), (["softening.chance"], LookupError)):
        with pytest.raises(kind):
            coolbite.batch(template, columns, outputs)
    for arguments in ((template, [1, 2, 3]), (3, columns), (template, columns, [3])):
        with pytest.raises(TypeError, match="expected"):
            coolbite.batch(*arguments)
    with pytest.raises(coolbite.MissingError):
        coolbite.batch(template, {"feed": 0.001})
    with pytest.raises(coolbite.RangeError):
        coolbite.batch(template, columns, threads=-1)
    with pytest.raises(coolbite.MissingError):
        coolbite.batch({"material": "acrylic/cast"}, columns)


def test_interrupt_stops_a_batch(template):
    rows = 5_000_000
    columns = {"spindle": numpy.linspace(100, 400, rows), "feed": 0.002, "depth": 2e-4}
    # One that was started in the background of a shell ignores it.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    timer = threading.Timer(0.3, os.kill, (os.getpid(), signal.SIGINT))
    begun = time.monotonic()
    timer.start()
    with pytest.raises(KeyboardInterrupt):
        coolbite.batch(template, columns, ["verdict"], threads=1)
    stopped = time.monotonic() - begun
    signal.signal(signal.SIGINT, before)
    begun = time.monotonic()
    coolbite.batch(template, {**columns, "spindle": columns["spindle"][::30]}, ["verdict"],
                   threads=1)
    assert stopped < 10 * (time.monotonic() - begun) + 1  # less than a third of the whole
