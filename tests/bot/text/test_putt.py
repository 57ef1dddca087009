"""Which words of a putt go together: strength, second sides, sizes, mirrored sides."""

import pytest

from bot.model.reading import Answered, Expecting, Shot
from bot.text.read import read


def putt(text):
    (act,) = read(text).acts
    assert isinstance(act, Shot), act
    assert act.kind == "putt"
    return act.facts.putt


@pytest.mark.parametrize("verb", ["falls", "breaks", "moves", "turns", "runs", "swings", "goes"])
def test_any_verb_of_the_ball_gives_its_side(verb):
    assert putt(f"27 foot putt, {verb} left, running away from me").break_to == "left"


@pytest.mark.parametrize(
    ("text", "length", "side", "slope"),
    [
        ("8 ft straight", 8, None, None),
        ("30 feet, slight right to left, fast", 30, "left", None),
        ("35 feet, uphill then right to left", 35, "left", "up"),
        ("10 ft uphill, straight", 10, None, "up"),
        ("20 ft, putter or chip?", 20, None, None),
    ],
)
def test_feet_with_a_line_are_a_putt(text, length, side, slope):
    told = putt(text)
    assert (told.length.value, told.break_to, told.slope) == (length, side, slope)


@pytest.mark.parametrize(
    "text", ["up 8 ft, left to right", "160 into 18, up 8 ft", "uphill 8 ft, wind left to right"]
)
def test_feet_of_height_are_none(text):
    (act,) = read(text).acts
    assert act.facts.putt is None


def test_words_say_how_steep_and_how_far():
    told = putt("25 ft putt slightly downhill, big break left to right")
    assert (told.slope, told.slope_word) == ("down", "little")
    assert (told.break_to, told.break_word) == ("right", "big")


@pytest.mark.parametrize(
    "text",
    [
        "12 ft putt breaks left a cup",
        "20 foot putt breaks 6 inches right, uphill",
        "8 ft putt, half a cup out on the left",
        "18 ft putt, two balls outside left",
        "10 footer, right then left",
        "15 ft putt left to right 2%",
        "15 foot putt, left edge",
        "9 ft putt left",
    ],
)
def test_the_mirrored_words_mean_the_mirrored_putt(text):
    swap = {"left": "right", "right": "left", None: None}
    mirrored = " ".join(
        swap.get(w.strip(","), w.strip(",")) + ("," if w.endswith(",") else "")
        for w in text.split()
    )
    one, other = putt(text), putt(mirrored)
    assert other == one.model_copy(
        update={
            "break_to": swap[one.break_to],
            "second_break_to": swap[one.second_break_to],
        }
    )


@pytest.mark.parametrize(
    ("text", "side", "slope"),
    [
        ("breaks right", "right", None),
        ("down 2%, breaks left a cup", "left", "down"),
        ("left to right a cup", "right", None),
        ("uphill", None, "up"),
        ("flat", None, "flat"),
    ],
)
def test_the_slope_asked_for_is_told_in_any_way(text, side, slope):
    (act,) = read(text, Expecting(about="slope")).acts
    assert isinstance(act, Answered)
    assert act.facts.putt is not None
    assert (act.facts.putt.break_to, act.facts.putt.slope) == (side, slope)


def test_a_wind_told_with_a_putt_is_no_break():
    (act,) = read("20 ft putt flat, 20 mph wind left to right").acts
    assert act.facts.putt.break_to is None
    assert act.facts.wind.from_deg == 270.0
    (act,) = read("20 ft putt breaks left, wind 25 off the right").acts
    assert act.facts.putt.break_to == "left"
    assert act.facts.wind.from_deg == 90.0


def test_straight_answers_the_slope():
    (act,) = read("straight", Expecting(about="slope")).acts
    assert act.facts.shape == "straight"


def test_a_new_shot_is_not_taken_for_the_answer():
    (act,) = read("160 into 18", Expecting(about="slope")).acts
    assert isinstance(act, Shot)


def test_green_speed_is_told_on_its_own():
    (act,) = read("greens running 11").acts
    assert act.facts.green.stimp == 11
