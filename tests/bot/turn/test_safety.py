"""Danger comes first, and the half hour after thunder binds everybody in the group."""

import pytest

from bot.courses.layout import read_course
from bot.model import reading as read
from bot.model.danger import Danger, StormHold, StormOver
from bot.model.measure import Measure
from bot.model.state import Player, Trip
from tests.support.turns import Bench

SHOT = read.Shot(facts=read.Facts(distance=Measure(value=160)))
THUNDER = read.Safety(danger="lightning")
CLEAR = read.Safety(danger="all_clear")
START = read.Round(intent="start_round", competition=False)


def test_thunder_beside_a_shot_is_answered_alone() -> None:
    (answer,) = Bench().take(SHOT, THUNDER)
    assert isinstance(answer, Danger)
    assert answer.peril == "lightning"


def test_no_advice_for_half_an_hour_after_thunder() -> None:
    # US National Weather Service: stay in until 30 minutes after the last thunder.
    bench = Bench()
    bench.take(THUNDER)
    bench.pass_time(minutes=29)
    (answer,) = bench.take(SHOT)
    assert isinstance(answer, StormHold)
    assert answer.minutes_left == pytest.approx(1)
    bench.pass_time(minutes=1)
    assert not isinstance(bench.take(SHOT)[0], StormHold)


def test_each_thunder_starts_the_clock_again() -> None:
    bench = Bench()
    bench.take(THUNDER)
    bench.pass_time(minutes=20)
    bench.take(THUNDER)
    bench.pass_time(minutes=20)
    (answer,) = bench.take(CLEAR)
    assert isinstance(answer, StormHold)
    assert answer.minutes_left == pytest.approx(10)


def test_a_late_message_never_turns_the_clock_back() -> None:
    bench = Bench()
    bench.take(THUNDER)
    bench.pass_time(minutes=-10)
    bench.take(THUNDER)
    bench.pass_time(minutes=35)
    assert isinstance(bench.take(SHOT)[0], StormHold)


def test_the_clock_is_the_groups() -> None:
    bench = Bench(chat="trip", kind="group")
    bench.put(Trip(ids=("trip",), members=("me", "oona"), names={"me": "Tavi", "oona": "Oona"}))
    bench.take(START)
    bench.take(THUNDER)
    assert isinstance(bench.take(SHOT, sender="oona")[0], StormHold)
    assert isinstance(bench.take(SHOT, sender="oona", chat="oona")[0], StormHold)
    assert not isinstance(bench.take(SHOT, sender="stranger", chat="x")[0], StormHold)


def test_thunder_told_in_private_warns_the_group() -> None:
    bench = Bench(chat="trip", kind="group")
    bench.put(Trip(ids=("trip",), members=("me", "oona")))
    bench.take(START)
    bench.take(THUNDER, sender="oona", chat="oona")
    assert isinstance(bench.take(SHOT)[0], StormHold)


def test_all_clear_leaves_the_word_to_the_course() -> None:
    bench = Bench()
    (answer,) = bench.take(CLEAR)
    assert answer == StormOver(known=False)
    bench.take(THUNDER)
    bench.pass_time(minutes=31)
    assert bench.take(CLEAR) == (StormOver(known=True),)


@pytest.mark.parametrize("danger", ["medical", "people_in_range"])
def test_no_golf_beside_a_danger_to_people(danger: str) -> None:
    answers = Bench().take(SHOT, read.Safety(danger=danger))
    assert [a.kind for a in answers] == ["danger"]


def test_heat_is_worked_out_from_what_was_told() -> None:
    air = read.Air(temperature=Measure(value=95), humidity=Measure(value=55, unit="%"))
    (answer,) = Bench().take(read.Safety(danger="heat", facts=read.Facts(air=air)))
    assert isinstance(answer, Danger)
    assert answer.band == "danger"
    # fixtures/tables/heat_index.csv, row 95 degF, 55 %: 108.947 degF.
    assert answer.felt is not None
    assert answer.felt.value == pytest.approx(108.947, abs=0.01)


def test_heat_in_the_units_of_the_player() -> None:
    bench = Bench()
    bench.put(Player(ids=("me",), units="metric"))
    air = read.Air(temperature=Measure(value=35), humidity=Measure(value=55, unit="%"))
    lines = bench.say(read.Safety(danger="heat", facts=read.Facts(air=air)))
    assert lines[0].startswith("Feels like 43C")  # 108.9 degF


def test_heat_without_humidity_gives_no_figure() -> None:
    air = read.Air(temperature=Measure(value=95))
    (answer,) = Bench().take(read.Safety(danger="heat", facts=read.Facts(air=air)))
    assert isinstance(answer, Danger)
    assert answer.felt is None
    assert answer.missing == ("humidity",)


def test_heat_beside_a_shot_takes_one_line() -> None:
    answers = Bench().take(SHOT, read.Safety(danger="heat", asked=True))
    assert isinstance(answers[0], Danger)
    assert answers[0].brief
    assert len(answers) == 2


def test_dangerous_heat_told_for_the_day_is_answered_unasked() -> None:
    bench = Bench()
    air = read.Air(temperature=Measure(value=97), humidity=Measure(value=60, unit="%"))
    answers = bench.take(read.Day(air=air))
    # US National Weather Service chart: 97 degF and 60 % is in the danger band (from memory).
    assert [a.kind for a in answers] == ["day", "danger"]
    assert len(bench.say(read.Day(air=air))) == 2
    mild = read.Air(temperature=Measure(value=75), humidity=Measure(value=60, unit="%"))
    assert [a.kind for a in bench.take(read.Day(air=mild))] == ["day"]


def test_the_emergency_number_is_that_of_the_courses_country() -> None:
    bench = Bench()
    text = 'name = "Saltmarrow"\ncountry = "IE"\n[[hole]]\nnumber = 1\npar = 4\nlength = 380\n'
    course, _ = read_course(text, owner="me")
    bench.put(course)
    bench.put(Trip(ids=("me",), course="Saltmarrow"))
    # Directive (EU) 2018/1972, article 109, gives 112 in Ireland beside the national 999.
    (answer,) = bench.take(read.Safety(danger="medical"))
    assert isinstance(answer, Danger)
    assert answer.emergency == ("999",)
    (answer,) = Bench().take(read.Safety(danger="medical"))
    assert isinstance(answer, Danger)
    # 3GPP TS 22.101, clause 10: a mobile phone takes both for an emergency call anywhere.
    assert answer.emergency == ("112", "911")


@pytest.mark.parametrize("danger", ["heat", "cold"])
def test_a_symptom_stops_golf(danger: str) -> None:
    bench = Bench()
    answers = bench.take(SHOT, read.Safety(danger=danger))
    assert [a.kind for a in answers] == ["danger"]
    lines = bench.say(read.Safety(danger=danger))
    assert lines[0].startswith("Stop playing.")
    assert "112 or 911" in lines[1]


def test_flash_to_bang_says_how_near_it_was() -> None:
    bench = Bench()
    told = read.Safety(danger="lightning", flash_to_bang=10)
    # US National Weather Service: five seconds a mile.
    assert bench.say(told)[0] == "That flash was about 2 mi off: in reach. Stop, get in now:"
    bench.put(Player(ids=("me",), units="metric"))
    assert "3.5 km" in bench.say(told)[0]
    assert isinstance(bench.take(SHOT)[0], StormHold)
