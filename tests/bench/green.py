"""How right and how fast putts and chips are: break, chance to hole, strokes, time.

Run from the top of the repository: ``python tests/bench/green.py [--json]``; takes about half
a minute.
"""

from __future__ import annotations

import math
import sys
import time
from pathlib import Path

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from scipy.integrate import solve_ivp

from engine.api.chip import ChipQuestion, plan_chip
from engine.api.green import Fall, PuttQuestion, plan_putt, side_slope_of_break
from engine.core.aim import aim_to_arrive
from engine.core.capture import HOLE_RADIUS_M, capture_half_width_m
from engine.core.golfer import Club, Golfer, ShortGame
from engine.core.leave import widening
from engine.core.putt import best_putt
from engine.core.putts import putt_table
from engine.core.roll import HOLDS_BELOW, green_deceleration_mps2, stretch
from engine.units import quantity
from tests.bench._table import Row, finish
from tests.support.putting import roll_in_steps
from tests.support.tables import load_table

FT = 0.3048
PROFESSIONAL = ShortGame(0.11, 0.19, 0.01, putt_line_rad=0.0239, putt_pace=0.10)
CLUB_PLAYER = ShortGame(0.2, 0.3, 0.1, putt_line_rad=0.036, putt_pace=0.115)
MILLION = 1_000_000


def break_error() -> tuple[float, float, float]:
    """Worst miss at the hole over the break, ours and the teaching rule's, and its time [ms]."""
    ours, rule, took = 0.0, 0.0, []
    for stimp in (8.0, 10.0, 12.0):
        for percent in (1.0, 2.0, 3.0, 4.0):
            for turn in (-90, -45, 0, 45):
                up, right = (percent / 100 * f(math.radians(turn)) for f in (math.sin, math.cos))
                for ft in (5.0, 10.0, 20.0, 40.0):
                    on = stretch(stimp_m=stimp * FT, up=up, right=right)
                    if on.steepness >= 0.8 * HOLDS_BELOW or abs(right) < 1e-6:
                        continue
                    slow = green_deceleration_mps2(stimp_m=stimp * FT)
                    aim = aim_to_arrive(
                        green=(on,), level_mps2=slow, hole_x_m=np.array([ft * FT]),
                        hole_y_m=np.zeros(1), arrival_mps=np.array([math.sqrt(2 * slow * FT)]),
                    )  # fmt: skip
                    begun = time.process_time()
                    off = crossing(on, math.sqrt(2 * slow * aim.roll_m[0]), aim.heading_rad[0], ft)
                    took.append(time.process_time() - begun)
                    brk = ft * FT * math.tan(aim.heading_rad[0])
                    ours = max(ours, abs(off / brk))
                    if ft <= 10.0 and up == 0.0:
                        inches = percent * stimp / 20 * ft
                        rule = max(rule, abs(inches * 0.0254 / brk - 1.0))
    return 100 * ours, 100 * rule, 1e3 * float(np.median(took))


def crossing(on, speed: float, heading: float, ft: float) -> float:
    def motion(_, s):
        v = math.hypot(s[2], s[3])
        return [s[2], s[3], on.pull_x_mps2 - on.slow_mps2 * s[2] / v,
                on.pull_y_mps2 - on.slow_mps2 * s[3] / v]  # fmt: skip

    def across(_, s):
        return s[0] - ft * FT

    def rest(_, s):
        return math.hypot(s[2], s[3]) - 1e-3

    across.terminal = rest.terminal = True
    start = [0, 0, speed * math.cos(heading), speed * math.sin(heading)]
    run = solve_ivp(
        motion, (0, 90), start, method="DOP853", events=[across, rest], rtol=1e-8, atol=1e-9
    )
    return float(np.hypot(run.y[0, -1] - ft * FT, run.y[1, -1]))


