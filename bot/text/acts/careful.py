"""Does the player say that doubles must be kept off the card, or that they need not be?"""

import re
from typing import NamedTuple

_CARD = r"(?:(?:my|the|a|our|this)\s+)?(?:score|card|lead)"
_SAID = re.compile(
    r"[,;.\s]*\b(?:i'?m\s+|i\s+am\s+|just\s+)?"
    rf"(?P<off>(?:stop|no\s+more|not|done|stopped)\s+)?(?:protect(?:ing)?|nurs(?:e|ing))\s+{_CARD}\b"
    r"|[,;.\s]*\b(?P<bold>(?:stop|no\s+more)\s+)?play(?:ing)?\s+(?:it\s+)?safe\b",
    re.IGNORECASE,
)


class Careful(NamedTuple):
    """What was said, where it stands, and the message with a blank in its place."""

    on: bool
    start: int
    end: int
    rest: str


def careful(text: str) -> Careful | None:
    """Return whether doubles weigh more from here on, with the rest of the message; or None.

    >>> careful("150, protecting my score").rest
    '150'
    >>> careful("stop protecting my card").on
    False
    """
    found = _SAID.search(text)
    if found is None:
        return None
    start, end = found.span()
    rest = (text[:start] + " " * (end - start) + text[end:]).rstrip(" ,;.")
    return Careful(not (found["off"] or found["bold"]), start, end, rest)
