"""Is the result of a shot heard where it was not told as one?"""

from typing import Any

import pytest

from bot import app
from bot.model.measure import Measure
from bot.model.reading import Lie, Result
from bot.storage.memory import MemoryStore
from bot.turn.implied import apart
from tests.support.chats import DEMO, Speaker, say


def talk(*texts: str) -> tuple[list[dict[str, Any]], list[tuple[str, ...]]]:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    conversation = app.conversation(store)
    lines = [
        conversation.handle(say(Speaker(), text, str(n))).lines for n, text in enumerate(texts)
    ]
    return [e.body for e in store.entries(player="me", kinds=("result",))], lines


def test_a_new_distance_is_the_result_of_the_shot_before() -> None:
    (result,), lines = talk("285 to go, fairway", "118 left, calm")
    assert result["told"]["total"] == {"value": pytest.approx(167.0), "unit": "yd"}
    assert result["told"]["implied"] is True
    assert result["seen"] is None  # nobody named the club
    assert any("167" in line for line in lines[1])
    assert "118" in lines[1][0]


def test_a_club_beside_the_new_distance_is_the_one_that_got_there() -> None:
    (result,), _ = talk("285 to go, fairway", "5 iron, good, 118 left")
    assert result["club"] == "5i"


@pytest.mark.parametrize("again", ["118, into 10", "120 back pin", "112"])
def test_the_same_shot_told_anew_is_no_result(again: str) -> None:
    results, _ = talk("118", again)
    assert not results


def test_farther_than_any_club_goes_is_no_result() -> None:
    results, _ = talk("520 to go, fairway", "150, into 10")
    assert not results


def test_another_hole_is_no_result() -> None:
    results, _ = talk("hole 3 par 4 382", "hole 4 par 3 164")
    assert not results


def test_a_putt_tells_how_close_the_approach_came() -> None:
    (result,), _ = talk("160, calm", "18 ft putt, flat, straight")
    assert result["told"]["proximity"] == {"value": 18.0, "unit": "ft"}
    assert result["told"]["lie"] == ["green"]


def test_a_bare_club_and_lie_after_advice_is_a_result() -> None:
    (result,), lines = talk("382 par 4 tee shot", "driver fairway")
    assert (result["club"], result["told"]["lie"]) == ("D", ["fairway"])
    assert lines[1][0].startswith("Kept: driver")


@pytest.mark.parametrize("asked", ["what about 3 wood?", "3 wood?", "driver from the fairway?"])
def test_a_question_about_a_club_is_no_result(asked: str) -> None:
    results, _ = talk("285 to go, fairway", asked)
    assert not results


def test_several_strokes_in_one_breath_come_apart() -> None:
    told = Result(
        club="7i", side="right", depth="short", lie=("bunker",),
        proximity=Measure(value=8, unit="ft"), putts=2,
    )  # fmt: skip
    swing, out, putts = apart(told)
    lies: tuple[Lie, ...] = ("bunker",)
    assert (swing.club, swing.lie, swing.proximity, swing.putts) == ("7i", lies, None, None)
    assert out.proximity is not None
    assert out.club is None
    assert (putts.putts, putts.putt, putts.holed) == (2, True, True)


def test_the_same_result_twice_is_kept_once() -> None:
    results, lines = talk("160, calm", "7 iron, short right", "7 iron, short right")
    assert len(results) == 1
    assert lines[2] == ("I have that one already.",)


def test_a_bare_club_corrects_the_result_before() -> None:
    results, lines = talk("160, calm", "7 iron, short right", "no, it was the 6 iron")
    assert [r["club"] for r in results] == ["6i"]
    assert results[0]["told"]["depth"] == "short"
    assert results[0]["shot"] == "0"
    assert lines[2][0].startswith("Corrected: 6-iron")


def test_a_result_for_a_shot_never_asked_is_kept() -> None:
    (result,), _ = talk("hit 7 iron short right in the bunker")
    assert result["shot"] is None
    assert result["priced"] is None


def test_two_presses_are_one_stroke() -> None:
    results, _ = talk("160, calm", "hit 7-iron", "on the green")
    (result,) = results
    assert (result["club"], result["told"]["lie"], result["shot"]) == ("7i", ["green"], "0")


def test_a_missing_result_is_asked_once_with_the_score() -> None:
    results, lines = talk(
        "start round", "practice", "hole 1 par 4", "160, calm", "two putts", "made 5",
        "hole 2 par 3", "made 4",
    )  # fmt: skip
    assert lines[5][1].startswith("How did the")
    assert len(lines[7]) == 1
    assert len(results) == 1


def test_the_answer_to_a_missing_result_belongs_to_its_hole() -> None:
    results, _ = talk(
        "start round", "practice", "hole 1 par 4", "160, calm", "two putts", "made 5",
        "short right in the bunker",
    )  # fmt: skip
    assert results[1]["shot"] == "3"
    assert results[1]["told"]["depth"] == "short"
