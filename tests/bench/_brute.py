"""Does sampled play of every swing and aim find anything better than the choice?"""

from __future__ import annotations

import math

import numpy as np

from engine.core.choice import Decider
from tests.bench._shots import AT_ONCE, SCENES, pattern_for, players
from tests.bench._table import Row
from tests.support.brute import outcomes

# Rounds of brute force: balls, strokes dearer that stay in, how many stay, finer aims [deg].
_ROUNDS = (
    (2_000, 0.02, 12, (-0.8, 0.0, 0.8)),
    (20_000, 0.004, 5, (-0.3, 0.0, 0.3)),
    (100_000, 0.0, 1, (0.0,)),
)
_FRESH = 1_000_000


def brute_force() -> list[Row]:
    """What the best of all swings and aims saves over the choice, scene by scene.

    Both are priced by sampled balls alone, the same ones for every action. All swings are tried
    at every 2.5 degrees to 25 either side; what may be better, or come near, is tried again at
    finer aims with more balls; the best is held against the choice with balls seen by neither.
    """
    player, table = players()[0]
    rows = []
    for name, scene in SCENES.items():
        pattern = pattern_for(player, scene)
        action = {"scene": scene, "table": table, "pattern": pattern}
        found = Decider(**action).leading(1)[0]
        chosen = found.swing, found.start_rad
        every = np.radians(np.arange(-25.0, 25.1, 2.5))
        tries = [(s, float(a)) for s in range(len(pattern)) for a in every]
        for count, near, most, steps in _ROUNDS:
            kept = rivals(chosen, tries, count=count, near=near, **action)[:most]
            aims = np.radians(steps)
            tries = [(s, a + float(d)) for _, _, (s, a) in kept for d in aims]
        saved = error = 0.0
        if kept and kept[0][2] != chosen:
            fresh = rivals(chosen, [kept[0][2]], count=_FRESH, near=9.0, seed=77, **action)
            saved, error = -fresh[0][0], fresh[0][1]
        rows.append(
            Row(f"regret, {name}, give or take {error:.4f}", max(saved, 0.0), 0.001, "strokes")
        )
    return rows


def rivals(
    chosen: tuple[int, float], tries: list[tuple[int, float]], *, count: int, near: float,
    seed: int = 7, **action,
) -> list[tuple[float, float, tuple[int, float]]]:  # fmt: skip
    """Return what actions cost more than the chosen one, its error, and which: the least first.

    Left out are those that cost more than `near` beyond four standard errors.
    """

    def sampled(swing: int, aim_rad: float):
        parts = [
            outcomes(
                swing=swing, aim_rad=aim_rad, count=min(AT_ONCE, count - first),
                rng=np.random.default_rng(seed + first), **action,
            )
            for first in range(0, count, AT_ONCE)
        ]  # fmt: skip
        return (np.concatenate(part) for part in zip(*parts, strict=True))

    value, out = sampled(*chosen)
    again = 1.0 + (1.0 + value.mean() + out.mean()) / (1.0 - out.mean())
    base, found = value + again * out, []
    for one in tries:
        value, out = sampled(*one)
        more = value + again * out - base  # out of bounds, the chosen swing is played next
        mean, error = float(more.mean()), float(more.std() / math.sqrt(count))
        if mean - 4.0 * error < near:
            found.append((mean, error, one))
    return sorted(found)