def counts_error() -> tuple[float, float]:
    """Worst miss of the published counts from 3 to 30 ft: ours, and the geometry model's."""
    counts = load_table("putts_holed_professional")
    feet, made = np.array(counts.column("ft")), np.array(counts.column("made_percent"))
    held = (feet > 2.9) & (feet < 30.5)
    table = putt_table(
        line_rad=PROFESSIONAL.putt_line_rad, pace=PROFESSIONAL.putt_pace, stimp_m=10.5 * FT
    )
    ours = 100 * np.interp(feet * FT, table.length_m, table.one)
    # Gelman & Nolan, Teaching Statistics 24(3) (2002), with the angle that suits these counts.
    windows = np.arcsin((2.125 - 0.84) / (12 * feet))
    geometry = min(
        np.abs(100 * np.array([math.erf(w / a / math.sqrt(2)) for w in windows]) - made)[
            held
        ].max()
        for a in np.radians(np.linspace(1.0, 3.0, 201))
    )
    return np.abs(ours - made)[held].max(), geometry


def level_error() -> float:
    """Worst gap between expected putts and a million players holing out on the level."""
    generator = np.random.default_rng(11)
    worst = 0.0
    for short, stimp in ((PROFESSIONAL, 11.0), (CLUB_PLAYER, 9.0)):
        table = putt_table(line_rad=short.putt_line_rad, pace=short.putt_pace, stimp_m=stimp * FT)
        slow = green_deceleration_mps2(stimp_m=stimp * FT)
        for ft in (4.0, 10.0, 25.0, 60.0):
            putts, x = 0, np.full(MILLION, ft * FT)
            while x.size:
                putts += x.size
                meant = x + np.interp(x, table.length_m, table.past_m)
                roll = meant * (1 + short.putt_pace * generator.standard_normal(x.size))
                roll = np.maximum(roll, 0.0)
                line = short.putt_line_rad * generator.standard_normal(x.size)
                fast = np.sqrt(np.maximum(2 * slow * (roll - x), 0.0))
                width = capture_half_width_m(speed_mps=fast)
                holed = (roll >= x - HOLE_RADIUS_M) & (x * np.abs(np.sin(line)) <= width)
                again = ~holed & (x > 0.1)
                x = np.hypot(roll * np.cos(line) - x, roll * np.sin(line))[again]
            found = np.interp(ft * FT, table.length_m, table.expected)
            worst = max(worst, abs(putts / MILLION - found))
    return worst


def slope_error(balls: int = 40_000) -> float:
    """The same on slopes, two putts rolled in small steps and a third counted as level."""
    generator = np.random.default_rng(12)
    short, stimp_m, worst = CLUB_PLAYER, 10 * FT, 0.0
    slow = green_deceleration_mps2(stimp_m=stimp_m)
    table = putt_table(line_rad=short.putt_line_rad, pace=short.putt_pace, stimp_m=stimp_m)
    for ft, up, right in (
        (6, 0.0, 0.02),
        (12, -0.02, 0.015),
        (30, 0.025, -0.01),
        (45, -0.01, 0.01),
    ):
        on = stretch(stimp_m=stimp_m, up=up, right=right)
        best = best_putt(green=(on,), length_m=ft * FT, short=short, stimp_m=stimp_m)
        hole = (ft * FT, 0.0)
        x, y = np.zeros(balls), np.zeros(balls)
        roll, heading = np.full(balls, best.roll_m), np.full(balls, best.heading_rad)
        just = ft * FT * (on.slow_mps2 - on.pull_x_mps2) / slow
        reach = np.full(balls, just)
        length = np.full(balls, ft * FT)
        putts = 0.0
        for _ in range(2):
            wider = widening(length_m=length, roll_m=reach)
            rolled = roll * (1 + short.putt_pace * wider * generator.standard_normal(x.size))
            rolled = np.maximum(rolled, 0.005)
            line = heading + short.putt_line_rad * wider * generator.standard_normal(x.size)
            holed, x, y = roll_in_steps(
                x, y, np.sqrt(2 * slow * rolled), line,
                stimp_m=stimp_m, up=up, right=right, hole=hole,
            )  # fmt: skip
            putts += holed.size
            x, y = x[~holed], y[~holed]
            length = np.hypot(x - hole[0], y)
            inside = length < 0.1
            putts += inside.sum()
            x, y, length = x[~inside], y[~inside], length[~inside]
            past = np.interp(length, table.length_m, table.past_m)
            aim = aim_to_arrive(
                green=(on,), level_mps2=slow, hole_x_m=hole[0] - x, hole_y_m=-y,
                arrival_mps=np.sqrt(2 * slow * past),
            )  # fmt: skip
            roll, heading, reach = aim.roll_m, aim.heading_rad, aim.roll_m - past
        putts += np.interp(length, table.length_m, table.expected).sum()
        worst = max(worst, abs(putts / balls - best.expected))
    return worst


