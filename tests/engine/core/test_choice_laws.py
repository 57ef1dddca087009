"""Order laws of the choice: what must never happen, whatever the shot."""

from __future__ import annotations

from dataclasses import replace
from functools import cache

import numpy as np
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.api.standard import physics
from engine.core.choice import Decider
from engine.core.flown import fly_bag
from engine.core.pattern import Pattern
from engine.core.wind import Wind
from tests.support.golfers import BOGEY, YD, bogey, golfer, plain_pattern, scratch, solved
from tests.support.scenes import approach, water

SHOTS = settings(max_examples=300, deadline=None, derandomize=True)
GRAIN = 0.003  # rad: aims closer than this are the same aim
SLACK = 0.002  # strokes: half the accuracy of the figures


@cache
def table(name: str):
    return solved({"bogey": bogey, "scratch": scratch}[name]())


def one_swing(pin_yd: float, side_deg: float, *, hand: int = 1, long: float = 0.07) -> Pattern:
    """Return the pattern of a full iron that finishes at the pin, curve and misses even."""
    player = golfer(
        BOGEY, long=long, side_deg=side_deg, mishit=0.08, chip=0.2, sand=0.3, chip_mishit=0.1,
        putt_deg=2.0, pace=0.15, hand=hand,
    )  # fmt: skip
    _, pattern = plain_pattern(player)
    whole = replace(
        pattern,
        reach_m=pattern.reach_m
        * (pin_yd * YD / (pattern.reach_m[:, :1] + pattern.run_m[:, None])),
    )
    return whole.taken([10])


def aim(scene, pattern: Pattern) -> float:
    return float(Decider(scene=scene, pattern=pattern, table=table("bogey")).start_rad[0])


@SHOTS
@given(
    pin=st.floats(90, 190), gap=st.floats(4, 25), side_deg=st.floats(2.5, 6.0),
    wider=st.floats(1.05, 1.5),
)  # fmt: skip
def test_a_wider_pattern_never_aims_closer_to_trouble(pin, gap, side_deg, wider):
    scene = approach(pin, water(1, 12 + gap))
    tight, wide = (aim(scene, one_swing(pin, s)) for s in (side_deg, side_deg * wider))
    assert wide <= tight + GRAIN


@SHOTS
@given(
    pin=st.floats(90, 190), gap=st.floats(2, 40), side_deg=st.floats(2.5, 6.0),
    pin_side=st.floats(-8, 8),
)  # fmt: skip
def test_trouble_never_draws_the_aim_to_its_side(pin, gap, side_deg, pin_side):
    pattern = one_swing(pin, side_deg)
    plain = aim(approach(pin, pin_side=pin_side), pattern)
    wet = aim(approach(pin, water(1, 12 + abs(pin_side) + gap), pin_side=pin_side), pattern)
    assert wet <= plain + GRAIN


@SHOTS
@given(
    pin=st.floats(90, 190), gap=st.floats(2, 20), side_deg=st.floats(2.5, 6.0),
    tighter=st.floats(0.5, 0.95), wet=st.booleans(),
)  # fmt: skip
def test_a_tighter_swing_is_never_worse(pin, gap, side_deg, tighter, wet):
    scene = approach(pin, *([water(1, 12 + gap)] if wet else []))
    costs = []
    for scale in (1.0, tighter):
        pattern = one_swing(pin, side_deg * scale, long=0.07 * scale)
        found = Decider(scene=scene, pattern=pattern, table=table("bogey"))
        costs.append(float(found.strokes[0]))
    assert costs[1] <= costs[0] + SLACK


@SHOTS
@given(
    pin=st.floats(90, 150), wind=st.floats(0, 9), more=st.floats(0.5, 3.0),
    side=st.sampled_from([-1, 0, 1]),
)  # fmt: skip
def test_more_head_wind_never_asks_less_club_inside_the_bag(pin, wind, more, side):
    player = scratch()
    scene = approach(pin, *([water(side, 18)] if side else []))
    carries = []
    for speed in (wind, wind + more):
        flown = fly_bag(
            golfer=player, physics=physics(), wind=Wind(speed, 0.0), green_at_m=pin * YD
        )
        full = [i for i, s in enumerate(flown.swings) if s.kind == "full"]
        found = Decider(scene=scene, pattern=flown.pattern.taken(full), table=table("scratch"))
        best = int(np.argmin(found.strokes))
        carries.append(flown.swings[full[best]].carry_m)
    assert carries[1] >= carries[0]
