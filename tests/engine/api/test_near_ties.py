"""Where two clubs cost the same within what is known, is it the one that risks less?

Each scene is what a good caddie would say: common practice, no source. Each is asked of a
right-hander who misses to the right, and in the mirror.
"""

from __future__ import annotations

from dataclasses import replace
from functools import cache
from typing import Literal, NamedTuple

import pytest

from engine import (
    PlayerFacts,
    ShotFacts,
    TroubleFacts,
    WindFacts,
    choose,
    quantity,
    si,
    solve_player,
    start_bag,
)
from tests.engine.api.test_scenes import carries, yd

MIRROR: dict[str, Literal["left", "right"]] = {"left": "right", "right": "left"}
CARRIES = (
    ("D", 228), ("3w", 209), ("4h", 190), ("5i", 176), ("6i", 165), ("7i", 153), ("8i", 141),
    ("9i", 129), ("PW", 116), ("52", 100), ("56", 84),
)  # fmt: skip


@cache
def player(hand: Literal[-1, 1]):
    golfer = start_bag(
        PlayerFacts(
            handicap=14, hand=hand, miss=hand, curve=quantity(2.0 * hand, "deg"),
            clubs=carries(*CARRIES),
            without=frozenset({"5w", "7w", "3h", "5h", "3i", "4i", "GW", "SW", "LW", "60"}),
        )
    ).golfer  # fmt: skip
    return golfer, solve_player(golfer)


def ask(facts: ShotFacts, hand: Literal[-1, 1]):
    golfer, table = player(hand)
    return choose(golfer=golfer, table=table, facts=facts)


def mirrored(facts: ShotFacts) -> ShotFacts:
    wind = facts.wind and replace(facts.wind, comes_from=-facts.wind.comes_from)
    trouble = tuple(replace(t, side=MIRROR.get(t.side, t.side)) for t in facts.trouble)
    return replace(facts, wind=wind, trouble=trouble)


def wind(mph: float, comes_from: float = 0.0) -> WindFacts:
    return WindFacts(quantity(mph, "mph"), quantity(comes_from, "deg"))


def short(end: float) -> tuple[TroubleFacts, ...]:
    return (TroubleFacts("water", "penalty", "short", end=yd(end)),)


STREAM = (TroubleFacts("water", "penalty", "across", yd(130), yd(160)),)


class Scene(NamedTuple):
    name: str
    facts: ShotFacts
    club: str
    wet: float  # chance of the trouble that a good caddie would still take


SCENES = [
    Scene("140 into 20, water to carry at 120",
          ShotFacts(yd(140), trouble=short(120), wind=wind(20)), "4h", 0.1),
    Scene("the same, second shot of a par four",
          ShotFacts(yd(140), trouble=short(120), wind=wind(20), par=4, stroke=2), "4h", 0.1),
    Scene("the same, third shot of a par five",
          ShotFacts(yd(140), trouble=short(120), wind=wind(20), par=5, stroke=3), "4h", 0.1),
    Scene("150 into a breeze, water to carry at 138",
          ShotFacts(yd(150), trouble=short(138), wind=wind(8)), "5i", 0.15),
    Scene("180 to carry 160, a par three",
          ShotFacts(yd(180), trouble=STREAM, tee=True, par=3), "4h", 0.15),
]  # fmt: skip


@pytest.mark.parametrize("hand", [1, -1], ids=["right-handed", "left-handed"])
@pytest.mark.parametrize("scene", SCENES, ids=[s.name for s in SCENES])
def test_the_club_that_risks_less_is_taken(scene: Scene, hand: Literal[-1, 1]):
    found = ask(scene.facts if hand > 0 else mirrored(scene.facts), hand)
    assert (found.best.club, found.best.kind) == (scene.club, "full")
    assert found.best.chance["water"] < scene.wet
    assert found.near


def test_a_near_tie_in_a_wind_off_one_side_is_mirrored_to_the_bit():
    facts = ShotFacts(yd(140), trouble=short(120), wind=wind(20, 20))
    one, two = ask(facts, 1).best, ask(mirrored(facts), -1).best
    assert (one.club, one.kind, one.strokes) == (two.club, two.kind, two.strokes)
    assert si(one.start_at, "m") == -si(two.start_at, "m")


def test_without_a_par_nothing_is_told_of_doubles():
    best = ask(ShotFacts(yd(140), trouble=short(120), wind=wind(20)), 1).best
    assert best.double_or_worse is None


@pytest.mark.parametrize(("far", "club"), [(165, "6i"), (180, "5i"), (140, "8i")])
def test_between_clubs_as_good_the_one_that_ends_nearest_is_named(far: float, club: str) -> None:
    # Common practice, no source: a golfer told 165 expects the club that carries 165.
    assert ask(ShotFacts(yd(far)), 1).best.club == club
