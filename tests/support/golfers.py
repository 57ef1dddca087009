"""Invented golfers of several standards, and a plain stand-in for their flights."""

from __future__ import annotations

import math

import numpy as np

from engine.core.golfer import Club, Family, Golfer, ShortGame
from engine.core.pattern import Habits, Lie, Pattern, pattern_of
from engine.core.solve import solve_strokes
from engine.core.strokes import WIDENS, StrokeTable

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
# Carries of the players that courses are rated for: drives of 250 and 200 yards and second
# shots of 220 and 170, roll of 20 off the tee (USGA/WHS Course Rating System, men).
SCRATCH: list[Row] = [
    ("D", "driver", 10.5, 230), ("3w", "wood", 15, 208), ("5w", "wood", 18, 198),
    ("4h", "hybrid", 21, 188), ("5i", "iron", 25, 175), ("6i", "iron", 28, 165),
    ("7i", "iron", 32, 154), ("8i", "iron", 36, 143), ("9i", "iron", 41, 131),
    ("PW", "wedge", 46, 119), ("52", "wedge", 52, 103), ("58", "wedge", 58, 82),
]  # fmt: skip
BOGEY: list[Row] = [
    ("D", "driver", 10.5, 180), ("3w", "wood", 15, 160), ("5w", "wood", 19, 152),
    ("4h", "hybrid", 22, 147), ("5i", "iron", 26, 139), ("6i", "iron", 29, 131),
    ("7i", "iron", 33, 122), ("8i", "iron", 37, 113), ("9i", "iron", 41, 103),
    ("PW", "wedge", 46, 93), ("52", "wedge", 52, 80), ("56", "wedge", 56, 68),
]  # fmt: skip


# How clubs scatter against a mid iron: long clubs wider, woods from the turf most of all, which
# is common practice; the sizes are fitted to the published strokes and greens at once, see
# `field`. A fairway wood off the turf is also missed oftener.
LONG = {"driver": 1.15, "wood": 2.0, "hybrid": 1.2, "iron": 1.0, "wedge": 1.0}
SIDE = {"driver": 1.31, "wood": 1.27, "hybrid": 1.1}
MISHIT = {"driver": 1.2, "wood": 2.1}
SIDE_BY_LOFT, MID_LOFT = 0.0065, 33.0  # of an iron's spread a degree less loft; degrees


def side_share(family: Family, loft: float) -> float:
    """Return the spread in direction over a mid iron's."""
    return SIDE.get(family, 1.0 + SIDE_BY_LOFT * (MID_LOFT - loft))


def golfer(
    rows: list[Row], *, long: float, side_deg: float, mishit: float, chip: float, sand: float,
    chip_mishit: float, putt_deg: float, pace: float, hand: int = 1, miss: int = 0,
    curve_deg: float = 0.0, lean_deg: float = 0.0,
) -> Golfer:  # fmt: skip
    """Return an invented golfer; `long` and `side_deg` are a mid iron's."""
    clubs = tuple(
        Club(
            name=n, family=f, loft_rad=math.radians(lo), carry_m=c * YD,
            spread_long=long * LONG[f],
            spread_side_rad=math.radians(side_deg * side_share(f, lo)),
            lean_rad=math.radians(lean_deg), mishit=mishit * MISHIT.get(f, 1.0),
        )
        for n, f, lo, c in rows
    )  # fmt: skip
    short = ShortGame(chip, sand, chip_mishit, math.radians(putt_deg), pace)
    return Golfer(clubs, hand, math.radians(curve_deg), miss, short)


def tour(*, reach: float = 1.0, **kw: float) -> Golfer:
    """Return a professional-like player; `reach` is a factor on every carry."""
    rows: list[Row] = [(n, f, lo, c * reach) for n, f, lo, c in TOUR]
    return golfer(rows, long=0.0325, side_deg=3.0, mishit=0.038, chip=0.123, sand=0.165,
                  chip_mishit=0.025, putt_deg=1.5, pace=0.11, **kw)  # fmt: skip


def field() -> list[tuple[float, Golfer]]:
    """Return professionals of several lengths and the share of each.

    Published strokes are means over a whole tour. One bag's gaps would show as ripples of 0.03
    stroke; lengths that scatter by 3 % (from memory, what driving averages do) smooth them out.
    """
    reach = np.array([0.95, 0.975, 1.0, 1.025, 1.05])
    share = np.exp(-0.5 * ((reach - 1.0) / 0.03) ** 2)
    return [
        (float(w), tour(reach=float(r))) for w, r in zip(share / share.sum(), reach, strict=True)
    ]


def scratch(**kw: float) -> Golfer:
    return golfer(SCRATCH, long=0.042, side_deg=2.95, mishit=0.045, chip=0.125, sand=0.20,
                  chip_mishit=0.03, putt_deg=1.65, pace=0.12, **kw)  # fmt: skip


def bogey(**kw: float) -> Golfer:
    return golfer(BOGEY, long=0.075, side_deg=4.6, mishit=0.12, chip=0.20, sand=0.32,
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
