"""Told bags that cannot be are named, sound ones are not."""

from __future__ import annotations

import pytest

from engine.core.bag_faults import faults
from engine.core.facts import ClubFact, Facts

YD = 0.9144


def bag(**yards: float | None) -> Facts:
    return Facts(clubs=tuple(ClubFact(n.strip("_"), y and y * YD) for n, y in yards.items()))


def kinds(facts: Facts) -> list[tuple[str, str]]:
    return [(f.kind, f.club) for f in faults(facts)]


def test_sound_bags_pass() -> None:
    assert kinds(Facts()) == []
    assert kinds(bag(D=230, _7i=150, _9i=128, PW=116, _56=84)) == []
    # A slow swing: the 4-hybrid and the 5-wood go about as far.
    assert kinds(bag(D=140, _5w=122, _4h=123, _7i=95)) == []


@pytest.mark.parametrize(
    ("facts", "expected"),
    [
        (bag(_7i=150, _9i=160), ("order", "9i")),
        (bag(PW=400), ("range", "PW")),
        (bag(D=500), ("range", "D")),
        (bag(_7i=3), ("range", "7i")),
        (Facts(clubs=(ClubFact("7i"), ClubFact("7i"))), ("twice", "7i")),
        (bag(_13i=150), ("unknown", "13i")),
        (Facts(handicap=80), ("handicap", "")),
        (Facts(score=20), ("score", "")),
        (Facts(driver_speed_mps=120), ("speed", "")),
    ],
)
def test_impossible_bags_are_named(facts: Facts, expected: tuple[str, str]) -> None:
    assert kinds(facts) == [expected]


def test_fifteen_clubs_are_too_many() -> None:
    # Rules of Golf 4.1b: fourteen clubs, the putter among them.
    names = ("D", "3w", "5w", "7w", "3h", "4h", "4i", "5i", "6i", "7i", "8i", "9i", "PW")
    assert kinds(Facts(clubs=tuple(map(ClubFact, names)))) == []
    assert kinds(Facts(clubs=tuple(map(ClubFact, (*names, "SW"))))) == [("too_many", "")]
