# SPDX-License-Identifier: GPL-3.0-or-later
"""Open tables, and what is asked of them."""
from __future__ import annotations

import json
import math
import os
import threading
from collections.abc import Iterable, Mapping
from typing import Any, Optional, Sequence, Tuple, Union

from . import _header, errors, quantities, results
from ._native import (BUNDLE, INPUTS, LIMITS, NULL, UNITS, VALUES, Collector, call, check,
                      collected, encode, encode_path, fault_sink, ffi, lib, new_error, owned, path,
                      style, text, word_of, write)
from .quantities import QuantityLike

Path = Union[str, "os.PathLike[str]"]
Axis = Union[str, Tuple[str, QuantityLike, QuantityLike]]

GOALS = {text(lib.bite_goal_word(i)): i for i in range(lib.BITE_GOAL_COUNT)}
EFFORTS = {"whole": lib.BITE_EFFORT_WHOLE, "quick": lib.BITE_EFFORT_QUICK}
COLLECTIONS = {
    name[len("BITE_"):].lower(): value
    for value, name in ffi.typeof("bite_collection").elements.items()
}
WORDS = tuple(sorted({*_header.RECORD_WORDS, *_header.INPUT_WORDS, *INPUTS}))


def folder_list(own: Any, key: str) -> list[str]:
    """Folders of the caller: one, several or none."""
    several = [] if own is None else own
    if isinstance(own, (str, os.PathLike)) or not isinstance(several, Iterable):
        several = [own]
    folders = []
    for folder in several:
        if not isinstance(folder, (str, os.PathLike)):
            raise TypeError(f"{key}: a path or a list of paths is expected, not {own!r}")
        folders.append(os.fspath(folder))
        if os.pathsep in folders[-1]:
            raise errors.ArgumentError(errors.Fault(
                f"{folder} holds a colon, which separates folders; give them as a list", key=key))
    return folders


def search_path(own: Sequence[str], environment: str, bundled: str) -> Optional[str]:
    """The folders to search first; those of a wheel with a library of its own come last."""
    listed = list(own)
    if os.path.dirname(path) == str(BUNDLE):
        homes = ((os.environ.get("XDG_CONFIG_HOME"), "~/.config"),
                 (os.environ.get("XDG_DATA_HOME"), "~/.local/share"))
        users = [os.path.join(home or os.path.expanduser(usual), "coolbite/tables")
                 for home, usual in homes] if bundled == "tables" else []
        listed += [os.environ.get(environment, ""), *users, str(BUNDLE / bundled)]
    return ":".join(folder for folder in listed if folder) or None


