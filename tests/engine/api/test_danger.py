"""Heat and cold through the unit-aware boundary."""

import pytest

from engine.api.danger import felt_cold, felt_heat
from engine.units import quantity, si


def test_celsius_and_fahrenheit_agree() -> None:
    warm = felt_heat(air=quantity(35, "degC"), humidity=quantity(55, "%"))
    same = felt_heat(air=quantity(95, "degF"), humidity=quantity(55, "%"))
    assert si(warm.felt, "degF") == pytest.approx(si(same.felt, "degF"))
    assert warm.band == "danger"  # 109 degF on the weather service's chart (from memory)


def test_wind_chill_in_either_unit() -> None:
    miles = felt_cold(air=quantity(0, "degF"), wind=quantity(15, "mph"))
    metric = felt_cold(air=quantity(0, "degF"), wind=quantity(24.14016, "km/h"))
    assert si(miles.felt, "degF") == pytest.approx(si(metric.felt, "degF"))
    assert miles.band == "frostbite"  # -19 degF, first of the chart's 30-minute cells
