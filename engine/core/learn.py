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

from engine.core.belief import Belief
from engine.core.heavy import Floats, between
from engine.core.learn_fit import Fit
from engine.core.seen import Seen, pack

_ROUNDS: Final = 20
_SPREADS_AT: Final = (3, 7)  # rounds after which the spreads are fitted
_STILL: Final = 0.02  # standard deviations: stop once no carry moves further in a round
_SPREAD_MODEL: Final = 0.10  # a spread depends this much on what is called a mishit (judgement)


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
    fit = Fit(belief, seen)
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
        return np.bincount(seen.club, weights=v, minlength=n).astype(float)

    bad = fit.of[:, 1:4].sum(axis=1)
    sided = between(np.maximum(fit.al, 0.0), np.maximum(fit.ar, 0.0)) / fit.across
    known = seen.weight * bad * (1.0 - fit.across)
    return Learned(
        names=belief.names,
        carry_m=belief.carry_m * (1.0 + fit.theta[:n]),
        carry_sd_m=belief.carry_m * sd[:n],
        spread_long=belief.spread_long * fit.wide,
        spread_side=belief.spread_side * fit.broad,
        spread_doubt=np.hypot(fit.wide_sd, _SPREAD_MODEL),
        spread_side_doubt=np.hypot(fit.broad_sd, _SPREAD_MODEL),
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
