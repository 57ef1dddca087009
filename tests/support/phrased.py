"""Phrases made from patterns whose meaning is known before any reading.

A pattern holds ``{s}`` for a side, ``{o}`` for the other, ``{n}`` for a number, ``{u}`` for its
unit and ``{k}`` for a kind of trouble. Winds mean degrees clockwise from the line, where it comes
from: 0 against, 90 from the right; heights are positive where the target lies above.
"""

import random
from typing import Any, NamedTuple

_SPEEDS = ("", " mph", "mph", " miles an hour")
_FEET = (" feet", "ft", " ft")
_OFF = {"left": 270.0, "right": 90.0}
_AGAINST = {"left": 315.0, "right": 45.0}
_WITH = {"left": 225.0, "right": 135.0}
ACROSS = (
    "wind {n}{u} from the {s}", "{n}{u} off the {s}", "{n}{u} out of the {s}",
    "wind coming from the {s} at {n}{u}", "wind is blowing {n}{u} {s} to {o}",
    "{n}{u} of wind off my {s}", "wind {s} to {o} {n}{u}", "{n}{u} crosswind from the {s}",
    "breeze across from the {s}, {n}{u}", "{n}{u} blowing from {s} to {o}",
    "wind pushing it {o} at {n}{u}", "{s} to {o} wind at {n}{u}",
)  # fmt: skip
AGAINST_ACROSS = (
    "into and from the {s} {n}{u}", "{n}{u} into off the {s}", "{n}{u} hurting and {s} to {o}",
    "quartering into from the {s} at {n}{u}",
)  # fmt: skip
WITH_ACROSS = (
    "helping from the {s} {n}{u}", "{n}{u} helping and {s} to {o}", "down off the {s} {n}{u}",
    "{n}{u} over my {s} shoulder from behind",
)  # fmt: skip
AGAINST = (
    "{n}{u} into us", "dead into it {n}{u}", "{n}{u} right in my face", "wind hurting {n}{u}",
    "headwind of {n}{u}", "{n}{u} against", "wind's coming at us {n}{u}", "{n}{u} on the nose",
)  # fmt: skip
WITH = (
    "wind at our backs {n}{u}", "straight downwind {n}{u}", "{n}{u} tailwind", "{n}{u} with us",
    "{n}{u} helping", "wind in our favor {n}{u}", "wind from behind at {n}{u}", "{n}{u} of help",
)  # fmt: skip
UP = (
    "uphill {n}{u}", "{n}{u} uphill", "green is {n}{u} above me", "climbs {n}{u}",
    "pin is {n}{u} higher", "I'm {n}{u} below the green", "{n}{u} below the green",
    "{n}{u} rise", "up {n}{u} to the green", "{n}{u} elevation gain",
)  # fmt: skip
DOWN = (
    "downhill {n}{u}", "{n}{u} downhill", "green sits {n}{u} below us", "drops {n}{u}",
    "pin is {n}{u} lower", "I'm {n}{u} above the green", "{n}{u} above the green",
    "{n}{u} drop", "down {n}{u} to the green", "falls {n}{u}",
)  # fmt: skip
BESIDE = (
    "{k} {s}", "{k} on the {s}", "{k} down the {s}", "{k} all along the {s}",
    "{k} hugging the {s}", "{k} guards the {s}", "{k} is {s}", "{s} is {k}", "{s} side has {k}",
    "{k} {s} of the green", "{k} off to the {s}", "watch the {k} {s}", "{k} eats up the {s}",
    "there's {k} on my {s}",
)  # fmt: skip
BEYOND = (
    "{k} long",
    "{k} behind the green",
    "{k} over the back",
    "{k} past the pin",
    "long is {k}",
)
BEFORE = ("{k} short", "{k} in front of the green", "{k} just short of the green", "short is {k}")
STARTS = (
    "{k} {s} at {n}", "{k} {s} starts at {n}", "{k} {s} reachable at {n}", "{k} {n} out {s}",
    "{k} is {n} away on the {s}", "{n} to reach {k} {s}", "{n} to the start of {k} {s}",
    "{k} down the {s} from {n} on", "{k} pinches in {s} at {n}",
)  # fmt: skip
CARRIED = (
    "{k} on the {s} {n} to carry", "{k} {s}, {n} to carry it", "{k} {s}, carry is {n}",
    "{k} {s} takes {n} to clear",
)  # fmt: skip
KINDS = {
    "water": "water", "pond": "water", "bunker": "bunker", "the lake": "water", "trees": "trees",
    "big bunker": "bunker", "OB": "ob", "red stakes": "penalty", "ditch": "ditch",
}  # fmt: skip


class Phrase(NamedTuple):
    """A part of a message and the flat facts it tells."""

    text: str
    means: dict[str, Any]


def wind(pick: random.Random) -> Phrase:
    """A wind with its speed."""
    side, number = pick.choice(("left", "right")), pick.choice((8, 10, 12, 15, 18))
    patterns, degrees = pick.choice((
        (ACROSS, _OFF[side]), (AGAINST_ACROSS, _AGAINST[side]), (WITH_ACROSS, _WITH[side]),
        (AGAINST, 0.0), (WITH, 180.0),
    ))  # fmt: skip
    text = _made(pick, patterns, side, number, pick.choice(_SPEEDS))
    return Phrase(text, {"wind_mph": float(number), "wind_from": degrees})


def height(pick: random.Random) -> Phrase:
    """How much higher or lower the target lies."""
    number = pick.choice((5, 8, 10, 12, 15, 20))
    patterns, sign = pick.choice(((UP, 1.0), (DOWN, -1.0)))
    text = _made(pick, patterns, "", number, pick.choice(_FEET))
    return Phrase(text, {"elevation_ft": sign * number})


def trouble(pick: random.Random) -> Phrase:
    """Trouble with its side, and for some where it starts or what carries it."""
    side, number = pick.choice(("left", "right")), pick.choice((121, 128, 135))
    name = pick.choice(sorted(KINDS))
    patterns, where, far = pick.choice((
        (BESIDE, side, ""), (BEYOND, "long", ""), (BEFORE, "short", ""), (STARTS, side, "from_yd"),
        (CARRIED, side, "to_yd"),
    ))  # fmt: skip
    told: dict[str, Any] = {"kind": KINDS[name], "side": where}
    if far:
        told[far] = float(number)
    return Phrase(_made(pick, patterns, side, number, "", name), {"hazards": [told]})


def _made(
    pick: random.Random, patterns: tuple[str, ...], side: str, number: int, unit: str,
    kind: str = "",
) -> str:  # fmt: skip
    other = {"left": "right", "right": "left"}.get(side, "")
    return pick.choice(patterns).format(s=side, o=other, n=number, u=unit, k=kind)
