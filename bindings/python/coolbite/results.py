# SPDX-License-Identifier: GPL-3.0-or-later
"""What an answer holds: frozen, without a handle of the library, so that it can be compared, kept
and sent to another process.

Numbers are in the SI unit that is named beside them; temperatures in K, rotation in 1/s. None means
that there is no such number.
"""
from __future__ import annotations

import dataclasses
import html
from collections.abc import Iterator, Mapping
from typing import Any, Generic, TypeVar

Item = TypeVar("Item")


class Named(Mapping[str, Item], Generic[Item]):
    """Things by their names, in the library's order; unchangeable."""

    __slots__ = ("_items",)

    def __init__(self, items: Mapping[str, Item]) -> None:
        self._items = dict(items)

    def __getitem__(self, name: str) -> Item:
        return self._items[name]

    def __iter__(self) -> Iterator[str]:
        return iter(self._items)

    def __len__(self) -> int:
        return len(self._items)

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Named) and self._items == other._items

    def __hash__(self) -> int:
        return hash(tuple(self._items.items()))

    def __repr__(self) -> str:
        return f"Named({self._items!r})"


@dataclasses.dataclass(frozen=True)
class Quantity:
    """A number with its unit, as it is entered at the machine."""

    value: float
    unit: str

    def __str__(self) -> str:
        return f"{self.value:g} {self.unit}"


@dataclasses.dataclass(frozen=True)
class Settings:
    """What to enter at the machine; None: it does not apply."""

    spindle: Quantity | None
    feed: Quantity | None
    depth: Quantity | None
    width: Quantity | None
    """None: a full slot."""

    def __str__(self) -> str:
        stated = ((field.name, getattr(self, field.name)) for field in dataclasses.fields(self))
        return ", ".join(f"{name} {quantity}" for name, quantity in stated if quantity)


@dataclasses.dataclass(frozen=True)
class Input:
    """One number of the cut, and where it came from."""

    name: str
    value: float | None
    """In ``unit``; None: not given, or a word."""
    low: float | None
    """5 % end of its band."""
    high: float | None
    """95 % end."""
    unit: str
    text: str
    """As a shop writes it; the word of an input that takes one."""
    given: bool
    """True: by the caller; False: from tables, the tool, defaults."""
    grade: str
    source: str


@dataclasses.dataclass(frozen=True)
class Value:
    """A computed number with its 90 % band."""

    name: str
    value: float | None
    """Best estimate, in ``unit``; None: no data."""
    low: float | None
    """5 % end; None without draws."""
    high: float | None
    """95 % end; None without draws."""
    unit: str
    grade: str
    source: str


@dataclasses.dataclass(frozen=True)
class Limit:
    """What the cut demands against what is there."""

    name: str
    applies: bool
    why: str
    """Why it does not apply; "" if it does."""
    demand: float | None
    """In ``unit``; rises of temperature in K."""
    capacity: float | None
    utilization: float | None
    """demand / capacity."""
    utilization_high: float | None
    """Its 95 % end; None without draws."""
    chance: float | None
    """That it is exceeded, 0 to 1; None without draws."""
    verdict: str
    """clear, tight, over, unknown or not_judged."""
    advisory: bool
    """True: never over, and does not restrict a choice."""
    in_corner: bool
    """The inside corner governs."""
    in_entry: bool
    """The entry move governs."""
    unit: str
    advice: str
    """What helps; "" if there is no advice."""
    grade: str
    source: str


@dataclasses.dataclass(frozen=True)
class Caution:
    """What to mind. It does not replace the machine's manual or the safety data sheet."""

    name: str
    severity: str
    """note, care or danger."""
    text: str
    source: str


@dataclasses.dataclass(frozen=True)
class Change:
    """A single change of an input, and what it is good for."""

    input: str
    to: str
    """As ``cut`` accepts it: "12000 rpm"."""
    because: str = ""
    """The limit that it relieves; ""."""
    chance_before: float | None = None
    """Of exceeding a limit, 0 to 1."""
    chance_after: float | None = None


