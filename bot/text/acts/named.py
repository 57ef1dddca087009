"""Which of the players known here does a message speak of, and what is left without the name?"""

from __future__ import annotations

import re
from collections.abc import Iterable
from functools import lru_cache
from typing import NamedTuple

from bot.model.reading import Act
from bot.text.acts.company import company
from bot.text.lexicon import PARTS, WORDS, is_real


class Named(NamedTuple):
    """A player, and the message with a blank for every letter that named them."""

    player: str
    rest: str


# What may stand before a name that opens a message.
_OPENS = r"(?:(?:now|ok|okay|and|so|then|next|for|ask for|what about|how about|over to)\W+)*"
# Behind a name it is not that player's ball: the speaker talks to them, or of both, or on.
_NOT_THEIRS = (
    r"(?!\W*(?:i|i['’]?m|i['’]?ve|i['’]?ll|my|me|mine|we|we['’]?re|our|us|you|your|and|or|but"
    r"|says?|said|thinks?|reckons?|told|asks?|asked|wants to know|can you|did you|what did"
    r"|good|great|nice|well|thanks?|cheers)\b|\W*$)"
)
_DOES = r"(?:should|does|can|could|would|must|will)"


def named(text: str, names: Iterable[str]) -> Named | None:
    """The one of `names` whose ball, score or bag the message is about, in any case of letters.

    >>> named("mika: 140, water left", ["Mika"])
    Named(player='Mika', rest='      140, water left')
    >>> named("Mika, what did you hit", ["Mika"]) is None
    True
    """
    if company(text) is not None:
        return None
    for name in sorted(names, key=len, reverse=True):
        called = _called(name)
        found = called.search(text) if called is not None else None
        if found is not None:
            start, end = found.span(found.lastgroup or 0)
            return Named(name, text[:start] + " " * (end - start) + text[end:])
    return None


def of_player(act: Act, player: str) -> Act:
    """The act as one of that player, where it can be."""
    return act.model_copy(update={"player": player}) if "player" in type(act).model_fields else act


@lru_cache(maxsize=256)
def _called(name: str) -> re.Pattern[str] | None:
    """What finds a player called by full or first name."""
    words = name.split()
    if not words or not words[0][0].isalpha():
        return None
    forms = "|".join(re.escape(n) for n in dict.fromkeys((" ".join(words), words[0])))
    marked = rf"^\W*{_OPENS}(?:{forms})\s*:\s?|\bfor (?:{forms})(?:\W*$|(?=\W+\w))"
    first = words[0].casefold()
    if first in WORDS or first in PARTS or is_real(first):
        return re.compile(marked, re.IGNORECASE)  # "Will", "Sandy", "Mark"
    return re.compile(
        rf"{marked}|^\W*{_OPENS}(?:{forms})(?:['’]s)?(?![\w'’]){_NOT_THEIRS}"
        rf"|\b{_DOES} (?P<who>{forms})\b|^\W*\d[^?]*(?P<last>, ?(?:{forms})\W*$)",
        re.IGNORECASE,
    )
