"""Where does every swing of this bag finish in today's conditions?"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

from engine.core.air import REFERENCE, Air
from engine.core.aloft import Flying, flown_alone, landings
from engine.core.calibrate import Swing, bag_launches
from engine.core.flight import Batch, Landing, landing
from engine.core.golfer import Golfer
from engine.core.landing import Firmness, ground_of, run_out
from engine.core.lie import GOOD, Lie, from_lie, rule_for, ruled_out
from engine.core.pattern import SOLID, Habits, Pattern, Widening, pattern_of
from engine.core.pattern import Lie as TableLie
from engine.core.physics import Physics
from engine.core.touch import TOUCH_LOFT_RAD, TOUCH_MOST_M, touch_pattern
from engine.core.wind import CALM, Wind

F64 = npt.NDArray[np.float64]

LOW_LOFT_RAD = (0.33, 0.66)  # 19 to 38 degrees: clubs for a low ball out of trees
_SAND = ("fairway_bunker", "buried")
_ROUGH = ("rough", "sitting_down", "deep_rough", "flyer", "pine_straw", "divot", "hardpan")
NEAR_GREEN_M = 25.0  # a carry this near the pin comes down on the green or its apron


@dataclass(frozen=True, slots=True, eq=False)
class Flown:
    """The bag in the air; swings that cannot be used are left out.

    Attributes
    ----------
    swings : tuple of n Swing
        What is swung.
    pattern : Pattern
        Where each finishes here and now.
    carry_m : ndarray (n,)
        Mean carry of a solid one here and now. [m]
    ruled_out : dict
        Swings left out, (club, kind) -> ``"loft"``, ``"lip"``,
        ``"long"`` or ``"high"``.
    """

    swings: tuple[Swing, ...]
    pattern: Pattern
    carry_m: F64
    ruled_out: dict[tuple[str, str], str]

    def low(self) -> Flown:
        """Return the swings that stay under branches, or the straightest faces if none do."""
        kinds = np.array([s.kind for s in self.swings])
        loft = np.array([s.loft_rad for s in self.swings])
        low = (kinds == "knocked_down") & (loft > LOW_LOFT_RAD[0]) & (loft < LOW_LOFT_RAD[1])
        if not low.any():
            low = (kinds == "full") & (loft <= np.sort(loft)[len(loft) // 2])
        return self.kept(low, "high")

    def kept(self, wanted: npt.NDArray[np.bool_], why: str = "long") -> Flown:
        """Return some of the swings; the others are ruled out."""
        rows = np.flatnonzero(wanted)
        out = dict(self.ruled_out)
        for swing, want in zip(self.swings, wanted, strict=True):
            if not want:
                out[swing.club, swing.kind] = why
        return Flown(
            swings=tuple(self.swings[i] for i in rows),
            pattern=self.pattern.taken(rows),
            carry_m=self.carry_m[rows],
            ruled_out=out,
        )


def habits_of(*, golfer: Golfer, swings: tuple[Swing, ...]) -> Habits:
    """Return how the swings of a golfer scatter."""
    by_name = {club.name: club for club in golfer.clubs}
    return Habits(
        spread_long=np.array([s.spread_long for s in swings]),
        spread_side_rad=np.array([s.spread_side_rad for s in swings]),
        lean_rad=np.array([by_name[s.club].lean_rad for s in swings]),
        mishit=np.array([by_name[s.club].mishit for s in swings]),
        loft_rad=np.array([s.loft_rad for s in swings]),
        hand=golfer.hand,
        miss=golfer.miss,
    )


def fly_bag(
    *,
    golfer: Golfer,
    physics: Physics,
    air: Air = REFERENCE,
    wind: Wind = CALM,
    height_m: float = 0.0,
    lie: Lie = GOOD,
    firmness: Firmness = "normal",
    green_at_m: float | None = None,
    reference: Air = REFERENCE,
) -> Flown:
    """Fly every swing in the conditions and spread it into the player's pattern.

    Parameters
    ----------
    golfer : Golfer
        Whose bag.
    physics : Physics
        Constants.
    air, wind
        Today's.
    height_m : float
        Target above the ball. [m]
    lie : Lie
        Where the ball sits.
    firmness : Firmness
        Of the turf.
    green_at_m : float, optional
        Where a green waits; swings that carry near it roll on it, others on fairway. [m]
    reference : Air
        Air the stated carries belong to.

    Returns
    -------
    Flown
        Swings and their pattern.

    Raises
    ------
    OutOfRange, NoSolution
        As `bag_launches`, `from_lie` and `fly`.
    """
    question = flying_bag(
        golfer=golfer, physics=physics, air=air, wind=wind, height_m=height_m, lie=lie,
        firmness=firmness, green_at_m=green_at_m, reference=reference,
    )  # fmt: skip
    return flown_alone(question, ball=physics.ball)


def flying_bag(
    *, golfer: Golfer, physics: Physics, air: Air, wind: Wind, height_m: float, lie: Lie,
    firmness: Firmness, green_at_m: float | None, reference: Air,
) -> Flying[Flown]:  # fmt: skip
    """Fly every swing as `fly_bag` does, leaving the march to the caller."""
    swings, launch = bag_launches(golfer, physics=physics, reference=reference)
    habits = habits_of(golfer=golfer, swings=swings)
    rule = rule_for(lie=lie, rules=physics.lies)
    struck = from_lie(
        launch=launch, loft_rad=habits.loft_rad, hand=golfer.hand, lie=lie, rule=rule
    )
    why = list(ruled_out(launch=struck, loft_rad=habits.loft_rad, lie=lie, rule=rule))
    widening = Widening(rule.spread_long, rule.spread_side, rule.mishit)
    if all(why):
        why = [""] * len(swings)  # some club has to be used
    kept_down = landings("bag", golfer, physics, air, wind, height_m, lie, reference)
    if not kept_down:
        winds = (wind, CALM) if wind.speed_mps else (CALM,)
        path = yield Batch(struck, air, winds, height_m)
        kept_down.append(landing(path=path, height_m=height_m))
    down = kept_down[0]
    reaches, bearings = _polar(down)
    reach, calm_reach = reaches[0], reaches[-1]
    bearing, calm_bearing = bearings[0], bearings[-1]
    fairway, green = (
        ground_of(surface=turf, firmness=firmness, grounds=physics.grounds)
        for turf in ("fairway", "green")
    )
    near = np.abs(reach - (math.inf if green_at_m is None else green_at_m)) < NEAR_GREEN_M
    out = run_out(
        landing=down.row(0), ground=[green if on else fairway for on in near], ball=physics.ball
    )
    run, run_sd = out.run_m, out.sd_m
    start = launch.azimuth_rad  # what the player means to start it on; a lie may turn it
    pattern = pattern_of(
        habits=habits,
        reach_m=np.maximum(reach + np.minimum(run, 0.0), 1.0),
        bearing_rad=bearing - start,
        run_m=np.maximum(run, 0.0),
        run_sd_m=run_sd,
        calm_reach_m=calm_reach,
        calm_bearing_rad=calm_bearing - start,
        head_mps=wind.speed_mps * math.cos(wind.from_rad),
        wind_doubt=wind.doubt,
        widening=widening,
    )
    keep = [i for i, reason in enumerate(why) if not reason]
    kept = tuple(swings[i] for i in keep)
    pattern, carry = pattern.taken(keep), reach[keep]
    if green_at_m is not None and green_at_m <= TOUCH_MOST_M:
        pitches, pitched = _pitches(golfer, lie, green_at_m)
        kept, pattern = kept + pitches, pattern.joined(pitched)
        carry = np.concatenate([carry, pitched.reach_m[:, SOLID]])
    return Flown(
        swings=kept,
        pattern=pattern,
        carry_m=carry,
        ruled_out={
            (s.club, s.kind): reason for s, reason in zip(swings, why, strict=True) if reason
        },
    )


def _pitches(golfer: Golfer, lie: Lie, pin_m: float) -> tuple[tuple[Swing, ...], Pattern]:
    """Return touch shots at the pin with every club that pitches; the shortest if none does."""
    clubs = [c for c in golfer.clubs if c.loft_rad >= TOUCH_LOFT_RAD] or [golfer.clubs[-1]]
    loft = np.array([c.loft_rad for c in clubs])
    under: TableLie = "sand" if lie.kind in _SAND else "rough" if lie.kind in _ROUGH else "fairway"
    pattern = touch_pattern(
        short=golfer.short, lie=under, distance_m=np.full(len(clubs), pin_m), loft_rad=loft,
        hand=golfer.hand,
    )  # fmt: skip
    swings = tuple(
        Swing(
            c.name, "pitch", c.family, c.loft_rad, float(carry), c.spread_long, c.spread_side_rad
        )
        for c, carry in zip(clubs, pattern.reach_m[:, SOLID], strict=True)
    )
    return swings, pattern


def _polar(down: Landing) -> tuple[F64, F64]:
    """Return distance and bearing of landings."""
    return np.hypot(down.carry_m, down.side_m), np.arctan2(down.side_m, down.carry_m)
