# SPDX-License-Identifier: GPL-3.0-or-later
"""Many cuts as text: a row of CSV for each, as ``coolbite batch`` takes them."""
from __future__ import annotations

from typing import Any, Optional, Sequence

from . import _header, errors, quantities
from ._native import (NULL, UNITS, Collector, call, check, encode, ffi, lib, new_error, owned,
                      sink, word_of)
from .library import Library, default_library, whole


def cases(text: str, results: Sequence[str] = (), *, draws: int = 0,
          confidence: Optional[float] = None, units: Optional[str] = None, threads: int = 1,
          library: Optional[Library] = None, **words: Any) -> str:
    """Judges a cut for each row of CSV and returns the rows with their results.

    text: a line of names such as ``tool,feed [mm/min],depth [mm]``, then a row for each cut; an
    empty field is not given. results: ``verdict``, ``chance``, ``worst_limit``,
    ``worst_utilization``, values, limits and inputs by name, with draws also ``NAME.low``,
    ``NAME.high`` and ``NAME.chance``; (): a usual set. units: of the results, which the first line
    of the answer names. words: what all rows have in common, as for ``cut``. draws: 16 to 65536;
    0 or 1: none, with verdicts from utilization.

    A row that cannot be judged says why in the last column, ``fault``, and spoils no other. A fault
    of the first line or of the results is an exception. Rows are text and numbers have nine
    digits: ``batch`` is for columns of numbers.
    """
    home = library or default_library()
    request = home.request(**words)
    if isinstance(results, str) or not all(isinstance(name, str) for name in results):
        raise TypeError(f"results: a list of names is expected, not {results!r}")
    kept: list[Any] = [ffi.new("char[]", encode(quantities.input_name(name), "results"))
                       for name in results]
    options = ffi.new("bite_case_options *")
    options.struct_size = ffi.sizeof("bite_case_options")
    options.format = lib.BITE_CSV
    options.units = word_of(UNITS, units or home._shop_text("units") or "metric", "units")
    options.draws = whole(draws, "draws")
    options.confidence = home.confidence(confidence)
    options.threads = whole(threads, "threads", 16)
    if kept:
        listed = ffi.new("char *[]", kept)
        options.results, options.result_count = listed, len(kept)
    named = [(ffi.new("char[]", word.encode()), ffi.new("char[]", name.encode()))
             for word, name in _header.INPUT_WORDS.items()]
    table = ffi.new("bite_case_word[]", len(named))
    for entry, (word, name) in zip(table, named):
        entry.word, entry.input = word, name
    options.words, options.word_count = table, len(named)
    return _run(request._prepare(units=units, confidence=confidence), options, text,
                (kept, named, table))


def _run(request: Any, options: Any, text: str, borrowed: tuple[Any, ...]) -> str:
    """borrowed: what owns the memory that the options refer to."""
    collector = Collector()
    handle = owned("bite_cases", lib.bite_cases_new, lib.bite_cases_free, request, options, sink,
                   collector.handle, parent=(request, borrowed, collector))
    rows = encode(text, "text")
    error = new_error()
    status = lib.bite_cases_push(handle, rows, len(rows), error)
    if status == lib.BITE_OK:
        status = lib.bite_cases_end(handle, error)
    if collector.raised is not None:
        raise collector.raised
    check(status, error, "text")
    return b"".join(collector.pieces).decode("utf-8")
