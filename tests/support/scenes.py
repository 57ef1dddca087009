"""Scenes of the trade for tests: pins, greens and trouble in metres from yards."""

from __future__ import annotations

import math

from engine.core.scene import Scene, Trouble
from engine.core.shapes import Band, Bend, Oval, Strip

YD = 0.9144


def approach(pin: float, *trouble: Trouble, pin_side: float = 0.0, **kw) -> Scene:
    """Return an approach to a green 28 yd deep and 24 wide; the pin `pin_side` yd off it."""
    green = Oval(pin * YD, -pin_side * YD, 14 * YD, 12 * YD)
    return Scene((pin * YD, 0.0), green, trouble, **kw)


def tee_shot(length: float, *trouble: Trouble, turn_deg: float = 0.0, at: float = 240.0) -> Scene:
    """Return a tee shot on a hole of this length that may bend."""
    turn = math.radians(turn_deg)
    first = length if not turn else at
    rest = length - first
    pin = ((first + rest * math.cos(turn)) * YD, rest * math.sin(turn) * YD)
    bend = Bend(at * YD, turn) if turn else Bend()
    return Scene(
        pin, Oval(*pin, 14 * YD, 12 * YD), trouble, lie="tee", fairway_from_m=80 * YD, bend=bend
    )


def water(side: int, edge: float, *, guess: float = 0.0, **kw: float) -> Trouble:
    return Trouble("water", "penalty", strip(side, edge, guess=guess, **kw))


def out(side: int, edge: float, *, guess: float = 0.0, **kw: float) -> Trouble:
    return Trouble("out", "out", strip(side, edge, guess=guess, **kw))


def trees(side: int, edge: float, *, guess: float = 0.0, **kw: float) -> Trouble:
    return Trouble("trees", "trees", strip(side, edge, guess=guess, **kw))


def strip(side: int, edge: float, *, guess: float = 0.0, wide: float = math.inf,
          start: float = -math.inf, end: float = math.inf) -> Strip:  # fmt: skip
    return Strip(side, edge * YD, guess * YD, wide * YD, start * YD, end * YD)


def bunker(x: float, y: float, size: float = 7.0, name: str = "bunker") -> Trouble:
    return Trouble(name, "sand", Oval(x * YD, y * YD, size * YD, size * YD))


def stream(start: float, end: float) -> Trouble:
    return Trouble("stream", "penalty", Band(start * YD, end * YD))
