# SPDX-License-Identifier: GPL-3.0-or-later
"""Coolbite: will this cut hold, and what do I enter at the machine?

    import coolbite
    answer = coolbite.cut(material="acrylic/cast", tool="0.8mm", flutes=2, machine="bench-24k",
                          spindle="12000rpm", feed="200mm/min", depth="0.4mm")
    print(answer.verdict, answer.values["surface_temperature"].value)   # K

Words are those of the command ``coolbite`` and the names of ``coolbite list inputs``. A quantity
is text ("200mm/min"), a pair (200, "mm/min"), or a number in SI (m, m/s, 1/s, K, rad). Results are
in SI. Every function may be called from any number of threads; the interpreter lock is released
while the library computes.

It does not replace the machine's manual, the safety data sheet or local rules.
"""
from __future__ import annotations

from typing import Any, Optional, Sequence, Union

from . import _header
from ._native import LIMITS, VALUES, VERDICTS
from ._native import path as library_file
from .batches import batch
from .cases import cases
from .errors import (ArgumentError, BusyError, Error, Fault, FileFormatError, InputOutputError,
                     LibraryFault, LibraryFileError, MissingError, MissingFileError, NoAnswerError,
                     NoMemoryError, PluginError, QuantityError, RangeError, StoppedError,
                     UnknownNameError, UnsafeError, WriteError)
from .library import Axis, Library, Path, Request, Window, default_library
from .quantities import QuantityLike, si
from .results import (Answer, Caution, Change, Choice, Input, Job, JobPass, Limit, Named, Quantity,
                      Remark, Settings, Value)

__version__ = _header.VERSION
Word = Optional[str]
Number = Optional[QuantityLike]


def cut(*, material: Word = None, tool: Number = None, machine: Word = None,
        spindle: Number = None, feed: Number = None, depth: Number = None, width: Number = None,
        flutes: Number = None, coolant: Word = None, holder: Word = None, hold: Word = None,
        draws: int = 0, confidence: Optional[float] = None, units: Word = None, rows: bool = False,
        threads: int = 1, **inputs: Number) -> Answer:
    """Judges given settings: will this cut hold?

    material: "acrylic/cast". tool: a name, or the diameter of a plain end mill. spindle: speed or
    surface speed (SI: 1/s). feed: rate, or per tooth as text (SI: m/s). depth, width: of this pass
    (SI: m). inputs: any other one by the command's word or its name, such as stickout, floor.
    None: not given. draws: for the bands, 16 to 65536; 0: the default number; 1: none.
    confidence: 0.5 to 0.999; clear means a chance below 1 minus this. units: of the text, "metric"
    or "inch". rows: True puts all limits and cautions into the text, as --rows does; the answer has
    them in any case. threads: 1 to 16.
    """
    return default_library().cut(
        material=material, tool=tool, machine=machine, spindle=spindle, feed=feed, depth=depth,
        width=width, flutes=flutes, coolant=coolant, holder=holder, hold=hold, draws=draws,
        confidence=confidence, units=units, rows=rows, threads=threads, **inputs)


def choose(*, material: Word = None, tool: Union[Number, Sequence[QuantityLike]] = None,
           machine: Word = None, feature_depth: Number = None, feature_width: Number = None,
           coolant: Word = None, goal: Word = None, effort: str = "whole",
           steps: Sequence[QuantityLike] = (), beyond_charts: bool = False, draws: int = 0,
           confidence: Optional[float] = None, units: Word = None, rows: bool = False,
           threads: int = 1, **inputs: Number) -> Choice:
    """Finds the settings to enter; those that are given are kept.

    tool: one, several of which the best is taken, or "any". goal: "cool", "gentle", "fine" or
    "fast". effort: "whole", or "quick" in a tenth of the time. steps: the only speeds that the
    spindle has. beyond_charts: feed per tooth and edge speed may exceed published ones. The others
    as for ``cut``.
    """
    return default_library().choose(
        material=material, tool=tool, machine=machine, feature_depth=feature_depth,
        feature_width=feature_width, coolant=coolant, goal=goal, effort=effort, steps=steps,
        beyond_charts=beyond_charts, draws=draws, confidence=confidence, units=units, rows=rows,
        threads=threads, **inputs)


def window(*, across: Optional[Axis] = None, up: Optional[Axis] = None, columns: int = 0,
           rows: int = 0, draws: int = 0, confidence: Optional[float] = None, units: Word = None,
           threads: int = 1, **inputs: Number) -> Window:
    """Maps where each limit lies over spindle speed and feed, or any two inputs.

    across, up: an input, or (input, least, most). columns, rows: of the grid, 2 to 401; 0: the
    usual ones. inputs: as for ``cut``; without spindle or feed those that ``choose`` finds.
    """
    return default_library().window(across=across, up=up, columns=columns, rows=rows, draws=draws,
                                    confidence=confidence, units=units, threads=threads, **inputs)


def job(path: Path, *, draws: int = 0, confidence: Optional[float] = None, units: Word = None,
        threads: int = 1, windows: bool = False) -> Job:
    """Plans a whole job from its file. Takes seconds; every fault of the file is in ``faults`` of
    the exception. windows: True puts the operating windows on the sheet, which takes longer."""
    return default_library().job(path, draws=draws, confidence=confidence, units=units,
                                 threads=threads, windows=windows)


def request(**words: Any) -> Request:
    """The inputs of a cut, to be judged, searched, mapped or varied in a ``batch``."""
    return default_library().request(**words)


__all__ = [
    "Answer", "ArgumentError", "BusyError", "Caution", "Change", "Choice", "Error", "Fault",
    "FileFormatError", "Input", "InputOutputError", "Job", "JobPass", "LIMITS", "Library",
    "LibraryFault", "LibraryFileError", "Limit", "MissingError", "MissingFileError", "Named",
    "NoAnswerError", "NoMemoryError", "PluginError", "Quantity", "QuantityError", "QuantityLike",
    "RangeError", "Remark", "Request", "Settings", "StoppedError", "UnknownNameError",
    "UnsafeError", "VALUES", "VERDICTS", "Value", "Window", "WriteError", "batch", "cases", "choose",
    "cut", "default_library", "job", "library_file", "request", "si", "window",
]
