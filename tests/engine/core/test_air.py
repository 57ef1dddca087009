import pytest

from engine.core.air import (
    REFERENCE,
    air_of,
    moist_density,
    standard_pressure,
    standard_temperature,
    viscosity,
)
from engine.errors import OutOfRange
from tests.support.tables import load_table

CLOSE = 2e-4  # 0.02 %, stated in both tables
ISA = load_table("standard_atmosphere")
MOIST = load_table("moist_air")


@pytest.mark.parametrize("row", ISA.rows, ids=lambda row: row["height_m"])
def test_standard_atmosphere(row: dict[str, str]) -> None:
    height_m = float(row["height_m"])
    assert standard_temperature(height_m=height_m) == pytest.approx(float(row["air_k"]), rel=CLOSE)
    assert standard_pressure(height_m=height_m) == pytest.approx(
        float(row["pressure_pa"]), rel=CLOSE
    )
    # Dry air of the standard: density = p / (R T), R = 287.05287 J kg-1 K-1 (ISO 2533:1975).
    density = standard_pressure(height_m=height_m) / (
        287.05287 * standard_temperature(height_m=height_m)
    )
    assert density == pytest.approx(float(row["density_kgpm3"]), rel=CLOSE)


@pytest.mark.parametrize(
    "row", MOIST.rows, ids=lambda row: f"{row['air_c']} {row['humidity_pct']}"
)
def test_moist_air(row: dict[str, str]) -> None:
    density = moist_density(
        air_k=float(row["air_c"]) + 273.15,
        pressure_pa=100.0 * float(row["pressure_hpa"]),
        humidity=float(row["humidity_pct"]) / 100.0,
    )
    assert density == pytest.approx(float(row["density_kgpm3"]), rel=CLOSE)
    assert density == pytest.approx(float(row["oiml_kgpm3"]), rel=CLOSE)


def test_viscosity_of_the_standard_atmosphere() -> None:
    # ISO 2533:1975 at sea level.
    assert viscosity(air_k=288.15) == pytest.approx(1.7894e-5, rel=1e-4)


def test_the_reference_day_is_20_c_at_sea_level_and_half_humid() -> None:
    # CIPM-2007, row of fixtures/tables/moist_air.csv.
    assert REFERENCE.density_kgpm3 == pytest.approx(1.19931, rel=CLOSE)


@pytest.mark.parametrize(
    ("air_k", "pressure_pa", "humidity"),
    [(200.0, 1e5, 0.5), (293.0, 4e4, 0.5), (293.0, 1e5, 1.2), (float("nan"), 1e5, 0.5)],
)
def test_refuses_air_nobody_plays_in(air_k: float, pressure_pa: float, humidity: float) -> None:
    with pytest.raises(OutOfRange):
        air_of(air_k=air_k, pressure_pa=pressure_pa, humidity=humidity)
