"""The running fit behind learning: one mixture, one joint normal, small scoring steps.

Each way of ending weighs as in the pattern advice is made from; what a solid shot pulls is the
slope of its likelihood, and the width of the answer is the curvature there.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from engine.core.belief import FEEL_DOUBT, LEAN_OWN_RAD, LEAN_SHARED_RAD, Belief
from engine.core.heavy import SCALE_OF_SD, Floats, between, pull
from engine.core.pattern import (
    SHORT_BEARING_SPREAD,
    SHORT_LEAN,
    SHORT_REACH,
    SHORT_REACH_SPREAD,
    SHORT_SHARE,
    WILD_BEARING_SPREAD,
    WILD_LEAN,
    WILD_REACH,
    WILD_REACH_SPREAD,
    WILD_TO_USUAL_SIDE,
)
from engine.core.seen import Packed
from engine.core.spread_fit import fit_factors

_FREAK: Final = 0.01  # share of reports that fit nothing (judgement)
# Weight of each way of ending, given what the player said of the contact (judgement).
_SAID: Final = np.array(
    [[1.0, 1.0, 1.0, 1.0, 1.0], [1.0, 0.03, 0.3, 0.3, 1.0], [0.02, 1.0, 0.7, 0.7, 1.0]]
)
_MISHIT_PLAYER: Final = 80.0  # shots' worth of belief in the share of mishits (judgement)
_MISHIT_CLUB: Final = 50.0


class Fit:
    """Running values of one fit; thrown away with it."""

    def __init__(self, belief: Belief, seen: Packed) -> None:
        n = len(belief.names)
        self.belief, self.seen, self.n = belief, seen, n
        self.prior = np.linalg.inv(belief.cov + 1e-10 * np.eye(n)).astype(float)
        self.lean_prior = np.linalg.inv(LEAN_SHARED_RAD**2 + LEAN_OWN_RAD**2 * np.eye(n)).astype(
            float
        )
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
        short = SHORT_REACH_SPREAD / SHORT_REACH * SCALE_OF_SD
        duff = SHORT_REACH * self.centre
        wild, reach = WILD_REACH_SPREAD * self.scale, WILD_REACH * self.centre
        wild_long = between((s.low - reach) / wild, (s.high - reach) / wild)
        lean, wide = SHORT_LEAN * b.miss / SCALE_OF_SD, SHORT_BEARING_SPREAD
        out, apart = WILD_LEAN / SCALE_OF_SD, WILD_BEARING_SPREAD
        chance = np.stack(
            [
                self.long * self.across,
                between((s.low / duff - 1.0) / short, (s.high / duff - 1.0) / short)
                * between((self.al - lean) / wide, (self.ar - lean) / wide),
                wild_long * between((self.al - out) / apart, (self.ar - out) / apart),
                wild_long * between((self.al + out) / apart, (self.ar + out) / apart),
                between((s.low - 1.0) / 0.25, (s.high - 1.0) / 0.25)
                * between(self.al / 4.0, self.ar / 4.0),
            ],
            axis=1,
        )
        usual = WILD_TO_USUAL_SIDE if b.miss else 0.5
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
            return np.bincount(s.club, weights=v, minlength=n).astype(float)

        steady = total(np.clip(-curvature, 0.4 * full, 1.25 * full))
        self.lean = self.lean + np.linalg.solve(
            self.lean_prior + np.diag(steady), total(slope) - self.lean_prior @ self.lean
        )
        info: Floats = self.lean_prior + np.diag(total(np.maximum(-curvature, -0.15 * full)))
        return info

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
