# SPDX-License-Identifier: GPL-3.0-or-later
"""Many cuts at once, from columns of numbers and into columns of numbers."""
from __future__ import annotations

import os
import threading
from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING, Any, Optional

from . import errors, quantities
from ._native import (INPUTS, LIMITS, VALUES, VERDICTS, call, check, encode, ffi, lib,
                      new_error)
from .library import Request, whole

if TYPE_CHECKING:
    import numpy

STATUS = "status"
SMALL_ROWS = 4096  # computed before a person could press Ctrl-C
POLL = 0.05  # s between looks for Ctrl-C


def _numpy() -> Any:
    try:
        import numpy
    except ImportError:
        raise ImportError("a batch needs NumPy: install python3-numpy, or coolbite[batch]") \
            from None
    return numpy


def output_of(name: str) -> tuple[int, int]:
    """The kind and the id of an output of a batch by its name."""
    if name == "verdict":
        return lib.BITE_BATCH_VERDICT, 0
    if name == "worst_limit":
        return lib.BITE_BATCH_WORST, 0
    if name in VALUES:
        return lib.BITE_BATCH_VALUE, VALUES.index(name)
    base, _, part = name.partition(".")
    kinds = {"": lib.BITE_BATCH_UTILIZATION, "utilization": lib.BITE_BATCH_UTILIZATION,
             "demand": lib.BITE_BATCH_DEMAND, "capacity": lib.BITE_BATCH_CAPACITY}
    if base in LIMITS and part in kinds:
        return kinds[part], LIMITS.index(base)
    import difflib
    known = ("verdict", "worst_limit", *VALUES, *LIMITS)
    near = difflib.get_close_matches(name, known, 1)
    raise errors.UnknownNameError(errors.Fault(
        f"{name} is not an output of a batch: verdict, worst_limit, a value, a limit (its "
        "utilization), or LIMIT.demand or LIMIT.capacity are expected",
        f"did you mean {near[0]}?" if near else "", key="outputs"))


def is_frame(columns: Any) -> bool:
    """A DataFrame of pandas, without importing pandas."""
    return hasattr(columns, "columns") and hasattr(columns, "index")


def refuse_column(what: str, name: str) -> errors.ArgumentError:
    return errors.ArgumentError(errors.Fault(
        f"a number or a column of numbers is expected, not {what}",
        "coolbite.si converts quantities", key=name))


def array_of(given: Any, name: str) -> Any:
    """A column as an array of NumPy; what is missing in it is NaN."""
    numpy = _numpy()
    kind = getattr(getattr(given, "dtype", None), "kind", "f")
    if kind not in "fiu":  # dates would become numbers without a word
        raise refuse_column(f"one of {given.dtype}", name)
    if type(given).__module__.startswith("pandas.") and given.dtype != numpy.float64:
        return given.to_numpy(dtype=numpy.float64, na_value=numpy.nan)
    if isinstance(given, numpy.ma.MaskedArray):
        return given.astype(numpy.float64).filled(numpy.nan)
    try:
        return numpy.asarray(given)
    except ValueError:  # lists of different lengths
        raise refuse_column("one of lists", name) from None


def numbers_of(given: Any, name: str) -> Any:
    """A column as float64 with a stride in whole numbers: itself if it is that already."""
    numpy = _numpy()
    if is_frame(given):
        raise refuse_column("several columns of this name", name)
    array = array_of(given, name)
    if array.ndim > 1 or array.dtype.kind not in "fiu":
        raise refuse_column(f"one of {array.dtype} with {array.ndim} dimensions", name)
    array = numpy.asarray(array, dtype=numpy.float64)
    fits = array.ndim == 0 or (array.flags.aligned and array.strides[0] >= 0
                               and array.strides[0] % array.itemsize == 0)
    return array if fits else numpy.ascontiguousarray(array)


class Columns:
    """Columns of a batch as the library takes them; they borrow the memory of the arrays."""

    def __init__(self, given: Mapping[str, Any]) -> None:
        self.arrays: dict[str, Any] = {}
        for word in given:
            name = self._input(word)
            if name in self.arrays:
                raise errors.ArgumentError(errors.Fault("this column is there twice", key=name))
            self.arrays[name] = numbers_of(given[word], str(word))
        lengths = {name: len(array) for name, array in self.arrays.items() if array.ndim == 1}
        if not lengths:
            raise errors.MissingError(errors.Fault("a column with more than one number is needed",
                                                   key="columns"))
        self.rows = next(iter(lengths.values()))
        for name, length in lengths.items():
            if length != self.rows:
                raise errors.ArgumentError(errors.Fault(
                    f"{length} rows; the first column has {self.rows}", key=name))
        self.inputs = ffi.new("uint32_t[]", [INPUTS[name] for name in self.arrays])
        self.columns = ffi.new("bite_column[]", len(self.arrays))
        for column, array in zip(self.columns, self.arrays.values()):
            column.data = ffi.cast("const double *", array.ctypes.data)
            column.stride = array.strides[0] // array.itemsize if array.ndim else 0

    @staticmethod
    def _input(word: Any) -> str:
        if not isinstance(word, str):
            raise TypeError(f"columns: names of inputs are expected, not {word!r}")
        name = quantities.input_name(word)
        found = lib.bite_input_find(encode(name, "columns"))
        if found == ffi.NULL:
            import difflib
            near = difflib.get_close_matches(name, INPUTS, 1)
            raise errors.UnknownNameError(errors.Fault(
                f"{word} is not an input", f"did you mean {near[0]}?" if near else "",
                key="columns"))
        if found.words > 0:
            raise errors.ArgumentError(errors.Fault(
                f"{word} takes a word, which is the same in all rows: set it in the request",
                key="columns"))
        return name


