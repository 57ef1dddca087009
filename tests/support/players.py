"""Invented golfers for the learning checks, made without the learner's own assumptions.

Solid shots are normal for half of them and Student's t with five degrees of freedom for the
other half; mishits lose anything from a tenth to a half; gaps come from blending the printed
tour rows of men and women, not from the gapping curve; carries are told too long by a
uniform amount and rounded; most results are reported only roughly. Spreads run through the
11.5 % (mishits included) that a published column gives for a 90-shooter.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from engine.core.facts import ClubFact, Facts
from engine.core.seen import Seen

YD = 0.9144
CLUBS = ("D", "3w", "5w", "4h", "5i", "6i", "7i", "8i", "9i", "PW", "GW", "SW", "LW")
# Printed tour averages (from memory); the three lob wedges carried on by the last gap.
_MEN = np.array([275, 243, 230, 212, 194, 183, 172, 160, 148, 136, 122, 108, 94.0])
_WOMEN = np.array([218, 195, 185, 174, 161, 152, 141, 130, 119, 107, 96, 85, 74.0])


@dataclass(frozen=True, slots=True)
class Player:
    """The truth about one invented golfer; lengths in yards."""

    handicap: float
    carry: np.ndarray
    spread: float
    side_rad: float
    lean_rad: float
    heavy_tails: bool
    miss: int
    wind_feel: float
    facts: Facts


def player(rng: np.random.Generator, *, told: tuple[str, ...] = CLUBS) -> Player:
    """Return one golfer, scratch to 30 handicap, and what they tell of themselves."""
    handicap = rng.uniform(0, 30)
    driver = rng.normal(245 - 2.3 * handicap, 14)
    blend = rng.uniform(0, 1)
    ratio = blend * _MEN / _MEN[0] + (1 - blend) * _WOMEN / _WOMEN[0]
    ratio = ratio ** rng.uniform(0.75, 1.0)
    carry = driver * ratio * (1 + 0.02 * rng.standard_normal(len(CLUBS)))
    carry = np.sort(carry)[::-1]
    boast = rng.uniform(-0.02, 0.10)
    miss = int(rng.choice([-1, 0, 1]))
    clubs = tuple(
        ClubFact(
            name,
            5 * round(float(carry[i]) * (1 + boast + rng.uniform(-0.03, 0.03)) / 5) * YD
            if name in told
            else None,
        )
        for i, name in enumerate(CLUBS)
    )
    return Player(
        handicap=handicap,
        carry=carry,
        spread=(0.05 + 0.0033 * handicap) * rng.uniform(0.75, 1.35),
        side_rad=math.radians(3.2 + 0.08 * handicap) * rng.uniform(0.8, 1.25),
        lean_rad=math.radians(rng.normal(0, 1.5)),
        heavy_tails=bool(rng.random() < 0.5),
        miss=miss,
        wind_feel=float(rng.uniform(0.75, 1.3)),
        facts=Facts(clubs=clubs, handicap=round(handicap + rng.normal(0, 1.5)), miss=miss),
    )


def shot(
    rng: np.random.Generator, who: Player, club: str, *, windy: bool = True
) -> tuple[Seen, float | None]:
    """Return one logged shot as the learner sees it, and the bare number it comes down to [m]."""
    at = CLUBS.index(club)
    noise = rng.standard_t(5) * math.sqrt(3 / 5) if who.heavy_tails else rng.standard_normal()
    carry = who.carry[at] * (1 + who.spread * noise)
    angle = who.lean_rad + who.side_rad * rng.standard_normal()
    bad = rng.random() < 0.08
    if bad and rng.random() < 0.6:
        carry *= rng.uniform(0.5, 0.9)
    elif bad:
        side = who.miss if who.miss and rng.random() < 0.8 else rng.choice([-1, 1])
        carry *= rng.uniform(0.85, 1.0)
        angle += side * who.side_rad * rng.uniform(1.5, 3.5)
    called = rng.normal(0, 0.05) if windy and rng.random() < 0.5 else 0.0
    flown = carry * (1 + who.wind_feel * called)
    target = who.facts.clubs[at].carry_m
    goal = who.carry[at] if target is None else target / YD
    goal *= (1 + called) * rng.uniform(0.94, 1.03)
    low, high = _reported(rng, flown, goal)
    left, right = _sided(rng, angle, carry)
    point = 0.5 * (low + high) if math.isfinite(high - low) else None
    back = YD / (1 + called)
    return Seen(
        club=club, low_m=low * back, high_m=high * back, left_rad=left, right_rad=right,
        wind_share=called, doubt=0.2 * abs(called),
        contact="mishit" if bad and rng.random() < 0.3 else None,
    ), None if point is None else point * back  # fmt: skip


def _reported(rng: np.random.Generator, flown: float, goal: float) -> tuple[float, float]:
    """How a player reports a carry: a round number, so much short, or a word."""
    how = rng.random()
    off = flown - goal
    if how < 0.45:
        said = 5 * round(flown / 5)
        return said - 2.5, said + 2.5
    if how < 0.70 and abs(off) > 5:
        step = 5 if abs(off) < 25 else 10
        said = goal + step * round(off / step)
        return said - step / 2, said + step / 2
    if abs(off) < 5:
        return goal - 5, goal + 5
    return (goal + 5, math.inf) if off > 0 else (-math.inf, goal - 5)


def _sided(rng: np.random.Generator, angle: float, carry: float) -> tuple[float, float]:
    """How a player reports a side: in yards, as a word, or not at all."""
    how, off = rng.random(), carry * math.tan(angle)
    if how < 0.4:
        said = 5 * round(off / 5)
        return math.atan2(said - 2.5, carry), math.atan2(said + 2.5, carry)
    if how < 0.7 and abs(off) > 4:
        edge = math.atan2(4, carry)
        return (edge, math.inf) if off > 0 else (-math.inf, -edge)
    return -math.inf, math.inf
