"""Thirty-odd shots, each with what a good caddie would say: common practice, no source.

An expectation is a range that any sound caddie would sign, not a number of ours. Offsets
are yards, right positive, from the line to the pin or the middle of the fairway.
"""

from __future__ import annotations

from collections.abc import Callable
from functools import cache
from typing import NamedTuple

import pytest

from engine import (
    ClubFacts,
    LieFacts,
    Play,
    PlayerFacts,
    ShotChoice,
    ShotFacts,
    TroubleFacts,
    WindFacts,
    choose,
    quantity,
    si,
    solve_player,
    start_bag,
)


def yd(value: float):
    return quantity(value, "yd")


def carries(*clubs: tuple[str, float]) -> tuple[ClubFacts, ...]:
    return tuple(ClubFacts(name, yd(carry)) for name, carry in clubs)


PLAYERS = {
    "fader": PlayerFacts(
        handicap=12, hand=1, miss=1, curve=quantity(3, "deg"),
        clubs=carries(("D", 228), ("3w", 209), ("5i", 176), ("7i", 153)),
    ),
    "drawer": PlayerFacts(
        handicap=6, hand=1, miss=-1, curve=quantity(-3, "deg"),
        clubs=carries(("D", 245), ("7i", 165)),
    ),
    "left-handed slicer": PlayerFacts(
        handicap=20, hand=-1, miss=-1, curve=quantity(-5, "deg"),
        clubs=carries(("D", 190), ("7i", 130)),
    ),
    "beginner": PlayerFacts(
        handicap=36, hand=1, miss=1, curve=quantity(4, "deg"),
        clubs=carries(("D", 165), ("7i", 105)),
    ),
    "scratch": PlayerFacts(
        handicap=0, hand=1, clubs=carries(("D", 255), ("3w", 232), ("7i", 170)),
    ),
}  # fmt: skip


@cache
def player(name: str):
    golfer = start_bag(PLAYERS[name]).golfer
    return golfer, solve_player(golfer)


def ask(name: str, pin: float, *trouble: TroubleFacts, **facts) -> ShotChoice:
    golfer, table = player(name)
    return choose(
        golfer=golfer, table=table, facts=ShotFacts(pin=yd(pin), trouble=trouble, **facts)
    )


def t(kind: str, side: str, *, start=None, end=None, gap=None, name: str | None = None):
    return TroubleFacts(
        name or kind, kind, side, *(None if v is None else yd(v) for v in (start, end, gap))
    )


def wind(mph: float, comes_from: float) -> WindFacts:
    return WindFacts(quantity(mph, "mph"), quantity(comes_from, "deg"))


def finish(play: Play) -> float:
    return si(play.finish_at, "yd")


def start(play: Play) -> float:
    return si(play.start_at, "yd")


def total(play: Play) -> float:
    return si(play.total, "yd")


def left(play: Play) -> float:
    return si(play.left, "yd")


def longer(name: str, a: str, b: str) -> bool:
    """Whether club `a` carries at least as far as `b` in this bag."""
    carry = {c.name: c.carry_m for c in player(name)[0].clubs}
    return carry[a] >= carry[b]


class Scene(NamedTuple):
    name: str
    found: Callable[[], ShotChoice]
    sound: Callable[[ShotChoice], bool]