class Library:
    """Tables and plugins that are open: materials, tools, machines.

    table_path, family_path: folders of tables and of plugins that are searched first. tools: a
    tool list, which replaces the tools of the tables. shop: what is used where nothing else is
    stated: the path of a coolbite.ini, True for the user's own, False for none.

    Any number of threads may use one library at the same time. It is closed by ``with``, by
    ``close`` or with its last user; a window keeps the tables that it needs. A library that is
    sent to another process is opened there with the same arguments.
    """

    def __init__(self, *, table_path: Optional[Union[Path, Iterable[Path]]] = None,
                 family_path: Optional[Union[Path, Iterable[Path]]] = None,
                 tools: Optional[Path] = None, shop: Union[bool, Path] = False) -> None:
        tables = folder_list(table_path, "table_path")
        families = folder_list(family_path, "family_path")
        self._arguments: dict[str, Any] = {"table_path": tables, "family_path": families,
                                           "tools": tools, "shop": shop}
        options = ffi.new("bite_library_options *")
        options.struct_size = ffi.sizeof("bite_library_options")
        kept = []
        for member, folders in (
                ("table_path", search_path(tables, "COOLBITE_TABLE_PATH", "tables")),
                ("family_path", search_path(families, "COOLBITE_FAMILY_PATH", "families"))):
            if folders is not None:
                kept.append(ffi.new("char[]", encode_path(folders, member)))
                setattr(options, member, kept[-1])
        self._shop = self._open_shop(shop)
        handle = owned("bite_library", lib.bite_library_open, lib.bite_library_close, options,
                       parent=self._shop)
        tools = tools if tools is not None else self._shop_text("tool_list")
        if tools is not None:
            call(lib.bite_library_use_tools, handle, encode_path(tools, "tools"), key="tools")
        if self._shop is not None:
            call(lib.bite_shop_check, self._shop, handle)
        self._handle: Any = handle
        self._used_tools = self._arguments["tools"] is None and tools is not None

    @staticmethod
    def _open_shop(shop: Union[bool, Path]) -> Any:
        if shop is False or shop is None:
            return None
        named = NULL if shop is True else encode_path(shop, "shop")
        return owned("bite_shop", lib.bite_shop_open, lib.bite_shop_free, named)

    def _shop_text(self, key: str) -> Optional[str]:
        if self._shop is None:
            return None
        return text(lib.bite_shop_text(self._shop, key.encode())) or None

    def _opened(self) -> Any:
        handle = self._handle
        if handle is None:
            raise errors.ArgumentError(errors.Fault("this library is closed", key="library"))
        return handle

    def __reduce__(self) -> tuple[Any, ...]:
        return _reopen, (self._arguments,)

    def __enter__(self) -> Library:
        self._opened()
        return self

    def __exit__(self, *_raised: object) -> None:
        self.close()

    def close(self) -> None:
        """Closes the tables, once no window of them is left. Twice is allowed."""
        self._handle = None

    def names(self, collection: str) -> tuple[str, ...]:
        """Names in a collection: grades, tools, machines, holders, holds, fluids, left_out ..."""
        handle, item = self._opened(), ffi.new("bite_item *")
        which = word_of(COLLECTIONS, collection, "collection")
        found = []
        for index in range(lib.bite_library_count(handle, which)):
            call(lib.bite_library_item, handle, which, index, item)
            found.append(text(item.name))
        return tuple(found)

    def request(self, **words: Any) -> Request:
        """The inputs of a cut, for ``cut``, ``choose``, ``window`` and ``batch``."""
        return Request(self, words)

    def cut(self, *, draws: int = 0, confidence: Optional[float] = None,
            units: Optional[str] = None, rows: bool = False, threads: int = 1,
            **words: Any) -> results.Answer:
        """Judges given settings; see ``coolbite.cut``."""
        return self.request(**words).cut(draws=draws, confidence=confidence, units=units,
                                         rows=rows, threads=threads)

    def choose(self, *, tool: Any = None, goal: Optional[str] = None, effort: str = "whole",
               steps: Sequence[QuantityLike] = (), beyond_charts: bool = False, draws: int = 0,
               confidence: Optional[float] = None, units: Optional[str] = None,
               rows: bool = False, threads: int = 1, **words: Any) -> results.Choice:
        """Finds settings; see ``coolbite.choose``."""
        return self.request(**words).choose(
            tool=tool, goal=goal, effort=effort, steps=steps, beyond_charts=beyond_charts,
            draws=draws, confidence=confidence, units=units, rows=rows, threads=threads)

    def window(self, *, across: Optional[Axis] = None, up: Optional[Axis] = None,
               columns: int = 0, rows: int = 0, draws: int = 0,
               confidence: Optional[float] = None, units: Optional[str] = None, threads: int = 1,
               **words: Any) -> Window:
        """Maps where each limit lies; see ``coolbite.window``."""
        return self.request(**words).window(
            across=across, up=up, columns=columns, rows=rows, draws=draws, confidence=confidence,
            units=units, threads=threads)

    def job(self, path: Path, *, draws: int = 0, confidence: Optional[float] = None,
            units: Optional[str] = None, threads: int = 1, windows: bool = False) -> results.Job:
        """Plans a job file; see ``coolbite.job``."""
        handle = self._opened()
        options = ffi.new("bite_job_options *")
        options.struct_size = ffi.sizeof("bite_job_options")
        options.units = word_of(UNITS, units or self._shop_text("units") or "metric", "units")
        options.units_given = units is not None
        options.threads = whole(threads, "threads")
        options.draws = whole(draws, "draws")
        options.confidence = self.confidence(confidence)
        options.windows = bool(windows)
        if self._shop is not None:
            options.shop = self._shop
        place, error, faults = ffi.new("bite_job **"), new_error(), Collector()
        status = lib.bite_job_open(handle, encode_path(path, "path"), options, fault_sink,
                                   faults.handle, place, error)
        if faults.raised is not None:
            raise faults.raised
        check(status, error, "path", tuple(faults.faults))
        planned = collected(place[0], lib.bite_job_free, handle)
        shown = units or self._shop_text("units") or "metric"
        written = [write(lib.bite_job_write, planned, style(form, shown))
                   for form in ("json", "text", "html")]
        return results.job(json.loads(written[0]), *written[1:])

    def confidence(self, given: Optional[float]) -> float:
        """A confidence that is given, else that of the shop, else 0.90."""
        if given is not None:
            return quantities.number(given, "confidence", "a number")
        stated = math.nan if self._shop is None else lib.bite_shop_number(self._shop,
                                                                          b"confidence")
        return 0.90 if math.isnan(stated) else stated


