"""Ways on after trouble: ranked for the player in practice, never by the Rules."""

import pytest

from bot.model import reading as read
from bot.model.measure import Measure
from bot.model.ruling import Relief, Ruling
from bot.model.state import ClubFact, Player, Profile
from tests.support.turns import Bench

RED = read.RulesHelp(topic="red_penalty", facts=read.Facts(distance=Measure(value=150)))


@pytest.fixture(scope="module")
def bench() -> Bench:
    clubs = (ClubFact(name="D", carry=Measure(value=220, unit="yd")),
             ClubFact(name="7i", carry=Measure(value=150, unit="yd")))  # fmt: skip
    made = Bench()
    made.put(Player(ids=("me",), profile=Profile(handicap=16.0, hand="right", clubs=clubs)))
    return made


def test_ways_on_are_ranked_by_what_they_cost_from_here(bench: Bench) -> None:
    bench.take(read.Shot(kind="tee", facts=read.Facts(distance=Measure(value=390))))
    (answer,) = bench.take(RED)
    assert isinstance(answer, Relief)
    costs = [o.strokes for o in answer.options]
    assert costs == sorted(costs)
    # Rules of Golf 17.1d: each costs one stroke. A drop 150 out beats 390 again from the tee.
    assert answer.options[0].option in ("sideways", "line")
    assert answer.options[-1].option == "replay"
    assert all(len(line) <= 64 for line in bench.say(RED))


def test_without_a_distance_there_is_the_rule(bench: Bench) -> None:
    assert bench.take(read.RulesHelp(topic="red_penalty")) == (Ruling(topic="red_penalty"),)


def test_by_the_rules_there_is_the_rule_alone(bench: Bench) -> None:
    bench.take(read.Round(intent="start_round", competition=True))
    assert bench.take(RED) == (Ruling(topic="red_penalty"),)


def test_a_newcomer_gets_the_rule() -> None:
    assert Bench().take(RED) == (Ruling(topic="red_penalty"),)
