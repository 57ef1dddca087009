"""How a club is named in a reply."""

from __future__ import annotations

_KINDS = {"w": "wood", "h": "hybrid", "i": "iron"}
_NAMES = {
    "D": "driver",
    "PW": "PW",
    "P": "putter",
    "GW": "gap wedge",
    "SW": "sand wedge",
    "LW": "lob wedge",
}


def club(name: str) -> str:
    """Return a club's name in words.

    >>> club("7i"), club("D"), club("56")
    ('7-iron', 'driver', '56 wedge')
    """
    if name in _NAMES:
        return _NAMES[name]
    if name.isdecimal():
        return f"{name} wedge"
    return f"{name[:-1]}-{_KINDS[name[-1]]}" if name[-1:] in _KINDS else name


_SWINGS = {
    "full": "",
    "choked": ", choked down",
    "three_quarter": ", three-quarter",
    "half": ", half swing",
    "knocked_down": ", knocked down",
    "high": ", hit high",
    "pitch": ", pitched",
}


def played(name: str, swing: str) -> str:
    """Return a club with its swing, where that is not the stock one.

    >>> played("7i", "full"), played("6i", "knocked_down")
    ('7-iron', '6-iron, knocked down')
    """
    return club(name) + _SWINGS[swing]
