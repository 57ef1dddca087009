from math import pi

import pytest

from engine.core.wind import (
    Wind,
    check_wind,
    felt_at_flag,
    from_compass,
    profile,
    speed_doubt,
)
from engine.errors import OutOfRange

# u(z)/u(10 m) = ln(z/z0)/ln(10/z0), R. Stull, Meteorology for Scientists and Engineers; the
# figures are that formula worked by hand to three places.
PROFILE = [
    (0.01, 2.0, 0.767), (0.01, 5.0, 0.900), (0.01, 30.0, 1.159),
    (0.03, 2.0, 0.723), (0.03, 3.0, 0.793), (0.03, 20.0, 1.119), (0.03, 30.0, 1.189),
    (0.10, 2.5, 0.699), (0.10, 30.0, 1.239),
]  # fmt: skip


@pytest.mark.parametrize(("roughness_m", "height_m", "share"), PROFILE)
def test_logarithmic_profile(roughness_m: float, height_m: float, share: float) -> None:
    assert profile(height_m=height_m, roughness_m=roughness_m) == pytest.approx(share, abs=6e-4)


def test_the_stated_wind_is_the_wind_at_10_m() -> None:
    assert profile(height_m=10.0) == pytest.approx(1.0)


def test_the_profile_is_held_below_a_metre() -> None:
    assert profile(height_m=-3.0) == profile(height_m=1.0) > 0.0


def test_a_wind_felt_at_the_flag_is_stronger_at_10_m() -> None:
    felt = felt_at_flag(speed_mps=5.0)
    assert felt > 5.0
    assert felt * profile(height_m=2.13) == pytest.approx(5.0)


@pytest.mark.parametrize(
    ("wind_deg", "hole_deg", "from_deg"),
    [(0, 0, 0), (90, 0, 90), (0, 90, 270), (180, 0, 180), (10, 350, 20), (270, 270, 0)],
)
def test_compass_wind_against_the_hole(wind_deg: float, hole_deg: float, from_deg: float) -> None:
    found = from_compass(
        wind_bearing_rad=wind_deg * pi / 180, hole_bearing_rad=hole_deg * pi / 180
    )
    assert found == pytest.approx(from_deg * pi / 180)


@pytest.mark.parametrize(
    "wind", [Wind(-1.0, 0.0), Wind(40.0, 0.0), Wind(5.0, 0.0, 2.0), Wind(5.0, 0.0, doubt=2.0)]
)
def test_refuses_winds_outside_the_model(wind: Wind) -> None:
    with pytest.raises(OutOfRange):
        check_wind(wind)


def test_gusts_guesses_and_trees_widen_the_doubt() -> None:
    told = speed_doubt(speed_mps=6.0)
    assert 0.15 < told < 0.25  # turbulence over open land is about 15 % at 20 m
    assert speed_doubt(speed_mps=6.0, gust_mps=7.0) == told  # no more than turbulence already
    assert speed_doubt(speed_mps=6.0, gust_mps=11.0) > told
    assert speed_doubt(speed_mps=6.0, guessed=True) > told
    assert speed_doubt(speed_mps=6.0, roughness_m=0.5) > told
    assert speed_doubt(speed_mps=1.0, gust_mps=20.0) <= 0.6
