"""Are questions about what was played, and holes told to their end, read?"""

import pytest

from bot.model.reading import Result, Review, Score
from bot.text.read import read


@pytest.mark.parametrize(
    ("text", "means"),
    [
        ("review", Review(intent="review")),
        ("review yesterday", Review(intent="review", when="yesterday")),
        ("Review last 5", Review(intent="review", last=5)),
        ("review the last three rounds", Review(intent="review", last=3)),
        ("review choices", Review(intent="review", part="choices")),
        ("review my misses", Review(intent="review", part="clubs")),
        ("review holes last 2", Review(intent="review", part="holes", last=2)),
        ("report", Review(intent="report")),
        ("report last 5 rounds", Review(intent="report", last=5)),
        ("recheck", Review(intent="recheck")),
        ("what did I hit on 7 last time", Review(intent="search", about="hit", hole=7)),
        ("what did I hit on the 7th?", Review(intent="search", about="hit", hole=7)),
        (
            "how often am I short with the 8",
            Review(intent="search", about="short", club="8i"),
        ),
        (
            "how often am I right with the driver?",
            Review(intent="search", about="right", club="D"),
        ),
    ],
)
def test_a_look_back_is_read(text: str, means: Review) -> None:
    assert read(text).acts == (means,)


@pytest.mark.parametrize("text", ["review the rules of drops", "reviewing my swing with a pro"])
def test_other_talk_is_no_review_of_a_part(text: str) -> None:
    assert not any(isinstance(a, Review) and a.part for a in read(text).acts)


@pytest.mark.parametrize(
    ("text", "strokes"),
    [
        ("7, short right, bunker, out to 8 feet, two putts, 5", 5),
        ("two putts, 4", 4),
        ("chip to 3 ft, made it, 4", 4),
        ("missed, tap in, 5", 5),
    ],
)
def test_a_hole_told_to_its_end_closes_with_its_score(text: str, strokes: int) -> None:
    *before, last = read(text).acts
    assert last == Score(strokes=strokes)
    assert all(isinstance(a, Result) for a in before)


@pytest.mark.parametrize("text", ["out to 8 feet", "to 8 feet"])
def test_how_near_it_came_is_a_result(text: str) -> None:
    (act,) = read(text).acts
    assert isinstance(act, Result)
    assert act.proximity is not None
    assert act.proximity.value == 8.0
