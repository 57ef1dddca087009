"""Short shots: sense of the trade, published averages, a plain simulation, and bad input."""

import math

import numpy as np
import pytest

from engine import ChipQuestion, Club, Golfer, ShortGame, plan_chip, quantity, si
from engine.errors import NoSolution, OutOfRange

WEDGES = (("7i", 34), ("8i", 38), ("9i", 42), ("PW", 46), ("52", 52), ("56", 56), ("60", 60))
YD = 0.9144
# A professional's touch: putting as in test_putts; chips and sand fitted to the rows below.
PROFESSIONAL = ShortGame(
    chip_spread=0.11, sand_spread=0.19, chip_mishit=0.01, putt_line_rad=0.0239, putt_pace=0.10
)
CLUB_PLAYER = ShortGame(
    chip_spread=0.2, sand_spread=0.3, chip_mishit=0.1, putt_line_rad=0.038, putt_pace=0.11
)


def golfer(short=CLUB_PLAYER, clubs=WEDGES):
    made = tuple(
        Club(name, "iron", math.radians(loft), 130.0 - loft, 0.08, 0.08) for name, loft in clubs
    )
    return Golfer(clubs=made, hand=1, curve_rad=0.0, miss=0, short=short)


def plan(yards, lie="fairway", short=CLUB_PLAYER, **more):
    for name in ("edge", "height"):
        if name in more:
            more[name] = quantity(more[name], "yd")
    for name in ("up", "right"):
        if name in more:
            more[name] = quantity(more[name], "%")
    return plan_chip(ChipQuestion(golfer(short), quantity(yards, "yd"), lie, **more))


def best(*args, kind=None, club=None, **more):
    choices = plan(*args, **more).choices
    return next(
        c for c in choices if (kind is None or c.kind == kind) and (club is None or c.club == club)
    )


@pytest.mark.parametrize(
    ("yards", "lie", "strokes"),
    [
        (10, "fairway", 2.18), (20, "fairway", 2.40), (30, "fairway", 2.52),
        (10, "rough", 2.34), (20, "rough", 2.59),
        (10, "sand", 2.43), (20, "sand", 2.53),
    ],
)  # fmt: skip
def test_a_professional_takes_about_the_published_strokes(yards, lie, strokes):
    # Broadie, Every Shot Counts (2014), average strokes to hole out (from memory): a band of
    # 0.13, for the rows are from memory and average over greens, pins and slopes.
    found = plan(yards, lie, PROFESSIONAL, stimp=quantity(10.5, "ft"))
    assert found.choices[0].expected == pytest.approx(strokes, abs=0.13)


@pytest.mark.parametrize(
    ("kind", "club", "low", "high"),
    [("bump", "7i", 2.5, 5.0), ("bump", "9i", 2.0, 3.5), ("chip", "PW", 1.3, 2.5),
     ("chip", "56", 0.8, 1.8), ("pitch", "60", 0.4, 1.2), ("flop", "60", 0.1, 0.6)],
)  # fmt: skip
def test_run_over_carry_is_the_trades(kind, club, low, high):
    # Common practice, no source: 7-iron about 4 to 1, 9-iron 3, pitching wedge 2, sand wedge
    # 1 to 1.5, a lob about half.
    found = best(14, kind=kind, club=club, edge=2.0, stimp=quantity(10, "ft"))
    assert low <= si(found.run, "m") / si(found.carry, "m") <= high


def test_the_putter_wins_from_the_fringe_and_not_over_sand():
    assert plan(10, "fringe").choices[0].kind == "putter"
    assert all(c.kind != "putter" for c in plan(12, "fairway", over=True).choices)
    assert all(c.kind != "putter" for c in plan(12, "rough").choices)


def test_a_poor_chipper_putts_from_further_out():
    steady = plan(15, "fairway", PROFESSIONAL, edge=5.0)
    poor = plan(15, "fairway", edge=5.0)
    assert steady.choices[0].kind != "putter"
    assert poor.choices[0].kind == "putter"