def _reopen(arguments: dict[str, Any]) -> Library:
    return Library(**arguments)


def whole(given: Any, key: str, most: int = 2**31) -> int:
    """A count."""
    value = quantities.number(given, key, "a whole number")
    if value != int(value) or not 0 <= value <= most:
        raise errors.RangeError(errors.Fault(
            f"a whole number from 0 to {most} is expected, not {given}", key=key))
    return int(value)


def tool_text(given: Any) -> Any:
    """The name of a tool; a diameter, as a pair or in m, stands for a plain one."""
    if isinstance(given, str):
        return given
    return quantities.pair_text(given if isinstance(given, (tuple, list)) else (given, "m"),
                                "tool")


def exact_numbers(result: Any) -> dict[str, Any]:
    """The numbers of a C result in full: JSON has 12 digits of them."""

    def plain(number: float) -> Optional[float]:
        return number if math.isfinite(number) else None

    def members(entry: Any, wanted: Sequence[str]) -> dict[str, Optional[float]]:
        return {name: plain(getattr(entry, name)) for name in wanted}

    return {
        "chance": plain(result.chance),
        "values": {name: members(result.values[i], ("value", "low", "high"))
                   for i, name in enumerate(VALUES) if i < result.value_count},
        "limits": {name: members(result.limits[i], ("demand", "capacity", "utilization",
                                                    "utilization_high", "chance"))
                   for i, name in enumerate(LIMITS) if i < result.limit_count},
    }


