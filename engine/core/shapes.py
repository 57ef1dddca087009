"""Is this point in it? Shapes of ground on a hole, with hard or doubted edges.

Points are in metres from the ball: x along the line to the target, y to the right. Every
shape answers `cover`: the chance that a point lies in it, which is 0 or 1 away from an edge
that is known, a ramp one grid cell wide at the edge, and a smooth rise where only a guess
of the edge is known.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Any, Protocol

import numpy as np
import numpy.typing as npt

Field = npt.NDArray[np.floating[Any]]  # of the precision of what goes in


def ramp(inside_m: Field, cell_m: Field) -> Field:
    """Return the share of a cell inside an edge, from the signed distance to it. [m]"""
    share = inside_m / cell_m
    share += 0.5
    return np.clip(share, 0.0, 1.0, out=share)


def beyond_guess(past_m: Field, guess_m: float) -> Field:
    """Return the chance that an unknown gap is shorter than `past_m`.

    The gap follows a gamma law of shape 2 and mean `guess_m`: never nought, sometimes long.
    """
    g = np.clip(past_m, 0.0, np.inf)
    g *= -2.0 / guess_m
    chance: Field = np.exp(g)
    g -= 1.0
    chance *= g
    chance += 1.0
    return chance


class Shape(Protocol):
    """A piece of ground."""

    def cover(self, x_m: Field, y_m: Field, cell_m: Field) -> Field:
        """Return the chance that each point is inside; `cell_m` softens known edges."""

    def mirrored(self) -> Shape:
        """Return the shape on the other side of the line."""


@dataclass(frozen=True, slots=True)
class Bend:
    """The line the hole follows: straight to a bend, then straight on at an angle.

    Attributes
    ----------
    at_m : float
        Distance of the bend from the ball. [m]
    turn_rad : float
        How much it turns there, right positive. [rad]
    """

    at_m: float = math.inf
    turn_rad: float = 0.0

    def along(self, x_m: Field, y_m: Field) -> tuple[Field, Field]:
        """Return distance along the line and offset from it, right positive. [m]"""
        if not self.turn_rad or math.isinf(self.at_m):
            return x_m, y_m
        c, s = math.cos(self.turn_rad), math.sin(self.turn_rad)
        past = x_m - self.at_m
        u, v = past * c + y_m * s, y_m * c - past * s
        first = past < 0.0
        second = u > 0.0
        corner = np.hypot(past, y_m) * np.sign(-self.turn_rad)
        off = np.where(first, np.where(second & (np.abs(v) < np.abs(y_m)), v, y_m),
                       np.where(second, v, corner))  # fmt: skip
        on_second = second & ~(first & (np.abs(y_m) <= np.abs(v)))
        return np.where(on_second, self.at_m + u, np.minimum(x_m, self.at_m)), off

    def mirrored(self) -> Bend:
        """Return the bend the other way."""
        return replace(self, turn_rad=-self.turn_rad)


@dataclass(frozen=True, slots=True)
class Strip:
    """Ground along one side of the hole.

    Attributes
    ----------
    side : int
        -1 left, +1 right.
    edge_m : float
        Known offset of its near edge from the line; or, with a guess, the offset from
        which the gap is guessed. [m]
    guess_m : float
        Mean of the guessed gap, 0 where the edge is known. [m]
    wide_m : float
        How wide it is. [m]
    from_m, to_m : float
        Where it starts and ends along the line. [m]
    bend : Bend
        The line.
    """

    side: int
    edge_m: float
    guess_m: float = 0.0
    wide_m: float = math.inf
    from_m: float = -math.inf
    to_m: float = math.inf
    bend: Bend = Bend()

    def cover(self, x_m: Field, y_m: Field, cell_m: Field) -> Field:
        """Return the chance that each point is inside."""
        along, off = self.bend.along(x_m, y_m)
        past = self.side * off - self.edge_m
        if self.guess_m:
            out = beyond_guess(past, self.guess_m)
            if math.isfinite(self.wide_m):
                out = out - beyond_guess(past - self.wide_m, self.guess_m)
        else:
            out = ramp(past, cell_m)
            if math.isfinite(self.wide_m):
                out = out * ramp(self.wide_m - past, cell_m)
        if math.isfinite(self.from_m):
            out = out * ramp(along - self.from_m, cell_m)
        if math.isfinite(self.to_m):
            out = out * ramp(self.to_m - along, cell_m)
        return out

    def mirrored(self) -> Strip:
        """Return the strip on the other side."""
        return replace(self, side=-self.side, bend=self.bend.mirrored())


@dataclass(frozen=True, slots=True)
class Band:
    """Ground right across the line, such as a stream or everything past a green.

    Attributes
    ----------
    from_m, to_m : float
        Near and far edge along the line. [m]
    guess_m : float
        Mean of a guessed gap beyond `from_m` to the near edge, 0 where it is known. [m]
    left_m, right_m : float
        How far it reaches to either side, right positive. [m]
    bend : Bend
        The line.
    """

    from_m: float
    to_m: float = math.inf
    guess_m: float = 0.0
    left_m: float = -math.inf
    right_m: float = math.inf
    bend: Bend = Bend()

    def cover(self, x_m: Field, y_m: Field, cell_m: Field) -> Field:
        """Return the chance that each point is inside."""
        along, off = self.bend.along(x_m, y_m)
        past = along - self.from_m
        out = beyond_guess(past, self.guess_m) if self.guess_m else ramp(past, cell_m)
        if math.isfinite(self.to_m):
            out = out * ramp(self.to_m - along, cell_m)
        if math.isfinite(self.left_m):
            out = out * ramp(off - self.left_m, cell_m)
        if math.isfinite(self.right_m):
            out = out * ramp(self.right_m - off, cell_m)
        return out

    def mirrored(self) -> Band:
        """Return the band with its ends swapped."""
        return replace(self, left_m=-self.right_m, right_m=-self.left_m, bend=self.bend.mirrored())


@dataclass(frozen=True, slots=True)
class Oval:
    """A bunker, a pond, a green: an ellipse with axes along and across the line.

    Attributes
    ----------
    x_m, y_m : float
        Centre. [m]
    long_m, wide_m : float
        Half axes along and across. [m]
    """

    x_m: float
    y_m: float
    long_m: float
    wide_m: float

    def cover(self, x_m: Field, y_m: Field, cell_m: Field) -> Field:
        """Return the chance that each point is inside."""
        u, v = (x_m - self.x_m) / self.long_m, (y_m - self.y_m) / self.wide_m
        q = np.sqrt(u * u + v * v)
        # Distance to the edge, to first order: (1 - q) over the slope of q.
        slope = np.sqrt((u / self.long_m) ** 2 + (v / self.wide_m) ** 2) / np.maximum(q, 1e-9)
        inside = (1.0 - q) / np.maximum(slope, 1e-9)
        return ramp(inside, cell_m)

    def mirrored(self) -> Oval:
        """Return the oval on the other side."""
        return replace(self, y_m=-self.y_m)


@dataclass(frozen=True, slots=True)
class Area:
    """A closed polygon.

    Attributes
    ----------
    corners_m : tuple of (x, y)
        Corners in order, either way round. [m]
    """

    corners_m: tuple[tuple[float, float], ...]

    def cover(self, x_m: Field, y_m: Field, cell_m: Field) -> Field:
        """Return the chance that each point is inside."""
        nearest = np.full(np.broadcast(x_m, y_m).shape, np.inf)
        inside = np.zeros(nearest.shape, dtype=bool)
        ends = [*self.corners_m[1:], self.corners_m[0]]
        for (x0, y0), (x1, y1) in zip(self.corners_m, ends, strict=True):
            ex, ey = x1 - x0, y1 - y0
            length2 = max(ex * ex + ey * ey, 1e-12)
            t = np.clip(((x_m - x0) * ex + (y_m - y0) * ey) / length2, 0.0, 1.0)
            gap = (x_m - x0 - t * ex) ** 2 + (y_m - y0 - t * ey) ** 2
            np.minimum(nearest, gap, out=nearest)
            if ey:
                crosses = (y0 > y_m) != (y1 > y_m)
                inside ^= crosses & (x_m < x0 + (y_m - y0) * (ex / ey))
        return ramp(np.sqrt(nearest) * np.where(inside, 1.0, -1.0), cell_m)

    def mirrored(self) -> Area:
        """Return the polygon on the other side."""
        return Area(tuple((x, -y) for x, y in self.corners_m))


def extent_m(*, shape: Oval | Area) -> tuple[float, float, float, float]:
    """Return the nearest and farthest x and the leftmost and rightmost y of a shape. [m]"""
    if isinstance(shape, Oval):
        return (
            shape.x_m - shape.long_m,
            shape.x_m + shape.long_m,
            shape.y_m - shape.wide_m,
            shape.y_m + shape.wide_m,
        )
    xs, ys = zip(*shape.corners_m, strict=True)
    return min(xs), max(xs), min(ys), max(ys)


def green_before_pin(
    *, shape: Oval | Area, pin_m: tuple[float, float], x_m: Field, y_m: Field, away_m: Field
) -> Field:
    """Return how much of the way from points to a pin is inside the pin's green.

    Parameters
    ----------
    shape : Oval or Area
        The green; a polygon is taken for the oval that its extent holds.
    pin_m : (float, float)
        The pin. [m]
    x_m, y_m, away_m : ndarray
        Points, and their distance from the pin. [m]

    Returns
    -------
    ndarray
        Length next to the pin. [m]
    """
    x0, x1, y0, y1 = extent_m(shape=shape)
    a, b = 0.5 * (x1 - x0), 0.5 * (y1 - y0)
    p, q = (pin_m[0] - 0.5 * (x0 + x1)) / a, (pin_m[1] - 0.5 * (y0 + y1)) / b
    # Unit vector from the pin to the point, and the pin, in the oval's own axes.
    per_away = 1.0 / np.clip(away_m, 1e-6, np.inf)
    u, v = x_m - pin_m[0], y_m - pin_m[1]
    u *= per_away
    v *= per_away
    u *= 1.0 / a
    v *= 1.0 / b
    # |(p, q) + t (u, v)| = 1, the root ahead; a pin outside has none of its green before it.
    pu = p * u
    pu += q * v
    u *= u
    v *= v
    u += v
    root = pu * pu
    root -= min(p * p + q * q - 1.0, 0.0) * u
    np.clip(root, 0.0, np.inf, out=root)
    np.sqrt(root, out=root)
    root -= pu
    root /= np.maximum(u, np.finfo(u.dtype).tiny, out=u)  # none of the way from the pin itself
    return np.clip(root, 0.0, away_m, out=root)
