"""Fit the drag and lift law to published launch rows: python tests/bench/fit_ball.py [--json].

Takes a few seconds. Prints the constants that belong in engine/data/ball.csv, the misfit
of each row, and what the trade says of altitude beside what the law says.
"""

from __future__ import annotations

import sys
from dataclasses import replace
from math import radians
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from scipy.optimize import least_squares

from engine.api.standard import physics
from engine.core.aero import Array, Ball
from engine.core.air import REFERENCE, STANDARD_PA, Air, air_of, standard_pressure
from engine.core.flight import Landing, Launch, fly
from engine.core.wind import CALM
from tests.bench._table import Row, finish
from tests.support.tables import load_table

YD, MPH, RPM = 0.9144, 0.44704, 2.0 * np.pi / 60.0
FITTED = ("drag", "induced", "lift", "lift_half", "crisis", "crisis_re", "crisis_width_re")
# Where each constant is expected and how far it may stray: P. W. Bearman, J. K. Harvey 1976,
# A. J. Smits, D. R. Smith 1994, and a drag crisis of dimpled spheres at Re 4e4 to 8e4 (J. Choi,
# W. Jeon, H. Choi 2006), all from memory.
EXPECTED = np.array([0.22, 1.0, 0.45, 0.20, 0.28, 4.2e4, 0.8e4])
STRAY = np.array([0.04, 0.7, 0.15, 0.15, 0.1, 0.25e4, 0.3e4])
LOW = np.array([0.1, 0.0, 0.1, 0.02, 0.0, 3.0e4, 0.3e4])
HIGH = np.array([0.4, 3.0, 1.2, 2.0, 0.5, 9.0e4, 3.0e4])
CARRY_SHARE, APEX_YD, DESCENT_DEG = 0.009, 1.0, 1.0
# Trade figures, common practice: 1.16 % of carry a thousand feet, 2 yd a drive for 10 F. Held
# for ordinary players' launches so that thin and warm air helps them too, as it does the tour.
MILE_SHARE, MILE_STRAY = 0.05, 0.008
WARM_SHARE, WARM_STRAY = 0.015, 0.004
ORDINARY = ((144.0, 12.8, 2760.0), (108.0, 17.7, 6500.0), (91.0, 24.7, 8600.0))

MILE = air_of(air_k=293.15, pressure_pa=standard_pressure(height_m=1609.3), humidity=0.5)
WARM = air_of(air_k=308.15, pressure_pa=STANDARD_PA, humidity=0.5)


def launch_of(speed_mph: Array, launch_deg: Array, spin_rpm: Array) -> Launch:
    flat = np.zeros(len(speed_mph))
    return Launch(speed_mph * MPH, np.radians(launch_deg), flat, spin_rpm * RPM, flat)


ROWS = load_table("tour_launch")
TOUR = launch_of(*(np.array(ROWS.column(c)) for c in ("ball_mph", "launch_deg", "spin_rpm")))
CARRY = np.array(ROWS.column("carry_yd"))
APEX = np.array(ROWS.column("apex_yd"))
DESCENT = np.array(ROWS.column("descent_deg"))
PLAIN = launch_of(*np.array(ORDINARY).T)


def ball_of(constants: Array) -> Ball:
    return replace(physics().ball, **dict(zip(FITTED, constants.tolist(), strict=True)))


def calm(launch: Launch, ball: Ball, air: Air = REFERENCE) -> Landing:
    return fly(launch=launch, air=air, wind=CALM, ball=ball)


def gain(launch: Launch, ball: Ball, air: Air) -> Array:
    return calm(launch, ball, air).carry_m / calm(launch, ball).carry_m - 1.0


def misfit(constants: Array) -> Array:
    ball = ball_of(constants)
    down = calm(TOUR, ball)
    return np.concatenate(
        [
            (down.carry_m / YD / CARRY - 1.0) / CARRY_SHARE,
            (down.apex_m / YD - APEX) / APEX_YD,
            (down.descent_rad / radians(1.0) - DESCENT) / DESCENT_DEG,
            (gain(PLAIN, ball, MILE) - MILE_SHARE) / MILE_STRAY,
            (gain(PLAIN, ball, WARM) - WARM_SHARE) / WARM_STRAY,
            (constants - EXPECTED) / STRAY,
        ]
    )


def main() -> int:
    found = least_squares(misfit, EXPECTED, bounds=(LOW, HIGH), x_scale=STRAY)
    ball = ball_of(found.x)
    stored = np.array([getattr(physics().ball, name) for name in FITTED])
    down = calm(TOUR, ball)
    share = down.carry_m / YD / CARRY - 1.0
    apex, descent = down.apex_m / YD - APEX, np.degrees(down.descent_rad) - DESCENT
    if "--json" not in sys.argv:
        for name, value in zip(FITTED, found.x, strict=True):
            print(f"{name},{value:.4g}" if value < 10 else f"{name},{value:.0f}")
        print("\nclub     carry %  apex yd  descent deg  a mile up %  15 C warmer %")
        up, warm = gain(TOUR, ball, MILE), gain(TOUR, ball, WARM)
        for i, row in enumerate(ROWS.rows):
            print(
                f"{row['club']:9}{100 * share[i]:7.1f}{apex[i]:9.1f}{descent[i]:13.1f}"
                f"{100 * up[i]:13.1f}{100 * warm[i]:15.1f}"
            )
        for name, air in (("a mile up", MILE), ("15 C warmer", WARM)):
            print(f"ordinary players, {name}: {np.round(100 * gain(PLAIN, ball, air), 1)} %")
        print()
    off = float(np.max(np.abs(found.x / stored - 1.0)))
    rows = [
        Row("worst carry", 100 * float(np.max(np.abs(share))), 4.0, "%"),
        Row("rms carry", 100 * float(np.sqrt(np.mean(share**2))), 2.0, "%"),
        Row("worst apex", float(np.max(np.abs(apex))), 3.0, "yd"),
        Row("worst descent", float(np.max(np.abs(descent))), 6.0, "deg"),
        Row("constants off engine/data/ball.csv", 100 * off, 0.5, "%"),
    ]
    return finish("The ball fitted again", rows, sys.argv[1:])


if __name__ == "__main__":
    sys.exit(main())
