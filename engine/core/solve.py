"""What does this player need from everywhere? Strokes solved over the player's own swings.

Playing a hole is a stochastic shortest path: from each distance and lie the player takes
the swing with the fewest expected strokes, lands somewhere on an ordinary hole
(`engine.core.onward`), and goes on from there. The table is solved once a profile and
kept; it also holds the distribution of strokes under that play.

References
----------
.. [1] D. P. Bertsekas and J. N. Tsitsiklis, "An analysis of stochastic shortest path
   problems", Mathematics of Operations Research 16 (1991) 580-595.
"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import numpy.typing as npt

from engine.core.golfer import ShortGame
from engine.core.onward import Onward, onward
from engine.core.pattern import Habits, pattern_of
from engine.core.putts import PuttTable, putt_table
from engine.core.strokes import (
    DISTANCE_M,
    DROP,
    LEAST_LOFT_RAD,
    LIES,
    LIES_AND_DROP,
    MOST,
    REACH_FROM,
    STIMP_M,
    WIDENS,
    StrokeTable,
)
from engine.errors import NoSolution

F64 = npt.NDArray[np.float64]


def solve_strokes(
    *, habits: Habits, short: ShortGame, reach_m: F64, run_m: F64, run_sd_m: F64
) -> StrokeTable:  # fmt: skip
    """Solve a player's strokes to hole out.

    Parameters
    ----------
    habits : Habits
        How the n swings scatter.
    short : ShortGame
        Touch.
    reach_m, run_m, run_sd_m : ndarray (n,)
        Calm carry of each swing from a good lie, and its roll. [m]

    Returns
    -------
    StrokeTable
        The solved table.

    Raises
    ------
    NoSolution
        There are no swings.
    """
    if not len(reach_m):
        raise NoSolution("strokes", "the bag has no clubs")
    if habits.hand < 0:  # one hand only is ever computed: a mirrored player has the same table
        habits = replace(habits, hand=1, miss=-habits.miss, lean_rad=-habits.lean_rad)
    touch = putt_table(line_rad=short.putt_line_rad, pace=short.putt_pace, stimp_m=STIMP_M)
    putts = touch.expected.copy()
    putts[0] = 0.0
    steps: list[Onward] = []
    for lie in LIES:
        reach = reach_m * REACH_FROM[lie]
        fit = np.flatnonzero(habits.loft_rad >= LEAST_LOFT_RAD[lie])
        if not len(fit):
            fit = np.arange(len(reach))  # some club has to be used
        swings = pattern_of(
            habits=habits, reach_m=reach, bearing_rad=-habits.lean_rad, run_m=run_m,
            run_sd_m=run_sd_m, widening=WIDENS[lie],
        ).taken(fit)  # fmt: skip
        steps.append(
            onward(
                swings=swings, short=short, lie=lie, putt_m=touch.length_m,
                longest_m=float(np.max(reach_m + run_m)),
            )
        )  # fmt: skip
    return _solve(steps, touch.length_m, putts, _putts_over(touch))


def _putts_over(touch: PuttTable) -> F64:
    """Return the chance of needing more than k putts, (MOST, p)."""
    over = np.empty((MOST, len(touch.length_m)))
    over[0] = 1.0
    over[1] = 1.0 - touch.one
    over[2] = np.maximum(over[1] - touch.two, 0.0)
    # Three and more fall off evenly, at the rate that keeps the expected putts.
    rest = np.maximum(touch.expected - 1.0 - over[1] - over[2], 0.0)
    rate = np.where(rest + over[2] > 1e-12, rest / np.maximum(rest + over[2], 1e-12), 0.0)
    for k in range(3, MOST):
        over[k] = over[k - 1] * rate
    over[:, 0] = 0.0
    return over


def _solve(steps: list[Onward], putt_m: F64, putts: F64, putts_over: F64) -> StrokeTable:
    """Return the table of the best play over all actions, by value iteration."""
    n = len(DISTANCE_M)
    value = np.concatenate([np.full(LIES_AND_DROP * n, 5.0), putts])
    rows = np.arange(n)
    best = [np.zeros(n, dtype=np.intp) for _ in steps]
    rough = LIES.index("rough")
    for _ in range(200):
        moved = 0.0
        for i, step in enumerate(steps):
            each = step.stroke + step.after(value)
            best[i] = np.argmin(each, axis=1)
            new = each[rows, best[i]]
            moved = max(moved, float(np.max(np.abs(new - value[i * n : (i + 1) * n]))))
            value[i * n : (i + 1) * n] = new
        value[DROP * n : (DROP + 1) * n] = 1.0 + value[rough * n : (rough + 1) * n]
        if moved < 1e-7:
            break
    chosen = [step.taking(action) for step, action in zip(steps, best, strict=True)]
    over = np.ones((MOST, len(value)))
    over[:, LIES_AND_DROP * n :] = putts_over
    for k in range(1, MOST):
        for i, step in enumerate(chosen):
            over[k, i * n : (i + 1) * n] = step.after(over[k - 1])[:, 0]
        over[k, DROP * n : (DROP + 1) * n] = over[k - 1, rough * n : (rough + 1) * n]
    cut = LIES_AND_DROP * n
    return StrokeTable(
        strokes=value[:cut].reshape(LIES_AND_DROP, n),
        over=over[:, :cut].reshape(MOST, LIES_AND_DROP, n),
        putt_distance_m=putt_m,
        putts=putts,
        putts_over=putts_over,
    )
