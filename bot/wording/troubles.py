"""How a piece of trouble is named in a reply."""

from __future__ import annotations

_SAID = {
    "water": "water", "bunker": "bunker", "ob": "out of bounds", "trees": "trees",
    "penalty": "penalty area", "ditch": "ditch", "gorse": "gorse", "long_grass": "long grass",
    "trouble": "trouble", "drop": "drop-off", "building": "building",
}  # fmt: skip
_SHORT = {"ob": "OB", "penalty": "penalty"}


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
