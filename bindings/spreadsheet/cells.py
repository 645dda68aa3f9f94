# SPDX-License-Identifier: GPL-3.0-or-later
"""What the spreadsheet functions compute: arguments of a cell to a number, a word or a fault.

Nothing here knows the office program; functions.py calls it. A fault is text that begins with
"Fault: ", so that a formula that computes with it shows an error and never a number.
"""
from __future__ import annotations

import csv
import decimal
import functools
import io
import math
import os
import re
from typing import Any, Callable, NamedTuple, Optional, Union

Cell = Union[float, str]

FAULT = "Fault: "
USUAL = "-"
"""The value of an input that is not given: what tables and defaults say."""

DRAWN = ("verdict", "chance", "worst_limit", "worst_utilization")
"""Results that rest on draws of the uncertain inputs, as in the answer of ``coolbite cut``."""
DRAWS = 4096

PLAIN = (
    "spindle_speed", "feed_rate", "entry_feed", "depth", "width", "path_length", "diameter",
    "flute_length", "neck_diameter", "neck_length", "shank_diameter", "stickout", "tolerance",
    "inside_radius", "feature_depth", "feature_width", "floor_thickness", "wall_thickness",
    "wall_height", "wall_length", "room_temperature", "hole_diameter", "tip_diameter", "tip_below")
"""Inputs of which a number without a unit is in the usual one (mm, mm/min, rpm, degC): those that
no shop writes in another, as roughness and runout are. The library refuses the others."""

OPTIONS = ("units", "draws", "confidence", "goal", "effort")
SETTINGS = ("spindle", "feed", "depth", "width")
CHOSEN = (*SETTINGS, "passes", "side_passes", "verdict", "chance", "cautions")

CAUTIONS = "cautions"
SEVERITIES = {"danger": "DANGER: ", "care": "Caution: "}
"""Cautions that a cell shows, as the command writes them; notes are not shown."""


class CellFault(Exception):
    """What is wrong with the arguments of a cell."""


class Cut(NamedTuple):
    """Arguments in a form that can be compared: what has the same form has the same answer."""

    words: tuple[tuple[str, str], ...]
    options: tuple[tuple[str, str], ...]

    def option(self, name: str, usual: Any = None) -> Any:
        return dict(self.options).get(name, usual)

    def number(self, name: str, usual: Optional[float] = None) -> Optional[float]:
        given = self.option(name)
        if given is None:
            return usual
        try:
            return float(given)
        except ValueError:
            raise CellFault(f"{name}: a number is expected, not {given}") from None


@functools.lru_cache(maxsize=None)
def imported() -> tuple[Any, str]:
    """The package coolbite and "", or None and why there is none: tried once, not in each cell."""
    try:
        import coolbite
    except ModuleNotFoundError as error:
        return None, (f"the Python of this office program has no {error.name}; install cffi for it "
                      "(Debian: apt install python3-cffi)")
    except ImportError as error:
        return None, one_line(error) if hasattr(error, "fault") else str(error)
    return coolbite, ""


def package() -> Any:
    """The package coolbite, when it is first needed, so that a cell can say why it is not there."""
    coolbite, fault = imported()
    if coolbite is None:
        raise CellFault(fault)
    return coolbite


# ---- arguments -----------------------------------------------------------------------------------


def flat(argument: Any) -> tuple[list[Any], bool]:
    """The cells of an argument, row by row, and whether it is a range."""
    if isinstance(argument, (tuple, list)):
        return [cell for row in argument
                for cell in (row if isinstance(row, (tuple, list)) else (row,))], True
    return [argument], False


def digits(number: float) -> str:
    """A number as the library reads it, without an exponent."""
    if not math.isfinite(number):
        raise CellFault("a number is not finite")
    if abs(number) >= 1e15:  # nothing that a shop has: the library says so
        return repr(number)
    whole = number == int(number)
    return str(int(number)) if whole else format(decimal.Decimal(repr(number)), "f")


def split(name: Any) -> tuple[str, str]:
    """"feed [mm/min]" is feed, mm/min."""
    if not isinstance(name, str) or not name.strip():
        shown = "an empty cell" if name in (None, "", 0) else f"{name!r}"
        raise CellFault(f"a name such as feed or feed [mm/min] is expected, not {shown}; names "
                        "and values take turns")
    found = re.fullmatch(r"([^\[\]]*?)\s*(?:\[\s*([^\[\]]*?)\s*\])?", name.strip())
    if found is None or not found.group(1) or not name.isprintable():
        raise CellFault(f"{name!r}: a name such as feed or feed [mm/min] is expected")
    return found.group(1), found.group(2) or ""


