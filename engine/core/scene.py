"""What is known round one shot: the pin, the green, trouble and the line of the hole."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

import numpy as np

from engine.core.pattern import Lie
from engine.core.shapes import Area, Bend, Field, Oval, Shape
from engine.core.surround import FAIRWAY_EDGE_M, FAIRWAY_HALF_M, Ground, unnamed_ground

Kind = Literal["out", "penalty", "sand", "trees", "heavy"]

# What wins where troubles overlap: a total order, so that the order told never matters.
ORDER: tuple[Kind, ...] = ("out", "penalty", "trees", "sand", "heavy")
STOPS: frozenset[Kind] = frozenset({"penalty", "sand"})  # a rolling ball ends in these
HALF_COVER = 0.5  # of a spot: it is taken to be inside
QUIET = 0.4  # judgement: wildness of a side when trouble is named on the other only
RELIEF_M = 2.3  # two club-lengths (Rules of Golf 17.1d)


@dataclass(frozen=True, slots=True)
class Trouble:
    """A named piece of ground to keep out of."""

    name: str
    kind: Kind
    shape: Shape


@dataclass(frozen=True, slots=True)
class Scene:
    """What is known round one shot, in metres from the ball, x down the line, y right.

    Attributes
    ----------
    pin_m : (float, float)
        Where the pin is. [m]
    green : Oval or Area
        The green.
    trouble : tuple of Trouble
        What was told.
    lie : Lie
        What the ball lies on.
    fairway_half_m : float
        Half the width of the fairway. [m]
    fairway_from_m : float
        Where it starts. [m]
    bend : Bend
        The line of the hole.
    """

    pin_m: tuple[float, float]
    green: Oval | Area
    trouble: tuple[Trouble, ...] = ()
    lie: Lie = "fairway"
    fairway_half_m: float = 15.0
    fairway_from_m: float = 0.0
    bend: Bend = field(default_factory=Bend)

    def mirrored(self) -> Scene:
        """Return the scene in a mirror; exact to the bit."""
        return replace(
            self,
            pin_m=(self.pin_m[0], -self.pin_m[1]),
            green=self.green.mirrored(),
            trouble=tuple(replace(t, shape=t.shape.mirrored()) for t in self.trouble),
            bend=self.bend.mirrored(),
        )


def unnamed(*, scene: Scene, x_m: Field, y_m: Field, to_pin_m: Field) -> Ground:
    """Return what lies where nothing was told; a side is quiet when only the other is wild."""
    along, off = scene.bend.along(x_m, y_m)
    offline = np.abs(off)
    if scene.fairway_half_m != FAIRWAY_HALF_M:
        offline -= scene.fairway_half_m - FAIRWAY_HALF_M
        np.clip(offline, 0.0, np.inf, out=offline)
    ground = unnamed_ground(to_pin_m=to_pin_m, offline_m=offline, factor=_wildness(scene, off))
    edge = (along - scene.fairway_from_m) * (1.0 / FAIRWAY_EDGE_M)
    np.clip(edge, 0.0, 1.0, out=edge)
    fairway = ground.fairway * edge
    rough = ground.rough + ground.fairway
    rough -= fairway
    return ground._replace(fairway=fairway, rough=rough)


def _wildness(scene: Scene, off: Field) -> Field | float:
    """Return the wildness of each side of the line."""
    sides = {s for t in scene.trouble for s in (-1, 1) if getattr(t.shape, "side", 0) == s}
    if len(sides) != 1:
        return 1.0
    side = sides.pop()
    wild = (side * off >= 0.0).astype(off.dtype)
    wild *= 1.0 - QUIET
    wild += QUIET
    return wild
