"""Where to start a putt, how hard to hit it, and what the chances are."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import TYPE_CHECKING, Literal

import numpy as np

from engine import tables
from engine.api.conditions import wind_today
from engine.api.standard import physics
from engine.core import putt as core
from engine.core.aim import aim_to_arrive
from engine.core.air import REFERENCE
from engine.core.breeze import wind_push_mps2
from engine.core.roll import (
    GRAVITY_MPS2,
    HOLDS_BELOW,
    ROLLING_SHARE,
    Stretch,
    green_deceleration_mps2,
    stretch,
)
from engine.errors import NoSolution, OutOfRange
from engine.units import quantity, si

if TYPE_CHECKING:
    from engine.api.conditions import WindFacts
    from engine.core.golfer import ShortGame
    from engine.units import Q

STEEPEST = 0.25  # rise over run above which a number cannot be a green's slope
SLOWEST_FT, FASTEST_FT = 4.0, 18.0
LONGEST_FT = 200.0
# Roll past the hole at which a break told as a width is taken to be meant: common practice. [m]
_USUAL_PAST_M = 0.3
# How far greens lean where nothing was said: about the slope at hole locations. Judgement. [-]
_USUAL_SLOPE = 0.015
_SLOPE_ROUNDS = 16


@dataclass(frozen=True, slots=True)
class Fall:
    """The slope of a stretch of green, as seen from the ball towards the hole.

    Attributes
    ----------
    up : Quantity
        Rise towards the hole, negative downhill: a grade, an angle, or the height gained
        over the stretch. [-, angle or length]
    right : Quantity
        Rise to the right: positive makes the ball break left. [- or angle]
    share : float
        Share of the way to the hole at which the stretch ends; 1 for the last.
    """

    up: Q
    right: Q
    share: float = 1.0


@dataclass(frozen=True, slots=True)
class PuttQuestion:
    """A putt.

    Attributes
    ----------
    length : Quantity
        Distance to the hole. [length]
    falls : tuple of Fall
        The slope, in stretches from the ball on.
    stimp : Quantity
        Level Stimpmeter reading. [length]
    short : ShortGame
        The player's spread of line and pace.
    wind : WindFacts or None
        Wind against the line of the putt.
    """

    length: Q
    falls: tuple[Fall, ...]
    stimp: Q
    short: ShortGame
    wind: WindFacts | None = None


@dataclass(frozen=True, slots=True)
class PuttAnswer:
    """Line, pace and chances.

    Attributes
    ----------
    aim : Quantity
        Where the start line passes the hole, from its middle, right positive. [length]
    roll : Quantity
        Pace: the length of level putt on the same green that needs the same hit. [length]
    one, three : float
        Chance to hole it; chance to need three or more. [-]
    expected : float
        Mean number of putts to hole out. [-]
    past, past_right : Quantity
        Where the putt as meant would stop without a hole. [length]
    firm : Quantity
        How far from the hole one hit a standard deviation too hard stops. [length]
    arrives : Quantity
        Direction of travel at the hole, right positive. [angle]
    wind_aim, wind_roll : Quantity
        What the wind adds to `aim` and to `roll`. [length]
    """

    aim: Q
    roll: Q
    one: float
    three: float
    expected: float
    past: Q
    past_right: Q
    firm: Q
    arrives: Q
    wind_aim: Q
    wind_roll: Q


def plan_putt(question: PuttQuestion) -> PuttAnswer:
    """Choose line and pace of a putt by expected strokes; grain is not modelled.

    Parameters
    ----------
    question : PuttQuestion
        The putt.

    Returns
    -------
    PuttAnswer
        See there.

    Raises
    ------
    OutOfRange
        ``putt length`` beyond 200 ft, ``green speed`` outside 4 to 18 ft, ``slope`` beyond
        25 %, ``slope at the hole`` too steep for a ball to stop on, ``steepness`` where only the
        wind keeps it rolling, or ``wind speed``.
    NoSolution
        No line and pace bring a ball to the hole.

    See Also
    --------
    engine.core.putt.best_putt : the model and its sources.
    """
    green, length_m, stimp_m = _ground(question.length, question.falls, question.stimp)
    calm = core.best_putt(green=green, length_m=length_m, short=question.short, stimp_m=stimp_m)
    found = calm
    if question.wind is not None:
        pushed = _blown(green, question.wind, length_m, stimp_m)
        found = core.best_putt(
            green=pushed, length_m=length_m, short=question.short, stimp_m=stimp_m
        )
    return PuttAnswer(
        aim=quantity(found.aim_m, "m"),
        roll=quantity(found.roll_m, "m"),
        one=found.one,
        three=found.three,
        expected=found.expected,
        past=quantity(found.meant_x_m, "m"),
        past_right=quantity(found.meant_y_m, "m"),
        firm=quantity(found.firm_m, "m"),
        arrives=quantity(found.fall_rad, "rad"),
        wind_aim=quantity(found.aim_m - calm.aim_m, "m"),
        wind_roll=quantity(found.roll_m - calm.roll_m, "m"),
    )


def side_slope_of_break(*, length: Q, up: Q, stimp: Q, break_right: Q) -> Q:
    """Side slope that makes a putt of usual pace break by a told width.

    Parameters
    ----------
    length, up, stimp : Quantity
        As in `PuttQuestion` and `Fall`.
    break_right : Quantity
        Width of the break, positive if the ball moves right. [length]

    Returns
    -------
    Quantity
        Rise to the right, for `Fall.right`. [%]

    Raises
    ------
    OutOfRange
        ``break``: no slope on which a ball can stop breaks that much; otherwise as
        `plan_putt`.
    """
    width_m = si(break_right, "m")
    _, length_m, stimp_m = _ground(length, (Fall(up, quantity(0.0, "%")),), stimp)
    grade, wanted = _grade(up, length_m), abs(width_m)
    held, most, lean = 0.0, 0.0, min(wanted / length_m / 5.0, 0.1)
    for _ in range(_SLOPE_ROUNDS):
        reached = _usual_break_m(length_m, stimp_m, grade, lean)
        if reached is None:
            lean = 0.5 * (held + lean)
            continue
        held, most = lean, max(most, reached)
        if abs(reached - wanted) <= 0.005 * wanted + 1e-4:
            return quantity(-100.0 * math.copysign(lean, width_m), "%")
        lean = min(lean * (wanted / reached) ** 0.8, STEEPEST)
    raise OutOfRange("break", wanted, 0.0, most, "m")


def steepest_grade(stimp: Q) -> Q:
    """Steepest slope on which a ball that rolls still comes to rest.

    Parameters
    ----------
    stimp : Quantity
        Level Stimpmeter reading. [length]

    Returns
    -------
    Quantity
        Rise over run, 3 % below the limit of the rolling model. [%]

    Raises
    ------
    OutOfRange
        ``green speed`` outside 4 to 18 ft.
    """
    slow = green_deceleration_mps2(stimp_m=checked_stimp_m(stimp))
    return quantity(100.0 * HOLDS_BELOW * slow / (ROLLING_SHARE * GRAVITY_MPS2), "%")


def worth_of_reading(*, length: Q, stimp: Q, short: ShortGame, told: Literal["up", None]) -> float:
    """Strokes that knowing the slope of a putt is worth, where it was not told.

    Parameters
    ----------
    length, stimp, short
        As in `PuttQuestion`.
    told : {"up", None}
        Whether up or down is known, so that only the break is open.

    Returns
    -------
    float
        Expected putts lost by playing it level on a green that leans by 1.5 %. [-]

    Raises
    ------
    OutOfRange
        As for `plan_putt`.
    """
    return _worth(_length_m(length), checked_stimp_m(stimp), short, told is not None)


def green_word(kind: Literal["speed", "side", "grade"], word: str) -> Q:
    """What a word for green speed or slope is taken to mean; see data/green_words.csv.

    Raises
    ------
    KeyError
        No such word of that kind.
    """
    for row in tables.rows("green_words"):
        if row["kind"] == kind and row["word"] == word:
            return quantity(tables.number("green_words", row, "value"), row["unit"])
    raise KeyError(word)


@lru_cache(maxsize=256)
def _worth(length_m: float, stimp_m: float, short: ShortGame, grade_known: bool) -> float:
    level = core.best_putt(
        green=(stretch(stimp_m=stimp_m, up=0.0, right=0.0),),
        length_m=length_m,
        short=short,
        stimp_m=stimp_m,
    )
    leans = [(0.0, _USUAL_SLOPE)]
    if not grade_known:
        leans += [(_USUAL_SLOPE, 0.0), (-_USUAL_SLOPE, 0.0)]
    costs = [
        core.misread_cost(
            green=(stretch(stimp_m=stimp_m, up=up, right=right),),
            length_m=length_m,
            short=short,
            stimp_m=stimp_m,
            taken=level,
        )
        for up, right in leans
    ]
    return max(costs)


def _usual_break_m(length_m: float, stimp_m: float, up: float, right: float) -> float | None:
    ground = stretch(stimp_m=stimp_m, up=up, right=right)
    if ground.steepness >= HOLDS_BELOW:
        return None
    slow = green_deceleration_mps2(stimp_m=stimp_m)
    aim = aim_to_arrive(
        green=(ground,),
        level_mps2=slow,
        hole_x_m=np.array([length_m]),
        hole_y_m=np.zeros(1),
        arrival_mps=np.array([math.sqrt(2.0 * slow * _USUAL_PAST_M)]),
    )
    if not aim.found.all() or abs(aim.heading_rad[0]) > 1.4:
        return None
    return length_m * abs(math.tan(aim.heading_rad[0]))


def _ground(
    length: Q, falls: tuple[Fall, ...], stimp: Q
) -> tuple[tuple[Stretch, ...], float, float]:
    length_m, stimp_m = _length_m(length), checked_stimp_m(stimp)
    green, begins = [], 0.0
    last = len(falls) - 1
    for i, fall in enumerate(falls):
        ends = 1.0 if i == last else fall.share
        ground = stretch(
            stimp_m=stimp_m,
            up=_grade(fall.up, length_m * (ends - begins)),
            right=_grade(fall.right, length_m),
            until_m=math.inf if i == last else ends * length_m,
        )
        green.append(ground)
        begins = ends
    if green[-1].steepness >= HOLDS_BELOW:
        steepest = si(steepest_grade(stimp), "%")
        grade = 100.0 * math.hypot(
            _grade(falls[-1].up, length_m), _grade(falls[-1].right, length_m)
        )
        raise OutOfRange("slope at the hole", grade, 0.0, steepest, "%")
    return tuple(green), length_m, stimp_m


def _blown(
    green: tuple[Stretch, ...], wind: WindFacts, length_m: float, stimp_m: float
) -> tuple[Stretch, ...]:
    """Return the ground with the push of a wind on a ball at its mean pace."""
    pace_mps = 0.5 * math.sqrt(2.0 * green_deceleration_mps2(stimp_m=stimp_m) * length_m)
    along, right = wind_push_mps2(
        wind=wind_today(wind), air=REFERENCE, ball=physics().ball, pace_mps=pace_mps
    )
    return tuple(
        replace(
            on,
            pull_x_mps2=on.pull_x_mps2 + along,
            pull_y_mps2=on.pull_y_mps2 + right,
        )
        for on in green
    )


def _grade(q: Q, length_m: float) -> float:
    rise = si(q, "m") / length_m if q.check("[length]") else math.tan(si(q, "rad"))
    if not abs(rise) <= STEEPEST:
        raise OutOfRange("slope", 100.0 * rise, -100.0 * STEEPEST, 100.0 * STEEPEST, "%")
    return rise


def _length_m(length: Q) -> float:
    ft = si(length, "ft")
    if not 0.5 <= ft <= LONGEST_FT:
        raise OutOfRange("putt length", ft, 0.5, LONGEST_FT, "ft")
    return ft * 0.3048


def checked_stimp_m(stimp: Q) -> float:
    """Return a green speed in metres.

    Raises
    ------
    OutOfRange
        ``green speed`` outside 4 to 18 ft.
    """
    ft = si(stimp, "ft")
    if not SLOWEST_FT <= ft <= FASTEST_FT:
        raise OutOfRange("green speed", ft, SLOWEST_FT, FASTEST_FT, "ft")
    return ft * 0.3048


__all__ = [
    "Fall",
    "NoSolution",
    "PuttAnswer",
    "PuttQuestion",
    "green_word",
    "plan_putt",
    "side_slope_of_break",
    "steepest_grade",
    "worth_of_reading",
]
