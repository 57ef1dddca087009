"""Notes kept, changed by two people, taken back; plans kept and shown where they may be."""

import pytest

from bot.courses import read_course
from bot.model.answer import CannotYet
from bot.model.measure import Measure
from bot.model.plan import CourseShown, HolePlanned, HoleShown, NoteKept, Plan, RoundPlanned
from bot.model.reading import CourseNote, Day, Hazard, Hole, Round, Shot
from bot.model.state import Course, Player, Profile, Trip
from tests.support.turns import Bench

THREE = """
name = "Marram Point"
tee = "white"
[[hole]]
number = 1
par = 4
length = 380
stroke_index = 1
bearing = "N"
[[hole]]
number = 2
par = 3
length = 160
stroke_index = 3
bearing = "E"
trouble = [{ kind = "water", side = "right", from = 120, to = 190, gap = 20 }]
[[hole]]
number = 3
par = 4
"""
FACTS = {"number": 4, "par": 4, "length": Measure(value=390)}


def note(number: int = 4, *hazards: Hazard, **facts: object) -> CourseNote:
    hole = Hole.model_validate({"number": number, **facts})
    return CourseNote(intent="note", hole=hole, hazards=hazards)


def asked(intent: str, number: int | None = None) -> CourseNote:
    return CourseNote(intent=intent, hole=None if number is None else Hole(number=number))


@pytest.fixture
def bench() -> Bench:
    made = Bench()
    course, _ = read_course(THREE, owner="me")
    made.put(course)
    made.put(Trip(ids=("me",), course="Marram Point", tee="white"))
    made.put(Player(ids=("me",), units="imperial", profile=Profile(version=1, handicap=14.0)))
    return made


def course_of(bench: Bench) -> Course:
    return bench.get(Course, "me", "marram point/white")


def test_a_note_joins_what_was_known(bench: Bench) -> None:
    (kept,) = bench.take(note(2, stroke_index=5))
    assert isinstance(kept, NoteKept)
    now = course_of(bench).holes[2]
    assert (now.hole.par, now.hole.length.value, now.hole.stroke_index) == (3, 160, 5)
    assert len(now.hazards) == 1


def test_bare_lengths_get_the_tellers_unit(bench: Bench) -> None:
    bench.put(Player(ids=("mo",), units="metric"))
    bench.take(note(4, length=Measure(value=350)), sender="mo")
    assert course_of(bench).holes[4].hole.length == Measure(value=350, unit="m")


def test_two_bunkers_of_a_side_are_two_and_one_told_again_is_one(bench: Bench) -> None:
    def bunker(at: int) -> Hazard:
        return Hazard(kind="bunker", side="left", reach_or_carry=Measure(value=at))

    for at in (230, 330, 240):
        bench.take(note(1, bunker(at)))
    kept = [h.reach_or_carry.value for h in course_of(bench).holes[1].hazards]
    assert kept == [330, 240]


def test_two_people_edit_one_hole_and_nothing_is_lost(bench: Bench) -> None:
    bench.take(note(1, par=5))
    bench.take(note(1, length=Measure(value=395)), sender="mo")
    now = course_of(bench).holes[1].hole
    assert (now.par, now.length.value) == (5, 395)
    assert [e.player for e in bench.log if e.kind == "note"] == ["me", "mo"]


def test_undo_takes_back_the_senders_own_change_only(bench: Bench) -> None:
    from bot.model.reading import Talk

    bench.take(note(1, length=Measure(value=395)))
    bench.take(note(1, length=Measure(value=401)), sender="mo")
    (answer,) = bench.take(Talk(intent="undo"))
    assert isinstance(answer, CannotYet)
    assert course_of(bench).holes[1].hole.length.value == 401
    bench.take(Talk(intent="undo"), sender="mo")
    assert course_of(bench).holes[1].hole.length.value == 395


@pytest.mark.parametrize(
    ("told", "reason"),
    [
        (note(4, length=Measure(value=5000)), "bad_note"),
        (note(4, par=9), "bad_note"),
        (note(23), "no_such_hole"),
        (CourseNote(intent="note"), "which_hole"),
        (asked("show_hole", 9), "no_note"),
        (asked("plan_hole", 9), "no_note"),
        (asked("plan_hole"), "which_hole"),
        (asked("plan_hole", 3), "no_length"),
    ],
)
def test_what_cannot_be_is_told_and_changes_nothing(
    bench: Bench, told: CourseNote, reason: str
) -> None:
    before = course_of(bench)
    (answer,) = bench.take(told)
    assert isinstance(answer, CannotYet)
    assert answer.reason == reason
    assert course_of(bench) == before
    assert len(bench.say(told)) <= 2


def test_notes_before_the_course_has_a_name_come_along() -> None:
    bench = Bench()
    bench.take(note(4, par=4, length=Measure(value=390)))
    (answer,) = bench.take(Round(intent="set_course", course="Marram Point", tee="white"))
    assert isinstance(answer, CourseShown)
    assert answer.holes == (4,)


