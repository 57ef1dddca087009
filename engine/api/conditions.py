"""Today's air, wind and lie out of what a player or a forecast tells."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

from engine.core.air import (
    STANDARD_PA,
    USUAL_HUMIDITY,
    USUAL_K,
    Air,
    air_of,
    standard_pressure,
    standard_temperature,
)
from engine.core.lie import Lie, LieKind
from engine.core.wind import CALM, OPEN_M, Wind, felt_at_flag, from_compass, speed_doubt
from engine.units import quantity, si

if TYPE_CHECKING:
    from engine.units import Q


@dataclass(frozen=True, slots=True)
class AirFacts:
    """What is known of the air; None where nothing was told.

    Attributes
    ----------
    temperature : Quantity or None
        In the shade.
    humidity : Quantity or None
        Relative, in per cent.
    station_pressure : Quantity or None
        As a barometer at the course reads, not reduced to sea level.
    sea_level_pressure : Quantity or None
        As forecasts give it.
    altitude : Quantity or None
        Of the course above the sea.
    """

    temperature: Q | None = None
    humidity: Q | None = None
    station_pressure: Q | None = None
    sea_level_pressure: Q | None = None
    altitude: Q | None = None


@dataclass(frozen=True, slots=True)
class AirToday:
    """Air to fly in, and which of its inputs were filled in.

    Attributes
    ----------
    air : Air
    assumed : tuple of str
        Among ``temperature``, ``humidity``, ``pressure``, ``altitude``.
    """

    air: Air
    assumed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class WindFacts:
    """A wind as told.

    Attributes
    ----------
    speed : Quantity
    comes_from : Quantity
        Where it comes from, clockwise from the target line: 0 in the face, 90 deg from the
        right, 180 deg helping.
    felt_at_flag : bool
        True where the speed was felt at the height of the flag instead of told for 10 m.
    gust : Quantity or None
        Speed of the gusts, felt where the speed was.
    guessed : bool
        True where the speed is a guess or a word.
    """

    speed: Q
    comes_from: Q
    felt_at_flag: bool = False
    gust: Q | None = None
    guessed: bool = False


@dataclass(frozen=True, slots=True)
class LieFacts:
    """A lie as told; slopes as angles.

    Attributes
    ----------
    kind : LieKind
    uphill : Quantity or None
        Along the shot, positive where the ground rises towards the target.
    above_feet : Quantity or None
        Across the shot, positive where the ball is above the feet.
    lip : Quantity or None
        From the ball up to the lip in front.
    """

    kind: LieKind = "fairway"
    uphill: Q | None = None
    above_feet: Q | None = None
    lip: Q | None = None


def air_today(facts: AirFacts, *, usual: AirFacts | None = None) -> AirToday:
    """Return the air to fly in.

    Parameters
    ----------
    facts : AirFacts
        Today.
    usual : AirFacts or None
        The day the stated carries belong to; what it does not tell is 20 degC, 50 %, sea level.

    Returns
    -------
    AirToday
        With nothing told, the usual air exactly.

    Raises
    ------
    OutOfRange
        See `air_of` and `standard_pressure`.

    Notes
    -----
    A station pressure is used as it is. Else pressure follows from altitude through the
    standard atmosphere, from the sea-level pressure where told. Where a new altitude comes
    without a temperature, the usual day's is carried up the standard lapse; a told temperature
    is taken as the air at the ball. Either way the cold of altitude counts once.
    """
    base = usual or AirFacts()
    home_m = 0.0 if base.altitude is None else si(base.altitude, "m")
    home_k = USUAL_K if base.temperature is None else si(base.temperature, "K")
    home_humidity = USUAL_HUMIDITY if base.humidity is None else si(base.humidity, "1")
    height_m = home_m if facts.altitude is None else si(facts.altitude, "m")
    if facts.temperature is not None:
        air_k = si(facts.temperature, "K")
    else:
        lapse_k = standard_temperature(height_m=height_m) - standard_temperature(height_m=home_m)
        air_k = home_k + lapse_k
    humidity = home_humidity if facts.humidity is None else si(facts.humidity, "1")
    if facts.station_pressure is not None:
        pressure_pa = si(facts.station_pressure, "Pa")
    elif facts.sea_level_pressure is not None:
        sea_pa = si(facts.sea_level_pressure, "Pa")
        pressure_pa = standard_pressure(height_m=height_m, sea_level_pa=sea_pa)
    elif facts.altitude is None and base.station_pressure is not None:
        pressure_pa = si(base.station_pressure, "Pa")
    else:
        sea_pa = STANDARD_PA
        if base.sea_level_pressure is not None:
            sea_pa = si(base.sea_level_pressure, "Pa")
        pressure_pa = standard_pressure(height_m=height_m, sea_level_pa=sea_pa)
    measured = facts.station_pressure is not None
    told = {
        "temperature": facts.temperature is not None,
        "humidity": facts.humidity is not None,
        "pressure": measured or facts.sea_level_pressure is not None,
        "altitude": measured or facts.altitude is not None,
    }
    return AirToday(
        air=air_of(air_k=air_k, pressure_pa=pressure_pa, humidity=humidity),
        assumed=tuple(name for name, known in told.items() if not known),
    )


def wind_today(facts: WindFacts | None, *, roughness_m: float = OPEN_M) -> Wind:
    """Return the 10 m wind to fly in; calm where nothing was told.

    Parameters
    ----------
    facts : WindFacts or None
        As told.
    roughness_m : float
        z0 of the course: 0.03 open, 0.1 to 0.5 with trees. [m]

    Returns
    -------
    Wind
    """
    if facts is None:
        return CALM
    speed_mps = si(facts.speed, "m/s")
    doubt = speed_doubt(
        speed_mps=speed_mps,
        gust_mps=None if facts.gust is None else si(facts.gust, "m/s"),
        guessed=facts.guessed,
        roughness_m=roughness_m,
    )
    if facts.felt_at_flag:
        speed_mps = felt_at_flag(speed_mps=speed_mps, roughness_m=roughness_m)
    return Wind(
        speed_mps=speed_mps,
        from_rad=si(facts.comes_from, "rad"),
        roughness_m=roughness_m,
        doubt=doubt,
    )


def turned_wind(*, wind_bearing: Q, hole_bearing: Q) -> Q:
    """Return where a wind named by the compass comes from, clockwise from the line of play.

    Parameters
    ----------
    wind_bearing : Quantity
        Where it comes from, clockwise from north.
    hole_bearing : Quantity
        Where the shot goes, clockwise from north.

    Returns
    -------
    Quantity
        0 to 360 deg, as `WindFacts` takes it.
    """
    turned_rad = from_compass(
        wind_bearing_rad=si(wind_bearing, "rad"), hole_bearing_rad=si(hole_bearing, "rad")
    )
    return quantity(turned_rad, "rad")


def lie_today(facts: LieFacts | None) -> Lie:
    """Return the lie to play from; a level fairway where nothing was told."""
    if facts is None:
        return Lie()
    return Lie(
        kind=facts.kind,
        uphill_rad=_angle(facts.uphill),
        above_rad=_angle(facts.above_feet),
        lip_rad=_angle(facts.lip),
    )


def _angle(angle: Q | None) -> float:
    return 0.0 if angle is None else si(angle, "rad")
