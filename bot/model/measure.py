"""A number as it was said, with the unit it was said in."""

from typing import Literal

from bot.model.base import Frozen

Unit = Literal[
    "yd", "m", "ft", "in", "cm", "pace", "mi", "km",  # lengths
    "mph", "km/h", "m/s", "kn",  # speeds
    "club",  # a wind told in clubs
    "degF", "degC",  # temperatures
    "hPa", "inHg",  # pressures
    "%", "deg",  # slopes, humidity, efforts
    "ball", "cup",  # widths in a putt's aim
    "",  # no unit said: the turn settles it from context and the player's settings
]  # fmt: skip


class Measure(Frozen):
    """A number and its unit, as said; `low` and `high` where a range or a word was said."""

    value: float
    unit: Unit = ""
    low: float | None = None
    high: float | None = None
    about: bool = False
