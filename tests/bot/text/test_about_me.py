"""Facts about the player listed in one breath, and lists that are something else."""

from __future__ import annotations

from typing import Any

import pytest

from bot.model.reading import Expecting
from bot.text.read import read

Asked = str | None


def facts(text: str, asked: Asked = None) -> list[dict[str, Any]]:
    reading = read(text, Expecting(about=asked) if asked else None)  # type: ignore[arg-type]
    return [a.model_dump(exclude_defaults=True) for a in reading.acts]


def carry(club: str, value: float, unit: str = "", **more: object) -> dict[str, Any]:
    measure = {"value": value, "unit": unit} if unit else {"value": value}
    return {"intent": "set_club", "club": club, "carry": measure, **more}


def handicap(value: float) -> dict[str, Any]:
    return {"intent": "set_handicap", "handicap": value}


SLICE = {"intent": "set_shape", "shape": "slice"}


@pytest.mark.parametrize(
    ("text", "asked", "expected"),
    [
        (
            "driver 230, 7 iron 150, slice, about 18 handicap, lefty no",
            None,
            [
                carry("D", 230), carry("7i", 150), SLICE, handicap(18),
                {"intent": "set_hand", "hand": "right"},
            ],
        ),
        ("7 iron 150, handicap 18", None, [carry("7i", 150), handicap(18)]),
        ("I'm a novice, driver 175, 7 iron 105, slice", None,
         [carry("D", 175), carry("7i", 105), SLICE]),
        ("short hitter, driver 175, 7 iron 105, average carries", None,
         [carry("D", 175), carry("7i", 105)]),
        ("7 iron 150 handicap 18", "club_carry", [carry("7i", 150), handicap(18)]),
        ("7i 150", "club_carry", [carry("7i", 150)]),
        ("150, 18", "club_carry", [carry("7i", 150), handicap(18)]),
        ("150 and 18", "club_carry", [carry("7i", 150), handicap(18)]),
        (
            "metric, lefty, 7 iron 130 m, handicap 9.4",
            None,
            [
                {"intent": "set_units", "units": "metric"}, {"intent": "set_hand", "hand": "left"},
                carry("7i", 130, "m"), handicap(9.4),
            ],
        ),
        ("I'm scratch, driver 270, draw", None,
         [handicap(0), carry("D", 270), {"intent": "set_shape", "shape": "draw"}]),
        ("52 deg 100, 56 degree 84, 60 70", "clubs",
         [carry("52", 100), carry("56", 84), carry("60", 70)]),
        ("driver 240 total, 7 iron 150", None,
         [{"intent": "set_club", "club": "D", "total": {"value": 240}}, carry("7i", 150)]),
        ("9 iron 120, pw 108, gap 95, sand 80", None,
         [carry("9i", 120), carry("PW", 108), carry("GW", 95), carry("SW", 80)]),
        ("+2", "handicap", [handicap(-2)]),
        ("I shoot 92", "handicap", [{"intent": "set_handicap", "usual_score": 92}]),
        ("a slice", "shape", [SLICE]),
        ("two way", "miss", [{"intent": "set_miss", "miss": "both"}]),
        ("lefty", "hand", [{"intent": "set_hand", "hand": "left"}]),
    ],
)  # fmt: skip
def test_lists_of_facts(text: str, asked: Asked, expected: list[dict[str, Any]]) -> None:
    assert facts(text, asked) == expected


@pytest.mark.parametrize(
    ("text", "asked"),
    [
        ("7 iron 150", None),
        ("7i 150, into 10", None),
        ("155, fade", None),
        ("160 into 12, water right", "club_carry"),
        ("7 iron 148, 5 right", None),
        ("7 or 6?", None),
        ("7i 150 or 6i 160?", None),
        ("driver, water right", None),
    ],
)
def test_shots_and_results_stay_what_they_are(text: str, asked: Asked) -> None:
    assert all("intent" not in f for f in facts(text, asked))


def test_the_bag_is_asked_for_in_a_word() -> None:
    assert facts("bag") == [{"intent": "show"}]
    assert facts("bag 7i") == [{"intent": "show", "club": "7i"}]


def test_learning_by_itself_is_switched_in_words() -> None:
    always = {"intent": "apply_learning", "part": "always"}
    assert facts("learn by yourself") == [always]
    assert facts("always learn") == [always]
    assert facts("ask before you learn") == [{"intent": "apply_learning", "part": "never"}]
    assert facts("learn") == [{"intent": "learn"}]


def test_a_score_is_no_handicap_whatever_was_asked() -> None:
    (act,) = read("made 5", Expecting(about="handicap")).acts
    assert act.act == "score"


def test_a_mark_behind_a_number_is_no_unit_of_a_carry() -> None:
    assert facts("7i 150*, 8i 140") == [carry("7i", 150), carry("8i", 140)]


@pytest.mark.parametrize(
    "text",
    [
        "3w is gone, 4 hybrid goes in, that one carries 188",
        "3 wood out, 4 hybrid in, it carries 188",
    ],
)
def test_one_club_for_another(text: str) -> None:
    gone, come = facts(text)
    assert gone == {"intent": "remove_club", "club": "3w"}
    assert come == {"intent": "add_club", "club": "4h", "carry": {"value": 188.0}}
