"""How does the whole bag play from every lie, in each of several winds?

A plan thinks through shots that are not there yet, so lies are taken as the strokes table
takes them (`engine.core.strokes`): a share of the reach is lost and the pattern is wider.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from engine.core.air import REFERENCE, Air
from engine.core.calibrate import Swing, bag_launches
from engine.core.dots import COARSE, FINE, JUDGE, Dots, dots_of
from engine.core.flight import Batch, Landing, landing, trace
from engine.core.flown import habits_of
from engine.core.golfer import Golfer
from engine.core.landing import Firmness, ground_of, run_out
from engine.core.pattern import SOLID, Habits, Pattern, pattern_of
from engine.core.physics import Physics
from engine.core.strokes import LEAST_LOFT_RAD, LIES, REACH_FROM, WIDENS
from engine.core.wind import CALM, Wind

F64 = npt.NDArray[np.float64]

SLOPE_STEP_M = 5.0  # flights are also taken to a target this much higher


@dataclass(frozen=True, slots=True, eq=False)
class Page:
    """The bag in one wind, from every lie.

    Attributes
    ----------
    patterns : tuple of 5 Pattern
        By lie, in the order of `LIES`; rows are the swings of the book.
    allowed : ndarray (5, n) of bool
        Whether a lie lets a swing be played at all.
    coarse, fine, judge : tuple of 5 Dots
        The patterns as points, few, many and most.
    rise_loss : ndarray (n,)
        Reach lost per metre that the ground has risen where the ball comes down. [-]
    """

    patterns: tuple[Pattern, ...]
    allowed: npt.NDArray[np.bool_]
    coarse: tuple[Dots, ...]
    fine: tuple[Dots, ...]
    judge: tuple[Dots, ...]
    rise_loss: F64

    def total_m(self, lie: int) -> F64:
        """Return how far solid ones go from a lie, roll included, (n,). [m]"""
        pattern = self.patterns[lie]
        return np.asarray(pattern.reach_m[:, SOLID] + pattern.run_m, dtype=np.float64)

    def climbing(self, slope: float) -> Page:
        """Return the page on ground that rises evenly, by this much a metre, downhill negative."""
        keep = (1.0 - slope * self.rise_loss)[:, None]
        patterns = tuple(replace(p, reach_m=p.reach_m * keep) for p in self.patterns)
        return _page(patterns, self.allowed, self.rise_loss)


@dataclass(frozen=True, slots=True, eq=False)
class Book:
    """A bag and its pages, one a wind.

    Attributes
    ----------
    swings : tuple of n Swing
        Every swing the player owns.
    pages : tuple of Page
        In the order the winds were given.
    """

    swings: tuple[Swing, ...]
    pages: tuple[Page, ...]


def write_book(
    *,
    golfer: Golfer,
    physics: Physics,
    winds: Sequence[Wind],
    air: Air = REFERENCE,
    firmness: Firmness = "normal",
) -> Book:
    """Fly the bag in every wind at once and spread it from every lie.

    Parameters
    ----------
    golfer : Golfer
        Whose bag.
    physics : Physics
        Constants.
    winds : sequence of Wind
        One a page, each against the line of play.
    air : Air
        Today's.
    firmness : Firmness
        Of the turf.

    Returns
    -------
    Book
        One page a wind.

    Raises
    ------
    OutOfRange, NoSolution
        As `bag_launches` and `trace`.
    """
    swings, launch = bag_launches(golfer, physics=physics)
    habits = habits_of(golfer=golfer, swings=swings)
    path = trace(batches=[Batch(launch, air, [CALM, *winds])], ball=physics.ball)[0]
    down = landing(path=path, height_m=0.0)
    higher = landing(path=path, height_m=SLOPE_STEP_M)
    turf = ground_of(surface="fairway", firmness=firmness, grounds=physics.grounds)
    out = run_out(landing=down, ground=turf, ball=physics.ball)
    reach, bearing = _polar(down)
    loss = (reach - _polar(higher)[0]) / SLOPE_STEP_M
    bearing = bearing - launch.azimuth_rad
    least = np.array([LEAST_LOFT_RAD[lie] for lie in LIES])
    allowed = habits.loft_rad[None, :] >= least[:, None]
    allowed[~allowed.any(axis=1)] = True  # some club has to be used
    pages = [
        _page(
            tuple(
                _from_lie(
                    lie=lie, habits=habits, wind=wind, reach_m=reach[i], bearing_rad=bearing[i],
                    calm_reach_m=reach[0], calm_bearing_rad=bearing[0],
                    run_m=out.run_m[i], run_sd_m=out.sd_m[i],
                )
                for lie in range(len(LIES))
            ),
            allowed,
            loss[i],
        )
        for i, wind in enumerate(winds, start=1)
    ]  # fmt: skip
    return Book(swings=swings, pages=tuple(pages))


def _page(
    patterns: tuple[Pattern, ...], allowed: npt.NDArray[np.bool_], rise_loss: F64
) -> Page:  # fmt: skip
    return Page(
        patterns=patterns,
        allowed=allowed,
        coarse=tuple(dots_of(p, COARSE) for p in patterns),
        fine=tuple(dots_of(p, FINE) for p in patterns),
        judge=tuple(dots_of(p, JUDGE) for p in patterns),
        rise_loss=rise_loss,
    )


def _polar(down: Landing) -> tuple[F64, F64]:
    """Return distance and bearing of landings."""
    return np.hypot(down.carry_m, down.side_m), np.arctan2(down.side_m, down.carry_m)


def _from_lie(
    *, lie: int, habits: Habits, wind: Wind, reach_m: F64, bearing_rad: F64,
    calm_reach_m: F64, calm_bearing_rad: F64, run_m: F64, run_sd_m: F64,
) -> Pattern:  # fmt: skip
    """Return the pattern of the bag from one lie."""
    kept = REACH_FROM[LIES[lie]]
    return pattern_of(
        habits=habits,
        reach_m=kept * np.maximum(reach_m + np.minimum(run_m, 0.0), 1.0),
        bearing_rad=bearing_rad,
        run_m=np.maximum(run_m, 0.0),
        run_sd_m=run_sd_m,
        calm_reach_m=kept * calm_reach_m,
        calm_bearing_rad=calm_bearing_rad,
        head_mps=wind.speed_mps * math.cos(wind.from_rad),
        widening=WIDENS[LIES[lie]],
    )
