"""How what was said becomes a quantity for the engine, and a result a measure for the player."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bot.model.measure import Measure, Unit
from bot.model.state import Units
from engine import quantity, si

if TYPE_CHECKING:
    from engine import Q

# Units a bare number takes, by what it measures; common practice, no source.
_BARE: dict[str, dict[Units, Unit]] = {
    "distance": {"imperial": "yd", "metric": "m"},
    "height": {"imperial": "ft", "metric": "m"},
    "wind": {"imperial": "mph", "metric": "km/h"},
    "temperature": {"imperial": "degF", "metric": "degC"},
    "way": {"imperial": "mi", "metric": "km"},
    "putt": {"imperial": "ft", "metric": "m"},
}

# A wind of which only the direction is known, or none at all: common practice, no source.
MODERATE_WIND: dict[Units, Measure] = {
    "imperial": Measure(value=10, unit="mph"),
    "metric": Measure(value=16, unit="km/h"),
}
PACE_M = 0.9144  # a pace is taken for a yard: common practice, no source


def quantity_of(value: float, unit: str) -> Q:
    """Return a quantity; a pace counts as a yard."""
    return quantity(value * PACE_M, "m") if unit == "pace" else quantity(value, unit)


def settle(measure: Measure, of: str, units: Units) -> Measure:
    """Return `measure` with the unit that a bare number of this kind has for this player."""
    if measure.unit:
        return measure
    return measure.model_copy(update={"unit": _BARE[of][units]})


def to_quantity(measure: Measure, of: str, units: Units) -> Q:
    """Return the quantity a player meant."""
    settled = settle(measure, of, units)
    return quantity_of(settled.value, settled.unit)


def distance_of(measure: Measure | None, units: Units) -> Q | None:
    """Return the distance a player meant, or None where none was told."""
    return None if measure is None else to_quantity(measure, "distance", units)


def in_metres(measure: Measure, units: Units) -> float:
    """Return the distance a player meant. [m]"""
    return si(to_quantity(measure, "distance", units), "m")


def measured(q: Q, of: str, units: Units) -> Measure:
    """Return a result in the player's own unit, unrounded."""
    unit = _BARE[of][units]
    return Measure(value=si(q, unit), unit=unit)


def spoken_units(measure: Measure | None, usual: Units | None) -> Units:
    """Return the system a player spoke a distance in, else the one they have set.

    >>> spoken_units(Measure(value=135, unit="m"), "imperial")
    'metric'
    """
    if measure is not None and measure.unit in ("m", "cm"):
        return "metric"
    if measure is not None and measure.unit in ("yd", "ft", "in"):
        return "imperial"
    return usual or "imperial"
