"""Heat index and wind chill against an independent implementation and the published examples."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.core.heat import cold_band, heat_band, heat_index, wind_chill
from engine.errors import OutOfRange
from tests.support.tables import load_table

HEAT = load_table("heat_index")
COLD = load_table("wind_chill")
MPH = 0.44704  # exact, international mile


def kelvin(degf: float) -> float:
    return (degf - 32) / 1.8 + 273.15


def degf(k: float) -> float:
    return (k - 273.15) * 1.8 + 32


@pytest.mark.parametrize("row", HEAT.rows, ids=lambda r: f"{r['air_degf']}F-{r['humidity_pct']}")
def test_heat_index_table(row: dict[str, str]) -> None:
    felt = heat_index(
        air_k=kelvin(float(row["air_degf"])), humidity=float(row["humidity_pct"]) / 100
    )
    assert degf(felt) == pytest.approx(float(row["felt_degf"]), abs=0.01)


@pytest.mark.parametrize("row", COLD.rows, ids=lambda r: f"{r['air_degf']}F-{r['wind_mph']}")
def test_wind_chill_table(row: dict[str, str]) -> None:
    felt = wind_chill(air_k=kelvin(float(row["air_degf"])), wind_mps=float(row["wind_mph"]) * MPH)
    assert degf(felt) == pytest.approx(float(row["felt_degf"]), abs=0.1)


def test_the_services_own_example() -> None:
    # US National Weather Service, heat safety page: 96 degF and 65 % feel like 121 degF
    # (from memory, so to a whole degree and half).
    assert degf(heat_index(air_k=kelvin(96), humidity=0.65)) == pytest.approx(121, abs=0.6)


@given(air=st.floats(81, 112), humidity=st.floats(0.15, 0.84), more=st.floats(0.001, 0.1))
def test_moister_air_of_a_hot_day_never_feels_cooler(
    air: float, humidity: float, more: float
) -> None:
    # The two adjustments start outside these humidities; the simple average lies below 81 degF.
    drier = heat_index(air_k=kelvin(air), humidity=humidity)
    moister = heat_index(air_k=kelvin(air), humidity=humidity + more)
    assert moister >= drier - 0.3  # the regression's join with the average is not smooth


@given(air=st.floats(-60, 49.9), wind=st.floats(3.1, 80), more=st.floats(0.1, 30))
def test_more_wind_never_feels_warmer(air: float, wind: float, more: float) -> None:
    calm = wind_chill(air_k=kelvin(air), wind_mps=wind * MPH)
    windy = wind_chill(air_k=kelvin(air), wind_mps=(wind + more) * MPH)
    assert windy <= calm + 1e-9


def test_outside_its_range_the_chill_is_the_air() -> None:
    assert wind_chill(air_k=kelvin(51), wind_mps=20 * MPH) == kelvin(51)
    assert wind_chill(air_k=kelvin(20), wind_mps=3 * MPH) == kelvin(20)


@pytest.mark.parametrize(
    ("felt", "band"), [(79, 0), (80, 1), (90, 2), (102.4, 2), (103, 3), (124, 3), (125, 4)]
)
def test_heat_bands(felt: float, band: int) -> None:
    # US National Weather Service heat index chart; limits from memory.
    assert heat_band(felt_k=kelvin(felt)) == band


@pytest.mark.parametrize(("felt", "band"), [(40, 0), (33, 0), (32, 1), (20, 1), (5, 2), (-19, 3)])
def test_cold_bands(felt: float, band: int) -> None:
    # Frostbite in 30 minutes below about -19 degF: the service's wind chill chart, from memory;
    # the milder limits are common practice, no source.
    assert cold_band(felt_k=kelvin(felt)) == band


@pytest.mark.parametrize(
    "call",
    [
        lambda: heat_index(air_k=kelvin(90), humidity=1.2),
        lambda: heat_index(air_k=kelvin(200), humidity=0.5),
        lambda: wind_chill(air_k=kelvin(20), wind_mps=-1),
        lambda: wind_chill(air_k=kelvin(20), wind_mps=float("nan")),
    ],
)
def test_refuses_what_the_formulas_do_not_cover(call) -> None:
    with pytest.raises(OutOfRange):
        call()
