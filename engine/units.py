"""The one unit registry, and the only two ways across the boundary: `si` and `quantity`."""

from __future__ import annotations

from functools import cache
from typing import TypeAlias

import pint

Q: TypeAlias = "pint.Quantity[float]"

# Unit words the engine accepts, and what the registry calls them.
_UNIT_OF = {
    "mi": "mile", "km": "kilometer",
    "yd": "yard", "m": "meter", "ft": "foot", "in": "inch", "cm": "centimeter",
    "mph": "mile/hour", "km/h": "kilometer/hour", "m/s": "meter/second", "kn": "knot",
    "degF": "degF", "degC": "degC", "delta_degC": "delta_degC", "K": "kelvin",
    "hPa": "hectopascal", "inHg": "inch_Hg_32F", "Pa": "pascal",
    "deg": "degree", "rad": "radian", "rpm": "rpm", "rad/s": "radian/second",
    "%": "percent", "1": "dimensionless", "kg/m3": "kilogram/meter**3", "s": "second",
}  # fmt: skip

# The units of that list and what they stand on, in the registry's own syntax. The registry's
# file of all units takes 0.14 s to read, this list 0.01 s. Factors: NIST SP 811 (2008),
# appendix B; the knot and the inch of mercury at 32 degF (13 595.1 kg/m3 under standard
# gravity) are among them.
_DEFINITIONS = """\
meter = [length] = m
second = [time] = s
kilogram = [mass] = kg
kelvin = [temperature]; offset: 0 = K
radian = [] = rad
percent = 0.01 = %
degree = 3.14159265358979323846 / 180 * radian = deg
minute = 60 * second = min
hour = 60 * minute = h
rpm = 2 * 3.14159265358979323846 * radian / minute
centimeter = 0.01 * meter = cm
kilometer = 1000 * meter = km
inch = 0.0254 * meter = in
foot = 12 * inch = ft
yard = 3 * foot = yd
mile = 1760 * yard = mi
knot = 1852 * meter / hour = kn
pascal = kilogram / meter / second ** 2 = Pa
hectopascal = 100 * pascal = hPa
inch_Hg_32F = 0.0254 * 13595.1 * 9.80665 * pascal = inHg
degree_Celsius = kelvin; offset: 273.15 = _ = degC
degree_Fahrenheit = 5 / 9 * kelvin; offset: 233.15 + 200 / 9 = _ = degF
"""


@cache
def registry() -> pint.UnitRegistry[float]:
    """Return the one registry, which knows the units of the closed list only."""
    return pint.UnitRegistry(_DEFINITIONS.splitlines(), cache_folder=None)


@cache
def _unit(word: str) -> pint.Unit:
    return registry().Unit(_UNIT_OF[word])


@cache
def _factor(have: pint.Unit, word: str) -> float | None:
    """Return the factor from one unit to another; None where their zeros differ."""
    zero, one = (float(registry().Quantity(v, have).to(_unit(word)).magnitude) for v in (0.0, 1.0))
    return None if zero else one


def quantity(value: float, unit: str) -> Q:
    """Return `value` carrying `unit`, one of the closed list of unit words.

    Raises
    ------
    KeyError
        `unit` is not in the list.
    """
    return registry().Quantity(value, _unit(unit))


def si_or_none(q: Q | None, unit: str) -> float | None:
    """Return what `si` does, or None for a quantity that is not known."""
    return None if q is None else si(q, unit)


def si(q: Q, unit: str) -> float:
    """Return the plain number of `q` in `unit`, one of the closed list of unit words.

    Raises
    ------
    KeyError
        `unit` is not in the list.
    pint.DimensionalityError
        `q` is of another dimension.
    """
    factor = _factor(q.units, unit)
    if factor is None:
        return float(q.to(_unit(unit)).magnitude)
    return float(q.magnitude) * factor
