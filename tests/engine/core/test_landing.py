from itertools import pairwise

import numpy as np
import pytest

from engine.api.standard import physics
from engine.core.air import REFERENCE, STANDARD_PA, air_of
from engine.core.calibrate import bag_launches
from engine.core.flight import fly
from engine.core.landing import RunOut, ground_of, run_out
from engine.core.wind import CALM
from engine.errors import BadTable, OutOfRange
from tests.support.flights import MPH, YD, one, player

P = physics()
# The tee shot of the Course Rating System's scratch golfer: 250 yd with 20 of roll.
SWINGS, LAUNCH = bag_launches(player(scale=230 / 225), physics=P)
DOWN = fly(launch=LAUNCH, air=REFERENCE, wind=CALM, ball=P.ball)
FULL = {s.club: i for i, s in enumerate(SWINGS) if s.kind == "full"}


def run(surface: str, firmness: str, slope: float = 0.0) -> RunOut:
    ground = ground_of(surface=surface, firmness=firmness, grounds=P.grounds)
    return run_out(landing=DOWN, ground=ground, ball=P.ball, slope=slope)


def test_a_drive_rolls_what_course_raters_take() -> None:
    # USGA Course Rating System: 20 yd of roll in a tee shot on a flat normal fairway.
    found = run("fairway", "normal")
    assert found.run_m[FULL["D"]] / YD == pytest.approx(20.0, abs=8.0)
    assert found.sd_m[FULL["D"]] > 3.0 * YD  # and it is a range


@pytest.mark.parametrize("surface", ["fairway", "green", "rough"])
def test_firmer_turf_runs_further(surface: str) -> None:
    runs = [run(surface, firmness).run_m for firmness in ("soft", "normal", "firm", "baked")]
    for softer, firmer in pairwise(runs):
        assert np.all(firmer >= softer - 0.3)


def test_downhill_runs_further_and_uphill_stops() -> None:
    level = run("fairway", "normal").run_m
    assert np.all(run("fairway", "normal", -0.06).run_m[: FULL["9i"]] > level[: FULL["9i"]])
    assert np.all(run("fairway", "normal", 0.06).run_m[: FULL["9i"]] < level[: FULL["9i"]])


def test_long_clubs_run_further_than_wedges() -> None:
    found = run("green", "normal").run_m
    assert found[FULL["4h"]] > found[FULL["7i"]] > found[FULL["PW"]]
    assert abs(found[FULL["54"]]) < 4.0 * YD


def test_rough_holds_a_ball_up() -> None:
    assert run("rough", "normal").run_m[FULL["D"]] < run("fairway", "normal").run_m[FULL["D"]]


def test_steep_ground_and_unknown_turf_are_refused() -> None:
    with pytest.raises(OutOfRange):
        run("fairway", "normal", 0.5)
    with pytest.raises(BadTable):
        run("fairway", "wet")


def overall(ball_mph: float, launch_deg: float, rpm: float, firmness: str) -> float:
    # The tests are run at 75 F and 50 % (from memory).
    air = air_of(air_k=297.04, pressure_pa=STANDARD_PA, humidity=0.5)
    down = fly(launch=one(ball_mph * MPH, launch_deg, rpm), air=air, wind=CALM, ball=P.ball)
    ground = ground_of(surface="fairway", firmness=firmness, grounds=P.grounds)
    run_m = run_out(landing=down, ground=ground, ball=P.ball).run_m
    return float(down.carry_m[0] + run_m[0]) / YD


@pytest.mark.parametrize("firmness", ["normal", "firm"])
def test_the_overall_distance_standard(firmness: str) -> None:
    # R&A/USGA, in force since 2004: a ball launched at 120 mph of clubhead (about 176 mph of
    # ball), 10 deg and 2520 rpm may carry and roll 317 yd; most balls sold come near the limit.
    # Not used in the fit. 20 yd is the spread of carry between balls (B. Lyu et al. 2018).
    assert overall(176, 10, 2520, firmness) == pytest.approx(317, abs=20)
    # Notice of Dec 2023: at 183 mph, 11 deg and 2220 rpm the same limit costs the longest
    # hitters 13 to 15 yd, so that is how much further the old ball goes.
    further = overall(183, 11, 2220, firmness) - overall(176, 10, 2520, firmness)
    assert further == pytest.approx(14, abs=4)
