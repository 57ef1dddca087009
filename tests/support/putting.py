"""A plain simulation of putts in small steps, which shares no closed form with the engine."""

from __future__ import annotations

import numpy as np

HOLE_M = 0.053975
FASTEST_MPS = 1.63
GRAVITY = 9.80665


def roll_in_steps(x, y, speed, heading, *, stimp_m, up, right, hole, dt=0.01):
    """Return whether each ball is holed, and where it would come to rest.

    Midpoint steps of rolling friction and slope; the speed at the nearest point to the hole
    decides by v <= 1.63 (1 - (d/R)^2), Holmes, Am. J. Phys. 59 (1991) 129.
    """
    cosine = 1.0 / np.sqrt(1.0 + up * up + right * right)
    slow = 1.8288**2 / (2.0 * stimp_m) * cosine
    pull = -(5.0 / 7.0) * GRAVITY * cosine * np.array([up, right])
    px, py = np.array(x, dtype=float), np.array(y, dtype=float)
    vx, vy = speed * np.cos(heading), speed * np.sin(heading)
    near = np.hypot(px - hole[0], py - hole[1])
    fast = np.hypot(vx, vy)
    moving = np.arange(px.size)
    while moving.size:
        u, w = vx[moving], vy[moving]
        v = np.maximum(np.hypot(u, w), 1e-9)
        um = u + 0.5 * dt * (pull[0] - slow * u / v)
        wm = w + 0.5 * dt * (pull[1] - slow * w / v)
        vm = np.maximum(np.hypot(um, wm), 1e-9)
        un = u + dt * (pull[0] - slow * um / vm)
        wn = w + dt * (pull[1] - slow * wm / vm)
        ends = v < slow * dt
        dx, dy = np.where(ends, 0.0, um * dt), np.where(ends, 0.0, wm * dt)
        # Nearest point of this step's chord to the hole.
        ax, ay = px[moving] - hole[0], py[moving] - hole[1]
        long = np.maximum(dx * dx + dy * dy, 1e-18)
        share = np.clip(-(ax * dx + ay * dy) / long, 0.0, 1.0)
        away = np.hypot(ax + share * dx, ay + share * dy)
        closer = away < near[moving]
        near[moving] = np.where(closer, away, near[moving])
        fast[moving] = np.where(closer, v + share * (np.hypot(un, wn) - v), fast[moving])
        px[moving] += dx
        py[moving] += dy
        vx[moving], vy[moving] = un, wn
        moving = moving[~ends]
    width = np.maximum(1.0 - (near / HOLE_M) ** 2, 0.0)
    holed = (near <= HOLE_M) & (fast <= FASTEST_MPS * width + 0.02)
    return holed, px, py
