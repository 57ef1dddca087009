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


BAG = (
    ("D", 235), ("3w", 215), ("5h", 190), ("6i", 170), ("7i", 158), ("8i", 146), ("9i", 134),
    ("PW", 120), ("52", 105), ("56", 90), ("60", 70),
)  # fmt: skip


@pytest.mark.parametrize(
    "text",
    [
        "driver 235, 3w 215, 5h 190, 6i 170, 7i 158, 8i 146, 9i 134, pw 120, 52 105, 56 90, 60 70",
        "driver 235\n3w 215\n5h 190\n6i 170\n7i 158\n8i 146\n9i 134\npw 120\n52 105\n56 90\n60 70",
        "driver 235 three wood 215 five hybrid 190 six iron 170 seven iron 158 eight iron 146"
        " nine iron 134 pitching wedge 120 fifty two 105 fifty six 90 sixty 70",
        "my distances are d 235, 3w 215, 5h 190, 6 170, 7 158, 8 146, 9 134, pw 120, 52-105,"
        " 56-90, 60-70",
    ],
)
def test_a_whole_bag_in_one_message_is_kept_with_its_wedges(text: str) -> None:
    assert facts(text) == [carry(name, value) for name, value in BAG]
    assert read(text).unread == ()


def test_wedges_alone_are_a_bag_from_three_on() -> None:
    assert facts("52: 105, 56: 90, 60: 70") == [carry("52", 105), carry("56", 90), carry("60", 70)]
    assert not any("intent" in f for f in facts("52 105"))


def test_a_total_behind_a_list_is_of_all_of_it_unless_a_carry_is_named() -> None:
    told = facts("driver 235, 3w 215, 7i 158 total")
    assert [f["total"]["value"] for f in told] == [235, 215, 158]
    told = facts("driver carries 235, 7i 158 total")
    assert told[0] == carry("D", 235)
    assert "carry" not in told[1]


@pytest.mark.parametrize("text", ["7 iron 150, 8 left", "8 iron 150 or 7", "7 iron or 8 iron 150"])
def test_a_club_beside_a_shot_is_no_bag(text: str) -> None:
    assert not any("intent" in f for f in facts(text))


def test_several_clubs_are_left_out_at_once() -> None:
    told = facts("don't have a 52, 56 or a 5 wood")
    assert told == [{"intent": "remove_club", "club": c} for c in ("52", "56", "5w")]


@pytest.mark.parametrize(
    "text",
    ["leave 30 out", "i don't have a chance", "lost my ball", "i dropped a 7", "take 2 out"],
)
def test_what_is_no_club_is_not_left_out(text: str) -> None:
    assert not any("intent" in f for f in facts(text))