class Request:
    """The inputs of a cut, unchangeable, to be judged, searched, mapped or varied in a batch."""

    def __init__(self, library: Library, words: Mapping[str, Any]) -> None:
        self.library = library
        self.words = dict(words)
        self._prepare()  # what is wrong with them is said now

    def __repr__(self) -> str:
        return f"Request({', '.join(f'{word}={self.words[word]!r}' for word in self.words)})"

    def _prepare(self, threads: int = 1, units: Optional[str] = None,
                 confidence: Optional[float] = None) -> Any:
        """A request of the library with these words: one for each call, so that threads do not
        meet in it."""
        library = self.library
        handle = library._opened()
        shop = library._shop
        request = owned("bite_request", lib.bite_request_new, lib.bite_request_free, handle,
                        parent=(handle, shop))
        if shop is not None:
            call(lib.bite_request_use_shop, request, shop)
            taken = (("units", units is None), ("confidence", confidence is None),
                     ("tool_list", library._used_tools))
            for key, takes in taken:
                if takes and library._shop_text(key) is not None:
                    call(lib.bite_request_take_from_shop, request, key.encode())
        call(lib.bite_request_threads, request, whole(threads, "threads"), key="threads")
        for word, given in self.words.items():
            if given is not None:
                self._set(request, word, given)
        return request

    @staticmethod
    def _set(request: Any, word: str, given: Any) -> None:
        collection = _header.RECORD_WORDS.get(word)
        if collection is None:
            quantities.set_input(request, word, given)
            return
        if word == "tool":
            given = tool_text(given)
        call(lib.bite_request_use, request, getattr(lib, collection), encode(given, word),
             key=word)

    def flat(self) -> Any:
        """The numbers that would be used, as a ``bite_cut`` of C: the template of a batch."""
        cut = ffi.new("bite_cut *")
        call(lib.bite_request_cut_sized, self._prepare(), cut, ffi.sizeof("bite_cut"))
        return cut

    def _judged(self, draws: int, confidence: Optional[float], units: Optional[str],
                threads: int) -> Any:
        return owned("bite_answer", lib.bite_answer_new, lib.bite_answer_free,
                     self._prepare(threads, units, confidence), whole(draws, "draws"),
                     self.library.confidence(confidence), parent=self.library._opened())

    def _answer_fields(self, answer: Any, writer: Any, written_of: Any,
                       units: Optional[str],
                       rows: bool) -> tuple[dict[str, Any], dict[str, Any]]:
        shown = units or self.library._shop_text("units") or "metric"
        json_text = write(writer, written_of, style("json", shown))
        written = json.loads(json_text)
        exact = exact_numbers(lib.bite_answer_result(answer))
        return written, results.answer_fields(
            written, exact, write(writer, written_of, style("text", shown, rows)), json_text)

    def cut(self, *, draws: int = 0, confidence: Optional[float] = None,
            units: Optional[str] = None, rows: bool = False,
            threads: int = 1) -> results.Answer:
        """Judges these inputs; see ``coolbite.cut``."""
        answer = self._judged(draws, confidence, units, threads)
        return results.Answer(**self._answer_fields(answer, lib.bite_answer_write, answer, units,
                                                    rows)[1])

    def choose(self, *, tool: Any = None, goal: Optional[str] = None, effort: str = "whole",
               steps: Sequence[QuantityLike] = (), beyond_charts: bool = False, draws: int = 0,
               confidence: Optional[float] = None, units: Optional[str] = None,
               rows: bool = False, threads: int = 1) -> results.Choice:
        """Finds the settings that are free; see ``coolbite.choose``."""
        choice = self._choice(tool, goal, effort, steps, beyond_charts, draws, confidence, units,
                              threads)
        written, fields = self._answer_fields(lib.bite_choice_answer(choice),
                                              lib.bite_choice_write, choice, units, rows)
        return results.Choice(**fields, **results.choice_fields(written))

    def _choice(self, tool: Any, goal: Optional[str], effort: str,
                steps: Sequence[QuantityLike], beyond_charts: bool, draws: int,
                confidence: Optional[float], units: Optional[str], threads: int) -> Any:
        request = self._prepare(threads, units, confidence)
        options = ffi.new("bite_choice_options *")
        options.struct_size = ffi.sizeof("bite_choice_options")
        options.goal = lib.BITE_GOAL_USUAL if goal is None else word_of(GOALS, goal, "goal")
        options.units = word_of(UNITS, units or self.library._shop_text("units") or "metric",
                                "units")
        options.effort = word_of(EFFORTS, effort, "effort")
        options.draws = whole(draws, "draws")
        options.confidence = self.library.confidence(confidence)
        options.beyond_charts = bool(beyond_charts)
        names = [ffi.new("char[]", name) for name in self._tools(request, tool)]
        if names:
            listed = ffi.new("char *[]", names)
            options.tools, options.tool_count = listed, len(names)
        if steps:
            speeds = ffi.new("double[]", [quantities.si(step, "spindle") for step in steps])
            options.steps, options.step_count = speeds, len(steps)
        return owned("bite_choice", lib.bite_choice_new, lib.bite_choice_free, request, options,
                     parent=self.library._opened())

    def _tools(self, request: Any, tool: Any) -> list[bytes]:
        """The tools that are compared: those given, else those at hand by the set-up."""
        tool = self.words.get("tool") if tool is None else tool
        if tool is None and self.library._shop is not None and "thread" not in self.words:
            found: list[bytes] = []
            while True:
                name = lib.bite_shop_tool(self.library._shop, len(found))
                if name == NULL:
                    break
                found.append(text(name).encode())
            if found:
                call(lib.bite_request_take_from_shop, request, b"at_hand")
            return found
        if tool is None:
            return []
        several = isinstance(tool, (list, set, frozenset)) or (
            isinstance(tool, tuple) and not quantities.is_pair(tool))
        return [encode(tool_text(one), "tool") for one in (tool if several else [tool])]

    def window(self, *, across: Optional[Axis] = None, up: Optional[Axis] = None,
               columns: int = 0, rows: int = 0, draws: int = 0,
               confidence: Optional[float] = None, units: Optional[str] = None,
               threads: int = 1) -> Window:
        """Maps where each limit lies around these inputs; see ``coolbite.window``."""
        stated = {quantities.input_name(word) for word, given in self.words.items()
                  if given is not None}
        owner = None
        if {"spindle_speed", "feed_rate"} <= stated:
            owner = answer = self._judged(draws, confidence, units, threads)
        else:
            owner = self._choice(None, None, "whole", (), False, draws, confidence, units,
                                 threads)
            answer = lib.bite_choice_answer(owner)
        options = ffi.new("bite_window_options *")
        options.struct_size = ffi.sizeof("bite_window_options")
        options.columns, options.rows = whole(columns, "columns", 401), whole(rows, "rows", 401)
        kept = [self._axis(options, "across", across), self._axis(options, "up", up)]
        handle = owned("bite_window", lib.bite_window_new, lib.bite_window_free, answer, options,
                       parent=(owner, kept))
        fields = self._answer_fields(answer, lib.bite_answer_write, answer, units, False)[1]
        return Window(handle, results.Answer(**fields),
                      units or self.library._shop_text("units") or "metric")

    @staticmethod
    def _axis(options: Any, which: str, axis: Optional[Axis]) -> Any:
        word: Any
        word, ends = (axis, ()) if axis is None or isinstance(axis, str) else (axis[0], axis[1:])
        if len(ends) not in (0, 2) or (ends and not isinstance(word, str)):
            raise TypeError(f"{which}: a name, or (name, least, most) is expected")
        for end, position in (("least", 0), ("most", 1)):
            setattr(options, f"{which}_{end}",
                    quantities.si(ends[position], word) if ends else math.nan)
        if word is None:
            return None
        name = ffi.new("char[]", encode(quantities.input_name(word), which))
        setattr(options, which, name)
        return name


