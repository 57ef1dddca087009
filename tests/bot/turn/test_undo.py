"""What was put on record last comes off again, whatever it was."""

from bot.model import reading as read
from bot.model.answer import CannotYet, Noted
from bot.model.card import ScoreKept
from bot.model.measure import Measure
from bot.model.ruling import Kept
from bot.model.state import ClubFact, Played, Player, Profile, Trip
from tests.support.turns import Bench

UNDO = read.Talk(intent="undo")


def test_a_score_comes_off_the_card_and_the_hole_is_open_again() -> None:
    bench = Bench()
    bench.take(read.Round(intent="start_round", competition=False))
    bench.take(read.Score(strokes=5))
    bench.take(read.Score(strokes=4))
    assert bench.take(UNDO) == (Noted(what="undone", detail="the score of 2"),)
    (answer,) = bench.take(read.Score(strokes=6))
    assert isinstance(answer, ScoreKept)
    assert (answer.hole, answer.total) == (2, 11)


def test_undo_goes_back_one_by_one() -> None:
    bench = Bench()
    bench.take(read.Round(intent="start_round", competition=False))
    bench.take(read.Score(strokes=5))
    bench.take(read.Result(club="7i", carry=Measure(value=150, unit="yd")))
    assert bench.take(UNDO) == (Noted(what="undone", detail="the last result"),)
    assert bench.take(UNDO) == (Noted(what="undone", detail="the score of 1"),)
    (answer,) = bench.take(UNDO)
    assert isinstance(answer, CannotYet)


def test_the_score_that_ended_a_round_by_the_rules_closes_advice_again() -> None:
    bench = Bench()
    bench.take(read.Round(intent="start_round", competition=True, holes=9))
    for _ in range(9):
        bench.take(read.Score(strokes=5))
    bench.take(UNDO)
    played = bench.get(Played, bench.get(Trip, "me").round or "")
    assert (played.done, played.ended_at, played.hole) == ((), None, 9)
    assert [a.kind for a in bench.take(read.Review(intent="review"))] == ["withheld"]


def test_a_result_that_waits_for_the_end_of_the_round_can_be_taken_back() -> None:
    bench = Bench()
    clubs = (ClubFact(name="7i", carry=Measure(value=150, unit="yd")),)
    profile = Profile(handicap=14.0, hand="right", clubs=clubs)
    bench.put(Player(ids=("me",), profile=profile))
    bench.take(read.Round(intent="start_round", competition=True))
    bench.take(read.Score(strokes=5))
    absurd = read.Result(club="7i", carry=Measure(value=320, unit="yd"))
    assert bench.take(absurd) == (Kept(),)
    bench.take(UNDO)
    played = bench.get(Played, bench.get(Trip, "me").round or "")
    assert played.scores["me"][1].strokes == 5
