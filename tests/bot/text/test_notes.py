"""Notes, plans and pasted reports, read whole."""

import pytest

from bot.model.measure import Measure
from bot.model.reading import CourseNote, Day, Round, Shot
from bot.text.read import read


def only(text: str) -> object:
    acts = read(text).acts
    assert len(acts) == 1, acts
    return acts[0]


@pytest.mark.parametrize(
    ("says", "intent", "number"),
    [
        ("plan hole 7", "plan_hole", 7),
        ("what's the plan for 7", "plan_hole", 7),
        ("Plan 12", "plan_hole", 12),
        ("plan this hole", "plan_hole", None),
        ("plan the round", "plan_round", None),
        ("plan", "plan_round", None),
        ("make me a plan for tomorrow", "plan_round", None),
        ("sheet", "sheet", None),
        ("send me the sheet", "sheet", None),
        ("show hole 4", "show_hole", 4),
        ("notes for hole 4", "show_hole", 4),
        ("delete the notes of hole 4", "delete", 4),
        ("remove hole 12", "delete", 12),
        ("course", "show", None),
        ("show the course notes", "show", None),
    ],
)
def test_what_is_asked_of_the_notes(says: str, intent: str, number: int | None) -> None:
    act = only(says)
    assert isinstance(act, CourseNote)
    assert (act.intent, act.hole and act.hole.number) == (intent, number)


def test_a_hole_built_from_words_is_read_whole() -> None:
    act = only(
        "hole 4 par 5 532 stroke index 7, playing north-east, dogleg right at 240, "
        "water right 210 to 260, bunker left 250, green 30 deep falls to the front"
    )
    assert isinstance(act, CourseNote)
    hole, green = act.hole, act.green
    assert act.intent == "note"
    assert (hole.number, hole.par, hole.stroke_index, hole.dogleg) == (4, 5, 7, "right")
    assert hole.length == Measure(value=532)
    assert hole.dogleg_at == Measure(value=240)
    assert hole.bearing_deg == 45.0
    assert [(h.kind, h.side) for h in act.hazards] == [("water", "right"), ("bunker", "left")]
    assert (green.depth.value, green.falls) == (30, "front")


@pytest.mark.parametrize(
    ("says", "bearing"),
    [
        ("note hole 2 plays north", 0.0),
        ("note hole 2 par 4 400 playing south-west", 225.0),
        ("note hole 2 runs due east", 90.0),
        ("note hole 2 heading nw", 315.0),
        ("note hole 2 plays nne", 22.5),
        ("note hole 2 plays wsw", 247.5),
    ],
)
def test_a_hole_is_said_to_play_where_it_goes(says: str, bearing: float) -> None:
    act = only(says)
    assert isinstance(act, CourseNote)
    assert act.hole.bearing_deg == bearing


@pytest.mark.parametrize(
    "says",
    ["hole 4 par 4 400 water right", "par 5 532, water right 210", "400, bunker left 250"],
)
def test_a_tee_shot_is_no_note(says: str) -> None:
    assert isinstance(only(says), Shot)


@pytest.mark.parametrize(
    ("says", "course", "tee"),
    [
        ("course Marram Point, white tees", "Marram Point", "white"),
        ("Course: Marram Point", "Marram Point", None),
    ],
)
def test_a_course_is_named(says: str, course: str, tee: str | None) -> None:
    act = only(says)
    assert isinstance(act, Round)
    assert (act.intent, act.course, act.tee) == ("set_course", course, tee)


def test_tees_alone() -> None:
    act = only("yellow tees")
    assert isinstance(act, Round)
    assert (act.intent, act.tee) == ("set_tee", "yellow")


def test_a_pasted_report_is_the_days() -> None:
    report = "METAR XSMA 051950Z 22010G18KT 9999 SCT040 14/08 Q1016"
    assert only(report) == Day(metar=report)
