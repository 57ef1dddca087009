"""How right and how fast the flight is: numbers beside goals and a baseline.

Run from the top of the repository: ``python tests/bench/flight.py [--json]``; takes ten seconds.

The baseline is SciPy's DOP853 at 1e-9 on the same equations, in plain floats, one flight at a
time; its time for the whole batch is taken from a sample of flights.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from math import pi, radians, sqrt
from pathlib import Path
from time import process_time

import numpy as np

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from engine.api.standard import physics
from engine.core.air import REFERENCE, air_of
from engine.core.calibrate import bag_launches, full_launch
from engine.core.flight import Launch, fly
from engine.core.lie import Lie
from engine.core.playsas import plays_as
from engine.core.wind import CALM, Wind
from tests.bench._table import Row, finish
from tests.support.flights import FT, MPH, RPM, YD, dop853, player
from tests.support.tables import load_table

P = physics()
SAMPLE = 200


def best_s(action: Callable[[], object], times: int = 7) -> float:
    """Shortest processor time of a few runs. [s]."""
    spent = []
    for _ in range(times):
        start = process_time()
        action()
        spent.append(process_time() - start)
    return min(spent)


def main() -> int:
    swings, every = bag_launches(player(), physics=P)
    full = np.array([s.kind == "full" for s in swings])
    bag = Launch(*(getattr(every, name)[full] for name in Launch.__slots__))
    clubs = bag.speed_mps.size
    turns = np.linspace(0.0, 2.0 * pi, 8, endpoint=False)
    winds = [Wind(mph * MPH, float(turn)) for mph in range(2, 31, 4) for turn in turns]
    airs = [REFERENCE] * len(winds)

    batch_s = best_s(lambda: fly(launch=bag, air=airs, wind=winds, ball=P.ball))
    calm_s = best_s(lambda: fly(launch=bag, air=REFERENCE, wind=CALM, ball=P.ball))
    windy_s = best_s(lambda: fly(launch=bag, air=REFERENCE, wind=winds[-1], ball=P.ball))

    down = fly(launch=bag, air=airs, wind=winds, ball=P.ball)
    picks = np.random.default_rng(1).choice(clubs * len(winds), SAMPLE, replace=False)
    start, off = process_time(), []
    for pick in picks:
        row, i = divmod(int(pick), clubs)
        carry, side = dop853(bag, i, air=REFERENCE, wind=winds[row], ball=P.ball)
        off.append((abs(down.carry_m[row, i] - carry), abs(down.side_m[row, i] - side)))
    one_s = (process_time() - start) / SAMPLE
    carry_off, side_off = np.max(off, axis=0) / YD

    golfer, straight = player(), player(curve_deg=0.0)
    question = {
        "golfer": golfer, "physics": P, "target_m": 160 * YD, "height_m": 8 * FT,
        "wind": Wind(18 * MPH, radians(40)), "lie": Lie(kind="rough"),
        "air": air_of(air_k=283.0, pressure_pa=99000.0, humidity=0.8),
    }  # fmt: skip
    plain = {**question, "wind": Wind(18 * MPH, 0.0), "lie": Lie(), "air": REFERENCE}
    plain_s = best_s(lambda: plays_as(**plain))
    number_s = best_s(lambda: plays_as(**question))
    calibrate_s = best_s(
        lambda: full_launch(
            clubs=golfer.clubs, curve_rad=golfer.curve_rad, physics=P, air=REFERENCE
        ),
        3,
    )
    stated = np.array([c.carry_m for c in golfer.clubs])
    calm = fly(launch=bag, air=REFERENCE, wind=CALM, ball=P.ball)

    tour = load_table("tour_launch")
    flat = np.zeros(len(tour.rows))
    launch = Launch(
        np.array(tour.column("ball_mph")) * MPH, np.radians(tour.column("launch_deg")), flat,
        np.array(tour.column("spin_rpm")) * RPM, flat,
    )  # fmt: skip
    fit = fly(launch=launch, air=REFERENCE, wind=CALM, ball=P.ball)
    share = 100.0 * (fit.carry_m / YD / np.array(tour.column("carry_yd")) - 1.0)

    mid = player(scale=145 / 150, curve_deg=0.0)
    iron = next(
        i
        for i, s in enumerate(bag_launches(mid, physics=P)[0])
        if (s.club, s.kind) == ("7i", "full")
    )
    blown = fly(
        launch=bag_launches(mid, physics=P)[1], air=REFERENCE,
        wind=[CALM, Wind(10 * MPH, 0.0), Wind(10 * MPH, pi)], ball=P.ball,
    )  # fmt: skip
    hurt, help_ = (abs(blown.carry_m[k, iron] - blown.carry_m[0, iron]) / YD for k in (1, 2))
    up = plays_as(golfer=straight, physics=P, target_m=150 * YD, height_m=24 * FT)

    apex = fit.apex_m / YD - tour.column("apex_yd")
    descent = np.degrees(fit.descent_rad) - tour.column("descent_deg")
    slow_ms = 1e3 * one_s * clubs
    all_ms = slow_ms * len(winds)
    stated_off = float(np.max(np.abs(calm.carry_m - stated)) / YD)
    rows = [
        Row("carry off DOP853, to 30 mph", float(carry_off), 0.02, "yd"),
        Row("side off DOP853, to 30 mph", float(side_off), 0.02, "yd"),
        Row("stated carry off after calibration", stated_off, 0.05, "yd"),
        Row("published rows: worst carry", float(np.max(np.abs(share))), 4.0, "%"),
        Row("published rows: rms carry", sqrt(float(np.mean(share**2))), 2.0, "%"),
        Row("published rows: worst apex", float(np.max(np.abs(apex))), 3.0, "yd"),
        Row("published rows: worst descent", float(np.max(np.abs(descent))), 6.0, "deg"),
        Row("10 mph into a 145 yd iron, least", float(hurt), 12.0, "yd", "above", 14.5),
        Row("10 mph into a 145 yd iron, most", float(hurt), 15.0, "yd", "below", 14.5),
        Row("help over hurt at 10 mph", float(help_ / hurt), 0.75, "1", "below", 0.5),
        Row("24 ft up at 150 yd", up.height_m / YD, 10.0, "yd", "below", 8.0),
        Row(
            f"{clubs} clubs x {len(winds)} winds",
            1e3 * batch_s,
            all_ms / 200,
            "ms",
            "below",
            all_ms,
        ),
        Row("times faster than DOP853", 1e-3 * all_ms / batch_s, 200.0, "x", "above", 1.0),
        Row(f"{clubs} clubs x calm", 1e3 * calm_s, 15.0, "ms", "below", slow_ms),
        Row(f"{clubs} clubs x one wind", 1e3 * windy_s, 15.0, "ms", "below", slow_ms),
        Row("plays-as, wind ahead and height", 1e3 * plain_s, 8.0, "ms", "below", slow_ms),
        Row("plays-as, four parts, cross wind", 1e3 * number_s, 12.0, "ms", "below", slow_ms),
        Row("calibrate a bag, once per golfer", 1e3 * calibrate_s, 250.0, "ms"),
    ]
    return finish("Flight", rows, sys.argv[1:])


if __name__ == "__main__":
    sys.exit(main())