@functools.lru_cache(maxsize=None)
def units_of(system: str) -> dict[str, str]:
    """The usual unit of each input that may be a plain number, as the library names it."""
    coolbite = package()
    line, = csv.reader(io.StringIO(coolbite.cases("material\n", PLAIN, units=system)))
    headings = [split(heading) for heading in line[1:-1]]
    return {name: unit for name, unit in headings if unit}


def stated(name: str, unit: str, value: Any, in_range: bool, system: str) -> Optional[str]:
    """The text of a value with its unit; None: not given."""
    if value is None or value == "":
        raise CellFault(f"{name} is missing: its cell is empty; enter it, or {USUAL} for the usual "
                        "value")
    # Calc hands over an empty cell as 0, unless it is part of a range.
    if value == 0 and not in_range:
        raise CellFault(f"{name} is missing: its cell is empty or 0; where 0 is meant, write it as "
                        "text with its unit, such as 0 mm")
    if isinstance(value, str):
        value = value.strip()
        if not value.isprintable():
            raise CellFault(f"{name}: the text has a line break or another control character")
        numeric = re.fullmatch(r"[+-]?[0-9.]+([eE][+-]?[0-9]+)?", value)
        return None if value == USUAL else f"{value} {unit}" if unit and numeric else value
    if not isinstance(value, (int, float)):
        raise CellFault(f"{name}: a number or text is expected, not {type(value).__name__}")
    if not unit and name not in OPTIONS:
        key = "diameter" if name == "tool" else package().quantities.input_name(name)
        unit = units_of(system).get(key, "")
    return f"{digits(value)} {unit}".rstrip()


def cut_of(arguments: Any) -> Cut:
    """Names and values in turn, single or as ranges of the same size."""
    given: list[tuple[str, str, Any, bool]] = []
    for at in range(0, len(arguments), 2):
        names, _ = flat(arguments[at])
        if at + 1 == len(arguments):
            raise CellFault(f"{split(names[0])[0]} has no value; names and values take turns")
        values, in_range = flat(arguments[at + 1])
        if len(names) != len(values):
            raise CellFault(f"{len(names)} names, but {len(values)} values, from "
                            f"{split(names[0])[0]} on")
        given += [(*split(name), value, in_range) for name, value in zip(names, values)]
    system = next((value for name, _, value, _ in given if name == "units"), "metric")
    if system not in ("metric", "inch"):
        raise CellFault(f"units: metric or inch is expected, not {system or 'an empty cell'}")
    words: dict[str, str] = {}
    options: dict[str, str] = {}
    seen: set[str] = set()
    for name, unit, value, in_range in given:
        key = package().quantities.input_name(name)
        if key in seen:
            raise CellFault(f"{name} is stated twice")
        seen.add(key)
        text = stated(name, unit, value, in_range, str(system))
        if text is not None:
            (options if name in OPTIONS else words)[name] = text
    return Cut(tuple(words.items()), tuple(options.items()))


# ---- answers -------------------------------------------------------------------------------------


def one_line(error: Any) -> str:
    """An error of the library: where, what, and what to do."""
    fault = error.fault
    place = fault.file + (f":{fault.line}" if fault.file and fault.line else "")
    text = ": ".join(part for part in (place, fault.key, fault.message) if part)
    return f"{text}; {fault.hint}" if fault.hint else text


@functools.lru_cache(maxsize=1 << 16)
def judged(cut: Cut, results: tuple[str, ...], drawn: bool) -> tuple[str, dict[str, str]]:
    """The fault of a cut, "" if there is none, and its results by their headings."""
    coolbite = package()
    for name in ("goal", "effort"):
        if cut.option(name) is not None:
            raise CellFault(f"{name} is of a choice, not of a cut")
    table = io.StringIO()
    writer = csv.writer(table, lineterminator="\n")
    writer.writerow([name for name, _ in cut.words] or ["note"])
    writer.writerow([text for _, text in cut.words] or ["none"])
    draws = int(cut.number("draws", DRAWS) or 0) if drawn else 0
    try:
        answer = coolbite.cases(table.getvalue(), results, draws=draws, threads=processors(),
                                units=cut.option("units", "metric"),
                                confidence=cut.number("confidence"))
    except coolbite.Error as error:
        return one_line(error), {}
    headings, row = csv.reader(io.StringIO(answer))
    first = len(headings) - len(results) - 1
    return row[-1], dict(zip(headings[first:-1], row[first:-1]))


