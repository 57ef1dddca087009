"""What does each club of the bag do in calm air and in one wind from three sides?"""

from __future__ import annotations

from dataclasses import dataclass
from math import pi

import numpy as np

from engine.core.air import REFERENCE, Air
from engine.core.calibrate import bag_launches
from engine.core.flight import fly, picked
from engine.core.golfer import Golfer, SwingKind
from engine.core.landing import Ground, run_out
from engine.core.physics import Physics
from engine.core.wind import CALM, Wind


@dataclass(frozen=True, slots=True)
class SwingView:
    """One swing as the player would see it fly.

    Attributes
    ----------
    club : str
    kind : SwingKind
    carry_m, apex_m, run_m, run_sd_m : float
        Calm and level. [m]
    descent_rad : float
        [rad]
    into_m, down_m : float
        Carry gained against the wind in the face and behind, negative where lost. [m]
    across_m : float
        Drift in the same wind from the side, without a sign. [m]
    """

    club: str
    kind: SwingKind
    carry_m: float
    apex_m: float
    run_m: float
    run_sd_m: float
    descent_rad: float
    into_m: float
    down_m: float
    across_m: float


def view_bag(
    *,
    golfer: Golfer,
    physics: Physics,
    wind_mps: float,
    ground: Ground,
    full_only: bool = True,
    air: Air = REFERENCE,
) -> tuple[SwingView, ...]:
    """Fly the bag calm, into, down and across one wind.

    Parameters
    ----------
    golfer : Golfer
        Whose bag.
    physics : Physics
        Constants.
    wind_mps : float
        Speed at 10 m. [m s-1]
    ground : Ground
        Turf for the run.
    full_only : bool
        Leave the other swings out.
    air : Air
        Air of the day, and of the stated carries.

    Returns
    -------
    tuple of SwingView
        In the order of the bag.

    Raises
    ------
    OutOfRange, NoSolution
        See `bag_launches` and `trace`.
    """
    swings, launch = bag_launches(golfer, physics=physics, reference=air)
    kept = np.array([swing.kind == "full" or not full_only for swing in swings])
    launch = picked(launch, kept)
    winds = [CALM, *(Wind(speed_mps=wind_mps, from_rad=turn * pi) for turn in (0.0, 1.0, 0.5))]
    down = fly(launch=launch, air=air, wind=winds, ball=physics.ball)
    calm = fly(launch=launch, air=air, wind=CALM, ball=physics.ball)
    run = run_out(landing=calm, ground=ground, ball=physics.ball)
    shown = [swing for swing, keep in zip(swings, kept, strict=True) if keep]
    return tuple(
        SwingView(
            club=swing.club,
            kind=swing.kind,
            carry_m=float(calm.carry_m[i]),
            apex_m=float(calm.apex_m[i]),
            run_m=float(run.run_m[i]),
            run_sd_m=float(run.sd_m[i]),
            descent_rad=float(calm.descent_rad[i]),
            into_m=float(down.carry_m[1, i] - calm.carry_m[i]),
            down_m=float(down.carry_m[2, i] - calm.carry_m[i]),
            across_m=abs(float(down.side_m[3, i] - down.side_m[0, i])),
        )
        for i, swing in enumerate(shown)
    )
