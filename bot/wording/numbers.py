"""How a number is said: the only place where anything is rounded."""

from __future__ import annotations

from bot.model.measure import Measure
from bot.wording.base import Style

_SHOWN = {"degF": "F", "degC": "C", "%": "%"}


def length(measure: Measure, style: Style) -> str:
    """Return a length in the unit it carries; the player's own unit goes without saying.

    >>> length(Measure(value=160.4, unit="yd"), Style())
    '160'
    >>> length(Measure(value=160.4, unit="m"), Style())
    '160 m'
    """
    usual = "m" if style.units == "metric" else "yd"
    unit = measure.unit or usual
    return f"{measure.value:.0f}" if unit == usual else f"{measure.value:.0f} {unit}"


def temperature(measure: Measure, style: Style) -> str:
    """Return a temperature in whole degrees with its letter.

    >>> temperature(Measure(value=108.9, unit="degF"), Style())
    '109F'
    """
    unit = measure.unit or ("degC" if style.units == "metric" else "degF")
    return f"{measure.value:.0f}{_SHOWN[unit]}"


def strokes(value: float) -> str:
    """Return expected strokes to one decimal.

    >>> strokes(3.84)
    '3.8'
    """
    return f"{value:.1f}"


def level(value: float) -> str:
    """Return a handicap, a score or a count, with a decimal only where it has one.

    >>> level(18.0), level(4.35)
    ('18', '4.3')
    """
    return f"{value:.0f}" if abs(value - round(value)) < 0.05 else f"{value:.1f}"


def share(value: float) -> str:
    """Return a share of one in whole per cent.

    >>> share(0.086)
    '9%'
    """
    return f"{100 * value:.0f}%"


def degrees(value: float) -> str:
    """Return an angle to half a degree.

    >>> degrees(4.4), degrees(6.0)
    ('4.5 deg', '6 deg')
    """
    half = round(2 * value) / 2
    return f"{half:.0f} deg" if half == round(half) else f"{half:.1f} deg"
