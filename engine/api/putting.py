"""What a player's logged putts say: make rates by length, and the spreads behind them."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.api.green import checked_stimp_m, green_word
from engine.core.learn_putts import PuttBand, SeenPutt, learn_putts
from engine.units import quantity, si

if TYPE_CHECKING:
    from engine.core.golfer import ShortGame
    from engine.units import Q

# Putts, standard deviations that make four to one sure, share: judgement.
_ENOUGH, _SURE_SD, _LEAST_CHANGE = 30, 0.842, 0.08


@dataclass(frozen=True, slots=True)
class PuttResult:
    """One putt as told.

    Attributes
    ----------
    length : Quantity
        How long it was. [length]
    holed : bool
        Whether it went in.
    left : Quantity or None
        How far from the hole it stopped. [length]
    age_days : float
        How long ago. [day]
    """

    length: Q
    holed: bool
    left: Q | None = None
    age_days: float = 0.0


@dataclass(frozen=True, slots=True)
class MakeRate:
    """Putts from a band of lengths.

    Attributes
    ----------
    low, high : Quantity
        Limits. [length]
    tried, holed : int
        Counts.
    expected : float
        Holed by a player of the stored spreads on the level. [-]
    """

    low: Q
    high: Q
    tried: int
    holed: int
    expected: float


@dataclass(frozen=True, slots=True)
class PuttingLesson:
    """What the putts teach.

    Attributes
    ----------
    rates : tuple of MakeRate
        By length, bands without putts left out.
    putts : int
        Putts behind it.
    line_rad, pace : float
        Learned spreads, as `ShortGame` names them. [rad, -]
    line_doubt, pace_doubt : float
        Standard deviations of their logarithms. [-]
    changed : tuple of str
        Names in `ShortGame` of the spreads to change: from 30 putts on, when four to one sure
        and at least 8 % off.
    """

    rates: tuple[MakeRate, ...]
    putts: int
    line_rad: float
    pace: float
    line_doubt: float
    pace_doubt: float
    changed: tuple[str, ...]


def putting_lesson(
    results: Sequence[PuttResult],
    *,
    short: ShortGame,
    stored: ShortGame | None = None,
    stimp: Q | None = None,
) -> PuttingLesson:
    """Refit a player's putting from the whole log.

    Parameters
    ----------
    results : sequence of PuttResult
        Every putt told.
    short : ShortGame
        Spreads to start from, without what was learned before.
    stored : ShortGame or None
        Spreads in use, which a change would replace; None is `short`.
    stimp : Quantity or None
        Usual green speed; None is a medium green. [length]

    Returns
    -------
    PuttingLesson
        See there.

    Raises
    ------
    OutOfRange
        ``green speed`` outside 4 to 18 ft.

    See Also
    --------
    engine.core.learn_putts.learn_putts : the model.
    """
    speed = green_word("speed", "medium") if stimp is None else stimp
    found = learn_putts(
        putts=[_seen(r) for r in results], short=short, stimp_m=checked_stimp_m(speed)
    )
    used = stored or short
    spreads = (
        ("putt_line_rad", found.line_rad / used.putt_line_rad, found.line_doubt),
        ("putt_pace", found.pace / used.putt_pace, found.pace_doubt),
    )
    changed = tuple(
        name
        for name, ratio, doubt in spreads
        if found.putts >= _ENOUGH
        and abs(math.log(ratio)) >= _SURE_SD * doubt
        and abs(ratio - 1.0) >= _LEAST_CHANGE
    )
    return PuttingLesson(
        rates=tuple(_rate(band) for band in found.bands),
        putts=found.putts,
        line_rad=found.line_rad,
        pace=found.pace,
        line_doubt=found.line_doubt,
        pace_doubt=found.pace_doubt,
        changed=changed,
    )


def _seen(result: PuttResult) -> SeenPutt:
    return SeenPutt(
        length_m=si(result.length, "m"),
        holed=result.holed,
        left_m=None if result.left is None else si(result.left, "m"),
        age_days=result.age_days,
    )


def _rate(band: PuttBand) -> MakeRate:
    return MakeRate(
        low=quantity(band.low_m, "m"),
        high=quantity(band.high_m, "m"),
        tried=band.tried,
        holed=band.holed,
        expected=band.expected,
    )