def test_little_green_over_trouble_wants_height_and_a_safe_target():
    short_sided = plan(10, "fairway", edge=7.5, over=True).choices[0]
    plenty = plan(10, "fairway", edge=2.0).choices[0]
    assert short_sided.kind in ("flop", "pitch")
    assert short_sided.club == "60"
    assert si(short_sided.past, "m") > si(plenty.past, "m") + 1.0
    assert short_sided.expected > plenty.expected + 0.3


def test_a_worse_lie_costs_more():
    costs = [
        plan(15, lie).choices[0].expected
        for lie in ("fringe", "fairway", "first_cut", "rough", "deep_rough")
    ]
    assert costs == sorted(costs)
    assert plan(15, "buried").choices[0].expected > plan(15, "sand").choices[0].expected + 0.3


def test_a_buried_ball_runs():
    buried, clean = best(15, "buried"), best(15, "sand")
    assert si(buried.run, "m") / si(buried.carry, "m") > si(clean.run, "m") / si(clean.carry, "m")


def test_firm_and_downhill_land_it_shorter():
    level = best(20, kind="chip", club="56", edge=2.0)
    firm = best(20, kind="chip", club="56", edge=2.0, firmness="firm")
    down = best(20, kind="chip", club="56", edge=2.0, up=-2.0)
    assert si(firm.carry, "m") < si(level.carry, "m")
    assert si(down.carry, "m") < si(level.carry, "m")


def test_mirrored_greens_cost_the_same():
    left, right = plan(15, right=2.0).choices, plan(15, right=-2.0).choices
    assert [c.club for c in left] == [c.club for c in right]
    assert [c.expected for c in left] == pytest.approx([c.expected for c in right])


def test_expected_strokes_of_a_clean_pitch_against_playing_it():
    # Plain draws of the same player, holed out by the level putting table of test_putts.
    from engine.core.putts import expected_putts

    short = ShortGame(0.15, 0.2, 0.0, putt_line_rad=0.03, putt_pace=0.11)
    found = next(
        c
        for c in plan(25, "fairway", short, edge=3.0).choices
        if (c.kind, c.club) == ("chip", "56")
    )
    generator = np.random.default_rng(5)
    n, far = 200_000, 25 * YD
    total, run = far + si(found.past, "m"), si(found.run, "m")
    sd = math.hypot(0.15 * total, 0.1 * run)
    along = total + sd * generator.standard_normal(n) - far
    across = 0.035 * total * generator.standard_normal(n)
    left = np.hypot(along, across)
    speed = np.sqrt(np.maximum(along, 0) * 1.8288**2 / (9.5 * 0.3048))
    holed = (along > -0.054) & (speed < 1.63 * (1 - (across / 0.054) ** 2))
    putts = expected_putts(length_m=left, short=short, stimp_m=9.5 * 0.3048)
    assert found.expected == pytest.approx(1 + np.where(holed, 0.0, putts).mean(), abs=0.03)


def test_chances_are_chances():
    for lie in ("fringe", "fairway", "rough", "sand", "buried"):
        for choice in plan(18, lie).choices:
            assert 0.0 <= choice.saves <= 1.0
            assert 0.0 <= choice.short <= 1.0
            assert choice.expected >= 1.0


@pytest.mark.parametrize(
    ("yards", "more", "name"),
    [
        (90, {}, "chip distance"),
        (0.5, {}, "chip distance"),
        (float("nan"), {}, "chip distance"),
        (15, {"edge": 16.0}, "green edge"),
        (15, {"edge": -2.0}, "green edge"),
        (15, {"up": 60.0}, "slope"),
        (15, {"up": -12.0}, "slope at the hole"),
    ],
)
def test_what_cannot_be_is_named(yards, more, name):
    with pytest.raises(OutOfRange) as caught:
        plan(yards, **more)
    assert caught.value.name == name


def test_a_bag_without_a_club_for_the_lie():
    with pytest.raises(NoSolution):
        plan_chip(ChipQuestion(golfer(clubs=(("7i", 34),)), quantity(15, "yd"), "deep_rough"))