def answer_ms() -> tuple[float, float]:
    """Median and 95th percentile of a putt told with its break in inches, warm tables."""
    generator = np.random.default_rng(13)
    took = []
    for _ in range(120):
        length = quantity(float(generator.uniform(4, 45)), "ft")
        up = quantity(float(generator.uniform(-2, 2)), "%")
        stimp = quantity(10.0, "ft")
        inches = quantity(float(generator.uniform(-10, 10)), "in")
        begun = time.process_time()
        right = side_slope_of_break(length=length, up=up, stimp=stimp, break_right=inches)
        plan_putt(PuttQuestion(length, (Fall(up, right),), stimp, CLUB_PLAYER))
        took.append(1e3 * (time.process_time() - begun))
    return float(np.median(took)), float(np.quantile(took, 0.95))


SHORT_SHOTS = (
    # Broadie, Every Shot Counts (2014), from memory: yards, lie, strokes to hole out.
    (10, "fairway", 2.18), (20, "fairway", 2.40), (30, "fairway", 2.52), (10, "rough", 2.34),
    (20, "rough", 2.59), (30, "rough", 2.70), (10, "sand", 2.43), (20, "sand", 2.53),
    (30, "sand", 2.66),
)  # fmt: skip


def chips() -> tuple[float, float]:
    """Worst gap to published strokes of short shots, and the median time of one [ms]."""
    lofts = (("7i", 34), ("8i", 38), ("9i", 42), ("PW", 46), ("52", 52), ("56", 56), ("60", 60))
    clubs = tuple(Club(n, "iron", math.radians(d), 120.0, 0.08, 0.08) for n, d in lofts)
    golfer = Golfer(clubs=clubs, hand=1, curve_rad=0.0, miss=0, short=PROFESSIONAL)
    worst, took = 0.0, []
    for _ in range(4):
        for yards, lie, strokes in SHORT_SHOTS:
            begun = time.process_time()
            found = plan_chip(
                ChipQuestion(golfer, quantity(yards, "yd"), lie, stimp=quantity(10.5, "ft"))
            )
            took.append(1e3 * (time.process_time() - begun))
            worst = max(worst, abs(found.choices[0].expected - strokes))
    return worst, float(np.median(took))


def main(argv: list[str]) -> int:
    broke, rule, integrator_ms = break_error()
    ours, geometry = counts_error()
    median, slow = answer_ms()
    short_shots, chip_ms = chips()
    return finish(
        "On and round the green",
        [
            Row("break against DOP853, worst", broke, 3.0, "% of the break", baseline=rule),
            Row("holed against published counts", ours, 2.0, "points", baseline=geometry),
            Row("expected putts, level, million", level_error(), 0.03, "putts"),
            Row("expected putts, slopes, 40,000", slope_error(), 0.03, "putts"),
            Row("answer, median", median, 20.0, "ms", baseline=integrator_ms),
            Row("answer, 95th percentile", slow, 40.0, "ms"),
            Row("short shots, published rows", short_shots, 0.15, "strokes"),
            Row("short shot, median", chip_ms, 20.0, "ms"),
        ],
        argv,
    )


if __name__ == "__main__":
    raise SystemExit(main(sys.argv[1:]))
