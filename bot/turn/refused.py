"""What a player hears when the engine cannot work with what was told."""

from bot.model.answer import CannotYet
from engine import NoSolution, OutOfRange


def refused(error: OutOfRange | NoSolution) -> CannotYet:
    """Return the answer for what the engine raised."""
    if isinstance(error, NoSolution):
        return CannotYet(reason="no_flight", said=error.name)
    return CannotYet(
        reason="out_of_range", value=error.value, low=error.low, high=error.high,
        unit=error.unit, said=error.name,
    )  # fmt: skip
