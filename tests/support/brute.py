"""A plain simulation of one swing in a scene: sampled balls, hard edges, no grid.

Written from the model's statement (`engine.core.pattern`, `scene`), sharing with the engine
only the shapes' outlines, the unnamed ground and the strokes table.
"""

from __future__ import annotations

import numpy as np

from engine.core.pattern import Pattern
from engine.core.scene import ORDER, QUIET, RELIEF_M, STOPS, Scene
from engine.core.shapes import green_before_pin
from engine.core.strokes import DROP, StrokeTable
from engine.core.surround import FAIRWAY_EDGE_M, FAIRWAY_HALF_M, short_sided, unnamed_ground

HARD_M = 1e-6


def landings(pattern: Pattern, swing: int, aim_rad: float, count: int, rng: np.random.Generator):
    """Return sampled carries, bearings and rolls."""
    way = rng.choice(4, size=count, p=pattern.share[swing])
    z1, z2 = rng.standard_normal((2, count))
    tilt = np.where(way == 0, pattern.tilt[swing], 0.0)
    reach = pattern.reach_m[swing][way] + pattern.reach_sd_m[swing][way] * z1
    bearing = (
        aim_rad
        + pattern.bearing_rad[swing][way]
        + pattern.bearing_sd_rad[swing][way] * (tilt * z1 + np.sqrt(1 - tilt**2) * z2)
    )
    roll = pattern.run_m[swing] + pattern.run_sd_m[swing] * rng.standard_normal(count)
    return np.maximum(reach, 0.0), bearing, np.maximum(roll, 0.0)


def _along_ray(shape, a, r):
    return shape.cover(r * np.cos(a), r * np.sin(a), HARD_M) > 0.5


def _first_inside(shape, green, a, lo, hi, steps=120):
    """Return the first distance in [lo, hi] along each ray in the shape but no green, or inf."""
    found = np.full(len(a), np.inf)
    for t in np.linspace(0.0, 1.0, steps):
        r = lo + t * (hi - lo)
        hit = _along_ray(shape, a, r) & ~_along_ray(green, a, r) & ~np.isfinite(found)
        found[hit] = r[hit]
    return found


def _entry(shape, a, r):
    """Return where the ray last went in before r."""
    back = np.zeros(len(a))
    inside = np.ones(len(a), dtype=bool)
    for t in np.linspace(1.0, 0.0, 400):
        at = t * r
        now = _along_ray(shape, a, at)
        left = inside & ~now
        back[left] = at[left]
        inside &= now
    return back


def simulate(
    *, scene: Scene, table: StrokeTable, pattern: Pattern, swing: int, aim_rad: float, count: int,
    seed: int = 1,
) -> tuple[float, float]:  # fmt: skip
    """Return mean strokes and their standard error; out of bounds is replayed the same way."""
    rng = np.random.default_rng(seed)
    value, out = outcomes(
        scene=scene, table=table, pattern=pattern, swing=swing, aim_rad=aim_rad, count=count,
        rng=rng,
    )  # fmt: skip
    p, c = out.mean(), value.mean()
    error = np.sqrt((value + 2.0 * out).var() / count)
    return (1.0 + c + p) / (1.0 - p), float(error)


def outcomes(
    *, scene: Scene, table: StrokeTable, pattern: Pattern, swing: int, aim_rad: float, count: int,
    rng: np.random.Generator,
) -> tuple[np.ndarray, np.ndarray]:  # fmt: skip
    """Return what is left from where each sampled ball ends, and how far it is out of bounds."""
    r, a, roll = landings(pattern, swing, aim_rad, count, rng)
    end = r + roll
    for t in scene.trouble:
        if t.kind in STOPS and not getattr(t.shape, "guess_m", 0.0):
            end = np.minimum(end, _first_inside(t.shape, scene.green, a, r, end))
    x, y = end * np.cos(a), end * np.sin(a)
    to_pin = np.hypot(x - scene.pin_m[0], y - scene.pin_m[1])
    free = 1.0 - (scene.green.cover(x, y, HARD_M) > 0.5)
    value = (1.0 - free) * table.putts_at(distance_m=to_pin)
    out = np.zeros(count)
    for t in sorted(scene.trouble, key=lambda t: (ORDER.index(t.kind), t.name, repr(t.shape))):
        cover = t.shape.cover(x, y, HARD_M)
        weight, free = free * cover, free * (1.0 - cover)
        hit = weight > 0.0
        price = np.zeros(count)
        if t.kind == "out":
            out += weight
        elif t.kind == "penalty":
            e = _entry(t.shape, a[hit], end[hit])
            left = np.hypot(e * np.cos(a[hit]) - scene.pin_m[0], e * np.sin(a[hit])) + RELIEF_M
            price[hit] = table.at(row=DROP, distance_m=left)
        elif t.kind == "sand":
            price[hit] = table.at(row=3, distance_m=to_pin[hit])
        elif t.kind == "trees":
            price[hit] = table.at(row=4, distance_m=to_pin[hit])
        else:
            price[hit] = 0.5 * (
                table.at(row=2, distance_m=to_pin[hit]) + table.at(row=4, distance_m=to_pin[hit])
            )
        value += weight * price
    along, off = scene.bend.along(x, y)
    sides = {t.shape.side for t in scene.trouble if hasattr(t.shape, "side")}
    offline = np.maximum(np.abs(off) - (scene.fairway_half_m - FAIRWAY_HALF_M), 0.0)
    wild = np.ones(count)
    if len(sides) == 1:
        wild = np.where(next(iter(sides)) * off < 0.0, QUIET, 1.0)
    ground = unnamed_ground(to_pin_m=to_pin, offline_m=offline, factor=wild)
    edge = np.clip((along - scene.fairway_from_m) / FAIRWAY_EDGE_M, 0.0, 1.0)
    fairway = ground.fairway * edge
    ground = ground._replace(fairway=fairway, rough=ground.rough + ground.fairway - fairway)
    for row, share in enumerate(ground, start=1):
        value += free * share * table.at(row=row, distance_m=to_pin)
    work = green_before_pin(shape=scene.green, pin_m=scene.pin_m, x_m=x, y_m=y, away_m=to_pin)
    off_green = 1.0 - (scene.green.cover(x, y, HARD_M) > 0.5) - out
    value += off_green * short_sided(to_pin_m=to_pin, green_m=work)
    return value, out
