"""Putts asked about and told: kept with their result, counted, learned from."""

import numpy as np
import pytest

from bot.model import reading as read
from bot.model.golfer import LessonShown, PuttingShown
from bot.model.measure import Measure
from bot.model.state import Player, Profile
from bot.turn.bag import bag_of
from tests.support.turns import Bench


def bench(**profile: object) -> Bench:
    made = Bench()
    made.put(Player(ids=("me",), units="imperial", profile=Profile(handicap=14, **profile)))
    return made


def ask(b: Bench, ft: float) -> None:
    putt = read.Putt(length=Measure(value=ft, unit="ft"), slope="flat")
    b.take(read.Shot(kind="putt", facts=read.Facts(putt=putt)))


def missed(ft: float) -> read.Result:
    return read.Result(holed=False, depth="long", proximity=Measure(value=ft, unit="ft"))


def last_putt(b: Bench) -> object:
    return b.log[-1].body["putt"]


def test_a_holed_and_a_missed_putt_are_kept_with_their_length() -> None:
    b = bench()
    ask(b, 10)
    b.take(read.Result(holed=True))
    assert last_putt(b) == {"length_m": pytest.approx(3.048), "holed": True, "left_m": None}
    ask(b, 20)
    b.take(missed(2.0))
    kept = last_putt(b)
    assert (kept["holed"], kept["left_m"]) == (False, pytest.approx(0.6096))


def test_two_putts_are_a_miss_of_the_first() -> None:
    b = bench()
    ask(b, 30)
    b.take(read.Result(putts=2))
    assert last_putt(b) == {"length_m": pytest.approx(9.144), "holed": False, "left_m": None}


@pytest.mark.parametrize("act", [read.Result(conceded=True, holed=True), read.Result(club="7i")])
def test_what_is_no_putted_putt_teaches_nothing(act) -> None:
    b = bench()
    if act.conceded:
        ask(b, 2)
    b.take(act)
    assert last_putt(b) is None


def test_rates_by_length() -> None:
    b = bench()
    for ft, act in ((4, read.Result(holed=True)), (4, missed(1)), (20, missed(3))):
        ask(b, ft)
        b.take(act)
    (shown,) = b.take(read.Review(intent="club_stats", club="P"))
    assert isinstance(shown, PuttingShown)
    assert (shown.putts, shown.few) == (3, True)
    assert [(r.tried, r.holed) for r in shown.rates] == [(2, 1), (1, 0)]
    lines = b.say(read.Review(intent="club_stats", club="P"))
    assert all(len(line) <= 64 for line in lines)


def test_nothing_logged_says_what_to_send() -> None:
    assert "No putts" in bench().say(read.Review(intent="club_stats", club="P"))[0]


def test_a_poor_pace_is_learned_on_a_yes() -> None:
    b = bench()
    generator = np.random.default_rng(2)
    for _ in range(45):
        ft = float(generator.uniform(15, 45))
        ask(b, ft)
        b.take(missed(max(abs(float(generator.normal(0, 0.26))) * ft, 0.5)))
    stored = bag_of(b.get(Player, "me").profile).golfer.short
    (asked,) = b.take(read.Review(intent="learn"))
    assert isinstance(asked, LessonShown)
    assert asked.ask is not None
    assert asked.ask.value == "putt_pace"
    b.take(read.Answered(yes=True))
    learned = bag_of(b.get(Player, "me").profile).golfer.short
    assert learned.putt_pace > 1.2 * stored.putt_pace
    assert learned.putt_line_rad == stored.putt_line_rad