SCENES = [
    # Approaches
    Scene("nothing about: the flag is the target", lambda: ask("fader", 150),
          lambda c: abs(finish(c.best)) < 3 and 0.5 < c.best.past_front),
    Scene("a fader starts it left of where it ends", lambda: ask("fader", 165),
          lambda c: start(c.best) < finish(c.best) - 2),
    Scene("a drawer starts it right of where it ends", lambda: ask("drawer", 165),
          lambda c: start(c.best) > finish(c.best) + 2),
    Scene("water right of a slicing miss: finish left of the flag, dry",
          lambda: ask("fader", 160, t("penalty", "right")),
          lambda c: finish(c.best) < -1 and c.best.chance["penalty"] < 0.12),
    Scene("water left suits a miss to the right: closer to the flag than water right",
          lambda: ask("fader", 160, t("penalty", "left")),
          lambda c: 0 <= finish(c.best)
          < abs(finish(ask("fader", 160, t("penalty", "right")).best)) + 1.5),
    Scene("water on both sides: neither is courted",
          lambda: ask("fader", 160, t("penalty", "left", name="l"),
                      t("penalty", "right", name="r")),
          lambda c: abs(finish(c.best)) < 5),
    Scene("water short: enough club to carry it",
          lambda: ask("fader", 150, t("penalty", "short")),
          lambda c: total(c.best) >= 148 and c.best.chance["penalty"] < 0.25),
    Scene("water long: never past the flag on average",
          lambda: ask("fader", 150, t("penalty", "long", gap=3)),
          lambda c: total(c.best) <= 152),
    Scene("bunker short left of a left pin: towards the fat of the green",
          lambda: ask("fader", 150, t("sand", "left"), pin_across=-1.0),
          lambda c: 1.5 < finish(c.best) < 9),
    Scene("right pin, water right: well inside the flag",
          lambda: ask("fader", 155, t("penalty", "right"), pin_across=1.0),
          lambda c: finish(c.best) < -4),
    Scene("out of bounds long: not past the flag",
          lambda: ask("fader", 140, t("out", "long", gap=5)),
          lambda c: total(c.best) <= 143),
    # Wind and height
    Scene("into 20: at least two clubs more than calm",
          lambda: ask("fader", 150, wind=wind(20, 0)),
          lambda c: longer("fader", c.best.club, "5i")),
    Scene("helping 20: less club than calm", lambda: ask("fader", 150, wind=wind(20, 180)),
          lambda c: longer("fader", ask("fader", 150).best.club, c.best.club)
          and c.best.club != ask("fader", 150).best.club),
    Scene("wind off the left: start it left", lambda: ask("scratch", 160, wind=wind(15, 270)),
          lambda c: start(c.best) < -5 and abs(finish(c.best)) < 3),
    Scene("wind off the right: start it right", lambda: ask("scratch", 160, wind=wind(15, 90)),
          lambda c: start(c.best) > 5 and abs(finish(c.best)) < 3),
    Scene("thirty feet up: more club", lambda: ask("fader", 150, height=quantity(30, "ft")),
          lambda c: longer("fader", c.best.club, ask("fader", 150).best.club)),
    # Lies
    Scene("ball above the feet starts left, so aim right of a level lie",
          lambda: ask("fader", 150, lie=LieFacts(above_feet=quantity(6, "deg"))),
          lambda c: start(c.best) > start(ask("fader", 150).best) + 1),
    Scene("deep rough: no long iron, take what gets out",
          lambda: ask("fader", 190, lie=LieFacts("deep_rough")),
          lambda c: not longer("fader", c.best.club, "5i")),
    Scene("rough: the driver stays in the bag", lambda: ask("fader", 230, lie=LieFacts("rough")),
          lambda c: c.best.club != "D"),
    # Tee shots
    Scene("plain four: driver", lambda: ask("fader", 400, tee=True, par=4),
          lambda c: c.best.club == "D"),
    Scene("out of bounds right for a slicer: towards the left edge",
          lambda: ask("fader", 400, t("out", "right"), tee=True, par=4),
          lambda c: -26 < si(c.best.finish_from_middle, "yd") < -4),
    Scene("water left from 200 to 260, a drawer: right half or less club",
          lambda: ask("drawer", 390, t("penalty", "left", start=200, end=260), tee=True, par=4),
          lambda c: si(c.best.finish_from_middle, "yd") > 1 or total(c.best) < 205),
    Scene("stream across at 230 to 245: short of it or well over",
          lambda: ask("fader", 380, t("penalty", "across", start=230, end=245), tee=True, par=4),
          lambda c: total(c.best) < 226 or si(c.best.carry, "yd") > 250),
    Scene("stream a beginner cannot carry: short of it",
          lambda: ask("beginner", 330, t("penalty", "across", start=150, end=175), tee=True,
                      par=4),
          lambda c: total(c.best) < 150 and c.best.chance["penalty"] < 0.12),
    Scene("trees both sides: down the middle",
          lambda: ask("scratch", 410, t("trees", "left", name="l"), t("trees", "right", name="r"),
                      tee=True, par=4),
          lambda c: abs(si(c.best.finish_from_middle, "yd")) < 4),
    Scene("bends right with a fade: start left, let it come back",
          lambda: ask("fader", 415, t("trees", "right"), tee=True, par=4, bend=1),
          lambda c: start(c.best) < -8 and -17 < si(c.best.finish_from_middle, "yd") < 3),
    Scene("bends left for a left-handed slicer: start right, let it come back",
          lambda: ask("left-handed slicer", 380, t("trees", "left"), tee=True, par=4, bend=-1),
          lambda c: start(c.best) > 6 and -3 < si(c.best.finish_from_middle, "yd") < 18),
    # Par threes
    Scene("beginner, 150 over water: lay up or all of the driver, nothing between",
          lambda: ask("beginner", 150, t("penalty", "across", start=60, end=130), tee=True,
                      par=3),
          lambda c: total(c.best) < 60 or si(c.best.carry, "yd") > 133),
    Scene("scratch, 180 over water: goes for it",
          lambda: ask("scratch", 180, t("penalty", "across", start=120, end=160), tee=True,
                      par=3),
          lambda c: c.best.past_front > 0.5 and c.best.chance["penalty"] < 0.2),
    # Lay-ups and going
    Scene("355 left, sand 205 to 235: a club that cannot reach it",
          lambda: ask("fader", 355, t("sand", "across", start=205, end=235), par=5, stroke=2),
          lambda c: total(c.best) < 200),
    Scene("240 to a green behind water, 12 handicap: lay up",
          lambda: ask("fader", 240, t("penalty", "across", start=205, end=228), par=5, stroke=2),
          lambda c: total(c.best) < 200 and left(c.best) < 130),
    Scene("225 to an open green, scratch: go", lambda: ask("scratch", 225, par=5, stroke=2),
          lambda c: c.best.past_front > 0.35),
    # Trees
    Scene("behind trees, 170: low, and sideways close to it",
          lambda: ask("fader", 170, lie=LieFacts("rough"), blocked=True, par=4, stroke=2),
          lambda c: c.sideways is not None and c.sideways - c.best.strokes < 0.4),
    # Short
    Scene("forty yards: pitched with a wedge", lambda: ask("fader", 40),
          lambda c: c.best.kind == "pitch" and c.best.chance["green"] > 0.6),
    Scene("95 yards: a wedge at the flag", lambda: ask("scratch", 95),
          lambda c: c.best.chance["green"] > 0.6 and abs(finish(c.best)) < 2),
    Scene("a left-handed slicer with water left starts right",
          lambda: ask("left-handed slicer", 130, t("penalty", "left")),
          lambda c: start(c.best) > finish(c.best) and finish(c.best) > 1),
    Scene("protecting a card is never the bolder shot",
          lambda: ask("fader", 240, t("penalty", "across", start=205, end=228), par=5, stroke=2,
                      protect=True),
          lambda c: c.best.double_or_worse <= 0.02 + ask(
              "fader", 240, t("penalty", "across", start=205, end=228), par=5, stroke=2
          ).best.double_or_worse),
]  # fmt: skip


@pytest.mark.parametrize("scene", SCENES, ids=[s.name for s in SCENES])
def test_a_caddie_would_sign_it(scene: Scene):
    found = scene.found()
    best = found.best
    assert scene.sound(found), (
        f"{best.club} {best.kind}, total {total(best):.0f}, start {start(best):.1f}, finish "
        f"{finish(best):.1f}, from middle {si(best.finish_from_middle, 'yd'):.1f}, "
        f"left {left(best):.0f}, front {best.past_front:.2f}, strokes {best.strokes:.2f}, "
        f"sideways {found.sideways}, chances { {k: round(v, 2) for k, v in best.chance.items()} }"
    )
