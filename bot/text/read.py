"""Read a message: the only public function of this package."""

from bot.model.reading import Expecting, Reading


def read(text: str, expecting: Expecting | None = None) -> Reading:
    """Return the reading of `text`; never raises."""
    return Reading(text=text)
