"""What wind and air does an aviation weather report tell?"""

from __future__ import annotations

import math
import re
import warnings
from datetime import datetime
from typing import TYPE_CHECKING

from bot.courses.compass import point_of
from bot.model.base import Frozen
from bot.model.measure import Measure
from bot.model.reading import Air, Wind

if TYPE_CHECKING:
    from metar import Datatypes

_TREND = re.compile(r"\s(?:NOSIG|BECMG|TEMPO|RMK)\b.*", re.DOTALL)  # a forecast, or remarks


class Report(Frozen):
    """A weather report: the wind as golfers name it, and the true bearing it comes from."""

    wind: Wind | None
    from_deg: float | None
    air: Air


def read_metar(text: str, at: datetime) -> Report | None:
    """Return what a report in the METAR code tells (WMO-No. 306, FM 15), or None.

    A variable wind has a strength and no direction.
    """
    from metar.Metar import Metar, ParserError  # only pasted reports need it

    with warnings.catch_warnings():
        warnings.simplefilter("ignore")
        try:
            report = Metar(
                _TREND.sub("", text.strip()).upper(), month=at.month, year=at.year, strict=False
            )
        except (ParserError, ValueError, AttributeError):
            return None
    if report.wind_speed is None:
        return None
    speed, gust = _speed(report.wind_speed, text), None
    if report.wind_gust is not None:
        gust = _speed(report.wind_gust, text)
    from_deg = None
    if report.wind_dir is not None and speed.value:
        from_deg = float(report.wind_dir.value())
    point = None if from_deg is None else point_of(from_deg)
    wind = Wind(
        speed=speed, gust=gust, compass=point, unsteady=from_deg is None and speed.value > 0
    )
    return Report(wind=wind, from_deg=from_deg, air=_air(report))


def _speed(speed: Datatypes.speed, text: str) -> Measure:
    """Return a speed in the unit the report gives."""
    if "MPS" in text.upper():
        return Measure(value=speed.value("MPS"), unit="m/s")
    return Measure(value=speed.value("KT"), unit="kn")


def _air(report: object) -> Air:
    temp, dew, press = (getattr(report, n, None) for n in ("temp", "dewpt", "press"))
    celsius = None if temp is None else float(temp.value("C"))
    humidity = None
    if celsius is not None and dew is not None:
        humidity = Measure(value=_relative(celsius, float(dew.value("C"))), unit="%")
    return Air(
        temperature=None if celsius is None else Measure(value=celsius, unit="degC"),
        humidity=humidity,
        pressure=None if press is None else Measure(value=float(press.value("HPA")), unit="hPa"),
    )


def _relative(celsius: float, dew: float) -> float:
    """Return relative humidity in per cent from temperature and dew point.

    Magnus' formula with the coefficients of WMO-No. 8, annex 4.B (from memory).

    >>> round(_relative(20.0, 20.0)), round(_relative(20.0, 9.3))
    (100, 50)
    """

    def vapour(t: float) -> float:
        return math.exp(17.62 * t / (243.12 + t))

    return min(100.0 * vapour(dew) / vapour(celsius), 100.0)