class Window:
    """Where each limit lies over two inputs. A notebook shows it as its picture.

    It holds its numbers in the library until it is forgotten. It cannot be sent to another
    process: send ``svg()``, ``csv()`` or ``data()``.
    """

    def __init__(self, handle: Any, answer: results.Answer, units: str) -> None:
        self._handle, self._units = handle, units
        self.answer = answer
        """The judged cut at the settings in use."""

    @property
    def verdict(self) -> str:
        """Of the settings in use."""
        return self.answer.verdict

    @property
    def chance(self) -> Optional[float]:
        """That a limit is exceeded there, 0 to 1; None without draws."""
        return self.answer.chance

    def _written(self, form: str) -> str:
        return write(lib.bite_window_write, self._handle, style(form, self._units))

    def svg(self) -> str:
        """The picture."""
        return self._written("svg")

    def html(self) -> str:
        """A page that reads every limit at any place of the grid; it needs no network."""
        return self._written("html")

    def csv(self) -> str:
        """The numbers as CSV."""
        return self._written("csv")

    def data(self) -> dict[str, Any]:
        """The numbers as the JSON of the command has them: axes, verdicts, limits, in SI."""
        return json.loads(self._written("json"))

    def __str__(self) -> str:
        return self._written("text")

    def __repr__(self) -> str:
        return f"<Window {self.answer!r}>"

    def __reduce__(self) -> tuple[Any, ...]:
        raise TypeError("a window cannot be sent to another process: send its svg() or data()")

    def _repr_svg_(self) -> str:
        return self.svg()


_default: Optional[Library] = None
_lock = threading.Lock()


def default_library() -> Library:
    """The library of the functions of the module: opened when it is first needed, without a
    shop's set-up, so that the same program has the same answers everywhere."""
    global _default
    with _lock:
        if _default is None or _default._handle is None:
            _default = Library()
        return _default
