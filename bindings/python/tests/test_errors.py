# SPDX-License-Identifier: GPL-3.0-or-later
"""Bad input: an exception of the right class with what, where and what to do."""
import decimal
import pickle

import pytest

import coolbite
from coolbite import _native, errors


def test_every_status_has_a_class():
    for status in range(1, _native.lib.BITE_STOPPED + 1):
        assert _native.text(_native.lib.bite_status_name(status)) in errors.BY_STATUS
    assert all(issubclass(kind, coolbite.Error) for kind in errors.BY_STATUS.values())


@pytest.mark.parametrize("word, given, kind, says", [
    ("feed", "100mm", coolbite.QuantityError, "a feed rate was expected"),
    ("feed", "", coolbite.QuantityError, ""),
    ("feed", float("nan"), coolbite.QuantityError, "not a measurable number"),
    ("feed", (float("inf"), "mm/min"), coolbite.QuantityError, "not a measurable number"),
    ("feed", 10**400, coolbite.QuantityError, "not a measurable number"),
    ("feed", decimal.Decimal("NaN"), coolbite.QuantityError, "not a measurable number"),
    ("feed", 1e9, coolbite.RangeError, "feed"),
    ("feed", (1, "furlong"), coolbite.QuantityError, "furlong"),
    ("feed", True, TypeError, "feed"),
    ("feed", b"100mm/min", TypeError, "feed"),
    ("feed", (1, 2), TypeError, "feed"),
    ("feed", ("1", "mm/min"), TypeError, "feed"),
    ("feed", {}, TypeError, "feed"),
    ("feed", 1j, TypeError, "feed"),
    ("feed", "1mm/min\0", coolbite.ArgumentError, "null character"),
    ("feed", "\ud800", coolbite.ArgumentError, "surrogate"),
    ("feed", "\u202e1mm/min", coolbite.QuantityError, "\\u202e"),
    ("feed", "9" * 100000 + "mm/min", coolbite.QuantityError, ""),
    ("material", "acrylic/caast", coolbite.UnknownNameError, "did you mean acrylic/cast?"),
    ("material", "ac\0ryl", coolbite.ArgumentError, "null character"),
    ("material", 7, TypeError, "material"),
    ("tool", "0.8", coolbite.Error, ""),
    ("tool", object(), TypeError, "tool"),
    ("tool", [1, 2, 3], TypeError, "tool"),
    ("side", "up", coolbite.UnknownNameError, "climb"),
    ("side", 1.0, coolbite.ArgumentError, "takes a word"),
    ("draws", 3, coolbite.ArgumentError, "draws"),
    ("draws", -1, coolbite.RangeError, "draws"),
    ("draws", 2.5, coolbite.RangeError, "draws"),
    ("draws", "many", TypeError, "draws"),
    ("confidence", 2, coolbite.ArgumentError, "confidence"),
    ("confidence", float("nan"), coolbite.QuantityError, "confidence"),
    ("threads", 99, coolbite.RangeError, "threads"),
    ("units", "cubits", coolbite.UnknownNameError, "metric, inch"),
    ("fede", 1, coolbite.UnknownNameError, "fede"),
    ("näme", 1, coolbite.UnknownNameError, ""),
])
def test_bad_words(slot, word, given, kind, says):
    with pytest.raises(kind) as raised:
        coolbite.cut(**{**slot, word: given})
    assert says in str(raised.value)
    if isinstance(raised.value, coolbite.Error):
        assert raised.value.message and isinstance(raised.value.status, str)
        copy = pickle.loads(pickle.dumps(raised.value))
        assert (type(copy), str(copy)) == (type(raised.value), str(raised.value))


def test_missing_inputs(slot):
    del slot["tool"]
    with pytest.raises(coolbite.MissingError) as raised:
        coolbite.cut(**slot)
    assert raised.value.message and isinstance(raised.value, ValueError)


def test_choose_words(slot):
    del slot["spindle"], slot["feed"]
    for words, kind in (({"goal": "cheap"}, coolbite.UnknownNameError),
                        ({"effort": "none"}, coolbite.UnknownNameError),
                        ({"tool": [None]}, TypeError), ({"tool": 3 + 1j}, TypeError),
                        ({"steps": ["1mm"]}, coolbite.QuantityError),
                        ({"steps": ["0.0001rpm"]}, coolbite.RangeError)):
        with pytest.raises(kind):
            coolbite.choose(**{**slot, **words}, draws=16)


def test_window_words(slot):
    for words, kind in (({"across": "side"}, coolbite.Error), ({"across": "none"}, LookupError),
                        ({"up": ("feed", 1)}, TypeError), ({"up": (None, 1, 2)}, TypeError),
                        ({"up": ("feed", "1mm", "2mm")}, coolbite.QuantityError),
                        ({"columns": 1}, coolbite.ArgumentError),
                        ({"rows": 402}, coolbite.RangeError)):
        with pytest.raises(kind):
            coolbite.window(**slot, **words, draws=16)


def test_an_exception_while_something_is_written(slot, monkeypatch):
    """Ctrl-C may arrive inside a callback: the writer stops, and it is not swallowed."""
    class Interrupted(list):
        def append(self, _piece):
            raise KeyboardInterrupt

    begin = _native.Collector.__init__

    def interrupted(self):
        begin(self)
        self.pieces = Interrupted()

    monkeypatch.setattr(_native.Collector, "__init__", interrupted)
    with pytest.raises(KeyboardInterrupt):
        coolbite.cut(**slot, draws=16)
    monkeypatch.undo()
    assert coolbite.cut(**slot, draws=16).text


def test_si():
    assert coolbite.si("400mm/min", "feed") == pytest.approx(0.4 / 60)
    assert coolbite.si((20, "degC"), "room") == pytest.approx(293.15)
    assert coolbite.si(3, "depth") == 3.0
    for given, name, kind in (("1mm", "side", LookupError), ("1mm", "none", LookupError),
                              ("1", "depth", ValueError), (None, "depth", TypeError)):
        with pytest.raises(kind):
            coolbite.si(given, name)