@functools.lru_cache(maxsize=4096)
def chosen(cut: Cut) -> Any:
    """The choice for these inputs, or its fault."""
    coolbite = package()
    goal, effort = cut.option("goal"), cut.option("effort", "whole")
    try:
        return coolbite.choose(goal=goal, effort=effort, draws=int(cut.number("draws", 0) or 0),
                               units=cut.option("units", "metric"), threads=processors(),
                               confidence=cut.number("confidence"), **dict(cut.words))
    except coolbite.Error as error:
        return one_line(error)


@functools.lru_cache(maxsize=4096)
def warned(cut: Cut) -> str:
    """The cautions of a cut that need no draws, a line each."""
    coolbite = package()
    return caution_text(coolbite.cut(draws=1, units=cut.option("units", "metric"),
                                     **dict(cut.words)).cautions)


def caution_text(cautions: Any) -> str:
    return "\n".join(SEVERITIES[severity] + caution.text for severity in SEVERITIES
                     for caution in cautions if caution.severity == severity)


def processors() -> int:
    """Threads of a call; no digit depends on them."""
    return min(16, os.cpu_count() or 1)


def in_unit(what: str, unit: str, answered: str) -> None:
    """Refuses a heading that names another unit than the number below it has."""
    if unit and unit != answered:
        raise CellFault(f"{what} is in {answered or 'no unit'} here, not in {unit}")


def cell(function: Callable[..., Cell]) -> Callable[..., Cell]:
    """Faults as text, whatever happens: a cell has no other place for them."""

    @functools.wraps(function)
    def safely(*arguments: Any) -> Cell:
        try:
            return function(*arguments)
        except CellFault as fault:
            return FAULT + str(fault)
        except Exception as error:
            text = one_line(error) if hasattr(error, "fault") else str(error)
            return FAULT + (text.replace("\n", " ") or type(error).__name__)

    return safely


@cell
def value(what: Any, *arguments: Any) -> Cell:
    """A result of a cut by its name."""
    name, unit = split(what)
    if name == CAUTIONS:
        return warned(cut_of(arguments)) or "none"
    name = package().quantities.input_name(name)
    base, _, part = name.rpartition(".")
    results: tuple[str, ...] = (name,)
    drawn = False
    if name in DRAWN:
        results, drawn = DRAWN, True
    elif part in ("low", "high"):
        results, drawn = (f"{base}.low", f"{base}.high"), True
    elif part == "chance":
        drawn = True
    fault, answers = judged(cut_of(arguments), results, drawn)
    if fault:
        raise CellFault(fault)
    for heading, text in answers.items():
        found, answered = split(heading)
        if found == name:
            in_unit(name, unit, answered)
            return as_cell(name, text)
    raise CellFault(f"{name}: no such result")


def as_cell(name: str, text: str) -> Cell:
    if not text:
        raise CellFault(f"{name} has no number: it does not apply to this cut, or a figure is "
                        "missing")
    try:
        number = float(text)
    except ValueError:
        return text
    return number if math.isfinite(number) else text


@cell
def verdict(*arguments: Any) -> Cell:
    """clear, tight, over or unknown."""
    return value("verdict", *arguments)


@cell
def choice(what: Any, *arguments: Any) -> Cell:
    """A setting of the best ones that are clear."""
    name, unit = split(what)
    if name not in CHOSEN:
        raise CellFault(f"{name} is not a result of a choice: {', '.join(CHOSEN)}")
    found = chosen(cut_of(arguments))
    if isinstance(found, str):
        raise CellFault(found)
    if name == CAUTIONS:
        return caution_text(found.cautions) or "none"
    if name in ("verdict", "chance"):
        answer = getattr(found, name)
        return as_cell(name, "" if answer is None else str(answer))
    if not found.clear:
        way = f"; {found.freed_by[0].input} {found.freed_by[0].to} would" if found.freed_by else ""
        raise CellFault(f"no settings are clear, because of {', '.join(found.conflict)}{way}")
    if name not in SETTINGS:
        return float(getattr(found, name))
    setting = getattr(found.enter, name)
    if setting is None:
        return "full slot" if name == "width" else as_cell(name, "")
    in_unit(name, unit, setting.unit)
    return float(setting.value)
