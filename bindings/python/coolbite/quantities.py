# SPDX-License-Identifier: GPL-3.0-or-later
"""Quantities: text, a number with its unit, or a plain number in SI."""
from __future__ import annotations

import decimal
import math
import numbers
from typing import Any, Tuple, Union

from . import _header, errors
from ._native import INPUTS, call, encode, ffi, lib, text

QuantityLike = Union[str, float, Tuple[float, str]]
"""``"400mm/min"``, ``(400, "mm/min")``, or a number in the SI unit of the input."""


def input_name(word: str) -> str:
    """The name of an input by its name or the command's word: spindle is spindle_speed."""
    name = word.replace("-", "_")
    return _header.INPUT_WORDS.get(name, name)


QUANTITY = "a quantity such as '2mm', a pair such as (2, 'mm') or a number in SI"


def number(given: Any, key: str, expected: str = QUANTITY) -> float:
    """A finite number; NumPy's scalars are numbers, too."""
    if getattr(given, "ndim", None) == 0 and hasattr(given, "item"):
        given = given.item()
    if isinstance(given, bool) or not isinstance(given, (numbers.Real, decimal.Decimal)):
        raise TypeError(f"{key}: {expected} is expected, not {type(given).__name__}")
    try:
        value = float(given)
    except OverflowError:
        value = math.inf
    if not math.isfinite(value):
        raise errors.QuantityError(errors.Fault(f"{str(given)[:40]} is not a measurable number",
                                                key=key))
    return value


def is_pair(given: Any) -> bool:
    """Whether it is a number and a unit, not two texts."""
    return len(given) == 2 and isinstance(given[1], str) and not isinstance(given[0], str)


def pair_text(pair: Any, key: str) -> str:
    """(2, "mm") as the library reads it."""
    if not is_pair(pair):
        raise TypeError(f"{key}: a pair of a number and a unit is expected, such as (2, 'mm')")
    digits = format(decimal.Decimal(repr(number(pair[0], key))), "f")
    return f"{digits} {pair[1].strip()}"


def set_input(request: Any, word: str, given: Any) -> None:
    """Sets an input of a request."""
    name = input_name(word)
    key = encode(name, "name of an input")
    if isinstance(given, bool) and name in INPUTS:
        entry = lib.bite_input_at(INPUTS[name])
        if text(lib.bite_input_word(entry, 0)) == "no":
            given = "yes" if given else "no"
    if isinstance(given, (tuple, list)):
        given = pair_text(given, word)
    if isinstance(given, str):
        call(lib.bite_request_set, request, key, encode(given, word), key=word)
    else:
        call(lib.bite_request_set_number, request, key, number(given, word), key=word)


def si(quantity: QuantityLike, name: str) -> float:
    """A quantity in the SI unit of an input: ``si("400mm/min", "feed")`` is 0.00667 (m/s).

    For columns of a batch: ``frame["feed"] * si("1mm/min", "feed")``.
    """
    entry = lib.bite_input_find(encode(input_name(name), "name"))
    if entry == ffi.NULL or entry.words > 0:
        raise errors.UnknownNameError(errors.Fault(f"{name} is not an input that is a number",
                                                   key="name"))
    if isinstance(quantity, (tuple, list)):
        quantity = pair_text(quantity, name)
    if not isinstance(quantity, str):
        return number(quantity, name)
    value = ffi.new("double *")
    call(lib.bite_quantity_read, encode(quantity, name), entry.kind, value, key=name)
    return value[0]
