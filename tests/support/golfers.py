"""Invented golfers of several standards, and a plain stand-in for their flights."""

from __future__ import annotations

import math

import numpy as np

from engine.core.golfer import Club, Family, Golfer, ShortGame
from engine.core.pattern import Habits, Lie, Pattern, pattern_of
from engine.core.strokes import WIDENS, StrokeTable, solve_strokes

YD = 0.9144
Row = tuple[str, Family, float, float]  # name, family, loft [deg], carry [yd]

# Carries about those of men's tour players of the years the published tables were made.
TOUR: list[Row] = [
    ("D", "driver", 10.5, 268), ("3w", "wood", 15, 236), ("5w", "wood", 18, 222),
    ("4i", "iron", 22, 200), ("5i", "iron", 25, 188), ("6i", "iron", 28, 177),
    ("7i", "iron", 32, 166), ("8i", "iron", 36, 154), ("9i", "iron", 41, 142),
    ("PW", "wedge", 46, 130), ("50", "wedge", 50, 117), ("54", "wedge", 54, 104),
    ("58", "wedge", 58, 90),
]  # fmt: skip
SCRATCH: list[Row] = [(n, f, lo, c * 0.88) for n, f, lo, c in TOUR]
BOGEY: list[Row] = [
    ("D", "driver", 10.5, 185), ("3w", "wood", 15, 172), ("5w", "wood", 19, 163),
    ("4h", "hybrid", 22, 155), ("5i", "iron", 26, 146), ("6i", "iron", 29, 138),
    ("7i", "iron", 33, 129), ("8i", "iron", 37, 120), ("9i", "iron", 41, 110),
    ("PW", "wedge", 46, 99), ("52", "wedge", 52, 85), ("56", "wedge", 56, 72),
]  # fmt: skip


# Long clubs scatter wider, from the turf most of all: common practice, no source.
LONG = {"driver": 1.1, "wood": 1.35, "hybrid": 1.1, "iron": 1.0, "wedge": 1.0}
SIDE = {"driver": 1.15, "wood": 1.15, "hybrid": 1.0, "iron": 0.92, "wedge": 0.92}


def golfer(
    rows: list[Row], *, long: float, side_deg: float, mishit: float, chip: float, sand: float,
    chip_mishit: float, putt_deg: float, pace: float, hand: int = 1, miss: int = 0,
    curve_deg: float = 0.0, lean_deg: float = 0.0,
) -> Golfer:  # fmt: skip
    """Return an invented golfer; `side_deg` is a long iron's."""
    clubs = tuple(
        Club(
            name=n, family=f, loft_rad=math.radians(lo), carry_m=c * YD,
            spread_long=long * LONG[f], spread_side_rad=math.radians(side_deg * SIDE[f]),
            lean_rad=math.radians(lean_deg), mishit=mishit * (1.2 if f == "driver" else 1.0),
        )
        for n, f, lo, c in rows
    )  # fmt: skip
    short = ShortGame(chip, sand, chip_mishit, math.radians(putt_deg), pace)
    return Golfer(clubs, hand, math.radians(curve_deg), miss, short)


def tour(**kw: float) -> Golfer:
    return golfer(TOUR, long=0.045, side_deg=3.1, mishit=0.04, chip=0.10, sand=0.16,
                  chip_mishit=0.02, putt_deg=1.5, pace=0.11, **kw)  # fmt: skip


def scratch(**kw: float) -> Golfer:
    return golfer(SCRATCH, long=0.055, side_deg=3.7, mishit=0.06, chip=0.13, sand=0.20,
                  chip_mishit=0.03, putt_deg=1.65, pace=0.12, **kw)  # fmt: skip


def bogey(**kw: float) -> Golfer:
    return golfer(BOGEY, long=0.085, side_deg=5.2, mishit=0.14, chip=0.20, sand=0.32,
                  chip_mishit=0.10, putt_deg=2.0, pace=0.15, **kw)  # fmt: skip


ROLL = {"driver": 0.075, "wood": 0.06, "hybrid": 0.05, "iron": 0.035, "wedge": 0.015}


def plain_swings(player: Golfer) -> tuple[list[str], Habits, np.ndarray, np.ndarray, np.ndarray]:
    """Return names, habits, calm carries and rolls without a flight model."""
    names, clubs, reach, run = [], [], [], []
    for club in player.clubs:
        for kind, share in (("", 1.0), ("choked", 0.965), ("easy", 0.88), ("half", 0.68)):
            if kind == "easy" and club.family not in ("iron", "wedge"):
                continue
            if kind == "half" and club.family != "wedge":
                continue
            names.append(f"{club.name} {kind}".strip())
            clubs.append(club)
            reach.append(club.carry_m * share)
            run.append(club.carry_m * share * ROLL[club.family])
    habits = Habits(
        spread_long=np.array([c.spread_long for c in clubs]),
        spread_side_rad=np.array([c.spread_side_rad for c in clubs]),
        lean_rad=np.array([c.lean_rad for c in clubs]),
        mishit=np.array([c.mishit for c in clubs]),
        loft_rad=np.array([c.loft_rad for c in clubs]),
        hand=player.hand,
        miss=player.miss,
    )
    r = np.array(run)
    return names, habits, np.array(reach), r, 0.4 * r


def solved(player: Golfer) -> StrokeTable:
    """Return the player's strokes table on the plain flights."""
    _, habits, reach, run, run_sd = plain_swings(player)
    return solve_strokes(
        habits=habits, short=player.short, reach_m=reach, run_m=run, run_sd_m=run_sd
    )


def plain_pattern(player: Golfer, *, lie: Lie = "fairway") -> tuple[list[str], Pattern]:
    """Return the names and pattern of the plain flights, calm."""
    names, habits, reach, run, run_sd = plain_swings(player)
    bearing = np.full(len(reach), player.curve_rad)
    return names, pattern_of(
        habits=habits,
        reach_m=reach,
        bearing_rad=bearing,
        run_m=run,
        run_sd_m=run_sd,
        widening=WIDENS[lie],
    )