def run(batch: Any, columns: Columns, out: Any, status: Any, threads: int,
        borrowed: tuple[Any, ...]) -> None:
    """Computes the rows. In the main thread Ctrl-C stops it: Python only notes a signal while a
    call of C runs, so that the call is made in a thread of its own, and this one waits.

    borrowed: what owns the memory of the columns. The thread that computes refers to it, however
    the one that waits is left."""
    stop, error = ffi.new("int *"), new_error()
    result: list[int] = []
    ended = threading.Event()

    def work(_borrowed: Any = (batch, columns, out, borrowed)) -> None:
        result.append(lib.bite_batch_run(batch, columns.rows, columns.columns, out, status,
                                         threads, stop, error))
        ended.set()

    if columns.rows <= SMALL_ROWS or threading.current_thread() is not threading.main_thread():
        work()
    else:
        # Not Thread.join: one that was interrupted takes the thread for ended (Python 3.11).
        threading.Thread(target=work, name="coolbite-batch").start()
        try:
            while not ended.wait(POLL):
                pass
        finally:
            stop[0] = 1  # nothing happens if it has ended
            ended.wait()
    check(result[0], error)


def batch(template: Request | Mapping[str, Any], columns: Any,
          outputs: Sequence[str] = ("verdict", "worst_limit"), *, threads: Optional[int] = None,
          library: Any = None) -> Any:
    """Judges a cut for each row, at best estimates: some hundred thousand rows a second.

    template: what is the same in all rows: a ``coolbite.request``, or its words. columns: numbers
    in SI by the names of inputs or the command's words (spindle in 1/s, feed in m/s), as arrays,
    Series or single numbers, or a DataFrame with such columns. Arrays of float64 are read where
    they are, whatever their stride; others are converted once. NaN: not given in that row.

    outputs: ``verdict`` (indices into ``coolbite.VERDICTS``), ``worst_limit`` (into
    ``coolbite.LIMITS``), values by name (SI), limits by name (utilization), ``LIMIT.demand`` and
    ``LIMIT.capacity``. Returns a dict of arrays, and with a DataFrame a DataFrame with its index,
    with verdicts and limits as words. Its column ``status`` is 0, or the number of the status with
    which the row was refused; its outputs are then NaN or -1. Numbers do not depend on threads
    (None: one for each processor, at most 16). Ctrl-C stops it.

    What the request takes from tables and defaults stays as it is in the template: columns of
    spindle, feed, depth and width are what they say, but a column ``diameter`` is not another
    tool of the tables.
    """
    numpy = _numpy()
    if not isinstance(template, (Request, Mapping)):
        raise TypeError("template: a coolbite.request or its words are expected, not "
                        f"{type(template).__name__}")
    if not isinstance(template, Request):
        from .library import default_library
        template = (library or default_library()).request(**template)
    if isinstance(outputs, str) or not all(isinstance(name, str) for name in outputs):
        raise TypeError(f"outputs: a list of names is expected, not {outputs!r}")
    names = list(dict.fromkeys(outputs))
    if not names:
        raise errors.MissingError(errors.Fault("an output is needed", key="outputs"))
    wanted = ffi.new("bite_batch_output[]", [output_of(name) for name in names])
    if not is_frame(columns) and not isinstance(columns, Mapping):
        raise TypeError("columns: a dict of arrays or a DataFrame is expected, not "
                        f"{type(columns).__name__}")
    given = Columns(columns)
    if threads is None:
        count = getattr(os, "sched_getaffinity", None)
        threads = min(16, len(count(0)) if count else os.cpu_count() or 1)
    handle = ffi.new("bite_batch **")
    call(lib.bite_batch_new, ffi.NULL, template.flat(), given.inputs, len(given.arrays), wanted,
         len(names), handle)
    owner = ffi.gc(handle[0], lib.bite_batch_free)
    arrays = {name: numpy.empty(given.rows) for name in names}
    out = ffi.new("bite_result_column[]", len(names))
    for column, array in zip(out, arrays.values()):
        column.data, column.stride = ffi.cast("double *", array.ctypes.data), 1
    status = numpy.empty(given.rows, dtype=numpy.uint32)
    run(owner, given, out, ffi.cast("uint32_t *", status.ctypes.data),
        max(1, whole(threads, "threads", 16)), (arrays, status))
    return answers(arrays, status, columns)


def answers(arrays: dict[str, numpy.ndarray], status: Any, columns: Any) -> Any:
    """Words as small numbers; a DataFrame if one came in."""
    numpy = _numpy()
    for name in ("verdict", "worst_limit"):
        if name in arrays:
            coded = arrays[name]
            arrays[name] = numpy.where(numpy.isnan(coded), -1, coded).astype(numpy.int16)
    if not is_frame(columns):
        return {**arrays, STATUS: status}
    import pandas
    made = {name: pandas.Categorical.from_codes(
                numpy.where(array < 0, -1, array),
                categories=list(VERDICTS if name == "verdict" else LIMITS))
            if name in ("verdict", "worst_limit") else array for name, array in arrays.items()}
    return pandas.DataFrame({**made, STATUS: status}, index=columns.index)
