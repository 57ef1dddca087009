"""Which launch and spin give the apex or landing angle a player measured?"""

from __future__ import annotations

from dataclasses import replace
from math import log, pi, radians

import numpy as np

from engine.core.aero import Array
from engine.core.air import Air
from engine.core.flight import Launch, fly
from engine.core.golfer import Club
from engine.core.physics import Physics
from engine.core.swing import typical_launch
from engine.core.wind import CALM
from engine.errors import NoSolution

_LOW = {"launch": radians(3.0), "spin": 1000.0 * pi / 30.0}
_HIGH = {"launch": radians(45.0), "spin": 12500.0 * pi / 30.0}
_NUDGE, _CLOSE, _TRIES = 1e-3, 2e-4, 40


def with_measured(*, club: Club, physics: Physics, air: Air) -> Club:
    """Club with launch and spin filled in from a measured apex or landing angle.

    Parameters
    ----------
    club : Club
        Its carry always counts. A measured launch or spin is kept as it is.
    physics : Physics
        Constants.
    air : Air
        Air of the measurements.

    Returns
    -------
    Club
        The same club where there is nothing to solve.

    Raises
    ------
    NoSolution
        No launch of 3 to 45 deg with a spin of 1000 to 12500 rpm fits carry and measurement.

    Notes
    -----
    An apex settles the launch angle and a landing angle the spin, each the other where the
    first is already measured. With both launch and spin measured, apex and landing angle are
    not looked at. Solved by Newton's rule on the logarithms, without the curve, which moves an
    apex by less than 2 %.
    """
    open_ = [n for n, v in (("launch", club.launch_rad), ("spin", club.spin_radps)) if v is None]
    seen = [n for n, v in (("apex", club.apex_m), ("descent", club.descent_rad)) if v is not None]
    if not open_ or not seen:
        return club
    if len(open_) > len(seen):
        open_ = ["launch"] if seen == ["apex"] else ["spin"]
    seen = seen[: len(open_)]
    wanted = [club.carry_m]
    wanted += [
        w for n, w in (("apex", club.apex_m), ("descent", club.descent_rad)) if w and n in seen
    ]
    aim = np.log(np.array(wanted))
    start = typical_launch(clubs=(club,), speed_mps=np.array([40.0]), tour=physics.tour)
    guess = {
        "launch": float(start[0][0]),
        "spin": float(start[1][0]) * 40.0 / physics.ball.radius_m,
    }
    at = np.array([0.5 * log(club.carry_m) + log(4.0), *(log(guess[name]) for name in open_)])
    low = np.array([log(4.0), *(log(_LOW[name]) for name in open_)])
    high = np.array([log(97.0), *(log(_HIGH[name]) for name in open_)])
    for _ in range(_TRIES):
        tries = np.vstack([at, at + _NUDGE * np.eye(at.size)])
        found = np.log(_outcome(club, tries, open_, seen, physics, air))
        miss = aim - found[0]
        if np.all(np.abs(miss) < _CLOSE):
            solved = dict(zip(open_, np.exp(at[1:]).tolist(), strict=True))
            return replace(
                club,
                launch_rad=solved.get("launch", club.launch_rad),
                spin_radps=solved.get("spin", club.spin_radps),
            )
        slopes = (found[1:] - found[0]).T / _NUDGE
        step = np.linalg.lstsq(slopes, miss, rcond=None)[0]
        at = np.clip(at + np.clip(step, -0.25, 0.25), low, high)
    name = f"{' and '.join(seen)} of {club.name}"
    raise NoSolution(name, "no launch and spin of this club give it with the stated carry")


def _outcome(
    club: Club, tries: Array, open_: list[str], seen: list[str], physics: Physics, air: Air
) -> Array:
    """Carry and what was measured, one row a try: m and rad."""
    speed = np.exp(tries[:, 0])
    up, ratio = typical_launch(clubs=(club,) * speed.size, speed_mps=speed, tour=physics.tour)
    spin = ratio * speed / physics.ball.radius_m
    if club.launch_rad is not None:
        up = np.full(speed.size, club.launch_rad)
    if club.spin_radps is not None:
        spin = np.full(speed.size, club.spin_radps)
    for column, name in enumerate(open_, start=1):
        if name == "launch":
            up = np.exp(tries[:, column])
        else:
            spin = np.exp(tries[:, column])
    flat = np.zeros(speed.size)
    launch = Launch(speed, up, flat, spin, flat)
    down = fly(launch=launch, air=air, wind=CALM, ball=physics.ball)
    columns = {"apex": down.apex_m, "descent": down.descent_rad}
    return np.column_stack([down.carry_m, *(columns[name] for name in seen)])
