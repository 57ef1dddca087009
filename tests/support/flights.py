"""An invented bag to fly, single launches, and an integrator that shares nothing with ours."""

from __future__ import annotations

from dataclasses import replace
from math import cos, exp, log, pi, radians, sin, sqrt

import numpy as np
from scipy.integrate import solve_ivp

from engine.core.aero import Ball
from engine.core.air import Air
from engine.core.flight import Launch
from engine.core.golfer import Club, Golfer, ShortGame
from engine.core.wind import Wind

YD, MPH, FT, RPM = 0.9144, 0.44704, 0.3048, 2.0 * np.pi / 60.0
BAG = [
    ("D", "driver", 10.5, 225), ("3w", "wood", 15, 205), ("5w", "wood", 18.5, 193),
    ("4h", "hybrid", 22, 182), ("5i", "iron", 26, 170), ("6i", "iron", 29, 160),
    ("7i", "iron", 33, 150), ("8i", "iron", 37, 139), ("9i", "iron", 41, 127),
    ("PW", "wedge", 45, 115), ("50", "wedge", 50, 103), ("54", "wedge", 54, 90),
    ("58", "wedge", 58, 78), ("62", "wedge", 62, 66),
]  # fmt: skip


def player(*, scale: float = 1.0, curve_deg: float = 1.5, hand: int = 1) -> Golfer:
    """An invented golfer with 14 clubs to fly; `scale` lengthens the whole bag."""
    clubs = tuple(
        Club(n, f, radians(loft), carry * scale * YD, 0.08, radians(4))
        for n, f, loft, carry in BAG
    )
    short = ShortGame(0.1, 0.15, 0.1, 0.02, 0.1)
    return Golfer(clubs, hand, radians(curve_deg), 1, short)


def one(speed_mps: float, launch_deg: float, rpm: float = 0.0, tilt_deg: float = 0.0) -> Launch:
    """One ball on the target line."""
    return Launch(
        speed_mps=np.array([speed_mps]),
        launch_rad=np.radians([launch_deg]),
        azimuth_rad=np.zeros(1),
        spin_radps=np.array([rpm * RPM]),
        tilt_rad=np.radians([tilt_deg]),
    )


def airless(ball: Ball) -> Ball:
    """The same ball with nothing for the air to act on."""
    return replace(ball, drag=0.0, induced=0.0, lift=0.0, crisis=0.0, decay=0.0)


def dop853(
    launch: Launch, index: int, *, air: Air, wind: Wind, ball: Ball, height_m: float = 0.0,
    tolerance: float = 1e-9,
) -> tuple[float, float]:  # fmt: skip
    """Carry and side of one ball by SciPy's DOP853, from the equations written out by hand."""
    v0, up, az, w0, tilt = (
        float(getattr(launch, name)[index])
        for name in ("speed_mps", "launch_rad", "azimuth_rad", "spin_radps", "tilt_rad")
    )
    # Right-handed axes for the cross products: forward, left, up.
    ahead = (cos(up) * cos(az), -cos(up) * sin(az), sin(up))
    right = (-sin(az), -cos(az), 0.0)
    above = cross(right, ahead)
    push = tuple(a * cos(tilt) + b * sin(tilt) for a, b in zip(above, right, strict=True))
    axis = cross(ahead, push)  # lift points along axis x velocity
    bx, by = -cos(wind.from_rad) * wind.speed_mps, sin(wind.from_rad) * wind.speed_mps
    k = 0.5 * air.density_kgpm3 * pi * ball.radius_m**2 / ball.mass_kg
    full = log(10.0 / wind.roughness_m)

    def rate(_: float, y: np.ndarray) -> list[float]:
        _x, _y, z, vx, vy, vz, spin = y.tolist()
        grown = log(max(z, 1.0) / wind.roughness_m) / full
        rel = (vx - bx * grown, vy - by * grown, vz)
        speed = sqrt(rel[0] ** 2 + rel[1] ** 2 + rel[2] ** 2)
        w = ball.radius_m * spin / speed
        re = air.density_kgpm3 * speed * 2.0 * ball.radius_m / air.viscosity_pas
        cl = ball.lift * w / (w + ball.lift_half)
        cd = ball.drag + ball.induced * cl * cl
        cd += ball.crisis / (1.0 + exp((re - ball.crisis_re) / ball.crisis_width_re))
        lift = cross(axis, rel)
        ax, ay, az_ = (k * speed * (cl * up_ - cd * v) for up_, v in zip(lift, rel, strict=True))
        slows = -ball.decay * spin * speed / ball.radius_m
        return [vx, vy, vz, ax, ay, az_ - 9.80665, slows]

    def down(_: float, y: np.ndarray) -> float:
        return float(y[2] - height_m)

    down.terminal, down.direction = True, -1.0  # type: ignore[attr-defined]
    start = np.array([0.0, 0.0, 1e-12, *(v0 * one for one in ahead), w0])
    found = solve_ivp(rate, (0.0, 25.0), start, "DOP853", events=down, rtol=tolerance, atol=1e-9)
    end = found.y_events[0][-1]
    return float(end[0]), -float(end[1])


def cross(a: tuple[float, ...], b: tuple[float, ...]) -> tuple[float, float, float]:
    """Cross product in right-handed axes."""
    return (
        a[1] * b[2] - a[2] * b[1],
        a[2] * b[0] - a[0] * b[2],
        a[0] * b[1] - a[1] * b[0],
    )
