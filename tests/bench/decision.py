"""Does the choice of club and aim reach its accuracy and its speed?

Run ``python -m tests.bench.decision`` from the top of the project; about a minute. With
``--full`` each of the 36 simulated actions takes 4,000,000 samples: 25 minutes. With
``--brute`` only the choice is held, on the 12 scenes, against brute force over every swing and
aim: six minutes.
Times are of this process alone, on one thread.
"""

from __future__ import annotations

import math
import subprocess
import sys
import time

import numpy as np

from engine import (
    PlayerFacts,
    ShotFacts,
    TroubleFacts,
    WindFacts,
    choose,
    quantity,
    solve_player,
    start_bag,
)
from engine.api.decision import NEAR
from engine.api.standard import physics
from engine.core.choice import Decider
from engine.core.flown import fly_bag
from engine.core.lie import Lie
from tests.bench._brute import brute_force
from tests.bench._published import greens, professional, published, rated
from tests.bench._shots import AT_ONCE, SCENES, pattern_for, players
from tests.bench._table import Row, finish
from tests.support.brute import simulate
from tests.support.golfers import bogey, plain_pattern, solved

FEW, MANY = 150_000, 4_000_000  # samples an action
# A child's ru_maxrss begins at its parent's: the kernel's own mark begins with the program.
_MARK = """
import re
print(int(re.search(r"VmHWM:\\s+(\\d+)", open("/proc/self/status").read())[1]) / 1024)
"""
_BARE = "import numpy, pint"
_ALONE = """
from engine import PlayerFacts, ShotFacts, choose, quantity, solve_player, start_bag
golfer = start_bag(PlayerFacts(handicap=12)).golfer
facts = ShotFacts(quantity(150, "yd"), par=4, stroke=2)
choose(golfer=golfer, table=solve_player(golfer), facts=facts)
"""
_KEPT = 30  # players more
_TOGETHER = f"""{_ALONE}
kept = []
for i in range({_KEPT}):
    golfer = start_bag(PlayerFacts(handicap=i)).golfer
    table = solve_player(golfer)
    choose(golfer=golfer, table=table, facts=facts)
    kept.append((golfer, table))
"""


def main(argv: list[str]) -> int:
    """Measure, print and return the exit code."""
    if "--brute" in argv:
        return finish("Choice against brute force", brute_force(), argv)
    rows = [*agreement(MANY if "--full" in argv else FEW), regret(), near(), mirrors()]
    rows += [*professional(), *greens(), *rated(), *published()]
    return finish("Choice of club and aim", [*rows, *speed()], argv)


def agreement(samples: int) -> list[Row]:
    """36 actions against plain simulation of the same model; noise is taken off the square."""
    gaps, noise = [], []
    for player, table in players():
        for scene in SCENES.values():
            pattern = pattern_for(player, scene)
            found = Decider(scene=scene, pattern=pattern, table=table)
            for best in found.leading(2)[: 2 if player.miss > 0 else 1]:
                mean, error = many(
                    samples, scene=scene, table=table, pattern=pattern, swing=best.swing,
                    aim_rad=best.start_rad, seed=1000 * len(gaps),
                )  # fmt: skip
                gaps.append(best.strokes - mean)
                noise.append(error)
    square = np.mean(np.square(gaps)) - np.mean(np.square(noise))
    # Of 36, one or two pass two errors by chance. Errors of the many samples are 0.0002 to 0.0004.
    beyond = float(np.max(np.abs(gaps) - (0.0 if samples == MANY else 2.0) * np.array(noise)))
    past = "" if samples == MANY else " past two standard errors"
    return [
        Row("strokes of an action against simulation, rms", math.sqrt(max(square, 0.0)), 0.003),
        Row(f"the same, worst of 36{past}", max(beyond, 0.0), 0.003),
    ]


def many(samples: int, *, seed: int, **action) -> tuple[float, float]:
    """Return mean strokes and their standard error from samples taken a part at a time."""
    parts = [min(AT_ONCE, samples - first) for first in range(0, samples, AT_ONCE)]
    found = [simulate(count=n, seed=seed + i, **action) for i, n in enumerate(parts)]
    share = np.array(parts) / samples
    means, errors = np.array(found).T
    return float(share @ means), float(np.sqrt(np.sum(np.square(share * errors))))


def regret() -> Row:
    """What better aims a simulation with common samples finds near the choice, 12 scenes."""
    player, table = players()[0]
    worst = 0.0
    for scene in SCENES.values():
        pattern = pattern_for(player, scene)
        found = Decider(scene=scene, pattern=pattern, table=table)
        first, second = found.leading(2)
        costs = []
        for swing, aim in [
            *((first.swing, first.start_rad + math.radians(a)) for a in (0, -3, -1.5, 1.5, 3)),
            (second.swing, second.start_rad),
        ]:
            mean, _ = simulate(
                scene=scene, table=table, pattern=pattern, swing=swing, aim_rad=aim,
                count=40_000, seed=7,
            )  # fmt: skip
            costs.append(mean)
        worst = max(worst, costs[0] - min(costs))
    return Row("regret against simulated neighbours, worst of 12", worst, 0.001, "strokes")


