"""How dangerous heat and cold are, in the words and bands of the weather service."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from engine.core import heat
from engine.core.thunder import strike_distance_m
from engine.units import quantity, si

if TYPE_CHECKING:
    from engine.units import Q

HeatBand = Literal["none", "caution", "extreme caution", "danger", "extreme danger"]
ColdBand = Literal["none", "cold", "very cold", "frostbite"]

_HEAT: tuple[HeatBand, ...] = ("none", "caution", "extreme caution", "danger", "extreme danger")
_COLD: tuple[ColdBand, ...] = ("none", "cold", "very cold", "frostbite")


@dataclass(frozen=True, kw_only=True)
class FeltHeat:
    """A heat index in the shade and its band."""

    felt: Q
    band: HeatBand


@dataclass(frozen=True, kw_only=True)
class FeltCold:
    """A wind chill and its band."""

    felt: Q
    band: ColdBand


def felt_heat(*, air: Q, humidity: Q) -> FeltHeat:
    """Heat index of warm air and its band.

    Parameters
    ----------
    air : Quantity
        Air temperature in the shade, -80 to 60 degC. [temperature]
    humidity : Quantity
        Relative humidity, 0 to 100 %. [-]

    Returns
    -------
    FeltHeat
        Heat index in degF, and its band.

    Raises
    ------
    OutOfRange
        A quantity outside its range.
    """
    felt = heat.heat_index(air_k=si(air, "K"), humidity=si(humidity, "1"))
    return FeltHeat(felt=quantity(felt, "K").to("degF"), band=_HEAT[heat.heat_band(felt_k=felt)])


def felt_cold(*, air: Q, wind: Q) -> FeltCold:
    """Wind chill of cold air and its band.

    Parameters
    ----------
    air : Quantity
        Air temperature, -80 to 60 degC. [temperature]
    wind : Quantity
        Wind speed at 10 m, 0 to 60 m/s. [speed]

    Returns
    -------
    FeltCold
        Wind chill in degF, and its band.

    Raises
    ------
    OutOfRange
        A quantity outside its range.
    """
    felt = heat.wind_chill(air_k=si(air, "K"), wind_mps=si(wind, "m/s"))
    return FeltCold(felt=quantity(felt, "K").to("degF"), band=_COLD[heat.cold_band(felt_k=felt)])


def strike_distance(*, seconds: float) -> Q:
    """Distance of a flash from the seconds until its thunder.

    Parameters
    ----------
    seconds : float
        Time from flash to thunder, 0 to 120. [s]

    Returns
    -------
    Quantity
        Distance, in air of 15 degC. [length]

    Raises
    ------
    OutOfRange
        A time outside its range.
    """
    return quantity(strike_distance_m(seconds=seconds), "m")
