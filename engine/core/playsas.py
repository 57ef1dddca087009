"""How long does this shot play: which calm carry reaches the target in these conditions?"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import combinations
from math import factorial

import numpy as np
from numpy.typing import NDArray

from engine.core.aero import Array
from engine.core.air import REFERENCE, Air
from engine.core.aloft import Flying, flown_alone, landings
from engine.core.checks import within
from engine.core.flight import Batch, Launch, landing
from engine.core.golfer import Golfer
from engine.core.ladder import ladder
from engine.core.lie import GOOD, Lie, from_lie, rule_for
from engine.core.physics import Physics
from engine.core.wind import CALM, Wind

SHORTEST_M, LONGEST_M = 10.0, 400.0
_ACROSS_MPS = 0.5  # below this a wind across needs no aim
_TURNS = (0.5, 1.0, 1.5)  # starts flown in a wind across, in turns that should about undo it
_PARTS = ("wind", "height", "air", "lie")


@dataclass(frozen=True, slots=True)
class PlaysAs:
    """A plays-as number and what it is made of.

    Attributes
    ----------
    target_m : float
        Distance to the target as it lies. [m]
    total_m : float
        Calm, level, reference-air carry from a good lie that reaches it. [m]
    wind_m, height_m, air_m, lie_m : float
        Parts: ``target_m`` and the four add up to ``total_m``. [m]
    beyond : bool
        True where it plays longer than the longest full swing carries: `total_m` then
        extends the player's flight, good for saying "out of reach" and no more.
    """

    target_m: float
    total_m: float
    wind_m: float
    height_m: float
    air_m: float
    lie_m: float
    beyond: bool


def plays_as(
    *,
    golfer: Golfer,
    physics: Physics,
    target_m: float,
    height_m: float = 0.0,
    air: Air = REFERENCE,
    wind: Wind = CALM,
    lie: Lie = GOOD,
    reference: Air = REFERENCE,
) -> PlaysAs:
    """Solve the calm carry whose flight reaches a target, and share out the difference.

    Parameters
    ----------
    golfer : Golfer
        Whose flight.
    physics : Physics
        Constants.
    target_m : float
        Horizontal distance the ball must carry. [m]
    height_m : float
        Target above the ball. [m]
    air : Air
        Today's air.
    wind : Wind
        Today's wind.
    lie : Lie
        Where the ball sits.
    reference : Air
        Air the player's stated carries belong to.

    Returns
    -------
    PlaysAs

    Raises
    ------
    OutOfRange
        A target outside 10 to 400 m, a height outside -60 to 60 m, or any input outside
        its own range.

    Notes
    -----
    The player's flights are laid out by calm carry (`ladder`), flown in the conditions with
    the start turned so that the ball finishes on line, and inverted. In a wind across three
    starts are flown, and the carry on the line is read off a parabola through their landings:
    right to 0.02 yd in 28 mph. Parts are Shapley values [1]_ over wind, height, air and lie: the
    mean, over every order in which the four can be switched on, of what each adds. They sum to
    the difference exactly and no order is favoured.

    References
    ----------
    .. [1] L. S. Shapley, "A value for n-person games", Contributions to the Theory of Games II,
       Annals of Mathematics Studies 28 (1953) 307-317.
    """
    question = flying_plays_as(
        golfer=golfer, physics=physics, target_m=target_m, height_m=height_m, air=air, wind=wind,
        lie=lie, reference=reference,
    )  # fmt: skip
    return flown_alone(question, ball=physics.ball)


def flying_plays_as(
    *, golfer: Golfer, physics: Physics, target_m: float, height_m: float, air: Air, wind: Wind,
    lie: Lie, reference: Air,
) -> Flying[PlaysAs]:  # fmt: skip
    """Solve what a shot plays as `plays_as` does, leaving the march to the caller."""
    within("distance", target_m, SHORTEST_M, LONGEST_M, "m")
    active = tuple(
        part
        for part, on in zip(
            _PARTS,
            (wind.speed_mps > 0.0, height_m != 0.0, air != reference, lie != GOOD),
            strict=True,
        )
        if on
    )
    subsets = [
        frozenset(chosen)
        for size in range(len(active) + 1)
        for chosen in combinations(active, size)
    ]
    steps = ladder(golfer, physics=physics, reference=reference)
    flown = sorted({subset - {"height"} for subset in subsets} - {frozenset()}, key=sorted)
    worth = {frozenset[str](): target_m}
    if flown or height_m:
        plain = steps.launch
        rule = rule_for(lie=lie, rules=physics.lies)
        lain = from_lie(
            launch=plain, loft_rad=steps.loft_rad, hand=golfer.hand, lie=lie, rule=rule
        )
        across_mps = wind.speed_mps * np.sin(wind.from_rad)
        turns = _TURNS if abs(across_mps) >= _ACROSS_MPS else (0.0,)
        # What the wind pushes a ball aside is near its speed times the lag, as in any flat fire.
        turn_rad = np.arctan2(across_mps * steps.lag_s, steps.carry_m)
        sets = [frozenset[str](), *flown]
        rows = [
            (chosen, turn) for chosen in sets for turn in (turns if "wind" in chosen else (0.0,))
        ]
        down_at = landings("ladder", golfer, physics, air, wind, height_m, lie, reference)
        if not down_at:
            launches = [
                replace(
                    lain if "lie" in chosen else plain,
                    azimuth_rad=plain.azimuth_rad + turn * turn_rad,
                )
                for chosen, turn in rows
            ]
            path = yield Batch(
                _stack(launches),
                [air if "air" in chosen else reference for chosen, _ in rows],
                [wind if "wind" in chosen else CALM for chosen, _ in rows],
                height_m,
            )
            level = landing(path=path)
            down_at += [level, landing(path=path, height_m=height_m) if height_m else level]
        level, raised = down_at[:2]
        for subset in subsets:
            down = raised if "height" in subset else level
            if subset:
                inside = subset - {"height"}
                flights = [i for i, (chosen, _) in enumerate(rows) if chosen == inside]
                carry = _on_line(down.carry_m[flights], down.side_m[flights])
                there = down.reached[flights].all(axis=0) & (carry >= target_m)
                worth[subset] = _calm_for(target_m, carry, there, steps.carry_m)
    parts = dict.fromkeys(_PARTS, 0.0)
    for part in active:
        parts[part] = _shapley(part, active, worth)
    total = target_m + sum(parts.values())
    return PlaysAs(
        target_m=target_m,
        total_m=total,
        wind_m=parts["wind"],
        height_m=parts["height"],
        air_m=parts["air"],
        lie_m=parts["lie"],
        beyond=total > steps.longest_m,
    )


def _on_line(carry_m: Array, side_m: Array) -> Array:
    """Carry of balls that finish on the line, (n,), from one start or three, (starts, n). [m]"""
    if len(carry_m) == 1:
        return np.asarray(carry_m[0])
    (a, b, c), (x, y, z) = side_m, carry_m  # Lagrange's parabola of the carry by the side, at 0
    ab, bc, ca = a - b, b - c, c - a
    return np.asarray(-(x * b * c * bc + y * c * a * ca + z * a * b * ab) / (ab * bc * ca))


def _stack(launches: list[Launch]) -> Launch:
    """Launches one under the other: fields (c, n)."""
    return Launch(
        speed_mps=np.array([one.speed_mps for one in launches]),
        launch_rad=np.array([one.launch_rad for one in launches]),
        azimuth_rad=np.array([one.azimuth_rad for one in launches]),
        spin_radps=np.array([one.spin_radps for one in launches]),
        tilt_rad=np.array([one.tilt_rad for one in launches]),
    )


def _calm_for(target_m: float, reach_m: Array, there: NDArray[np.bool_], calm_m: Array) -> float:
    """Calm carry of the first swing, going up the ladder, that gets there."""
    if there[0]:
        return float(calm_m[0] * target_m / reach_m[0])
    high = int(np.argmax(there)) if there.any() else reach_m.size - 1
    run = reach_m[high] - reach_m[high - 1]
    rise = calm_m[high] - calm_m[high - 1]
    if not there.any():  # out of reach: extend the last rung, at most three for two
        run = max(run, rise / 1.5)
        return float(calm_m[high] + max(target_m - reach_m[high], 0.0) * rise / run)
    # A swing that stays below the target may fly past under it: the first that climbs counts.
    share = (target_m - reach_m[high - 1]) / run if run > 0.0 else 1.0
    return float(calm_m[high - 1] + min(max(share, 0.0), 1.0) * rise)


def _shapley(part: str, active: tuple[str, ...], worth: dict[frozenset[str], float]) -> float:
    """Mean over all orders of what a part adds."""
    others = [one for one in active if one != part]
    share = 0.0
    for size in range(len(others) + 1):
        weight = factorial(size) * factorial(len(others) - size) / factorial(len(active))
        for chosen in combinations(others, size):
            with_it = worth[frozenset((*chosen, part))]
            share += weight * (with_it - worth[frozenset(chosen)])
    return share
