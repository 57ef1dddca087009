"""What lies where nobody told anything? Likely ground by distance from the pin and offline.

All figures are judgement: an ordinary parkland hole with a fairway of 33 yards, rough to
about 37 yards off the middle, trees beyond, and a green of some 5,500 square feet with
sand round a sixth of it. They shape the strokes table and the unnamed ground of a scene.
"""

from __future__ import annotations

from typing import Any, NamedTuple

import numpy as np
import numpy.typing as npt

Field = npt.NDArray[np.floating[Any]]  # of the precision of what goes in

FAIRWAY_HALF_M = 15.0
FAIRWAY_EDGE_M = 2.5
TREES_M = 33.0
TREES_EDGE_M = 5.0
TREES_SHARE = 0.65
LOST_M = 46.0
LOST_EDGE_M = 6.0
LOST_SHARE = 0.2
GREEN_RADIUS_M = 11.5
GREEN_EDGE_M = 2.6
NEAR_GREEN_M = 32.0
NEAR_GREEN_EDGE_M = 4.0
NEAR_SAND_SHARE = 0.16
NEAR_APRON_SHARE = 0.28
FAR_SAND_SHARE = 0.04


SHORT_SIDED = 0.7  # strokes, at the green's edge with no green to work with
SHORT_SIDED_FADES_M = 30.0
USUAL_GREEN_M = 9.0  # green between ball and pin that the strokes table supposes


class Ground(NamedTuple):
    """Shares of each kind of ground off the green; they sum to 1.

    Attributes
    ----------
    fairway, rough, sand, recovery, drop : ndarray
        Chance of each; `drop` is rough with a penalty stroke. [-]
    """

    fairway: Field
    rough: Field
    sand: Field
    recovery: Field
    drop: Field


def step_up(value: Field, *, at_m: float, edge_m: float) -> Field:
    """Return a smooth step from 0 to 1 about a place: a cubic of three edges either side.

    With an edge below nought it steps down.
    """
    t = value * (1.0 / (6.0 * edge_m))
    t += 0.5 - at_m / (6.0 * edge_m)
    np.clip(t, 0.0, 1.0, out=t)
    rise: Field = 3.0 - 2.0 * t
    rise *= t
    rise *= t
    return rise


def green_share(*, to_pin_m: Field) -> Field:
    """Return the chance that a point this far from the pin is on the green."""
    return step_up(to_pin_m, at_m=GREEN_RADIUS_M, edge_m=-GREEN_EDGE_M)


def unnamed_ground(*, to_pin_m: Field, offline_m: Field, factor: Field | float = 1.0) -> Ground:
    """Return the likely ground at points off the green.

    Parameters
    ----------
    to_pin_m, offline_m : ndarray
        Distance to the pin, and distance from the middle of the way there, unsigned. [m]
    factor : ndarray or float
        How wild the sides are against the ordinary: less opposite a named trouble. [-]

    Returns
    -------
    Ground
        Shares of each kind.
    """
    near = step_up(to_pin_m, at_m=NEAR_GREEN_M, edge_m=-NEAR_GREEN_EDGE_M)
    way = step_up(offline_m, at_m=FAIRWAY_HALF_M, edge_m=-FAIRWAY_EDGE_M)
    fairway = _mixed(way, NEAR_APRON_SHARE, near)
    off = 1.0 - fairway
    wild = factor * off
    lost = step_up(offline_m, at_m=LOST_M, edge_m=LOST_EDGE_M)
    lost *= LOST_SHARE
    lost *= wild
    trees = step_up(offline_m, at_m=TREES_M, edge_m=TREES_EDGE_M)
    trees *= TREES_SHARE
    trees *= wild
    off -= lost
    off -= trees
    sand = _mixed(FAR_SAND_SHARE * off, NEAR_SAND_SHARE, near)
    np.minimum(sand, off, out=sand)
    off -= sand
    return Ground(fairway, off, sand, trees, lost)


def _mixed(far: Field, near: float, share: Field) -> Field:
    """Return the mean of two values with a share of the second."""
    found = near - far
    found *= share
    found += far
    return found


def short_sided(*, to_pin_m: Field, green_m: Field) -> Field:
    """Return strokes lost off the green for having little of it to work with.

    Parameters
    ----------
    to_pin_m : ndarray
        Distance to the pin. [m]
    green_m : ndarray
        How much of that is green, next to the pin. [m]

    Returns
    -------
    ndarray
        Strokes, negative where there is more green than usual. [-]
    """
    per_reach = -1.0 / (0.25 * to_pin_m + 1.5)
    lost = np.exp(green_m * per_reach)
    lost -= np.exp(USUAL_GREEN_M * per_reach)
    strokes: Field = np.exp(to_pin_m * (-1.0 / SHORT_SIDED_FADES_M))
    strokes *= SHORT_SIDED
    strokes *= lost
    return strokes
