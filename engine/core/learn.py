"""What a golfer's logged shots teach: carries, spreads, leans, mishits, feel for the wind.

Every shot is solid, short, wild to either side, or a freak (a report that fits nothing); the
ways of ending are those of the pattern that advice is made from, with heavy tails. Given the
chances of each, a solid shot pulls its club's carry as far as its likelihood says, a mishit
pulls only the share of mishits. The carries of all clubs and the two factors of feel have one
joint normal prior, so neighbours borrow from each other; its mode is found by scoring and its
width taken from the curvature there. The fit always starts from the told bag and all shots:
there is no state that an undo could leave behind.

References
----------
.. [1] K. L. Lange, R. J. A. Little, J. M. G. Taylor, "Robust statistical modeling using the t
   distribution", J. Am. Stat. Assoc. 84 (1989) 881-896.
.. [2] S. Ko, PhD thesis, Columbia University, 2012: mixtures fit shot patterns.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final

import numpy as np
from numpy.typing import NDArray

from engine.core.belief import FEEL_DOUBT, LEAN_OWN_RAD, LEAN_SHARED_RAD, Belief
from engine.core.heavy import INFORMATION, SCALE_OF_SD, Floats, between, pull
from engine.core.seen import Packed, Seen, pack
from engine.core.spread_fit import fit_factors

SHORT_SHARE: Final = 0.6
_ROUNDS: Final = 20
_SPREADS_AT: Final = (3, 7)  # rounds after which the spreads are fitted
_STILL: Final = 0.02  # standard deviations: stop once no carry moves further in a round
_FREAK: Final = 0.01  # share of reports that fit nothing (judgement)
# Weight of each way of ending, given what the player said of the contact (judgement).
_SAID: Final = np.array(
    [[1.0, 1.0, 1.0, 1.0, 1.0], [1.0, 0.03, 0.3, 0.3, 1.0], [0.02, 1.0, 0.7, 0.7, 1.0]]
)
_MISHIT_PLAYER: Final = 80.0  # shots' worth of belief in the share of mishits (judgement)
_MISHIT_CLUB: Final = 50.0


@dataclass(frozen=True, slots=True, eq=False)
class Learned:
    """Posterior of the learner, one row a club.

    Attributes
    ----------
    names : tuple of str
        Clubs, longest first.
    carry_m, carry_sd_m : ndarray (n,)
        Mean carry of solid shots, and its standard deviation. [m]
    spread_long, spread_side : ndarray (n,)
        As in `Club`. [-, rad]
    spread_doubt, spread_side_doubt : ndarray (n,)
        Relative standard deviations of those. [-]
    lean, lean_sd : ndarray (n,)
        Mean direction, right positive, and its standard deviation. [rad]
    mishit : ndarray (n,)
        Share of mishits. [-]
    shots : ndarray (n,) of int
        Shots logged.
    solid, bad : ndarray (n,)
        Expected number of solid shots and of mishits among those whose carry was seen. [-]
    wind_feel, height_feel : tuple of float
        Mean and standard deviation of true over called. [-]
    missed_right, missed_left : float
        Expected number of mishits that went to each side. [-]
    curve : tuple of float or None
        Mean of the curves named, their standard deviation, and their number. [rad, rad, -]
    """

    names: tuple[str, ...]
    carry_m: Floats
    carry_sd_m: Floats
    spread_long: Floats
    spread_side: Floats
    spread_doubt: Floats
    spread_side_doubt: Floats
    lean: Floats
    lean_sd: Floats
    mishit: Floats
    shots: NDArray[np.intp]
    solid: Floats
    bad: Floats
    wind_feel: tuple[float, float]
    height_feel: tuple[float, float]
    missed_right: float
    missed_left: float
    curve: tuple[float, float, float] | None


class _Fit:
    """Running values of one fit; thrown away with it."""

    def __init__(self, belief: Belief, seen: Packed) -> None:
        n = len(belief.names)
        self.belief, self.seen, self.n = belief, seen, n
        self.prior = np.linalg.inv(belief.cov + 1e-10 * np.eye(n))
        self.lean_prior = np.linalg.inv(LEAN_SHARED_RAD**2 + LEAN_OWN_RAD**2 * np.eye(n))
        self.theta = np.concatenate([belief.offset, np.zeros(2)])
        self.lean = np.zeros(n)
        self.wide, self.wide_sd = np.ones(n), np.full(n, 0.33)
        self.broad, self.broad_sd = np.ones(n), np.full(n, 0.33)
        self.mishit = belief.mishit.copy()
        self.weigh()

    def weigh(self) -> None:
        """Work out how likely each way of ending is for each shot, at the present values."""
        s, b, c = self.seen, self.belief, self.seen.club
        self.centre = 1.0 + self.theta[: self.n][c] + s.lever @ self.theta[self.n :]
        self.scale = SCALE_OF_SD * np.hypot((b.spread_long * self.wide)[c], s.doubt)
        self.side = SCALE_OF_SD * (b.spread_side * self.broad)[c]
        at = self.lean[c]
        self.zl, self.zh = (s.low - self.centre) / self.scale, (s.high - self.centre) / self.scale
        self.al, self.ar = (s.left - at) / self.side, (s.right - at) / self.side
        self.long = between(self.zl, self.zh)
        self.across = between(self.al, self.ar)
        short = 0.10 * SCALE_OF_SD
        wild = 1.5 * self.scale
        wild_long = between((s.low - 0.95 * self.centre) / wild, (s.high - 0.95 * self.centre) / wild)
        chance = np.stack(
            [
                self.long * self.across,
                between((s.low / self.centre - 0.8) / short, (s.high / self.centre - 0.8) / short)
                * between(*((e - 0.7 * b.miss) / 1.5 for e in (self.al, self.ar))),
                wild_long * between((self.al - 2.3) / 1.2, (self.ar - 2.3) / 1.2),
                wild_long * between((self.al + 2.3) / 1.2, (self.ar + 2.3) / 1.2),
                between((s.low - 1.0) / 0.25, (s.high - 1.0) / 0.25)
                * between(self.al / 4.0, self.ar / 4.0),
            ],
            axis=1,
        )
        usual = 0.85 if b.miss else 0.5
        right = {1: usual, -1: 1.0 - usual, 0: 0.5}[b.miss]
        bad = self.mishit[c]
        share = np.stack(
            [
                1.0 - bad,
                SHORT_SHARE * bad,
                (1.0 - SHORT_SHARE) * bad * right,
                (1.0 - SHORT_SHARE) * bad * (1.0 - right),
                np.full(len(s), _FREAK),
            ],
            axis=1,
        )
        self.mix = share * chance * _SAID[s.said]
        self.of = self.mix / (self.mix.sum(axis=1, keepdims=True) + 1e-300)

    def bent(self, low: Floats, high: Floats, chance: Floats) -> tuple[Floats, Floats]:
        """Slope and curvature of the log likelihood by the solid shots' location, in scales."""
        slope, curvature = pull(low, high, chance)
        r = self.of[:, 0]
        return r * slope, r * (curvature + slope**2) - (r * slope) ** 2

    def step_carries(self) -> Floats:
        """Move carries and feel one scoring step; return the observed information there."""
        s, n = self.seen, self.n
        slope, curvature = self.bent(self.zl, self.zh, self.long)
        slope, curvature = slope * s.weight / self.scale, curvature * s.weight / self.scale**2
        full = s.weight * self.of[:, 0] / self.scale**2
        towards = self.joint(slope[:, None])[:, 0]
        prior = self.with_feel(self.prior)
        off = self.theta - np.concatenate([self.belief.offset, np.zeros(2)])
        steady = np.clip(-curvature, 0.4 * full, 1.25 * full)
        self.theta = self.theta + np.linalg.solve(
            prior + self.crossed(steady), towards - prior @ off
        )
        self.theta[n:] = np.clip(self.theta[n:], -0.6, 0.8)
        return prior + self.crossed(np.maximum(-curvature, -0.15 * full))

    def joint(self, value: Floats) -> Floats:
        """Sum of value x (club, lever) over the shots."""
        s = self.seen
        by_club = np.zeros((self.n, value.shape[1]))
        np.add.at(by_club, s.club, value)
        return np.concatenate([by_club, s.lever.T @ value])

    def crossed(self, w: Floats) -> Floats:
        """Sum of w x (club, lever) x (club, lever) over the shots."""
        s, n = self.seen, self.n
        out = np.zeros((n + 2, n + 2))
        out[np.arange(n), np.arange(n)] = np.bincount(s.club, weights=w, minlength=n)
        cross = np.zeros((n, 2))
        np.add.at(cross, s.club, w[:, None] * s.lever)
        out[:n, n:], out[n:, :n] = cross, cross.T
        out[n:, n:] = (s.lever * w[:, None]).T @ s.lever
        return out

    def with_feel(self, prior: Floats) -> Floats:
        """Prior precision of carries and feel together."""
        out = np.zeros((self.n + 2, self.n + 2))
        out[: self.n, : self.n] = prior
        out[self.n, self.n], out[-1, -1] = 1.0 / FEEL_DOUBT**2
        return out

    def step_leans(self) -> Floats:
        """Move the leans one scoring step; return the observed information there."""
        s, n = self.seen, self.n
        slope, curvature = self.bent(self.al, self.ar, self.across)
        slope, curvature = slope * s.weight / self.side, curvature * s.weight / self.side**2
        full = s.weight * self.of[:, 0] / self.side**2

        def total(v: Floats) -> Floats:
            return np.bincount(s.club, weights=v, minlength=n)

        steady = total(np.clip(-curvature, 0.4 * full, 1.25 * full))
        self.lean = self.lean + np.linalg.solve(
            self.lean_prior + np.diag(steady), total(slope) - self.lean_prior @ self.lean
        )
        return self.lean_prior + np.diag(total(np.maximum(-curvature, -0.15 * full)))

    def step_mishits(self) -> None:
        """Refit the shares of mishits: the player's own level first, then each club's."""
        s, b, n = self.seen, self.belief, self.n
        bad = np.bincount(s.club, weights=s.weight * self.of[:, 1:4].sum(axis=1), minlength=n)
        count = np.bincount(s.club, weights=s.weight, minlength=n)
        usual = (b.mishit @ count) / count.sum()
        level = (_MISHIT_PLAYER + bad.sum() / usual) / (_MISHIT_PLAYER + count.sum())
        self.mishit = np.minimum(
            (_MISHIT_CLUB * b.mishit * level + bad) / (_MISHIT_CLUB + count), 0.6
        )

    def step_spreads(self) -> None:
        """Refit the spreads, long and side."""
        s, b, c = self.seen, self.belief, self.seen.club
        rest = self.mix[:, 1:].sum(axis=1)
        self.wide, self.wide_sd = fit_factors(
            club=c, low=s.low - self.centre, high=s.high - self.centre,
            scale=SCALE_OF_SD * b.spread_long[c], doubt=SCALE_OF_SD * s.doubt,
            solid=self.mix[:, 0] / self.long, rest=rest, weight=s.weight,
            location_var=np.diag(b.cov),
        )  # fmt: skip
        at = self.lean[c]
        self.broad, self.broad_sd = fit_factors(
            club=c, low=s.left - at, high=s.right - at,
            scale=SCALE_OF_SD * b.spread_side[c], doubt=np.zeros(len(s)),
            solid=self.mix[:, 0] / self.across, rest=rest, weight=s.weight,
            location_var=np.full(self.n, LEAN_SHARED_RAD**2 + LEAN_OWN_RAD**2),
        )  # fmt: skip


