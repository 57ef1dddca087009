"""Is a score held against the plan that was made before the round, and against no later one?"""

from __future__ import annotations

from datetime import datetime
from functools import cache

import pytest

from bot.conversation import Conversation
from bot.model.review import ReviewShown
from bot.storage.memory import MemoryStore
from tests.support.chats import Speaker, play, say

PLAN = "> plan the round\n@ +13h\n"
ROUND = """> start round, Saltmarrow Links, white tees, practice
> made 5 on 1
> made 4 on 2
> made 3 on 3
"""
LATE = "@ +30m\n> METAR EGXX 020950Z 22025KT 9999 FEW030 12/07 Q1009\n> plan the round\n"


@cache
def reviewed(*parts: str) -> tuple[ReviewShown, list[str]]:
    store = MemoryStore()
    play("# a round\n@ demo\n@ at 2026-06-01T20:00:00+00:00\n" + "".join(parts), store)
    speaker = Speaker(at=datetime.fromisoformat("2026-06-02T12:00:00+00:00"))
    handled = Conversation(store).process(say(speaker, "review", "review"))
    return ReviewShown.model_validate(handled.answers[0]), list(handled.reply.lines)


def test_each_hole_has_what_the_sheet_said() -> None:
    store = MemoryStore()
    play("# a plan\n@ demo\n@ at 2026-06-01T20:00:00+00:00\n" + PLAN, store)
    (entry,) = store.entries(player="me", kinds=("plan",))
    review, lines = reviewed(PLAN, ROUND)
    holes = review.rounds[0].holes
    assert [h.planned for h in holes] == [entry.body["strokes"][str(n)] for n in (1, 2, 3)]
    said = sum(entry.body["strokes"][str(n)] for n in (1, 2, 3))
    assert f"your plan said {said:.1f}, {12 - said:+.1f}." in lines[0]
    assert "against your own game" in lines[1]


def test_a_plan_made_while_it_was_on_does_not_count() -> None:
    review, lines = reviewed("@ +13h\n", ROUND, LATE)
    assert all(h.planned is None for h in review.rounds[0].holes)
    assert "your game expects" in lines[0]


def test_a_plan_made_anew_leaves_the_one_of_then() -> None:
    first, _ = reviewed(PLAN, ROUND)
    again, _ = reviewed(PLAN, ROUND, LATE)
    assert [h.planned for h in again.rounds[0].holes] == [h.planned for h in first.rounds[0].holes]
    assert again.rounds[0].planned_at == first.rounds[0].planned_at


def test_the_split_is_still_exact() -> None:
    review, _ = reviewed(PLAN, ROUND)
    expected = sum(h.expected for h in review.rounds[0].holes)
    assert review.total.total == pytest.approx(12 - expected, abs=1e-9)
