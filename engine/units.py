"""The one unit registry, and the only two ways across the boundary: `si` and `quantity`."""

from __future__ import annotations

from functools import cache
from typing import TypeAlias

import pint

Q: TypeAlias = "pint.Quantity[float]"

# Unit words the engine accepts, and what the registry calls them.
_UNIT_OF = {
    "yd": "yard", "m": "meter", "ft": "foot", "in": "inch", "cm": "centimeter",
    "mph": "mile/hour", "km/h": "kilometer/hour", "m/s": "meter/second", "kn": "knot",
    "degF": "degF", "degC": "degC", "delta_degC": "delta_degC", "K": "kelvin",
    "hPa": "hectopascal", "inHg": "inch_Hg_32F", "Pa": "pascal",
    "deg": "degree", "rad": "radian", "rpm": "rpm", "rad/s": "radian/second",
    "%": "percent", "1": "dimensionless", "kg/m3": "kilogram/meter**3", "s": "second",
}  # fmt: skip


@cache
def registry() -> pint.UnitRegistry[float]:
    """Return the one registry, made on first use because building it costs 0.1 s."""
    return pint.UnitRegistry(cache_folder=None)


def quantity(value: float, unit: str) -> Q:
    """Return `value` carrying `unit`, one of the closed list of unit words.

    Raises
    ------
    KeyError
        `unit` is not in the list.
    """
    ureg = registry()
    return ureg.Quantity(value, ureg.Unit(_UNIT_OF[unit]))


def si(q: Q, unit: str) -> float:
    """Return the plain number of `q` in `unit`, one of the closed list of unit words.

    Raises
    ------
    KeyError
        `unit` is not in the list.
    pint.DimensionalityError
        `q` is of another dimension.
    """
    return float(q.to(_UNIT_OF[unit]).magnitude)