def learn(belief: Belief, shots: Sequence[Seen]) -> Learned:
    """Refit everything a golfer's shots can teach.

    Parameters
    ----------
    belief : Belief
        Prior.
    shots : sequence of Seen
        All shots ever logged and not taken back; order does not matter.

    Returns
    -------
    Learned
        Posterior; the prior itself where nothing was seen.
    """
    seen = pack(shots, belief.names, belief.carry_m)
    fit = _Fit(belief, seen)
    n = fit.n
    info, lean_info = fit.with_feel(fit.prior), fit.lean_prior
    if len(seen):
        for turn in range(_ROUNDS):
            before = fit.theta
            info, lean_info = fit.step_carries(), fit.step_leans()
            fit.step_mishits()
            fit.weigh()
            if turn in _SPREADS_AT:
                fit.step_spreads()
                fit.weigh()
            moved = np.abs(fit.theta - before) * np.sqrt(np.diag(info))
            if turn > _SPREADS_AT[-1] and moved.max() < _STILL:
                break
    cov, lean_cov = np.linalg.inv(info), np.linalg.inv(lean_info)
    sd = np.sqrt(np.diag(cov))
    of_shot = seen.weight * (np.isfinite(seen.low) | np.isfinite(seen.high))

    def count(v: Floats) -> Floats:
        return np.bincount(seen.club, weights=v, minlength=n)

    bad = fit.of[:, 1:4].sum(axis=1)
    sided = between(np.maximum(fit.al, 0.0), np.maximum(fit.ar, 0.0)) / fit.across
    known = seen.weight * bad * (1.0 - fit.across)
    return Learned(
        names=belief.names,
        carry_m=belief.carry_m * (1.0 + fit.theta[:n]),
        carry_sd_m=belief.carry_m * sd[:n],
        spread_long=belief.spread_long * fit.wide,
        spread_side=belief.spread_side * fit.broad,
        spread_doubt=fit.wide_sd,
        spread_side_doubt=fit.broad_sd,
        lean=fit.lean,
        lean_sd=np.sqrt(np.diag(lean_cov)),
        mishit=fit.mishit,
        shots=np.bincount(seen.club, minlength=n),
        solid=count(of_shot * fit.of[:, 0]),
        bad=count(of_shot * bad),
        wind_feel=(1.0 + float(fit.theta[n]), float(sd[n])),
        height_feel=(1.0 + float(fit.theta[n + 1]), float(sd[n + 1])),
        missed_right=float(np.sum(known * sided)),
        missed_left=float(np.sum(known * (1.0 - sided))),
        curve=_curve(shots),
    )


def _curve(shots: Sequence[Seen]) -> tuple[float, float, float] | None:
    """Mean of the curves the player named."""
    named = [s.curve_rad for s in shots if s.curve_rad is not None]
    if not named:
        return None
    mean = math.fsum(named) / len(named)
    return mean, math.radians(4.0) / math.sqrt(len(named)), float(len(named))
