"""Student's t in closed form, against SciPy and the published robust weights."""

from __future__ import annotations

import numpy as np
import pytest
from scipy import stats

from engine.core.heavy import INFORMATION, SCALE_OF_SD, below, between, density, pull

Z = np.linspace(-30, 30, 241)


def test_density_and_distribution_are_scipys() -> None:
    np.testing.assert_allclose(density(Z), stats.t.pdf(Z, 4), rtol=1e-12)
    np.testing.assert_allclose(below(Z), stats.t.cdf(Z, 4), rtol=1e-7, atol=1e-12)


def test_far_intervals_keep_their_digits() -> None:
    low, high = np.array([20.0, -31.0, 5.0]), np.array([21.0, -30.0, np.inf])
    expected = [
        stats.t.sf(20, 4) - stats.t.sf(21, 4),
        stats.t.sf(30, 4) - stats.t.sf(31, 4),
        stats.t.sf(5, 4),
    ]
    np.testing.assert_allclose(between(low, high), expected, rtol=1e-7)


@pytest.mark.parametrize(("z", "weight"), [(0, 1), (1, 0.80), (2, 0.50), (3, 0.31), (4, 0.20)])
def test_a_point_pulls_with_the_published_weight(z: float, weight: float) -> None:
    # K. L. Lange, R. J. A. Little, J. M. G. Taylor, J. Am. Stat. Assoc. 84 (1989) 881: weight
    # (nu + 1)/(nu + z^2); relative values for nu = 4 computed from that formula.
    at = max(float(z), 1e-3)
    low, high = np.array([at - 1e-4]), np.array([at + 1e-4])
    slope, _ = pull(low, high, between(low, high))
    assert slope[0] / at / 1.25 == pytest.approx(weight, abs=0.011)


def test_slope_and_curvature_are_derivatives() -> None:
    low, high, step = np.array([-2.0, 0.3, -np.inf]), np.array([0.5, 2.0, -1.0]), 1e-4

    def log_chance(shift: float) -> np.ndarray:
        return np.log(stats.t.cdf(high - shift, 4) - stats.t.cdf(low - shift, 4))

    slope, curvature = pull(low, high, between(low, high))
    up, here, down = log_chance(step), log_chance(0.0), log_chance(-step)
    np.testing.assert_allclose(slope, (up - down) / (2 * step), rtol=1e-5)
    np.testing.assert_allclose(curvature, (up - 2 * here + down) / step**2, rtol=1e-3)


def test_constants_are_what_they_say() -> None:
    z = np.linspace(-9, 9, 20001)
    scales = np.linspace(0.6, 1.1, 501)
    fit = [np.sum(stats.norm.pdf(z) * stats.t.logpdf(z, 4, scale=s)) for s in scales]
    assert scales[int(np.argmax(fit))] == pytest.approx(SCALE_OF_SD, abs=0.002)
    curve = np.gradient(stats.t.logpdf(z, 4), z)
    info = np.trapezoid(stats.t.pdf(z, 4) * curve**2, z)
    assert info == pytest.approx(INFORMATION, abs=0.01)
