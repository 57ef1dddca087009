"""Simulated rounds of a player with a known way of choosing, split as a review splits them.

Balls come from `tests.support.brute`: sampled, with hard edges and no grid. What is left from
where a ball ends is played out in whole strokes of the same mean.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np

from engine import Leg, strokes_lost
from engine.core.choice import Decider
from engine.core.golfer import Golfer
from engine.core.pattern import SOLID, Pattern
from engine.core.scene import Scene
from tests.support.brute import outcomes, simulate
from tests.support.golfers import plain_pattern, solved
from tests.support.scenes import approach, bunker, out, stream, water

Policy = Literal["best", "flag"]
HOLES = 18
# Greens with their trouble beside the flag: where always aiming at the flag costs strokes.
SCENES: tuple[Scene, ...] = (
    approach(150, water(1, 12)), approach(165, water(-1, 10), pin_side=-6),
    approach(140, bunker(132, 8), pin_side=7), approach(178, water(1, 14), pin_side=5),
    approach(120, stream(96, 112)), approach(155, out(1, 20), pin_side=6),
    approach(170, water(-1, 13)), approach(132, water(1, 9), pin_side=4),
)  # fmt: skip


@dataclass(frozen=True)
class Played:
    """What rounds of one policy cost, per round."""

    score: float  # mean strokes
    choice: float  # measured by the split
    execution: float
    execution_error: float  # standard error of that mean
    worst_sum: float  # largest error of choice, execution and penalties against the score


@dataclass(frozen=True)
class Spot:
    """A scene with its priced swings, and the swing and aim of each policy."""

    scene: Scene
    pattern: Pattern
    decider: Decider
    best: float
    plans: dict[Policy, tuple[int, float, float]]  # swing, aim, expected strokes


def spots(player: Golfer) -> list[Spot]:
    """Return every scene with what each policy plays there."""
    table = solved(player)
    found = []
    for scene in SCENES:
        _, pattern = plain_pattern(player, lie=scene.lie)
        total = pattern.reach_m[:, SOLID] + pattern.run_m
        pattern = pattern.taken(np.flatnonzero(total <= math.hypot(*scene.pin_m) + 45.0))
        decider = Decider(scene=scene, pattern=pattern, table=table)
        chosen = int(np.argmin(decider.strokes))
        aimed = decider.option(chosen)
        line = math.atan2(scene.pin_m[1], scene.pin_m[0]) - float(
            pattern.bearing_rad[chosen, SOLID]
        )
        flag = decider.option(chosen, aim_rad=line)
        found.append(
            Spot(
                scene, pattern, decider, aimed.strokes,
                {"best": (chosen, aimed.start_rad, aimed.strokes),
                 "flag": (chosen, line, flag.strokes)},
            )
        )  # fmt: skip
    return found


def true_cost(player: Golfer, places: list[Spot], *, balls: int, seed: int) -> float:
    """Return what aiming at the flag costs a round, by brute force alone."""
    table = solved(player)
    costs = []
    for spot in places:
        value = {}
        for policy in ("flag", "best"):
            swing, aim, _ = spot.plans[policy]
            value[policy], _ = simulate(
                scene=spot.scene, table=table, pattern=spot.pattern, swing=swing, aim_rad=aim,
                count=balls, seed=seed,
            )  # fmt: skip
        costs.append(value["flag"] - value["best"])
    return HOLES * float(np.mean(costs))


def play(player: Golfer, places: list[Spot], policy: Policy, *, rounds: int, seed: int) -> Played:
    """Return what `rounds` rounds of 18 such holes cost, as the split tells it."""
    rng = np.random.default_rng(seed)
    table = solved(player)
    holes = rounds * HOLES
    which = rng.integers(0, len(places), holes)
    score, choice, execution = np.zeros(holes), np.zeros(holes), np.zeros(holes)
    worst = 0.0
    for n, spot in enumerate(places):
        mine = np.flatnonzero(which == n)
        swing, aim, strokes = spot.plans[policy]
        left, gone = outcomes(
            scene=spot.scene, table=table, pattern=spot.pattern, swing=swing, aim_rad=aim,
            count=4 * len(mine), rng=rng,
        )  # fmt: skip
        balls = iter(zip(left.tolist(), (rng.random(len(gone)) < gone).tolist(), strict=True))
        for hole in mine:
            legs = _hole(spot.best, strokes, balls, rng)
            lost = strokes_lost(legs)
            made = sum(leg.made + leg.penalty for leg in legs)
            score[hole] = made
            choice[hole] = sum(part.choice for part in lost)
            execution[hole] = sum(part.execution + part.penalty for part in lost)
            total = choice[hole] + execution[hole]
            worst = max(worst, abs(total - (made - spot.best)))
    by_round = execution.reshape(rounds, HOLES).sum(axis=1)
    return Played(
        score=float(score.sum() / rounds),
        choice=float(choice.sum() / rounds),
        execution=float(by_round.mean()),
        execution_error=float(by_round.std(ddof=1) / math.sqrt(rounds)),
        worst_sum=worst,
    )


def _hole(best: float, strokes: float, balls, rng: np.random.Generator) -> list[Leg]:
    """Return the legs of one hole: the swing, again while out of bounds, and what was left."""
    legs = []
    while True:
        left, gone = next(balls)
        if not gone:
            break
        legs.append(Leg(before=best, played=strokes, after=best, penalty=1))
    rest = int(left) + int(rng.random() < left - int(left))
    legs.append(Leg(before=best, played=strokes, after=left))
    legs.append(Leg(before=left, played=left, after=0.0, made=rest))
    return legs
