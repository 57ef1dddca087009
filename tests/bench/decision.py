"""Does the choice of club and aim reach its accuracy and its speed?

Run ``python -m tests.bench.decision`` from the top of the project; about a minute. With
``--full`` each of the 36 simulated actions takes 4,000,000 samples: more than an hour. With
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

from engine import PlayerFacts, ShotFacts, choose, quantity, solve_player, start_bag
from engine.api.standard import physics
from engine.core.choice import Decider
from engine.core.flown import fly_bag
from engine.core.lie import Lie
from engine.core.scene import Scene, Trouble
from engine.core.shapes import Oval, Strip
from engine.core.surround import green_share
from tests.bench._table import Row, finish
from tests.support.brute import landings, outcomes, simulate
from tests.support.golfers import bogey, field, plain_pattern, scratch, solved, tour
from tests.support.scenes import approach, bunker, out, stream, tee_shot, trees, water
from tests.support.tables import load_table

YD = 0.9144
FEW, MANY = 150_000, 4_000_000  # samples an action
AT_ONCE = 250_000
# Rounds of brute force: balls, strokes dearer that stay in, how many stay, finer aims [deg].
_ROUNDS = (
    (2_000, 0.02, 12, (-0.8, 0.0, 0.8)),
    (20_000, 0.004, 5, (-0.3, 0.0, 0.3)),
    (100_000, 0.0, 1, (0.0,)),
)
_FRESH = 1_000_000
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
SCENES = {
    "plain 150": approach(150),
    "water right": approach(150, water(1, 14)),
    "water guessed": approach(165, water(1, 12, guess=6, start=110, end=190)),
    "out right": approach(150, out(1, 22)),
    "two bunkers": approach(140, bunker(130, -13), bunker(140, 16)),
    "stream short": approach(150, stream(115, 130)),
    "tucked": approach(170, water(-1, 18), pin_side=-7),
    "both sides": approach(160, water(1, 18), trees(-1, 20)),
    "tee out": tee_shot(400, out(1, 25), trees(-1, 30)),
    "tee bunker": tee_shot(400, bunker(185, -18), water(1, 30, start=150, end=230)),
    "dogleg": tee_shot(415, trees(1, 20), turn_deg=35),
    "wedge": approach(85, bunker(63, 4)),
}


def main(argv: list[str]) -> int:
    """Measure, print and return the exit code."""
    if "--brute" in argv:
        return finish("Choice against brute force", brute_force(), argv)
    rows = [*agreement(MANY if "--full" in argv else FEW), regret(), mirrors()]
    rows += [*professional(), *greens(), *rated(), *published()]
    return finish("Choice of club and aim", [*rows, *speed()], argv)


def pattern_for(player, scene: Scene):
    """Return the plain swings that do not end far past the pin, as a choice looks at them."""
    _, pattern = plain_pattern(player, lie=scene.lie)
    total = pattern.reach_m[:, 0] + pattern.run_m
    near = np.flatnonzero(total <= math.hypot(*scene.pin_m) + 45.0)
    return pattern.taken(near)


def players():
    fader, drawer = bogey(miss=1, curve_deg=2.0), scratch(miss=-1, curve_deg=-1.5)
    return [(fader, solved(fader)), (drawer, solved(drawer))]


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
    beyond = np.max(np.abs(gaps) - 3.0 * np.array(noise))  # of 36, one or two pass two
    return [
        Row("strokes of an action against simulation, rms", math.sqrt(max(square, 0.0)), 0.003),
        Row("the same, worst of 36 past three standard errors", float(max(beyond, 0.0)), 0.003),
    ]


def many(samples: int, *, seed: int, **action) -> tuple[float, float]:
    """Return mean strokes and their standard error from samples taken a part at a time."""
    parts = [min(AT_ONCE, samples - first) for first in range(0, samples, AT_ONCE)]
    found = [simulate(count=n, seed=seed + i, **action) for i, n in enumerate(parts)]
    share = np.array(parts) / samples
    means, errors = np.array(found).T
    return float(share @ means), float(np.sqrt(np.sum(np.square(share * errors))))


def brute_force() -> list[Row]:
    """What the best of all swings and aims saves over the choice, scene by scene.

    Both are priced by sampled balls alone, the same ones for every action. All swings are tried
    at every 2.5 degrees to 25 either side; what may be better, or come near, is tried again at
    finer aims with more balls; the best is held against the choice with balls seen by neither.
    """
    player, table = players()[0]
    rows = []
    for name, scene in SCENES.items():
        pattern = pattern_for(player, scene)
        action = {"scene": scene, "table": table, "pattern": pattern}
        found = Decider(**action).leading(1)[0]
        chosen = found.swing, found.start_rad
        every = np.radians(np.arange(-25.0, 25.1, 2.5))
        tries = [(s, float(a)) for s in range(len(pattern)) for a in every]
        for count, near, most, steps in _ROUNDS:
            kept = rivals(chosen, tries, count=count, near=near, **action)[:most]
            aims = np.radians(steps)
            tries = [(s, a + float(d)) for _, _, (s, a) in kept for d in aims]
        saved = error = 0.0
        if kept and kept[0][2] != chosen:
            fresh = rivals(chosen, [kept[0][2]], count=_FRESH, near=9.0, seed=77, **action)
            saved, error = -fresh[0][0], fresh[0][1]
        rows.append(
            Row(f"regret, {name}, give or take {error:.4f}", max(saved, 0.0), 0.001, "strokes")
        )
    return rows


def rivals(
    chosen: tuple[int, float], tries: list[tuple[int, float]], *, count: int, near: float,
    seed: int = 7, **action,
) -> list[tuple[float, float, tuple[int, float]]]:  # fmt: skip
    """Return what actions cost more than the chosen one, its error, and which: the least first.

    Left out are those that cost more than `near` beyond four standard errors.
    """

    def sampled(swing: int, aim_rad: float):
        parts = [
            outcomes(
                swing=swing, aim_rad=aim_rad, count=min(AT_ONCE, count - first),
                rng=np.random.default_rng(seed + first), **action,
            )
            for first in range(0, count, AT_ONCE)
        ]  # fmt: skip
        return (np.concatenate(part) for part in zip(*parts, strict=True))

    value, out = sampled(*chosen)
    again = 1.0 + (1.0 + value.mean() + out.mean()) / (1.0 - out.mean())
    base, found = value + again * out, []
    for one in tries:
        value, out = sampled(*one)
        more = value + again * out - base  # out of bounds, the chosen swing is played next
        mean, error = float(more.mean()), float(more.std() / math.sqrt(count))
        if mean - 4.0 * error < near:
            found.append((mean, error, one))
    return sorted(found)


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


def professional() -> list[Row]:
    """Strokes to hole out of professional-like players against the published table."""
    tables = [(share, solve_player(golfer)) for share, golfer in field()]
    reference = load_table("strokes_professional")
    gaps: dict[str, list[float]] = {}
    for row in reference.rows:
        distance = float(row["yd"])
        for i, lie in enumerate(("tee", "fairway", "rough", "sand", "recovery")):
            if not row[lie] or (lie == "tee" and not 340 <= distance <= 580):
                continue
            if lie == "fairway" and not 20 <= distance <= 220:
                continue
            at = np.array(distance * YD)
            found = sum(share * float(table.at(row=i, distance_m=at)) for share, table in tables)
            gaps.setdefault(lie, []).append(abs(found - float(row[lie])))
    goals = {"tee": 0.05, "fairway": 0.05, "rough": 9.0, "sand": 9.0, "recovery": 9.0}
    return [
        Row(f"published strokes, {lie}, worst (goal 9 = shown only)", max(g), goals[lie])
        for lie, g in gaps.items()
    ]


def greens() -> list[Row]:
    """Greens hit and distance left of a professional-like player from 151 to 175 yards.

    Published (tour data of 2011 and 2012, an analyst's article): 71 % and 28 ft from the
    fairway, 49 % and 45 ft from rough.
    """
    rows, rng = [], np.random.default_rng(1)
    for lie, share, left_ft in (("fairway", 0.71, 28.0), ("rough", 0.49, 45.0)):
        names, pattern = plain_pattern(tour(), lie=lie)
        to_pin = []
        for swing in (names.index("8i"), names.index("7i")):
            carry, bearing, roll = landings(pattern, swing, 0.0, 100_000, rng)
            pin = pattern.reach_m[swing, 0] + pattern.run_m[swing]
            far = carry + roll
            to_pin.append(np.hypot(far * np.cos(bearing) - pin, far * np.sin(bearing)))
        hit, left = green_share(to_pin_m=np.array(to_pin)).mean(), np.mean(to_pin) / 0.3048
        rows += [
            Row(f"professional from 163, {lie}: greens off {share:.0%}", abs(hit - share), 0.04),
            Row("the same: distance left off published", abs(left / left_ft - 1.0), 0.1, "share"),
        ]
    return rows


def rated() -> list[Row]:
    """Yards of hole worth a stroke for the players that courses are rated for."""
    lengths = np.arange(280.0, 561.0, 20.0)
    out_rows = []
    for name, player, published in (("scratch", scratch(), 220.0), ("bogey", bogey(), 160.0)):
        strokes = solve_player(player).at(row=0, distance_m=lengths * YD)
        yards = 1.0 / np.polyfit(lengths, strokes, 1)[0]
        off = abs(yards / published - 1.0)
        out_rows.append(Row(f"yards a stroke, {name}, off {published:.0f}", off, 0.05, "share"))
    return out_rows


def published() -> list[Row]:
    """Published examples: out of bounds right of a 400-yard four, and greens hit from 150."""
    rows = []
    for score, gain in ((80, 0.1), (100, 0.2)):
        golfer = start_bag(PlayerFacts(score=score, hand=1)).golfer
        flown = fly_bag(golfer=golfer, physics=physics(), lie=Lie(kind="tee"))
        hole = Scene(
            (400 * YD, 0.0), Oval(400 * YD, 0.0, 13.0, 11.0),
            (Trouble("out", "out", Strip(1, 25 * YD)),), lie="tee", fairway_from_m=70.0,
        )  # fmt: skip
        found = Decider(scene=hole, pattern=flown.pattern.taken([0]), table=solve_player(golfer))
        centre = found.option(0, aim_rad=-float(flown.pattern.bearing_rad[0, 0]))
        best = found.option(0)
        saved = centre.strokes - best.strokes
        rows.append(Row(f"{score}-shooter, out right: gain off published", abs(saved - gain), 0.1))
        edge = -best.finish_m[1] / hole.fairway_half_m
        rows.append(
            Row(f"{score}-shooter: aim over half the fairway's width", edge, 0.7, "", "above")
        )
    golfer = start_bag(PlayerFacts(score=90, hand=1)).golfer
    table = solve_player(golfer)
    flown = fly_bag(golfer=golfer, physics=physics(), green_at_m=150 * YD)
    total = flown.pattern.reach_m[:, 0] + flown.pattern.run_m
    full = [i for i, s in enumerate(flown.swings) if s.kind == "full"]
    swing = min(full, key=lambda i: abs(total[i] - 150 * YD))
    for short, greens in ((13.0, 0.35), (0.0, 0.44)):
        pin = float(total[swing]) + short * YD
        # Radius 15.4 yd: what the published 35 % implies with the published scatter.
        scene = Scene((pin, 0.0), Oval(pin, 0.0, 15.4 * YD, 15.4 * YD))
        found = Decider(scene=scene, pattern=flown.pattern.taken([swing]), table=table)
        aim = -float(flown.pattern.bearing_rad[swing, 0])
        hit = found.option(0, aim_rad=aim).chance["green"]
        name = f"90-shooter from 150, {short:.0f} yd short: greens off {greens:.0%}"
        rows.append(Row(name, abs(hit - greens), 0.03))
    return rows


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
    bare, peak = (
        float(
            subprocess.run(
                [sys.executable, "-c", code + _MARK], capture_output=True, check=True
            ).stdout
        )
        for code in (_BARE, _ALONE)
    )
    return [
        Row(f"a decision, {swings} swings, all aims: median", median, 15.0, "ms", baseline=plain),
        Row("the same, 95th percentile", float(np.percentile(ms, 95)), 30.0, "ms"),
        Row("the same, worst of 48", float(ms.max()), 60.0, "ms"),
        Row("with flight and comparison, median", float(np.median(wholes)), 50.0, "ms"),
        Row("times faster than 10,000 samples an action", plain / median, 300.0, "", "above"),
        Row("a new profile's table", solving, 0.5, "s"),
        Row("memory of a process that decides; bare libraries", peak, 60.0, "MB", baseline=bare),
        Row("a kept table", len(table.to_bytes()) / 1e6, 1.0, "MB"),
    ]  # fmt: skip


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
