"""Does the message say in which unit a distance was told, or that nobody knows?"""

import re
from typing import Literal

from bot.model.measure import Unit
from bot.text.measures import wind_unit_named
from bot.text.pieces import split

_YARDS = r"(?:yards?|yds?|yardage)"
_METRES = r"(?:met(?:re|er)s?|mtrs?)"
_UNIT = rf"(?:{_YARDS}|{_METRES})"
_TURNED = re.compile(
    rf"\b(?:wait|sorry|oops|actually|i mean|no)\b\W+(?:[a-z']+\W+){{0,4}}(?P<a>{_UNIT})\W*$"
)
_EITHER = re.compile(
    rf"\b(?:{_YARDS} or (?:in )?{_METRES}|{_METRES} or (?:in )?{_YARDS})\b"
    rf"|\d,? or (?:is|are|was) (?:that|it|those) (?:in )?{_UNIT}\b"
)
_MEANT = re.compile(
    rf"\b(?P<a>{_UNIT})\b\W+(?:\w+\W+){{0,2}}not (?:in )?{_UNIT}\b"
    rf"|\bnot (?:in )?{_UNIT}\b\W+(?:\w+\W+){{0,2}}(?P<b>{_UNIT})\b"
    r"|\b(?:meant|mean|should(?: have)? be(?:en)?|was in|were in"
    rf"|(?:that|it|those|they)(?: was| were|'s| is)) (?P<c>{_UNIT})\b"
    rf"|\b(?P<d>{_UNIT})\W+(?:sorry|i meant?)\b"
)


_ONE = re.compile(rf"^\W*(?:it'?s |in |they'?re )?(?P<a>{_UNIT}|m|y)\W*$")


_APART = re.compile(
    r"\b(?:that'?s|it'?s|these are|they'?re|i'?m|set (?:it )?to|all in|in) "
    rf"(?P<a>{_UNIT})\b"
)
_WIND_IN = re.compile(
    r"\b(?:wind|breeze)(?:'s| is)? in (?P<a>knots|kts|km/?h|kph|kilomet(?:re|er)s|m/s|mph|miles)\b"
)


def unit_apart(text: str) -> Literal["yd", "m"] | None:
    """The unit told apart from the distance: "140, that's metres"."""
    found = _APART.search(text.casefold())
    return None if found is None else "yd" if found["a"].startswith("y") else "m"


def turned_unit(text: str) -> Literal["yd", "m"] | None:
    """The unit in which the message's own number was meant: "125 metres. oh wait, it's yards"."""
    found = _TURNED.search(text.casefold())
    return None if found is None else "yd" if found["a"].startswith("y") else "m"


def wind_unit(text: str) -> Unit | None:
    """The unit told of the wind apart from its number: "the wind's in knots"."""
    found = _WIND_IN.search(text.casefold())
    return None if found is None else wind_unit_named([p.text for p in split(found["a"])])


def named_unit(text: str) -> Literal["yd", "m"] | None:
    """The unit that is the whole message."""
    found = _ONE.match(text.casefold())
    if found is None:
        return None
    return "yd" if found["a"].startswith("y") else "m"


def either_unit(text: str) -> bool:
    """Whether the player cannot say if a number is yards or metres."""
    return _EITHER.search(text.casefold()) is not None


def meant_unit(text: str) -> Literal["yd", "m"] | None:
    """The unit in which the last distance was meant, where that is put right.

    >>> meant_unit("yards I mean, not metres")
    'yd'
    """
    found = _MEANT.search(text.casefold())
    if found is None:
        return None
    word = next(w for w in found.groupdict().values() if w)
    return "yd" if word.startswith("y") else "m"
