"""Putts in the player's units: told breaks, words, mirror images and what cannot be."""

import pytest

from engine import (
    Fall,
    PuttQuestion,
    ShortGame,
    green_word,
    plan_putt,
    quantity,
    si,
    side_slope_of_break,
    worth_of_reading,
)
from engine.errors import OutOfRange

PLAYER = ShortGame(
    chip_spread=0.2, sand_spread=0.3, chip_mishit=0.1, putt_line_rad=0.034, putt_pace=0.115
)


def level(percent=0.0):
    return quantity(percent, "%")


def plan(ft, *falls, stimp_ft=10.0):
    return plan_putt(PuttQuestion(quantity(ft, "ft"), falls, quantity(stimp_ft, "ft"), PLAYER))


def test_ground_high_on_the_right_is_aimed_right():
    assert si(plan(10, Fall(level(), level(2.0))).aim, "in") > 6
    assert si(plan(10, Fall(level(), level(-2.0))).aim, "in") < -6


@pytest.mark.parametrize("inches", [3.0, 12.0, 30.0])
@pytest.mark.parametrize("up", [-1.5, 0.0, 2.0])
def test_a_break_told_in_inches_comes_back_as_aim(inches, up):
    # A break of so many inches to the left is started about that far right of the hole.
    length, stimp = quantity(15, "ft"), quantity(10, "ft")
    right = side_slope_of_break(
        length=length, up=level(up), stimp=stimp, break_right=quantity(-inches, "in")
    )
    assert si(right, "%") > 0
    assert si(plan(15, Fall(level(up), right)).aim, "in") == pytest.approx(inches, rel=0.15)


def test_slope_in_degrees_per_cent_and_height_agree():
    by_grade = plan(20, Fall(level(2.0), level(0.0)))
    by_angle = plan(20, Fall(quantity(1.1458, "deg"), level(0.0)))
    by_rise = plan(20, Fall(quantity(0.4, "ft"), level(0.0)))
    assert si(by_angle.roll, "ft") == pytest.approx(si(by_grade.roll, "ft"), rel=1e-3)
    assert si(by_rise.roll, "ft") == pytest.approx(si(by_grade.roll, "ft"), rel=1e-3)


def test_uphill_is_hit_like_a_longer_putt():
    # Energy: (5/7) g s / a is 0.26 at stimp 10 and 2 %, so the pace grows by about a quarter.
    up, down = plan(20, Fall(level(2.0), level())), plan(20, Fall(level(-2.0), level()))
    assert si(up.roll, "ft") == pytest.approx(20 * 1.26 + si(up.past, "ft") * 1.26, rel=0.02)
    assert si(down.roll, "ft") == pytest.approx(20 * 0.74 + si(down.past, "ft") * 0.74, rel=0.03)


def test_double_break_takes_its_halves_in_order():
    first = plan(20, Fall(level(), level(2.0), share=0.5), Fall(level(), level(-2.0)))
    swapped = plan(20, Fall(level(), level(-2.0), share=0.5), Fall(level(), level(2.0)))
    assert si(first.aim, "m") == -si(swapped.aim, "m") != 0.0
    # The slope near the ball turns it while there is most way still to go.
    assert si(first.aim, "in") > 0


@pytest.mark.parametrize(
    ("kind", "words"),
    [
        ("speed", ("slow", "medium", "fast", "very_fast")),
        ("side", ("little", "some", "big")),
        ("grade", ("flat", "little", "some", "big")),
    ],
)
def test_words_rise_in_order(kind, words):
    unit = "ft" if kind == "speed" else "%"
    values = [si(green_word(kind, word), unit) for word in words]
    assert values == sorted(values)


def test_an_unknown_word_is_an_error():
    with pytest.raises(KeyError):
        green_word("side", "enormous")


def test_slope_is_worth_knowing_except_for_a_tap_in():
    def worth(ft):
        return worth_of_reading(
            length=quantity(ft, "ft"), stimp=quantity(10, "ft"), short=PLAYER, told=None
        )

    assert worth(1.0) < 0.05 < worth(6.0)
    assert worth(30.0) > 0.05


@pytest.mark.parametrize(
    ("ft", "up", "right", "stimp_ft", "name"),
    [
        (250, 0, 0, 10, "putt length"),
        (0.2, 0, 0, 10, "putt length"),
        (float("nan"), 0, 0, 10, "putt length"),
        (20, -10, 0, 10, "slope at the hole"),
        (20, 0, 9, 11, "slope at the hole"),
        (20, 40, 0, 10, "slope"),
        (20, 0, 0, 30, "green speed"),
    ],
)
def test_what_no_green_has_is_named(ft, up, right, stimp_ft, name):
    with pytest.raises(OutOfRange) as caught:
        plan(ft, Fall(level(up), level(right)), stimp_ft=stimp_ft)
    assert caught.value.name == name


def test_a_break_no_green_has_is_named():
    with pytest.raises(OutOfRange) as caught:
        side_slope_of_break(
            length=quantity(10, "ft"),
            up=level(),
            stimp=quantity(10, "ft"),
            break_right=quantity(40, "ft"),
        )
    assert caught.value.name == "break"
