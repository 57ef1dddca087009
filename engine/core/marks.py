"""On which line does a swing start, if its start or its finish is meant for a mark?"""

from __future__ import annotations

import math
from typing import Literal

import numpy as np

from engine.core.aims import AIM_MOST_RAD
from engine.core.scene import Scene
from engine.core.shapes import extent_m

Mark = Literal["pin", "middle"]
_HALVINGS = 48


def aim_at(
    *,
    scene: Scene,
    in_reach: bool,
    pin_m: float,
    total_m: float,
    bearing_rad: float,
    mark: Mark,
    halves: float,
    off_m: float,
    finish: bool,
) -> float | None:
    """Return the start line that brings the start, or the finish, of a swing to a mark.

    Parameters
    ----------
    scene : Scene
        The ground, the ball at its origin and the pin on its first axis.
    in_reach : bool
        Marks are on the green where it is, across the fairway at the finish where not.
    pin_m : float
        Distance to the pin. [m]
    total_m : float
        Mean solid finish with its roll. [m]
    bearing_rad : float
        Bearing of that finish against the start line, right positive. [rad]
    mark : {"pin", "middle"}
        The pin, or the line to it; or the middle of the green or fairway.
    halves : float
        Half widths of the green or fairway right of the mark; -1 from the middle is the left
        edge. [-]
    off_m : float
        How far right of there. [m]
    finish : bool
        Whether the finish is meant for the mark, and not the start line.

    Returns
    -------
    float or None
        Start line against the line to the pin, right positive; None where it is farther off
        than any aim that is looked at. [rad]
    """
    _, _, left, right = extent_m(shape=scene.green)
    half = 0.5 * (right - left) if in_reach else scene.fairway_half_m
    wanted = halves * half + off_m

    def off(aim: float) -> float:
        ended = aim + bearing_rad
        x, y = total_m * math.cos(ended), total_m * math.sin(ended)
        if not finish:
            x = pin_m if in_reach else x
            y = x * math.tan(aim)
        if mark == "pin":
            return y - wanted
        if in_reach:
            return y - 0.5 * (left + right) - wanted
        _, across = scene.bend.along(np.array([x]), np.array([y]))
        return float(across[0]) - wanted

    low, high = -AIM_MOST_RAD, AIM_MOST_RAD
    if not off(low) < 0.0 < off(high):
        return None
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        low, high = (middle, high) if off(middle) < 0.0 else (low, middle)
    return 0.5 * (low + high)
