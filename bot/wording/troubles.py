"""How a piece of trouble is named in a reply."""

from __future__ import annotations

_SAID = {
    "water": "water", "bunker": "bunker", "ob": "out of bounds", "trees": "trees",
    "penalty": "penalty area", "ditch": "ditch", "gorse": "gorse", "long_grass": "long grass",
    "trouble": "trouble", "drop": "drop-off", "building": "building",
}  # fmt: skip
_SHORT = {"ob": "OB", "penalty": "penalty"}


# Strokes a ball lost there costs, roughly: only to rank what is said. Judgement.
_DEAR = {"ob": 2.0, "water": 1.0, "penalty": 1.0, "ditch": 1.0}


def dear(name: str) -> float:
    """Return how much more a piece of trouble weighs than another when one is to be named.

    >>> dear("ob right") > dear("water left") > dear("bunker short")
    True
    """
    return _DEAR.get(name.partition(" ")[0], 0.5)


def what(name: str) -> str:
    """Return a piece of trouble in words, without where it is.

    >>> what("bunker short"), what("water left"), what("ob")
    ('bunker', 'water', 'out of bounds')
    """
    return trouble(name.partition(" ")[0])


def trouble(name: str) -> str:
    """Return a piece of trouble in words.

    >>> trouble("ob"), trouble("water left")
    ('out of bounds', 'water left')
    """
    kind, _, side = name.partition(" ")
    return f"{_SAID.get(kind, kind)} {side}".strip()


def shorter(name: str) -> str:
    """Return the same where there is little room.

    >>> shorter("ob")
    'OB'
    """
    kind, _, side = name.partition(" ")
    return f"{_SHORT.get(kind, _SAID.get(kind, kind))} {side}".strip()
