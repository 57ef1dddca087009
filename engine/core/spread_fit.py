"""How much wider or narrower than believed each club scatters.

The factor on each club's standard deviation has a prior in two storeys, one part shared by
the whole bag and one of the club's own, both log-normal. On a grid of factors the likelihood
of each club's solid shots is taken as it is, so the answer needs no further approximation
than the grid.
"""

from __future__ import annotations

from typing import Final

import numpy as np

from engine.core.heavy import INFORMATION, Floats, between

_SHARED: Final = 0.30  # standard deviations of the log factor (judgement)
_OWN: Final = 0.15
_LOG: Final = np.linspace(np.log(0.4), np.log(2.5), 19)


def _normal(log_factor: Floats, sd: float) -> Floats:
    weight = np.exp(-0.5 * (log_factor / sd) ** 2)
    out: Floats = weight / weight.sum(axis=-1, keepdims=True)
    return out


_STEP: Final = _normal(_LOG[None, :] - _LOG[:, None], _OWN)  # shared factor -> club's factor
_PRIOR: Final = _normal(_LOG, _SHARED)


def fit_factors(
    *,
    club: np.ndarray[tuple[int], np.dtype[np.intp]],
    low: Floats,
    high: Floats,
    scale: Floats,
    doubt: Floats,
    solid: Floats,
    rest: Floats,
    weight: Floats,
    location_var: Floats,
) -> tuple[Floats, Floats]:
    """Posterior of each club's factor on its spread.

    Parameters
    ----------
    club : ndarray (n,) of int
        Club of each shot.
    low, high : ndarray (n,)
        Ends of what was seen, less the expected value; any unit.
    scale, doubt : ndarray (n,)
        Scale at factor one, and the shot's own doubt, in the same unit.
    solid : ndarray (n,)
        What a solid ending weighs apart from this coordinate. [-]
    rest : ndarray (n,)
        What all other endings weigh. [-]
    weight : ndarray (n,)
        Fading. [-]
    location_var : ndarray (m,)
        Prior variance of each club's expected value, the unit squared. The expected value was
        itself fitted to the shots; its lost degree of freedom is given back through this.

    Returns
    -------
    factor, log_sd : ndarray (m,)
        Geometric mean of the posterior, and standard deviation of the log factor. [-]
    """
    m = location_var.size
    factor = np.exp(_LOG)
    spread = np.hypot(scale[:, None] * factor, doubt[:, None])
    chance = between(low[:, None] / spread, high[:, None] / spread)
    total = solid[:, None] * chance + rest[:, None] + 1e-300
    loglik = np.zeros((m, factor.size))
    np.add.at(loglik, club, weight[:, None] * np.log(total))
    share = solid * chance[:, factor.size // 2]
    known = weight * share / (share + rest + 1e-300) * INFORMATION / scale**2
    info = np.bincount(club, weights=known, minlength=m)
    loglik -= 0.5 * np.log(1.0 / location_var[:, None] + info[:, None] / factor**2)
    like = np.exp(loglik - loglik.max(axis=1, keepdims=True))

    of_shared = like @ _STEP.T + 1e-300  # (m, shared)
    log_all = np.log(of_shared).sum(axis=0) + np.log(_PRIOR)
    log_others = log_all - np.log(of_shared)
    others = np.exp(log_others - log_others.max(axis=1, keepdims=True))
    post = (others @ _STEP) * like
    post /= post.sum(axis=1, keepdims=True)
    mean = post @ _LOG
    sd = np.sqrt(np.maximum(post @ _LOG**2 - mean**2, 0.0))
    return np.exp(mean), sd
