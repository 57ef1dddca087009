"""How fast and how right is a plan? Prints figures against goals; takes one to two minutes.

``--rounds N`` plays N balls on each of six holes (16 700, together 100 000, where none is
given); ``--full`` plays 100 000 rounds of all 18 holes and nothing else, which takes ten to
twenty minutes; ``--json`` prints JSON. Times are the process's own; the least of three runs
counts.
"""

from __future__ import annotations

import resource
import sys
import time
from dataclasses import dataclass
from pathlib import Path

import numpy as np

from bot.courses import read_course
from bot.model.measure import Measure
from bot.turn.holefacts import hole_facts
from engine import Golfer, PlanDay, PlayerFacts, plan_holes, quantity, solve_player, start_bag
from engine.api.holefacts import HoleFacts, Sketch, draw
from engine.api.standard import physics
from engine.core.holeplan import HoleSolver, Option
from engine.core.playbook import Page, write_book
from engine.core.ribbon import Ribbon, lay_hole
from engine.core.strokes import StrokeTable
from engine.core.wind import CALM, Wind
from tests.bench._table import Row, finish
from tests.support.walk import Walk

COURSE = Path(__file__).parents[2] / "fixtures" / "courses" / "saltmarrow.toml"
HOLES = (1, 6, 7, 11, 12, 16)  # straight ones: a spot on the way is easily told
PLAYED = 100_000  # rounds a wind that give the same scores by playing: the baseline
BALLS = 3000  # a swing and an aim, by brute force
# Spots on the way: share of the length, off the line [m], lie (1 fairway, 2 rough).
SPOTS = ((0.45, 0.0, 1), (0.55, 14.0, 2), (0.65, -8.0, 1))
AIMS_M = np.linspace(-36.0, 36.0, 25)


def main(argv: list[str]) -> int:
    """Measure, print and return the exit code."""
    rounds = int(argv[argv.index("--rounds") + 1]) if "--rounds" in argv else 16_700
    golfer = start_bag(PlayerFacts(handicap=14.0)).golfer
    table = solve_player(golfer)
    course, _ = read_course(COURSE.read_text("utf-8"), owner="bench")
    wind = Measure(value=12, unit="mph"), 225.0
    holes = [hole_facts(course.holes[n], "imperial", wind=wind) for n in sorted(course.holes)]
    asked = [h for h in holes if h is not None]
    if "--full" in argv:
        return _full(asked, golfer, table, argv)
    day = PlanDay(wind_speed=quantity(12.0, "mph"), liked=quantity(110.0, "yd"))
    spent = []
    for _ in range(3):
        start = time.process_time()
        plan_holes(golfer=golfer, table=table, holes=asked, day=day)
        spent.append(time.process_time() - start)
    memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024.0
    gaps, regrets, ways, plays = [], [], [], 0.0
    for number in HOLES:
        gap, (regret, way), took = _hole(asked[number - 1], golfer, table, rounds)
        gaps.append(gap)
        regrets.append(regret)
        ways.append(way)
        plays += took
    per_round = plays / (len(HOLES) * rounds) * len(asked)
    return finish(
        "plan",
        [
            Row("18 holes in four winds", min(spent), 3.0, "s", baseline=per_round * 4e5),
            Row("memory", memory, 300.0, "MB"),
            Row("expected against played, worst of 6", max(gaps), 0.05, "strokes"),
            Row("expected against played, mean", float(np.mean(gaps)), 0.05, "strokes"),
            Row("tee choice against brute force, worst", max(regrets), 0.02, "strokes"),
            Row("shots on the way, worst hole's mean", max(ways), 0.02, "strokes"),
            Row("both together, mean", float(np.mean(regrets) + np.mean(ways)), 0.02, "strokes"),
        ],
        argv,
    )


def _full(asked: list[HoleFacts], golfer: Golfer, table: StrokeTable, argv: list[str]) -> int:
    """Play every hole as it is planned, print how far off the expected scores are."""
    rows, gaps = [], []
    for number, hole in enumerate(asked, start=1):
        solved = _Solved.of(hole, golfer, table)
        mean, error = solved.walk().play(solved.best, PLAYED)
        gaps.append(solved.best.strokes - mean)
        name = f"hole {number}, expected less played (+-{error:.3f})"
        rows.append(Row(name, abs(gaps[-1]), 0.05, "strokes"))
    rows.append(Row("mean of 18, with its sign", abs(float(np.mean(gaps))), 0.05, "strokes"))
    return finish("plan, 100 000 rounds", rows, argv)


