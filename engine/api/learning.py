"""What logged shots say of the stored numbers: reduce a result, refit, suggest."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from engine.core.bag import StartBag
from engine.core.belief import belief_of
from engine.core.learn import Learned, learn
from engine.core.learn_advice import Suggestion, looks_picked, suggestions
from engine.core.seen import Seen
from engine.units import si, si_or_none

if TYPE_CHECKING:
    from engine.units import Q

_YARD = 0.9144
_NEAR = 0.03  # "pin high" means within this of the distance (judgement)
_NEAR_LEAST = 4 * _YARD
_ROUNDED = 2.5 * _YARD  # a told carry is good to this
_TOLD_BY = 0.2  # "12 short" is good to a fifth of itself
_OF_WIND = 0.2  # doubt in the wind's effect, as a share of it (judgement)
_TOO_FAR = 1.4  # no shot carries this much further than its club (judgement)


@dataclass(frozen=True, slots=True)
class ShotResult:
    """One full shot as told, with the number it was played to. None is not told.

    Attributes
    ----------
    club : str
        Club hit with a full swing.
    distance : Quantity or None
        Distance to what short and long refer to. [length]
    plays_as : Quantity or None
        The calm, level carry in reference air that `distance` was worked out to need;
        None means the same. [length]
    wind_part, height_part : Quantity or None
        What wind and height added to `plays_as`; None means nothing. [length]
    wind_feel, height_feel : float
        Factors of true over called that those two parts were worked out with. [-]
    carry, total : Quantity or None
        Told carry, or told total. [length]
    run : Quantity or None
        Run worked out for this shot. [length]
    depth : {"short", "pin_high", "long"} or None
        Told depth.
    by : Quantity or None
        How far short or long. [length]
    within : tuple of (Quantity or None) or None
        Distances from the ball between which it is known to have come down, such as the
        near and the far edge of the water it is in. [length]
    side : {-1, 0, +1} or None
        Side told, right positive; 0 is on line.
    side_by : Quantity or None
        How far to that side. [length]
    meant_side : Quantity or None
        Where the player meant to finish, right of what `side` refers to. [length]
    drift : Quantity or None
        How far the wind was worked out to push beyond what was meant, right positive. [length]
    contact : {"solid", "mishit"} or None
        As told.
    curve : Quantity or None
        Curve named, right positive. [angle]
    """

    club: str
    distance: Q | None = None
    plays_as: Q | None = None
    wind_part: Q | None = None
    height_part: Q | None = None
    wind_feel: float = 1.0
    height_feel: float = 1.0
    carry: Q | None = None
    total: Q | None = None
    run: Q | None = None
    depth: Literal["short", "pin_high", "long"] | None = None
    by: Q | None = None
    within: tuple[Q | None, Q | None] | None = None
    side: Literal[-1, 0, 1] | None = None
    side_by: Q | None = None
    meant_side: Q | None = None
    drift: Q | None = None
    contact: Literal["solid", "mishit"] | None = None
    curve: Q | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Lesson:
    """What all logged shots teach.

    Attributes
    ----------
    learned : Learned
        Posterior of every value.
    suggestions : tuple of Suggestion
        Stored values the shots contradict.
    picked : bool
        Whether only good shots seem to get logged.
    """

    learned: Learned
    suggestions: tuple[Suggestion, ...]
    picked: bool


def seen_of(result: ShotResult, *, age_days: float = 0.0) -> Seen:
    """Bring one result back to calm, level and reference air, as an interval.

    Parameters
    ----------
    result : ShotResult
        As told.
    age_days : float
        How long ago. [day]

    Returns
    -------
    Seen
        SI floats, fit to be stored and handed to `lesson_of`.

    Notes
    -----
    The way back is the ratio of `plays_as` to `distance`, both of which the flight engine
    gave for this very shot; it holds for carries near the distance played.
    """
    distance, plays = si_or_none(result.distance, "m"), si_or_none(result.plays_as, "m")
    wind_m = (si_or_none(result.wind_part, "m") or 0.0) / result.wind_feel
    height_m = (si_or_none(result.height_part, "m") or 0.0) / result.height_feel
    if plays is not None:  # as if the calls had been taken at their word
        plays += wind_m * (1.0 - result.wind_feel) + height_m * (1.0 - result.height_feel)
    ratio = 1.0 if distance is None or plays is None else plays / distance
    low, high = _carry(result, distance)
    left, right = _direction(result, distance)
    over = plays or distance
    wind = height = 0.0
    if over is not None:
        wind, height = -wind_m / over, -height_m / over
    return Seen(
        club=result.club,
        low_m=low * ratio,
        high_m=high * ratio,
        left_rad=left,
        right_rad=right,
        age_days=age_days,
        wind_share=wind,
        height_share=height,
        doubt=_OF_WIND * math.hypot(wind, height),
        contact=result.contact,
        curve_rad=None if result.curve is None else si(result.curve, "rad"),
    )


def too_far(bag: StartBag, seen: Seen) -> bool:
    """Whether a shot carried further than this club of this golfer ever can."""
    carry = {c.name: c.carry_m for c in bag.golfer.clubs}.get(seen.club)
    return carry is not None and seen.low_m > _TOO_FAR * carry


def lesson_of(
    told: StartBag,
    stored: StartBag,
    shots: Sequence[Seen],
    *,
    wind_feel: float = 1.0,
    height_feel: float = 1.0,
) -> Lesson:
    """Refit everything from all shots, and compare with what is stored.

    Parameters
    ----------
    told : StartBag
        The bag from told facts alone, without learned values: the prior.
    stored : StartBag
        The bag that advice is made from now.
    shots : sequence of Seen
        All shots ever logged and not taken back.
    wind_feel, height_feel : float
        Stored factors of true over called. [-]

    Returns
    -------
    Lesson
        The same for the same shots in any order.
    """
    belief = belief_of(told)
    learned = learn(belief, shots)
    return Lesson(
        learned=learned,
        suggestions=suggestions(
            stored.golfer, learned, wind_feel=wind_feel, height_feel=height_feel
        ),
        picked=looks_picked(belief, learned),
    )


def _carry(result: ShotResult, distance: float | None) -> tuple[float, float]:
    """Interval of the carry as flown. [m]"""
    carry, total = si_or_none(result.carry, "m"), si_or_none(result.total, "m")
    if carry is not None:
        return carry - _ROUNDED, carry + _ROUNDED
    if total is not None:
        run = si_or_none(result.run, "m") or 0.0
        doubt = _ROUNDED + 0.4 * run
        return total - run - doubt, total - run + doubt
    run = si_or_none(result.run, "m") or 0.0
    low, high = -math.inf, math.inf
    if distance is not None and result.depth is not None:
        near = max(_NEAR * distance, _NEAR_LEAST)
        off = si_or_none(result.by, "m")
        if result.depth == "pin_high":
            low, high = distance - near - run, distance + near
        elif off is not None:
            end = distance + (off if result.depth == "long" else -off)
            doubt = max(_TOLD_BY * off, 1.5 * _YARD)
            low, high = end - doubt - run, end + doubt
        elif result.depth == "short":
            high = distance - _NEAR_LEAST
        else:
            low = distance + _NEAR_LEAST - run
    if result.within is not None:
        near_edge, far_edge = (si_or_none(q, "m") for q in result.within)
        if near_edge is not None and near_edge - run < high:
            low = max(low, near_edge - run)
        if far_edge is not None and far_edge > low:
            high = min(high, far_edge)
    return low, high


def _direction(result: ShotResult, distance: float | None) -> tuple[float, float]:
    """Interval of the direction of the finish against what was meant, less the wind's. [rad]"""
    length = si_or_none(result.carry, "m") or si_or_none(result.total, "m") or distance
    if result.side is None or length is None:
        return -math.inf, math.inf
    centre = (si_or_none(result.meant_side, "m") or 0.0) + (si_or_none(result.drift, "m") or 0.0)
    off = si_or_none(result.side_by, "m")
    near = max(0.02 * length, 2 * _YARD)
    if result.side == 0:
        low, high = -near, near
    elif off is not None:
        doubt = max(_TOLD_BY * off, 1.5 * _YARD)
        low, high = result.side * off - doubt, result.side * off + doubt
    else:
        low, high = (near, math.inf) if result.side > 0 else (-math.inf, -near)
    return math.atan2(low - centre, length), math.atan2(high - centre, length)
