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


def step_up(z: Field) -> Field:
    """Return a smooth step from 0 to 1 about nought: a cubic from -3 to 3."""
    t = z * (1.0 / 6.0)
    t += 0.5
    np.clip(t, 0.0, 1.0, out=t)
    rise: Field = 3.0 - 2.0 * t
    rise *= t
    rise *= t
    return rise


def green_share(*, to_pin_m: Field) -> Field:
    """Return the chance that a point this far from the pin is on the green."""
    return step_up((GREEN_RADIUS_M - to_pin_m) / GREEN_EDGE_M)


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
    near = step_up((NEAR_GREEN_M - to_pin_m) / NEAR_GREEN_EDGE_M)
    way = step_up((FAIRWAY_HALF_M - offline_m) / FAIRWAY_EDGE_M)
    fairway = near * NEAR_APRON_SHARE + (1.0 - near) * way
    off = 1.0 - fairway
    lost = factor * LOST_SHARE * step_up((offline_m - LOST_M) / LOST_EDGE_M) * off
    trees = factor * TREES_SHARE * step_up((offline_m - TREES_M) / TREES_EDGE_M) * off
    sand = near * NEAR_SAND_SHARE + (1.0 - near) * FAR_SAND_SHARE * (off - lost - trees)
    sand = np.minimum(sand, off - lost - trees)
    return Ground(fairway, off - lost - trees - sand, sand, trees, lost)


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
    reach = 0.25 * to_pin_m + 1.5
    lost = np.exp(-green_m / reach) - np.exp(-USUAL_GREEN_M / reach)
    strokes: Field = SHORT_SIDED * np.exp(-to_pin_m / SHORT_SIDED_FADES_M) * lost
    return strokes
