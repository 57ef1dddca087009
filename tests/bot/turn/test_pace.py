"""Forty seconds to play (Rules of Golf 2023, 5.6b): one question a hole, then an answer."""

from bot.model import reading as read
from bot.model.advice import ShotAdvice
from bot.model.answer import Ask
from bot.model.measure import Measure
from bot.model.state import ClubFact, Player, Profile
from tests.support.turns import Bench

SIDE = read.Wind(speed=Measure(value=12, unit="mph"), across=True)
SHOT = read.Shot(facts=read.Facts(distance=Measure(value=150), wind=SIDE))


def test_the_second_message_of_a_hole_asks_no_second_question() -> None:
    bench = Bench()
    clubs = (ClubFact(name="7i", carry=Measure(value=150, unit="yd")),)
    bench.put(Player(ids=("me",), profile=Profile(handicap=16.0, hand="right", clubs=clubs)))
    assert isinstance(bench.take(SHOT)[0], Ask)
    (answer,) = bench.take(SHOT)
    assert isinstance(answer, ShotAdvice)
    assert "calm" in answer.assumed
    bench.pass_time(minutes=1)
    bench.take(read.Score(strokes=5))
    bench.take(read.Round(intent="competition_off"))
    assert isinstance(bench.take(SHOT)[0], Ask)


def test_no_question_about_a_wind_that_does_not_blow() -> None:
    bench = Bench()
    clubs = (ClubFact(name="7i", carry=Measure(value=150, unit="yd")),)
    bench.put(Player(ids=("me",), profile=Profile(handicap=16.0, hand="right", clubs=clubs)))
    calm = read.Wind(speed=Measure(value=1, unit="mph", low=0, high=2))
    facts = read.Facts(distance=Measure(value=150), wind=calm)
    assert isinstance(bench.take(read.Shot(facts=facts))[0], ShotAdvice)
