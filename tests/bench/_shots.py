"""Which shots, and which players, is the choice of club and aim held on?"""

from __future__ import annotations

import math

import numpy as np

from engine.core.scene import Scene
from tests.support.golfers import bogey, plain_pattern, scratch, solved
from tests.support.scenes import approach, bunker, out, stream, tee_shot, trees, water

AT_ONCE = 250_000  # samples, so that memory stays small
SCENES = {
    "plain 150": approach(150),
    "water right": approach(150, water(1, 14)),
    "water guessed": approach(165, water(1, 12, guess=6, start=110, end=190)),
    "out right": approach(150, out(1, 22)),
    "two bunkers": approach(140, bunker(130, -13), bunker(140, 16)),
    "stream short": approach(150, stream(115, 130)),
    "tucked": approach(170, water(-1, 18), pin_side=-7),
    "both sides": approach(160, water(1, 18), trees(-1, 20)),
    "tee out": tee_shot(400, out(1, 25), trees(-1, 30)),
    "tee bunker": tee_shot(400, bunker(185, -18), water(1, 30, start=150, end=230)),
    "dogleg": tee_shot(415, trees(1, 20), turn_deg=35),
    "wedge": approach(85, bunker(63, 4)),
}


def pattern_for(player, scene: Scene):
    """Return the plain swings that do not end far past the pin, as a choice looks at them."""
    _, pattern = plain_pattern(player, lie=scene.lie)
    total = pattern.reach_m[:, 0] + pattern.run_m
    near = np.flatnonzero(total <= math.hypot(*scene.pin_m) + 45.0)
    return pattern.taken(near)


def players():
    fader, drawer = bogey(miss=1, curve_deg=2.0), scratch(miss=-1, curve_deg=-1.5)
    return [(fader, solved(fader)), (drawer, solved(drawer))]