@dataclass(frozen=True)
class _Solved:
    """One hole, solved in one wind."""

    sketch: Sketch
    ribbon: Ribbon
    page: Page
    solver: HoleSolver
    golfer: Golfer
    table: StrokeTable
    best: Option

    @classmethod
    def of(cls, hole: HoleFacts, golfer: Golfer, table: StrokeTable) -> _Solved:
        sketch = draw(hole)
        book = write_book(golfer=golfer, physics=physics(), winds=[CALM, Wind(5.4, 0.8)])
        page = book.pages[1]
        ribbon = lay_hole(scene=sketch.scene)
        solver = HoleSolver(
            ribbon=ribbon, line=sketch.line, pages=((page, page),), short=golfer.short,
            table=table, most=7,
        )  # fmt: skip
        solver.solve(from_m=0.25 * sketch.line.length_m)
        return cls(sketch, ribbon, page, solver, golfer, table, solver.tee(0)[0])

    def walk(self) -> Walk:
        return Walk(
            scene=self.sketch.scene, ribbon=self.ribbon, line=self.sketch.line,
            pages=(self.page, self.page), short=self.golfer.short, table=self.table,
            solver=self.solver, condition=0, rng=np.random.default_rng(7),
        )  # fmt: skip


def _hole(
    hole: HoleFacts, golfer: Golfer, table: StrokeTable, rounds: int
) -> tuple[float, tuple[float, float], float]:
    solved = _Solved.of(hole, golfer, table)
    start = time.process_time()
    mean, _ = solved.walk().play(solved.best, rounds)
    took = time.process_time() - start
    regret = _regret(solved.solver, solved.ribbon, solved.page, solved.best)
    return abs(mean - solved.best.strokes), regret, took


def _regret(solver: HoleSolver, ribbon: Ribbon, page: Page, best: Option) -> tuple[float, float]:
    """Return what the plan's choices cost from the tee, and on the way on average.

    Against every swing at every aim, ball by ball, from the tee and from spots on the way.
    """
    tee = _behind(solver, ribbon, page, (0.0, 0.0, 0), (best.swing, best.start_rad))
    way = []
    for along, off, lie in SPOTS:
        x, y = along * ribbon.length_m, off
        there = np.array([x]), np.array([y]), np.array([along * ribbon.length_m])
        swing, start = solver.decide(
            condition=0, x_m=there[0], y_m=there[1], along_m=there[2], lie=lie
        )
        if swing[0] >= 0:
            chosen = int(swing[0]), float(start[0])
            way.append(_behind(solver, ribbon, page, (x, y, lie), chosen))
    return tee, float(np.mean(way)) if way else 0.0


def _behind(
    solver: HoleSolver, ribbon: Ribbon, page: Page, spot: tuple[float, float, int],
    chosen: tuple[int, float],
) -> float:  # fmt: skip
    """Return how far a choice is behind the best of all swings and aims from a spot."""
    x, y, lie = spot
    options = solver.options(condition=0, x_m=x, y_m=y, along_m=x, lie=lie)
    mine = _played(solver, ribbon, page, spot, *chosen)
    cheapest = mine
    for option in options:
        if option.strokes > options[0].strokes + 0.3:
            continue
        total = float(page.total_m(lie)[option.swing])
        straight = option.start_rad - np.arctan(option.aside_m / total)
        for aside in AIMS_M:
            start = straight + np.arctan(aside / total)
            cheapest = min(cheapest, _played(solver, ribbon, page, spot, option.swing, start))
    return mine - cheapest


def _played(
    solver: HoleSolver, ribbon: Ribbon, page: Page, spot: tuple[float, float, int], swing: int,
    start: float,
) -> float:  # fmt: skip
    """Return the mean cost of one swing and start line, always on the same random numbers."""
    rng = np.random.default_rng(3)
    x, y, lie = spot
    p = page.patterns[lie]
    way = rng.choice(4, size=BALLS, p=p.share[swing])
    z, w, v = rng.standard_normal((3, BALLS))
    tilt = np.where(way == 0, p.tilt[swing], 0.0)
    reach = np.maximum(p.reach_m[swing, way] + p.reach_sd_m[swing, way] * z, 0.0)
    side = tilt * z + np.sqrt(1.0 - tilt**2) * w
    bearing = start + p.bearing_rad[swing, way] + p.bearing_sd_rad[swing, way] * side
    run = np.maximum(p.run_m[swing] + p.run_sd_m[swing] * v, 0.0)
    rest = ribbon.cell_of(x + reach * np.cos(bearing), y + reach * np.sin(bearing))
    held = np.zeros(BALLS, dtype=bool)
    for share in np.linspace(0.0, 1.0, 6):
        far = reach + share * run
        cell = ribbon.cell_of(x + far * np.cos(bearing), y + far * np.sin(bearing))
        rest = np.where(held, rest, cell)
        if ribbon.stops is not None:
            held |= ribbon.stops[rest]
    out = float(solver.fields.out[rest].mean())
    return (1.0 + float(solver.fields.cost[0, rest].mean()) + out) / (1.0 - out)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