def test_a_plan_is_kept_until_what_it_rests_on_changes(bench: Bench) -> None:
    (first,) = bench.take(asked("plan_hole", 2))
    assert isinstance(first, HolePlanned)
    bench.pass_time(minutes=5)
    (again,) = bench.take(asked("plan_hole", 2))
    assert again == first
    bench.take(note(2, length=Measure(value=170)))
    (new,) = bench.take(asked("plan_hole", 2))
    assert new.made_at == bench.now
    assert new.planned.length.value == 170


def test_the_round_and_the_sheet(bench: Bench) -> None:
    (answer,) = bench.take(asked("plan_round"))
    assert isinstance(answer, RoundPlanned)
    assert sorted(answer.plan.holes) == [1, 2]
    assert answer.plan.lacks == ("hole 3: no length",)
    lines = bench.say(asked("sheet"))
    assert all(len(line) <= 64 for line in lines)
    assert any("hole 3: no length" in line for line in lines)


def test_the_days_wind_is_turned_for_each_hole(bench: Bench) -> None:
    bench.take(Day(metar="XSMA 010800Z 36015KT 9999 15/08 Q1016"))  # from the north
    (into,) = bench.take(asked("plan_hole", 1))  # plays north
    today = into.planned.conditions[0]
    by_name = {c.condition: c for c in into.planned.conditions}
    assert today.condition == "today"
    assert today.strokes == pytest.approx(by_name["into"].strokes, abs=0.005)
    (across,) = bench.take(asked("plan_hole", 2))
    assert across.planned.conditions[0].strokes > by_name["calm"].strokes - 4.0


def test_by_the_rules_the_plan_of_the_evening_before_is_shown_unchanged(bench: Bench) -> None:
    (planned,) = bench.take(asked("plan_hole", 2))
    bench.pass_time(hours=12)
    bench.take(Round(intent="start_round", competition=True))
    (shown,) = bench.take(Round(intent="set_hole", hole=Hole(number=2)))
    assert shown == planned
    (again,) = bench.take(asked("plan_hole", 2))
    assert again == planned
    (other,) = bench.take(asked("plan_hole", 1))
    assert not isinstance(other, HolePlanned)


def test_a_plan_made_after_the_start_stays_closed(bench: Bench) -> None:
    bench.take(Round(intent="start_round", competition=False))
    bench.pass_time(minutes=10)
    bench.take(asked("plan_hole", 2))
    bench.take(Round(intent="competition_on", competition=True))
    (shown,) = bench.take(Round(intent="set_hole", hole=Hole(number=2)))
    assert not isinstance(shown, HolePlanned)


def test_the_plan_of_one_is_not_read_out_to_all_by_the_rules() -> None:
    bench = Bench(chat="trip", kind="group")
    course, _ = read_course(THREE, owner="trip")
    bench.put(course)
    bench.put(Trip(ids=("trip",), course="Marram Point", tee="white"))
    bench.put(Player(ids=("me",), units="imperial", profile=Profile(version=1, handicap=14.0)))
    bench.take(asked("plan_hole", 2))
    assert bench.get(Plan, "trip", "me", "marram point/white").holes
    bench.pass_time(hours=12)
    bench.take(Round(intent="start_round", competition=True))
    (shown,) = bench.take(Round(intent="set_hole", hole=Hole(number=2)))
    assert not isinstance(shown, HolePlanned)


def test_show_and_delete(bench: Bench) -> None:
    (shown,) = bench.take(asked("show_hole", 2))
    assert isinstance(shown, HoleShown)
    bench.take(asked("delete", 2))
    assert 2 not in course_of(bench).holes


@pytest.mark.parametrize("said", ["Marram", "marram point", "Maram Point"])
def test_a_course_is_known_by_part_of_its_name(bench: Bench, said: str) -> None:
    bench.put(
        Trip(ids=("me",), course="Elsewhere", tee="white", courses=(("Marram Point", "white"),))
    )
    bench.take(Round(intent="start_round", course=said, competition=False))
    assert bench.get(Trip, "me").course == "Marram Point"
    (shown,) = bench.take(asked("show_hole", 2))
    assert isinstance(shown, HoleShown)


def test_another_course_is_another_course(bench: Bench) -> None:
    bench.put(Trip(ids=("me",), course="Marram Point", courses=(("Marram Point", "white"),)))
    bench.take(Round(intent="set_course", course="Oldwick Downs"))
    assert bench.get(Trip, "me").course == "Oldwick Downs"


def test_a_tee_shot_on_a_noted_hole_is_the_plan(bench: Bench) -> None:
    bench.take(Round(intent="start_round", competition=False))
    bench.take(Round(intent="set_hole", hole=Hole(number=2)))
    (answer,) = bench.take(Shot(kind="tee"))
    assert isinstance(answer, HolePlanned)
    assert answer.planned.number == 2


def test_by_the_rules_a_tee_shot_is_withheld(bench: Bench) -> None:
    bench.take(Round(intent="start_round", competition=True))
    (answer,) = bench.take(Shot(kind="tee"))
    assert not isinstance(answer, HolePlanned)
