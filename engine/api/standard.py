"""Which data files make up the physics everything runs on?"""

from __future__ import annotations

from functools import cache
from math import radians
from typing import cast

from engine.core.aero import Ball
from engine.core.golfer import Family, SwingKind
from engine.core.landing import Firmness, Ground, Surface
from engine.core.lie import LieKind, LieRule
from engine.core.physics import Physics
from engine.core.swing import SwingRule, TourRow
from engine.tables import number, rows

_MPS_PER_MPH = 0.44704  # exact
_RADPS_PER_RPM = 0.10471975511965977  # 2 pi / 60


@cache
def physics() -> Physics:
    """Return the constants of the engine's physics, read once.

    Raises
    ------
    BadTable
        A data file cannot be used.
    """
    ball = _ball()
    return Physics(
        ball=ball, tour=_tour(ball.radius_m), swings=_swings(), lies=_lies(), grounds=_grounds()
    )


def _ball() -> Ball:
    return Ball(**{row["name"]: number("ball", row, "value") for row in rows("ball")})


def _tour(radius_m: float) -> tuple[TourRow, ...]:
    found = []
    for row in rows("launch"):
        speed_mps = number("launch", row, "speed_mph") * _MPS_PER_MPH
        spin_radps = number("launch", row, "spin_rpm") * _RADPS_PER_RPM
        found.append(
            TourRow(
                loft_rad=radians(number("launch", row, "loft_deg")),
                speed_mps=speed_mps,
                launch_rad=radians(number("launch", row, "launch_deg")),
                spin_ratio=radius_m * spin_radps / speed_mps,
            )
        )
    return tuple(found)


def _swings() -> tuple[SwingRule, ...]:
    columns = ("speed", "launch", "spin", "tilt", "spread_long", "spread_side")
    return tuple(
        SwingRule(
            kind=cast("SwingKind", row["kind"]),
            families=frozenset(cast("list[Family]", row["families"].split())),
            **{column: number("swings", row, column) for column in columns},
        )
        for row in rows("swings")
    )


def _lies() -> tuple[LieRule, ...]:
    columns = ("speed", "spin", "spread_long", "spread_side", "mishit")
    return tuple(
        LieRule(
            kind=cast("LieKind", row["kind"]),
            launch_rad=radians(number("lies", row, "launch_deg")),
            hook_rad=radians(number("lies", row, "hook_deg")),
            least_loft_rad=radians(number("lies", row, "least_loft_deg")),
            **{column: number("lies", row, column) for column in columns},
        )
        for row in rows("lies")
    )


def _grounds() -> tuple[Ground, ...]:
    columns = ("bounce", "dent", "friction", "roll")
    return tuple(
        Ground(
            surface=cast("Surface", row["surface"]),
            firmness=cast("Firmness", row["firmness"]),
            **{column: number("grounds", row, column) for column in columns},
        )
        for row in rows("grounds")
    )