@dataclasses.dataclass(frozen=True)
class Answer:
    """A judged cut. ``str()`` and ``print`` give the text of the command."""

    verdict: str
    """clear, tight, over or unknown."""
    chance: float | None
    """That a limit is exceeded, 0 to 1; None without draws."""
    draws: int
    material: str
    enter: Settings
    inputs: Named[Input]
    values: Named[Value]
    limits: Named[Limit]
    heat_share: Mapping[str, float | None]
    """To chip, tool and part, and stored in the chip; adds up to 1."""
    change_first: Change | None
    """The single change that helps most; None if none is needed or known."""
    measure_first: tuple[str, ...]
    """The inputs that widen the result most."""
    missing: tuple[str, ...]
    """Inputs whose figures are missing, so that the cut cannot be judged."""
    cautions: tuple[Caution, ...]
    text: str = dataclasses.field(repr=False, compare=False)
    """The answer as the command writes it."""
    json: str = dataclasses.field(repr=False, compare=False)
    """The answer as JSON, as the command writes it."""

    @property
    def sources(self) -> dict[str, str]:
        """Where each number came from, by the names of inputs, values and limits."""
        groups: tuple[Named[Any], ...] = (self.inputs, self.values, self.limits)
        return {name: f"{thing.grade}: {thing.source}" if thing.grade else thing.source
                for group in groups for name, thing in group.items() if thing.source}

    @property
    def worst(self) -> Limit | None:
        """Of the limits that are not advisory the likeliest to be exceeded, then the fullest."""

        def order(limit: Limit) -> tuple[float, float]:
            return limit.chance or 0.0, limit.utilization or 0.0

        judged = [limit for limit in self.limits.values() if limit.applies and not limit.advisory]
        return max(judged, key=order) if judged else None

    def __str__(self) -> str:
        return self.text

    def __repr__(self) -> str:
        chance = "" if self.chance is None else f", chance {100 * self.chance:.3g} %"
        return f"<{type(self).__name__} {self.material}: {self.verdict}{chance}; {self.enter}>"

    def _repr_html_(self) -> str:
        return f"<pre>{html.escape(self.text)}</pre>"


@dataclasses.dataclass(frozen=True, repr=False)
class Choice(Answer):
    """The best settings, and the cut that is judged at them."""

    goal: str
    """cool, gentle, fine or fast."""
    clear: bool
    """False: no settings are clear, and these are the least bad ones."""
    passes: int
    """Over the depth of the feature."""
    side_passes: int
    """Side by side over its width, at each depth."""
    binding: Mapping[str, float | None]
    """Limits that restrict the choice, and what one percent more capacity gains, in percent."""
    conflict: tuple[str, ...]
    """Limits that leave no clear settings."""
    freed_by: tuple[Change, ...]
    """Changes with which there are clear settings."""


@dataclasses.dataclass(frozen=True)
class JobPass:
    """One pass of a plan."""

    name: str
    title: str
    work: str
    tool: str
    setup: int
    count: int
    """How many features it makes on a part."""
    passes: int
    """Steps down."""
    seconds: float | None
    verdict: str
    chance: float | None
    enter: Settings
    limits: Named[Limit]
    cautions: tuple[Caution, ...]


@dataclasses.dataclass(frozen=True)
class Remark:
    """What a plan remarks: a default that was chosen, a caution, a fault to settle."""

    name: str
    severity: str
    """note, care or danger."""
    about: str
    text: str
    source: str


