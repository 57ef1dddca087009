"""Into which words, digits and signs does a folded text fall?"""

import re
from typing import NamedTuple

_PIECE = re.compile(r"[a-z]+(?:'[a-z]+)*|\d+(?:\.\d+)?(?:e\d+)?|\.\d+|\n|\S")


class Piece(NamedTuple):
    """A word, a run of digits or one sign; `glued` if nothing stands between it and the last."""

    text: str
    start: int
    end: int
    glued: bool


def split(text: str) -> list[Piece]:
    """The pieces of a folded text, in order."""
    out: list[Piece] = []
    last = -1
    for found in _PIECE.finditer(text):
        start, end = found.span()
        out.append(Piece(found[0], start, end, start == last))
        last = end
    return out
