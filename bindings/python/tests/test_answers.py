# SPDX-License-Identifier: GPL-3.0-or-later
"""Answers: what the command writes, as objects."""
import dataclasses
import json
import pickle
import xml.etree.ElementTree

import pytest
from conftest import DRAWS

import coolbite


def test_cut_is_that_of_the_command(slot, command):
    answer = coolbite.cut(**slot, draws=DRAWS)
    assert json.loads(answer.json) == command("cut", slot)


def test_choose_is_that_of_the_command(slot, command):
    del slot["spindle"], slot["feed"]
    choice = coolbite.choose(**slot, draws=DRAWS, effort="whole")
    written = command("choose", slot)
    assert json.loads(choice.json) == written
    assert (choice.goal, choice.clear, choice.passes) == (written["goal"], written["clear"],
                                                          written["passes"])
    assert dict(choice.binding) == {one["name"]: one["relax"] for one in written["binding"]}


def test_window_is_that_of_the_command(slot, command):
    made = coolbite.window(**slot, draws=DRAWS, across=("spindle", "6000rpm", (24000, "rpm")))
    assert made.data() == command("window", slot, "--across", "spindle=6000rpm..24000rpm")


def test_members_are_those_of_the_json(slot):
    answer = coolbite.cut(**slot, draws=DRAWS)
    written = json.loads(answer.json)
    assert (answer.verdict, answer.chance, answer.draws) == (written["verdict"],
                                                             written["chance"], DRAWS)
    for group in ("inputs", "values", "limits"):
        things = getattr(answer, group)
        assert list(things) == [one["name"] for one in written[group]]
        for one in written[group]:
            thing = dataclasses.asdict(things[one["name"]])
            for member, expected in one.items():  # JSON has 12 digits
                if isinstance(expected, float):
                    expected = pytest.approx(expected, rel=5e-12)
                assert thing[member] == expected, (one["name"], member)
    assert [caution.text for caution in answer.cautions] == [one["text"]
                                                             for one in written["cautions"]]
    assert {caution.severity for caution in answer.cautions} <= {"note", "care", "danger"}
    assert str(answer.enter.spindle) == "12000 rpm" and answer.enter.width is None
    surface = answer.values["surface_temperature"]
    assert surface.low <= surface.value <= surface.high and surface.unit == "K"
    assert answer.sources["softening"].endswith(answer.limits["softening"].source)
    assert str(answer) == answer.text and answer.text.startswith("acrylic/cast, 0.8 mm")


def test_without_draws_there_are_no_bands(slot):
    answer = coolbite.cut(**slot, draws=1)
    assert answer.chance is None and answer.limits["softening"].chance is None
    assert answer.values["surface_temperature"].low is None


@pytest.mark.parametrize("feed", ["200mm/min", "0.2 m/min", (200, "mm/min"), [0.2, "m/min"],
                                  0.2 / 60, (0.2, "m/min")])
def test_quantities_mean_the_same(slot, feed):
    expected = coolbite.cut(**slot, draws=1).values["surface_temperature"].value
    answer = coolbite.cut(**{**slot, "feed": feed}, draws=1)
    assert answer.values["surface_temperature"].value == pytest.approx(expected, rel=1e-12)


def test_words_mean_the_same(slot):
    by_word = coolbite.cut(**slot, draws=1)
    for word, name in (("spindle", "spindle_speed"), ("feed", "feed_rate"),
                       ("floor", "floor_thickness")):
        slot[name] = slot.pop(word)
    assert coolbite.cut(**slot, draws=1) == by_word
    assert coolbite.cut(**slot, blind=True, draws=1) == coolbite.cut(**slot, blind="yes", draws=1)
    assert coolbite.cut(**slot, blind=False, draws=1) == coolbite.cut(**slot, blind="no", draws=1)


def test_choose_from_tools(slot):
    for word in ("tool", "flutes", "stickout", "spindle", "feed"):
        del slot[word]
    among = coolbite.choose(**slot, tool=["0.5mm", (0.8, "mm"), "1/32in"], effort="quick",
                            draws=DRAWS)
    sizes = [0.0005, 0.0008, 0.0254 / 32]
    assert any(among.inputs["diameter"].value == pytest.approx(size) for size in sizes)
    steps = coolbite.choose(**slot, tool="0.8mm", steps=["6000rpm", (10000, "rpm")],
                            effort="quick", draws=DRAWS)
    assert steps.enter.spindle.value in (6000, 10000)


