"""Is the aim a player tells kept with its stroke, and judged by what was known before it?"""

from __future__ import annotations

from typing import Any

import pytest

from bot.conversation import Conversation
from bot.model.review import ReviewShown
from bot.storage.memory import MemoryStore
from tests.support.chats import Speaker, play, say

WATER = "148, into 12, water right"
HEAD = "# an aim\n@ demo\n> start round, Saltmarrow Links, white tees, practice\n"


def talk(*said: str) -> tuple[MemoryStore, list[str]]:
    """Return the store and the first line of each reply, after the start of a round."""
    store = MemoryStore()
    text = HEAD + "".join(f"> {one}\n" for one in said)
    _, replies = play(text, store)
    return store, [r.lines[0] for r in replies[1:]]


def results(store: MemoryStore) -> list[dict[str, Any]]:
    return [e.body for e in store.entries(player="me", kinds=("result",))]


def test_an_aim_is_kept_and_priced() -> None:
    store, lines = talk(WATER, "aimed at the flag, came up short")
    assert "aimed at the flag, short" in lines[-1]
    (kept,) = results(store)
    worth = kept["priced"]
    assert kept["told"]["aim"] == {"at": "pin"}
    assert worth["aim"]["cost"] > 0.005
    assert worth["played"] == pytest.approx(worth["best"] + worth["aim"]["cost"])
    assert worth["taken"] is False


@pytest.mark.parametrize("ending", ["short", "10 feet", "right, water", "holed it"])
def test_the_price_of_an_aim_does_not_know_where_the_ball_went(ending: str) -> None:
    store, _ = talk(WATER, f"aimed at the flag, {ending}")
    other, _ = talk(WATER, "aimed at the flag, long left")
    assert results(store)[0]["priced"] == results(other)[0]["priced"]


def test_what_was_learned_after_the_stroke_is_not_held_against_it() -> None:
    """A report of another wind, told between the shot and its result, changes no price."""
    first, _ = talk("148, water right", "aimed at the flag, short")
    store, _ = talk(
        "148, water right",
        "METAR EGXX 010850Z 27025KT 9999 FEW030 12/07 Q1009",
        "aimed at the flag, short",
    )
    assert results(store)[0]["priced"] == results(first)[0]["priced"]


def test_where_the_words_leave_two_meanings_the_cheaper_one_counts() -> None:
    """The demo player fades it: started at the flag it finishes towards the water."""
    costs = {}
    for verb in ("aimed at", "started it at", "went for"):
        store, _ = talk(WATER, f"{verb} the flag, short")
        costs[verb] = results(store)[0]["priced"]["aim"]["cost"]
    assert costs["started it at"] > costs["went for"]
    assert costs["aimed at"] == min(costs.values())


def test_the_line_that_was_advised_is_no_departure() -> None:
    store, _ = talk(WATER, "took your line, short")
    worth = results(store)[0]["priced"]
    assert worth["taken"] is True
    assert worth["played"] == worth["best"]


def test_a_mark_nobody_can_place_costs_nothing_and_teaches_no_side() -> None:
    store, lines = talk(WATER, "aimed at the left bunker, pushed it right")
    assert "not weighed" in lines[-1]
    (kept,) = results(store)
    assert "aim" not in kept["priced"]
    assert kept["priced"]["taken"] is True
    assert "lie" not in kept["told"]
    assert kept["seen"]["left_rad"] is None
    assert kept["seen"]["right_rad"] is None


def test_an_aim_told_alone_waits_for_where_the_ball_went() -> None:
    store, lines = talk(WATER, "went straight at it", "short right")
    assert lines[-1].startswith("Kept: ")
    (kept,) = results(store)
    assert (kept["told"]["depth"], kept["told"]["aim"]["at"]) == ("short", "pin")


def test_an_aim_told_late_mends_the_result_before_it() -> None:
    store, lines = talk(WATER, "7 iron, short", "aimed at the flag")
    assert lines[-1].startswith("Corrected: 7-iron, aimed at the flag, short")
    assert len(results(store)) == 1


def test_a_ball_out_of_bounds_is_played_again_and_not_mended() -> None:
    store, _ = talk("148, ob right", "aimed at the flag, right, ob", "reload, aimed left edge")
    first, second = results(store)
    assert (first["penalty"], second["penalty"]) == (1, 0)
    assert second["told"]["aim"]["at"] == "left_edge"


def test_an_aim_and_the_next_distance_are_one_stroke() -> None:
    store, _ = talk(
        "hole 3 par 5 512, ob right", "driver, fairway", "230 to go",
        "4 hybrid, aimed at the left edge, 40 left",
    )  # fmt: skip
    kept = results(store)[-1]
    assert (kept["club"], kept["told"]["aim"]["at"]) == ("4h", "left_edge")
    assert kept["told"]["implied"] is True


def test_the_review_names_the_aim_apart_from_the_club() -> None:
    store, _ = talk(
        "hole 1 par 3 164, water right", "5 iron, aimed at the right edge, 20 feet", "2 putts, 3"
    )
    handled = Conversation(store).process(say(Speaker(), "review choices", "review"))
    review = ReviewShown.model_validate(handled.answers[0])
    leg = review.rounds[0].holes[0].legs[0]
    assert leg.cause == "club"
    assert dict(leg.causes)["side"] == pytest.approx(leg.aim)
    assert sum(cost for _, cost in leg.causes) == pytest.approx(leg.choice)
    assert sum(review.by_cause.values()) == pytest.approx(review.total.choice)
    assert "side" in review.by_cause
