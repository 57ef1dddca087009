"""Learned putting against players who really have other spreads than stored."""

import math

import numpy as np
import pytest

from engine.core.capture import HOLE_RADIUS_M, capture_half_width_m
from engine.core.golfer import ShortGame
from engine.core.learn_putts import SeenPutt, learn_putts
from engine.core.putts import putt_table
from engine.core.roll import green_deceleration_mps2

STORED = ShortGame(0.2, 0.3, 0.1, putt_line_rad=0.034, putt_pace=0.11)
STIMP_M = 2.9


def played(line, pace, n, seed, leaves=True):
    """Putts of a player of these spreads, by plain draws; leaves told to half a foot."""
    generator = np.random.default_rng(seed)
    table = putt_table(line_rad=0.034, pace=0.11, stimp_m=STIMP_M)
    length = generator.uniform(0.9, 12.0, n)
    past = np.interp(length, table.length_m, table.past_m)
    roll = np.maximum((length + past) * (1 + pace * generator.standard_normal(n)), 0.0)
    start = line * generator.standard_normal(n)
    slow = green_deceleration_mps2(stimp_m=STIMP_M)
    speed = np.sqrt(np.maximum(2 * slow * (roll - length), 0))
    width = capture_half_width_m(speed_mps=speed)
    holed = (roll >= length - HOLE_RADIUS_M) & (length * np.abs(np.sin(start)) <= width)
    left = np.hypot(roll * np.cos(start) - length, roll * np.sin(start))
    left = np.maximum(np.round(left / 0.15) * 0.15, 0.15)
    return [
        SeenPutt(float(x), bool(h), float(r) if leaves and not h else None)
        for x, h, r in zip(length, holed, left, strict=True)
    ]


def learn(putts):
    return learn_putts(putts=putts, short=STORED, stimp_m=STIMP_M)


def test_no_putts_change_nothing():
    found = learn([])
    assert (found.line_rad, found.pace, found.putts) == (0.034, 0.11, 0)


def test_one_holed_long_putt_changes_little():
    found = learn([SeenPutt(9.0, True)])
    assert found.line_rad == pytest.approx(0.034, rel=0.1)


@pytest.mark.parametrize(("line", "pace"), [(0.048, 0.11), (0.026, 0.11), (0.034, 0.18)])
def test_many_putts_find_the_spreads(line, pace):
    found = learn(played(line, pace, 500, seed=4))
    assert found.line_rad == pytest.approx(line, rel=0.12)
    assert found.pace == pytest.approx(pace, rel=0.12)


def test_made_or_missed_alone_moves_the_right_way():
    worse = learn(played(0.05, 0.11, 200, seed=5, leaves=False))
    better = learn(played(0.024, 0.11, 200, seed=5, leaves=False))
    assert worse.line_rad > 0.034 > better.line_rad
    assert math.log(worse.line_rad / 0.034) > 0.8 * worse.line_doubt
    assert math.log(better.line_rad / 0.034) < -0.8 * better.line_doubt


def test_stated_doubt_covers_the_truth():
    inside = 0
    for seed in range(40):
        generator = np.random.default_rng(1000 + seed)
        line = 0.034 * math.exp(0.3 * generator.standard_normal())
        pace = 0.11 * math.exp(0.3 * generator.standard_normal())
        found = learn(played(line, pace, 60, seed))
        inside += abs(math.log(found.line_rad / line)) < 1.2816 * found.line_doubt
        inside += abs(math.log(found.pace / pace)) < 1.2816 * found.pace_doubt
    # 80 % of 80 is 64, binomial standard deviation 3.6.
    assert 53 <= inside <= 75


def test_old_putts_count_less():
    fresh = played(0.05, 0.11, 80, seed=6)
    old = [SeenPutt(p.length_m, p.holed, p.left_m, age_days=1460.0) for p in fresh]
    assert learn(fresh).line_rad > learn(old).line_rad > 0.034


def test_make_rates_count_every_putt():
    putts = played(0.034, 0.11, 300, seed=8)
    bands = learn(putts).bands
    assert sum(b.tried for b in bands) == 300
    assert sum(b.holed for b in bands) == sum(p.holed for p in putts)
    assert sum(b.expected for b in bands) == pytest.approx(sum(p.holed for p in putts), rel=0.2)