def near() -> Row:
    """How far three yards move what the best two clubs differ by, over what counts as near.

    What is told is seldom truer than three yards, so a lesser difference decides nothing.
    """
    moved = []
    for player in (
        PlayerFacts(handicap=14, hand=1, miss=1, curve=quantity(2, "deg")),
        PlayerFacts(handicap=4, hand=1, miss=-1, curve=quantity(-2, "deg")),
        PlayerFacts(handicap=26, hand=-1, miss=-1, curve=quantity(-4, "deg")),
    ):
        golfer = start_bag(player).golfer
        table = solve_player(golfer)
        for i, pin in enumerate(range(110, 190, 4)):
            trouble = (
                (),
                (TroubleFacts("water", "penalty", "short", end=quantity(pin - 18, "yd")),),
                (TroubleFacts("water", "penalty", "right"),),
                (TroubleFacts("sand", "sand", "left"),),
            )[i % 4]
            wind = WindFacts(quantity(4 + i, "mph"), quantity(67 * i % 360, "deg"))
            one, two, three = (
                choose(
                    golfer=golfer, table=table,
                    facts=ShotFacts(quantity(pin + off, "yd"), trouble=trouble, wind=wind),
                )
                for off in (0, -3, 3)
            )  # fmt: skip
            a, b = (one.best.club, one.best.kind), (one.others[0].club, one.others[0].kind)
            gaps = []
            for choice in (one, two, three):
                first, second = choice.play(*a), choice.play(*b)
                if first is not None and second is not None:
                    gaps.append(second.strokes - first.strokes)
            moved += [abs(gap - gaps[0]) for gap in gaps[1:]]
    found = float(np.median(moved))
    return Row("strokes that three yards move two clubs apart, off near", abs(found - NEAR), 0.01)


def mirrors() -> Row:
    """How many of 12 mirrored questions are not answered by the mirror image to the bit."""
    right = bogey(miss=1, curve_deg=2.0, lean_deg=0.4)
    left = bogey(miss=-1, curve_deg=-2.0, lean_deg=-0.4, hand=-1)
    tables = solved(right), solved(left)
    wrong = 0
    for scene in SCENES.values():
        one = Decider(scene=scene, pattern=pattern_for(right, scene), table=tables[0])
        two = Decider(scene=scene.mirrored(), pattern=pattern_for(left, scene), table=tables[1])
        same = np.array_equal(one.strokes, two.strokes)
        wrong += not (same and np.array_equal(one.start_rad, -two.start_rad))
    return Row("mirrored questions not mirrored to the bit, of 12", wrong, 0)


def speed() -> list[Row]:
    """Time of one decision and of a new profile, beside a plain simulated chooser."""
    golfer = start_bag(PlayerFacts(handicap=12, hand=1, miss=1, curve=quantity(3, "deg"))).golfer
    tick = time.process_time()
    table = solve_player(golfer)
    solving = time.process_time() - tick
    times, swings = [], 0
    for _ in range(4):
        for scene in SCENES.values():
            pin = math.hypot(*scene.pin_m)
            lie = Lie(kind="tee") if scene.lie == "tee" else Lie()
            flown = fly_bag(golfer=golfer, physics=physics(), lie=lie, green_at_m=pin)
            total = flown.pattern.reach_m[:, 0] + flown.pattern.run_m
            flown = flown.kept(total < pin + 45.0)
            swings = max(swings, len(flown.swings))
            tick = time.process_time()
            Decider(scene=scene, pattern=flown.pattern, table=table).leading(1)
            times.append(time.process_time() - tick)
    ms = 1e3 * np.array(times)
    wholes = []
    for pin in (90, 120, 150, 165, 180, 205, 355, 400):
        tick = time.process_time()
        choose(golfer=golfer, table=table, facts=ShotFacts(quantity(pin, "yd"), par=4, stroke=2))
        wholes.append(1e3 * (time.process_time() - tick))
    scene = SCENES["water right"]
    _, pattern = plain_pattern(bogey(), lie=scene.lie)
    tick = time.process_time()
    for aim in np.linspace(-0.3, 0.3, 12):
        simulate(scene=scene, table=table, pattern=pattern, swing=5, aim_rad=aim, count=10_000)
    plain = (time.process_time() - tick) / 12 * swings * 129 * 1e3
    median = float(np.median(ms))
    bare, peak, more = (
        float(
            subprocess.run(
                [sys.executable, "-c", code + _MARK], capture_output=True, check=True
            ).stdout
        )
        for code in (_BARE, _ALONE, _TOGETHER)
    )
    return [
        Row(f"a decision, {swings} swings, all aims: median", median, 15.0, "ms", baseline=plain),
        Row("the same, 95th percentile", float(np.percentile(ms, 95)), 30.0, "ms"),
        Row("the same, worst of 48", float(ms.max()), 60.0, "ms"),
        Row("with flight and comparison, median", float(np.median(wholes)), 50.0, "ms"),
        Row("times faster than 10,000 samples an action", plain / median, 300.0, "", "above"),
        Row("a new profile's table", solving, 0.5, "s"),
        Row("memory of a process that decides; bare libraries", peak, 60.0, "MB", baseline=bare),
        Row("the same, a player more that it keeps", (more - peak) / _KEPT, 1.0, "MB"),
        Row("a kept table", len(table.to_bytes()) / 1e6, 1.0, "MB"),
    ]  # fmt: skip


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
