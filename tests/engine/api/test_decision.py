"""Scenes of the trade that must come out as a good caddie would say, and bad input.

Expectations are common practice, no source, unless a test says otherwise.
"""

import pytest

from engine import (
    AirFacts,
    LieFacts,
    PlayerFacts,
    PlaysAsQuestion,
    ShotFacts,
    TroubleFacts,
    WindFacts,
    choose,
    quantity,
    shot_plays_as,
    si,
    solve_player,
    start_bag,
    value_of_knowing,
)
from engine.errors import OutOfRange


def yd(value):
    return quantity(value, "yd")


def mph(value):
    return quantity(value, "mph")


def deg(value):
    return quantity(value, "deg")


@pytest.fixture(scope="module")
def fader():
    facts = PlayerFacts(handicap=12, hand=1, miss=1, curve=deg(3))
    golfer = start_bag(facts).golfer
    return golfer, solve_player(golfer)


@pytest.fixture(scope="module")
def drawer():
    facts = PlayerFacts(handicap=12, hand=-1, miss=-1, curve=deg(-3))
    golfer = start_bag(facts).golfer
    return golfer, solve_player(golfer)


def ask(player, **facts):
    golfer, table = player
    return choose(golfer=golfer, table=table, facts=ShotFacts(**facts))


WATER = TroubleFacts("water", "penalty", "right")


@pytest.mark.parametrize(
    "facts",
    [
        {"pin": yd(150)},
        {"pin": yd(160), "height": quantity(8, "ft"), "wind": WindFacts(mph(18), deg(300))},
        {"pin": yd(140), "wind": WindFacts(mph(12), deg(180)), "lie": LieFacts("rough")},
        {"pin": yd(170), "tee": True, "air": AirFacts(temperature=quantity(41, "degF"))},
    ],
    ids=["plain", "wind and height", "from rough", "cold tee"],
)
def test_what_it_plays_comes_with_the_choice_as_it_does_alone(fader, facts):
    golfer, table = fader
    found = choose(golfer=golfer, table=table, facts=ShotFacts(**facts), plays=True)
    air = facts.get("air", AirFacts())
    question = {k: v for k, v in facts.items() if k in ("height", "wind", "lie")}
    alone = shot_plays_as(
        PlaysAsQuestion(golfer=golfer, distance=facts["pin"], air=air, **question)
    )
    for name in ("total", "wind", "height", "air", "lie", "thumb"):
        gap = si(getattr(found.plays, name), "m") - si(getattr(alone, name), "m")
        assert abs(gap) < 1e-9
    assert found.plays.assumed == alone.assumed
    quiet = choose(golfer=golfer, table=table, facts=ShotFacts(**facts))
    assert quiet.plays is None
    assert quiet.best == found.best


def test_par_three_into_and_across_with_water_on_the_slice_side(fader):
    calm = ask(fader, pin=yd(165), tee=True, par=3)
    wind = {"wind": WindFacts(mph(20), deg(35))}
    wet = ask(fader, pin=yd(165), tee=True, par=3, trouble=(WATER,), **wind)
    golfer, _ = fader
    stock = {c.name: c.carry_m for c in golfer.clubs}
    assert stock[wet.best.club] > 1.08 * stock[calm.best.club]
    half = si(wet.best.half_width, "yd")
    assert si(wet.best.start_from_middle, "yd") < half
    assert si(wet.best.finish_at, "yd") <= 1.0


def test_a_tucked_pin_is_not_hunted(fader):
    found = ask(fader, pin=yd(185), pin_across=-1.0, height=quantity(9, "ft"), par=4, stroke=2)
    from_pin = si(found.best.finish_at, "yd")
    to_middle = -si(found.pin_from_middle, "yd")
    assert 0.4 * to_middle <= from_pin <= 1.5 * to_middle


def test_lay_up_short_of_sand_it_cannot_carry(fader):
    sand = TroubleFacts("sand", "sand", "across", start=yd(205), end=yd(235))
    found = ask(fader, pin=yd(355), trouble=(sand,), par=5, stroke=2)
    assert si(found.best.total, "yd") < 205
    assert found.best.chance["sand"] < 0.15


def test_a_hole_that_bends_with_the_fade_is_started_up_the_left(fader):
    trees = TroubleFacts("trees", "trees", "right")
    found = ask(fader, pin=yd(415), tee=True, bend=1, trouble=(trees,), par=4)
    assert si(found.best.start_at, "yd") < 0
    assert -si(found.best.half_width, "yd") < si(found.best.finish_from_middle, "yd") < 2


def test_a_left_hander_gets_the_mirrored_answer_to_the_bit(fader, drawer):
    right = ask(
        fader, pin=yd(165), trouble=(WATER,), wind=WindFacts(mph(15), deg(60)), pin_across=0.5
    )
    left = ask(
        drawer, pin=yd(165), trouble=(TroubleFacts("water", "penalty", "left"),),
        wind=WindFacts(mph(15), deg(300)), pin_across=-0.5,
    )  # fmt: skip
    assert right.best.club == left.best.club
    assert right.best.strokes == left.best.strokes
    assert si(right.best.start, "rad") == -si(left.best.start, "rad")
    assert right.best.chance == left.best.chance


def test_asking_the_side_of_a_cross_wind_is_worth_it_and_small_talk_is_not(fader):
    golfer, table = fader
    base = {"pin": yd(160), "trouble": (WATER,)}
    sides = [(0.5, ShotFacts(**base, wind=WindFacts(mph(18), deg(a)))) for a in (90, 270)]
    same = [(0.5, ShotFacts(**base, wind=WindFacts(mph(18), deg(0))))] * 2
    assert value_of_knowing(golfer=golfer, table=table, answers=sides) > 0.05
    assert value_of_knowing(golfer=golfer, table=table, answers=same) < 1e-6


def test_comparing_two_clubs_uses_the_same_surfaces(fader):
    found = ask(fader, pin=yd(150), par=4, stroke=2)
    again = found.play(found.best.club, found.best.kind)
    assert again == found.best
    assert found.play("7i").strokes >= found.best.strokes - 0.05
    assert found.play("no such club") is None
    assert found.ruled_out["D", "full"] == "loft"


@pytest.mark.parametrize("pin", [0.0, 3.0, 900.0])
def test_a_distance_that_cannot_be_is_refused(fader, pin):
    with pytest.raises(OutOfRange):
        ask(fader, pin=yd(pin))


def test_trouble_everywhere_still_gets_an_answer(fader):
    sides = ("left", "right", "short", "long")
    everywhere = tuple(TroubleFacts(f"water {s}", "penalty", s) for s in sides)
    found = ask(fader, pin=yd(150), trouble=everywhere, par=3)
    assert found.best.strokes < 5.5
