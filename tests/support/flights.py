"""An invented bag to fly, single launches, and an integrator that shares nothing with ours."""

from __future__ import annotations

from dataclasses import replace
from math import log, radians

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
    heading = np.array([np.cos(up) * np.cos(az), np.cos(up) * np.sin(az), np.sin(up)])
    right = np.array([-np.sin(az), np.cos(az), 0.0])
    # Right-handed axes for the cross products: forward, left, up.
    flip = np.array([1.0, -1.0, 1.0])
    above = np.cross(heading * flip, -(right * flip)) * flip
    push = above * np.cos(tilt) + right * np.sin(tilt)  # where lift points at the start
    axis = np.cross(heading * flip, push * flip)
    blow = -np.array([np.cos(wind.from_rad), np.sin(wind.from_rad), 0.0])
    k = 0.5 * air.density_kgpm3 * np.pi * ball.radius_m**2 / ball.mass_kg

    def rate(_: float, y: np.ndarray) -> np.ndarray:
        grown = log(max(y[2], 1.0) / wind.roughness_m) / log(10.0 / wind.roughness_m)
        rel = y[3:6] - blow * wind.speed_mps * grown
        speed = float(np.sqrt(rel @ rel))
        w = ball.radius_m * y[6] / speed
        re = air.density_kgpm3 * speed * 2.0 * ball.radius_m / air.viscosity_pas
        cl = ball.lift * w / (w + ball.lift_half)
        cd = ball.drag + ball.induced * cl * cl
        cd += ball.crisis / (1.0 + np.exp((re - ball.crisis_re) / ball.crisis_width_re))
        lift = np.cross(axis, rel * flip) * flip
        acc = k * speed * (cl * lift - cd * rel) - np.array([0.0, 0.0, 9.80665])
        return np.array([*y[3:6], *acc, -ball.decay * y[6] * speed / ball.radius_m])

    def down(_: float, y: np.ndarray) -> float:
        return float(y[2] - height_m)

    down.terminal, down.direction = True, -1.0  # type: ignore[attr-defined]
    start = np.array([0.0, 0.0, 1e-12, *(v0 * heading), w0])
    found = solve_ivp(rate, (0.0, 25.0), start, "DOP853", events=down, rtol=tolerance, atol=1e-9)
    end = found.y_events[0][-1]
    return float(end[0]), float(end[1])
