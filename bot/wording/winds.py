"""How a wind is named in a reply: its strength, and where it comes from."""

from __future__ import annotations

from bot.model.reading import Wind
from bot.wording.numbers import level

_COMPASS = {"N": "north", "E": "east", "S": "south", "W": "west"}
_AROUND = (
    "into", "into off the right", "off the right", "helping off the right", "helping",
    "helping off the left", "off the left", "into off the left",
)  # fmt: skip


def strength(wind: Wind) -> str:
    """Return how strong a wind is, as told; "" where it was not."""
    speed = wind.speed
    if speed is None:
        return ""
    return f"{level(speed.value)}{' ' + speed.unit if speed.unit else ''}"


def by_compass(wind: Wind) -> str:
    """Return where a wind comes from by the compass; "" where that was not told.

    >>> by_compass(Wind(compass="SW")), by_compass(Wind(compass="N"))
    ('from SW', 'from north')
    """
    return "" if wind.compass is None else f"from {_COMPASS.get(wind.compass, wind.compass)}"


def by_line(wind: Wind) -> str:
    """Return where a wind comes from against the line of play, to the eighth of a circle.

    >>> by_line(Wind(from_deg=350.0)), by_line(Wind(from_deg=225.0))
    ('into', 'helping off the left')
    """
    return "" if wind.from_deg is None else _AROUND[round(wind.from_deg / 45.0) % 8]


def named(wind: Wind) -> str:
    """Return a wind by its strength and where it comes from."""
    return " ".join(part for part in (strength(wind), by_compass(wind) or by_line(wind)) if part)
