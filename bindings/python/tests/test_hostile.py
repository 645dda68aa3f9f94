# SPDX-License-Identifier: GPL-3.0-or-later
"""Whatever comes in: an answer with finite numbers, or one clear error."""
import json
import math

import pytest

hypothesis = pytest.importorskip("hypothesis")

from hypothesis import given, settings, strategies  # noqa: E402

import coolbite  # noqa: E402

FAST = settings(max_examples=120, deadline=None, database=None, derandomize=True,
                suppress_health_check=list(hypothesis.HealthCheck))
REFUSED = (coolbite.Error, TypeError)
WORDS = strategies.sampled_from(["spindle", "feed", "depth", "width", "stickout", "floor",
                                 "tolerance", "coolant", "side", "flutes", "material", "tool",
                                 "machine", "helix", "room", "point_angle"])
SCALARS = strategies.one_of(
    strategies.text(max_size=40), strategies.floats(), strategies.integers(), strategies.none(),
    strategies.booleans(), strategies.binary(max_size=8), strategies.complex_numbers(),
    strategies.tuples(strategies.floats(), strategies.text(max_size=8)),
    strategies.tuples(strategies.floats(1e-9, 1e9),
                      strategies.sampled_from(["mm", "in", "rpm", "mm/min", "degC", "deg"])),
    strategies.lists(strategies.integers(), max_size=3))


@FAST
@given(WORDS, SCALARS)
def test_any_word(word, value):
    from conftest import SLOT
    try:
        answer = coolbite.cut(**{**SLOT, word: value}, draws=1)
    except REFUSED as error:
        said = str(error)
        assert said and not any(ord(sign) < 32 or sign in "\u202e\u2066" for sign in said)
        return
    json.loads(answer.json)
    assert answer.verdict in coolbite.VERDICTS
    for computed in answer.values.values():
        assert computed.value is None or math.isfinite(computed.value)


@FAST
@given(strategies.dictionaries(strategies.text(max_size=12), SCALARS, min_size=1, max_size=3))
def test_any_name(words):
    from conftest import SLOT
    known = {word for word in words if word in coolbite.library.WORDS}
    try:
        coolbite.cut(**{**SLOT, **words}, draws=1)
    except REFUSED as error:
        assert str(error)
        return
    assert known == {word for word, value in words.items() if value is not None}


@FAST
@given(strategies.floats(50, 400), strategies.floats(5e-4, 0.02), strategies.floats(5e-5, 8e-4))
def test_batch_equals_cut(spindle, feed, depth):
    numpy = pytest.importorskip("numpy")
    from conftest import SLOT
    motion = {"spindle": spindle, "feed": feed, "depth": depth}
    fixed = {word: SLOT[word] for word in SLOT if word not in motion}
    names = ["surface_temperature", "force_side_peak", "softening", "rubbing"]
    made = coolbite.batch(fixed, {word: numpy.array([one]) for word, one in motion.items()}, names)
    answer = coolbite.cut(**fixed, **motion, draws=1)
    for name in names:
        single = answer.values[name].value if name in answer.values \
            else answer.limits[name].utilization
        assert made[name][0] == pytest.approx(single, rel=1e-11)


@FAST
@given(strategies.floats(1e-6, 1e6), strategies.sampled_from(["mm", "um", "m", "in"]))
def test_pairs_are_text(value, unit):
    try:
        pair = coolbite.si((value, unit), "depth")
    except coolbite.Error as error:
        with pytest.raises(type(error)):
            coolbite.si(f"{value!r}{unit}", "depth")
        return
    assert pair == coolbite.si(f"{value!r}{unit}", "depth")
    scale = {"mm": 1e-3, "um": 1e-6, "m": 1.0, "in": 0.0254}[unit]
    assert pair == pytest.approx(value * scale, rel=1e-12)