def test_what_frees_a_choice_can_be_set(slot):
    for word in ("spindle", "feed"):
        del slot[word]
    slot.update(depth="2mm", stickout="14mm", finish="0.05um")
    choice = coolbite.choose(**slot, draws=DRAWS)
    assert not choice.clear and choice.conflict and not choice.binding
    assert choice.freed_by and choice.freed_by[0].input != "confidence"
    for change in choice.freed_by:
        again = coolbite.choose(**{**slot, change.input: change.to}, draws=DRAWS)
        assert again.clear, change


def test_answers_are_values(slot):
    answer = coolbite.cut(**slot, draws=DRAWS)
    assert pickle.loads(pickle.dumps(answer)) == answer == coolbite.cut(**slot, draws=DRAWS)
    assert answer != coolbite.cut(**{**slot, "depth": "0.3mm"}, draws=DRAWS)
    assert hash(answer) == hash(coolbite.cut(**slot, draws=DRAWS))
    with pytest.raises(dataclasses.FrozenInstanceError):
        answer.verdict = "clear"
    with pytest.raises(TypeError):
        answer.values["surface_temperature"] = None


def test_notebooks(slot):
    made = coolbite.window(**slot, draws=DRAWS, columns=9, rows=7)
    assert xml.etree.ElementTree.fromstring(made._repr_svg_()).tag.endswith("svg")
    assert "<html" in made.html() and made.csv().count("\n") > 9 * 7
    assert made.verdict == made.answer.verdict and "12000 rpm" in str(made)
    shown = coolbite.cut(**slot, draws=1)._repr_html_()
    assert shown.startswith("<pre>") and "acrylic/cast" in shown
    with pytest.raises(TypeError, match="svg"):
        pickle.dumps(made)


def test_all_rows(slot):
    answer = coolbite.cut(**slot, draws=DRAWS)
    everything = coolbite.cut(**slot, draws=DRAWS, rows=True)
    assert everything == answer and len(everything.text) > len(answer.text)
    for name, limit in everything.limits.items():
        assert not limit.applies or f" {name} " in everything.text


def test_inch(slot):
    answer = coolbite.cut(**slot, draws=1, units="inch")
    assert answer.enter.feed.unit == "in/min"
    assert answer.values == coolbite.cut(**slot, draws=1).values  # SI in any case


SMALL_JOB = """[format]
kind = job
version = 1
[job]
title = Small plate
[part]
material = acrylic/cast
length = 40 mm
width = 30 mm
thickness = 2 mm
[hold]
method = tape
[pass.a]
work = cut-free
tool = 2mm
spindle = 9000rpm
feed = 300mm/min
"""


def test_job(tmp_path):
    path = tmp_path / "plate.ini"
    path.write_text(SMALL_JOB)
    plan = coolbite.job(path, draws=DRAWS)
    assert plan.title == "Small plate" and plan.verdict == plan.data["verdict"]
    assert [one.name for one in plan.passes] == [one["pass"] for one in plan.data["passes"]]
    assert plan.passes[-1].enter.spindle.value == 9000 and plan.seconds > 0
    assert plan.remarks[0].text == plan.data["remarks"][0]["text"]
    assert "<html" in plan.html and str(plan) == plan.text and "srcdoc=" in plan._repr_html_()
    assert pickle.loads(pickle.dumps(plan)) == plan


def test_faults_of_a_job_are_all_there(tmp_path):
    path = tmp_path / "bad.ini"
    path.write_text(SMALL_JOB.replace("40 mm", "forty").replace("300mm/min", "300"))
    with pytest.raises(coolbite.FileFormatError) as raised:
        coolbite.job(str(path), draws=DRAWS)
    faults = raised.value.faults
    assert [(fault.file, fault.line, fault.key) for fault in faults] == [
        (str(path), 8, "part:length"), (str(path), 17, "pass.a:feed")]
    assert raised.value.line == 8 and str(raised.value).count("\n") == 1
    with pytest.raises(FileNotFoundError):
        coolbite.job(tmp_path / "none.ini")