@dataclasses.dataclass(frozen=True)
class Job:
    """A planned job. ``str()`` gives the text of the command, ``html`` the pages to print."""

    title: str
    material: str
    verdict: str
    """The worst of its passes, its workholding and its fluids."""
    chance: float | None
    count: int
    """Parts."""
    setups: int
    seconds: float | None
    """The whole time, s."""
    passes: tuple[JobPass, ...]
    remarks: tuple[Remark, ...]
    data: Mapping[str, Any] = dataclasses.field(repr=False, compare=False)
    """All of the plan, as its JSON has it."""
    text: str = dataclasses.field(repr=False)
    html: str = dataclasses.field(repr=False)

    def __str__(self) -> str:
        return self.text

    def _repr_html_(self) -> str:
        # The page has styles of its own, which must not reach the notebook around it.
        return f'<iframe srcdoc="{html.escape(self.html)}" width="100%" height="640"></iframe>'


# ---- from what the library writes ----------------------------------------------------------------


def settings(written: Mapping[str, Any]) -> Settings:
    def one(name: str) -> Quantity | None:
        value = written.get(name)
        return None if value is None else Quantity(value, written[f"{name}_unit"])

    return Settings(one("spindle"), one("feed"), one("depth"), one("width"))


def fitting(kind: type, written: Mapping[str, Any]) -> dict[str, Any]:
    """What a newer library writes in addition is left out."""
    return {field.name: written[field.name] for field in dataclasses.fields(kind)
            if field.name in written}


def named(kind: type, written: list[Mapping[str, Any]],
          exact: Mapping[str, Mapping[str, Any]] | None = None) -> Named[Any]:
    """Things by name; exact: their numbers in full, which JSON rounds to 12 digits."""
    return Named({entry["name"]: kind(**{**fitting(kind, entry),
                                         **(exact or {}).get(entry["name"], {})})
                  for entry in written})


def cautions(written: list[Mapping[str, Any]]) -> tuple[Caution, ...]:
    return tuple(Caution(**fitting(Caution, entry)) for entry in written)


def answer_fields(written: Mapping[str, Any], exact: Mapping[str, Any], text: str,
                  json_text: str) -> dict[str, Any]:
    """The members of an Answer from its JSON and the exact numbers of its C result."""
    change = written["change_first"]
    return {
        "verdict": written["verdict"], "chance": exact["chance"], "draws": written["draws"],
        "material": written["material"], "enter": settings(written["enter"]),
        "inputs": named(Input, written["inputs"]),
        "values": named(Value, written["values"], exact["values"]),
        "limits": named(Limit, written["limits"], exact["limits"]),
        "heat_share": Named(written["heat_share"]),
        "change_first": None if change is None else Change(**fitting(Change, change)),
        "measure_first": tuple(written["measure_first"]),
        "missing": tuple(written["missing"]),
        "cautions": cautions(written["cautions"]),
        "text": text, "json": json_text,
    }


def choice_fields(written: Mapping[str, Any]) -> dict[str, Any]:
    return {
        "goal": written["goal"], "clear": written["clear"], "passes": int(written["passes"]),
        "side_passes": int(written["side_passes"]),
        "binding": Named({entry["name"]: entry["relax"] for entry in written["binding"]}),
        "conflict": tuple(entry["name"] for entry in written["conflict"]),
        "freed_by": tuple(Change(entry["input"], entry["enter"], chance_after=entry["chance"])
                          for entry in written["freed_by"]),
    }


def job(written: Mapping[str, Any], text: str, page: str) -> Job:
    passes = tuple(
        JobPass(entry["pass"], entry["title"], entry["work"], entry["tool"], int(entry["setup"]),
                int(entry["count"]), int(entry["passes"]), entry["seconds"], entry["verdict"],
                entry["chance"], settings(entry["enter"]), named(Limit, entry["limits"]),
                cautions(entry["cautions"])) for entry in written["passes"])
    remarks = tuple(Remark(entry["id"], entry["severity"], entry["about"], entry["text"],
                           entry["source"]) for entry in written["remarks"])
    return Job(written["title"], written["material"], written["verdict"], written["chance"],
               int(written["count"]), int(written["setups"]), written["time"]["whole"], passes,
               remarks, written, text, page)
