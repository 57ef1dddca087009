"""Which bearing does a point of the compass name?"""

from __future__ import annotations

POINTS = (
    "N", "NNE", "NE", "ENE", "E", "ESE", "SE", "SSE", "S", "SSW", "SW", "WSW", "W", "WNW", "NW",
    "NNW",
)  # fmt: skip
_STEP = 22.5


def bearing_of(point: str) -> float | None:
    """Return degrees clockwise from north, or None where there is no such point.

    >>> bearing_of("sw"), bearing_of("up")
    (225.0, None)
    """
    name = point.upper()
    return POINTS.index(name) * _STEP if name in POINTS else None


def point_of(bearing_deg: float) -> str:
    """Return the nearest point of the compass.

    >>> point_of(240.0), point_of(355.0)
    ('WSW', 'N')
    """
    return POINTS[round(bearing_deg / _STEP) % len(POINTS)]
