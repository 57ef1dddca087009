"""What does a number of the message say, before anybody knows what it is for?"""

from typing import NamedTuple

from bot.model.measure import Measure, Unit


class Num(NamedTuple):
    """A number as said, its unit, its range and whether it was told as rough."""

    value: float
    unit: Unit = ""
    low: float | None = None
    high: float | None = None
    about: bool = False
    signed: bool = False
    det: str = ""

    def measure(self, unit: Unit | None = None) -> Measure:
        """The number as a `Measure`; `unit` is taken where none was said."""
        return Measure(
            value=self.value,
            unit=self.unit or unit or "",
            low=self.low,
            high=self.high,
            about=self.about,
        )
