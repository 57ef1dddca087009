"""What do logged putts say of a player's line and pace?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from engine.core.capture import HOLE_RADIUS_M, capture_half_width_m
from engine.core.golfer import ShortGame
from engine.core.normal import normal_cdf
from engine.core.putts import LONGEST_M, PuttTable, putt_table
from engine.core.roll import green_deceleration_mps2
from engine.core.seen import HALF_LIFE_DAYS

Array = NDArray[np.float64]

# Players of a handicap differ by about so much in either spread, in logs: judgement.
_PRIOR_SD = 0.3
_COARSE = np.linspace(-0.9, 0.9, 9)
_FINE = np.linspace(-3.0, 3.0, 11)
_PACE_Z = np.linspace(-3.2, 3.2, 49)
_PACE_W = np.exp(-0.5 * _PACE_Z**2) / np.exp(-0.5 * _PACE_Z**2).sum()
# A leave is paced or guessed to about so much: judgement.
_TOLD_SHARE, _TOLD_M = 0.1, 0.1
_FREAK = 2e-3  # chance of a leave that no such putt explains: judgement
_BANDS_M = (0.0, 1.2, 2.4, 4.5, 9.0, LONGEST_M)


@dataclass(frozen=True, slots=True)
class SeenPutt:
    """One putt as told.

    Attributes
    ----------
    length_m : float
        How long it was. [m]
    holed : bool
        Whether it went in.
    left_m : float or None
        How far from the hole it stopped, None if not told. [m]
    age_days : float
        How long ago. [day]
    """

    length_m: float
    holed: bool
    left_m: float | None = None
    age_days: float = 0.0


@dataclass(frozen=True, slots=True)
class PuttBand:
    """Putts from a band of lengths.

    Attributes
    ----------
    low_m, high_m : float
        Limits. [m]
    tried, holed : int
        Counts.
    expected : float
        Holed by a player of the stored spreads, on the level. [-]
    """

    low_m: float
    high_m: float
    tried: int
    holed: int
    expected: float


@dataclass(frozen=True, slots=True)
class PuttsLearned:
    """Spreads after all logged putts.

    Attributes
    ----------
    line_rad, pace : float
        Posterior medians of both spreads. [rad, -]
    line_doubt, pace_doubt : float
        Standard deviations of their logarithms. [-]
    putts : int
        Putts behind it.
    bands : tuple of PuttBand
        Make rates by length, bands without putts left out.
    """

    line_rad: float
    pace: float
    line_doubt: float
    pace_doubt: float
    putts: int
    bands: tuple[PuttBand, ...]


def learn_putts(*, putts: Sequence[SeenPutt], short: ShortGame, stimp_m: float) -> PuttsLearned:
    """Refit the spreads of line and pace from every logged putt.

    Parameters
    ----------
    putts : sequence of SeenPutt
        Putts from 0.3 to 75 m count; others are left out.
    short : ShortGame
        Stored spreads, the middle of the prior.
    stimp_m : float
        Level Stimpmeter reading they were played on. [m]

    Returns
    -------
    PuttsLearned
        Posterior and make rates.

    Raises
    ------
    OutOfRange
        A green speed outside the range of `putt_table`.

    Notes
    -----
    Lognormal priors on both spreads. A putt was meant to run past the hole as the stored
    player should, and is holed or missed with the chance of the rolling and capture model; a
    told leave counts by the chance to miss and stop between two circles round the hole, as far
    apart as leaves are told roughly. Putts fade with a half-life of a year. Slope is not taken
    back: spreads learned are those on the player's own greens. The grid is laid twice, the
    second time round what the first found.
    """
    told = [p for p in putts if 0.3 <= p.length_m <= LONGEST_M]
    if not told:
        return PuttsLearned(short.putt_line_rad, short.putt_pace, _PRIOR_SD, _PRIOR_SD, 0, ())
    table = putt_table(line_rad=short.putt_line_rad, pace=short.putt_pace, stimp_m=stimp_m)
    log = _Log(told, short, table, stimp_m)
    line, pace = _COARSE, _COARSE
    for _ in range(2):
        mass = log.mass(line, pace)
        by_line, by_pace = _summary(line, mass.sum(axis=1)), _summary(pace, mass.sum(axis=0))
        line, pace = (at + _FINE * max(sd, 0.03) for at, sd in (by_line, by_pace))
    return PuttsLearned(
        line_rad=short.putt_line_rad * math.exp(by_line[0]),
        pace=short.putt_pace * math.exp(by_pace[0]),
        line_doubt=by_line[1],
        pace_doubt=by_pace[1],
        putts=len(told),
        bands=_bands(log.length, log.holed, table),
    )


class _Log:
    """Putts as arrays, and their posterior over steps of the logarithms of both spreads."""

    def __init__(
        self, told: list[SeenPutt], short: ShortGame, table: PuttTable, stimp_m: float
    ) -> None:
        self._short, self._stimp_m = short, stimp_m
        self.length = np.array([p.length_m for p in told])
        self.holed = np.array([p.holed for p in told])
        self._weight = np.array([0.5 ** (p.age_days / HALF_LIFE_DAYS) for p in told])
        self._past = np.interp(self.length, table.length_m, table.past_m)
        self._seen = np.array([p.left_m is not None and not p.holed for p in told])
        self._left = np.array([p.left_m or 0.0 for p in told])

    def mass(self, line_steps: Array, pace_steps: Array) -> Array:
        """Posterior mass over the grid, summing to 1."""
        line = self._short.putt_line_rad * np.exp(line_steps)
        pace = self._short.putt_pace * np.exp(pace_steps)
        score = -0.5 * (line_steps[:, None] ** 2 + pace_steps**2) / _PRIOR_SD**2
        bare, seen = ~self._seen, self._seen
        made = _made(self.length[bare], self._past[bare], line, pace, self._stimp_m)
        made = np.clip(made, 1e-6, 1.0 - 1e-6)
        chance = np.where(self.holed[bare][:, None, None], made, 1.0 - made)
        score = score + np.einsum("n,nlp->lp", self._weight[bare], np.log(chance))
        found = _left(
            self.length[seen], self._past[seen], self._left[seen], line, pace, self._stimp_m
        )
        score = score + np.einsum("n,nlp->lp", self._weight[seen], np.log(found + _FREAK))
        mass = np.exp(score - score.max())
        return np.asarray(mass / mass.sum())


def _made(length: Array, past: Array, line: Array, pace: Array, stimp_m: float) -> Array:
    """Chance to hole each putt (n) for each line (l) and pace (p)."""
    _, _, window = _rolls(length, past, pace, stimp_m)
    inside = 2.0 * normal_cdf(window[:, None] / line[:, None, None]) - 1.0
    return np.asarray(inside @ _PACE_W)


def _left(
    length: Array, past: Array, left: Array, line: Array, pace: Array, stimp_m: float
) -> Array:
    """Chance to miss and stop about as far away as told, for each putt, line and pace."""
    told = _TOLD_SHARE * left + _TOLD_M
    roll, beyond, window = _rolls(length, past, pace, stimp_m)
    near = np.maximum(left - told, 0.0)[:, None, None] ** 2 - beyond**2
    far = (left + told)[:, None, None] ** 2 - beyond**2
    # Start lines that stop between the two circles and do not go in.
    low = np.maximum(np.sqrt(np.maximum(near, 0.0)) / roll, window)
    high = np.maximum(np.sqrt(np.maximum(far, 0.0)) / roll, low)
    sigma = line[:, None, None]
    between = normal_cdf(high[:, None] / sigma) - normal_cdf(low[:, None] / sigma)
    return np.asarray(2.0 * between @ _PACE_W)


def _rolls(length: Array, past: Array, pace: Array, stimp_m: float) -> tuple[Array, Array, Array]:
    """Roll, how far beyond the hole that is, and the half angle holed, each (n, p, z)."""
    meant = (length + past)[:, None, None]
    roll = np.maximum(meant * (1.0 + pace[:, None] * _PACE_Z), 0.02)
    beyond = roll - length[:, None, None]
    slow = green_deceleration_mps2(stimp_m=stimp_m)
    speed = np.sqrt(2.0 * slow * np.maximum(beyond, 0.0))
    half = np.where(beyond < -HOLE_RADIUS_M, 0.0, capture_half_width_m(speed_mps=speed))
    return roll, beyond, np.arcsin(np.minimum(half / length[:, None, None], 1.0))


def _summary(steps: Array, mass: Array) -> tuple[float, float]:
    """Mean and standard deviation."""
    mean = float(mass @ steps)
    return mean, math.sqrt(float(mass @ (steps - mean) ** 2))


def _bands(length: Array, holed: NDArray[np.bool_], table: PuttTable) -> tuple[PuttBand, ...]:
    one = np.interp(length, table.length_m, table.one)
    found = []
    for low, high in pairwise(_BANDS_M):
        inside = (length >= low) & (length < high)
        if inside.any():
            found.append(
                PuttBand(
                    low_m=low,
                    high_m=high,
                    tried=int(inside.sum()),
                    holed=int(holed[inside].sum()),
                    expected=float(one[inside].sum()),
                )
            )
    return tuple(found)
