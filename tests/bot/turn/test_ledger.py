"""Do the strokes of a hole add up, whatever was told, left out or told twice?"""

from datetime import UTC, datetime, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from bot.model.entry import Entry
from bot.model.state import HoleScore
from bot.turn.ledger import hole_of
from engine import Ground

START = datetime(2026, 6, 1, 9, tzinfo=UTC)


def worth(ground: Ground, metres: float) -> float:
    """A made-up player: strokes grow with the distance and the lie."""
    base = {"tee": 2.9, "fairway": 2.6, "rough": 2.8, "sand": 3.0, "recovery": 3.5, "green": 1.2}
    return base[ground] + metres / (40.0 if ground == "green" else 200.0)


def entry(kind: Any, n: int, body: dict[str, Any]) -> Entry:
    at = START + timedelta(minutes=n)
    return Entry(kind=kind, chat="c", message_id=str(n), player="me", at=at, hole=1, body=body)


def asked(kind: str, distance: float, strokes: float, *, tee: bool = False) -> dict[str, Any]:
    yards = {"value": distance, "unit": "yd"}
    match kind:
        case "shot":
            advice = {"kind": "shot", "shot_kind": "tee" if tee else "shot", "distance": yards,
                      "best": {"strokes": strokes, "club": "7i", "swing": "full"}}  # fmt: skip
        case "chip":
            advice = {"kind": "chip", "distance": yards, "best": {"expected": strokes}}
        case _:
            feet = {"value": distance, "unit": "ft"}
            advice = {"kind": "putt", "length": feet, "expected": strokes}
    return {"facts": {}, "advice": advice}


def priced(best: float, played: float, club: str = "6i") -> dict[str, Any]:
    return {"of": "shot", "best": best, "played": played, "taken": club == "7i",
            "advised": {"club": "7i", "swing": "full"}, "took": {"club": club, "swing": "full"},
            "unknown": False, "hero": False}  # fmt: skip


def went(club: str = "7i", penalty: int = 0, price: Any = None, **told: Any) -> dict[str, Any]:
    return {"shot": "x", "club": club, "told": told, "penalty": penalty, "priced": price}


ANSWERS = st.tuples(
    st.just("answer"),
    st.builds(
        asked, st.sampled_from(["shot", "chip", "putt"]), st.floats(2.0, 400.0),
        st.floats(1.0, 6.0), tee=st.booleans(),
    ),
)  # fmt: skip
FEET = st.floats(1.0, 60.0).map(lambda v: {"value": v, "unit": "ft"})
YARDS = st.floats(1.0, 300.0).map(lambda v: {"value": v, "unit": "yd"})
TOLD = st.fixed_dictionaries(
    {},
    optional={
        "proximity": FEET, "left": YARDS,
        "lie": st.sampled_from([[], ["rough"], ["ob"], ["green"]]),
        "holed": st.booleans(), "putt": st.booleans(), "putts": st.integers(1, 4),
        "provisional": st.booleans(), "contact": st.sampled_from(["whiff", "fat"]),
    },
)  # fmt: skip
RESULTS = st.tuples(
    st.just("result"),
    st.builds(
        lambda told, penalty, best, more: went(
            penalty=penalty, price=priced(best, best + more), **told
        ),
        TOLD, st.integers(0, 2), st.floats(2.0, 5.0), st.floats(-0.2, 1.0),
    ),
)  # fmt: skip


@given(
    st.lists(st.one_of(ANSWERS, RESULTS), max_size=14),
    st.integers(1, 15),
    st.sampled_from([None, 3, 4, 5]),
    st.sampled_from([None, 160.0, 380.0]),
)
def test_choice_swing_and_penalty_add_up_to_the_score(
    log: list[tuple[str, dict[str, Any]]], score: int, par: int | None, length: float | None
) -> None:
    entries = [entry(kind, n, body) for n, (kind, body) in enumerate(log)]
    hole = hole_of(
        1, entries, HoleScore(strokes=score), par=par, length_m=length, worth=worth,
        units="imperial",
    )  # fmt: skip
    assert hole is not None
    lost = sum(leg.choice + leg.execution + leg.penalty for leg in hole.legs)
    assert lost == pytest.approx(score - hole.expected, abs=1e-9)
    assert sum(leg.made + leg.penalty for leg in hole.legs) == score


def one(log: list[tuple[str, dict[str, Any]]], score: int, par: int = 4) -> Any:
    entries = [entry(kind, n, body) for n, (kind, body) in enumerate(log)]
    return hole_of(
        1, entries, HoleScore(strokes=score), par=par, length_m=350.0, worth=worth,
        units="imperial",
    )  # fmt: skip


def test_a_dearer_club_is_the_choice_and_where_it_went_is_not() -> None:
    log = [
        ("answer", asked("shot", 382, 4.5, tee=True)), ("result", went("D", lie=["fairway"])),
        ("answer", asked("shot", 150, 3.2)),
        ("result", went("6i", price=priced(3.2, 3.4), depth="long")),
        ("answer", asked("chip", 15, 2.8)),
        ("result", went("56", proximity={"value": 6, "unit": "ft"})),
        ("result", went(putt=True, putts=2, holed=True)),
    ]  # fmt: skip
    hole = one(log, 5)
    drive, approach, chip, putts = hole.legs
    assert (drive.choice, approach.choice) == (0.0, pytest.approx(0.2))
    assert drive.execution == pytest.approx(1 + 3.2 - 4.5)
    assert approach.execution == pytest.approx(1 + 2.8 - 3.4)
    six_feet = worth("green", 6 * 0.3048)
    assert chip.execution == pytest.approx(1 + six_feet - 2.8)
    assert putts.execution == pytest.approx(2 - six_feet)
    assert [leg.part for leg in hole.legs] == ["tee", "approach", "short", "putting"]
    assert approach.cause == "club"


def test_a_ball_out_of_bounds_loses_two() -> None:
    """Rules of Golf 2023, 18.2b: stroke and distance."""
    log = [
        ("answer", asked("shot", 382, 4.5, tee=True)), ("result", went("D", 1, lie=["ob"])),
        ("result", went("D", lie=["fairway"])), ("answer", asked("shot", 150, 3.2)),
    ]  # fmt: skip
    first = one(log, 7).legs[0]
    assert first.choice + first.execution + first.penalty == pytest.approx(2.0)


def test_a_shot_told_anew_is_one_place() -> None:
    log = [
        ("answer", asked("shot", 382, 4.5, tee=True)), ("result", went("D")),
        ("answer", asked("shot", 150, 3.2)), ("answer", asked("shot", 155, 3.3)),
        ("result", went("7i", holed=True)),
    ]  # fmt: skip
    drive, approach = one(log, 2).legs
    assert drive.after == approach.before == 3.3


def test_strokes_nobody_told_are_put_in_the_gap() -> None:
    log = [
        ("answer", asked("shot", 150, 3.2)),
        ("result", went("7i", putt=False, proximity={"value": 9, "unit": "ft"})),
    ]
    tee, approach, putts = one(log, 5).legs
    assert (tee.untold, tee.made, approach.made, putts.untold, putts.made) == (True, 1, 1, True, 3)


def test_a_score_over_a_hole_told_to_its_end_is_said() -> None:
    """Three strokes were told and the ball was holed; the card has a fourth."""
    log = [
        ("answer", asked("shot", 160, 3.2)), ("result", went("7i")),
        ("answer", asked("chip", 15, 2.8)),
        ("result", went("56", proximity={"value": 3, "unit": "ft"})),
        ("result", went(putt=True, putts=1, holed=True)),
    ]  # fmt: skip
    assert not one(log, 3, par=3).doubt
    assert one(log, 4, par=3).doubt


def test_a_ball_told_as_so_far_beside_the_hole_is_placed() -> None:
    log = [
        ("answer", asked("shot", 130, 3.2)),
        ("result", went("9i", depth="pin_high", side="right", side_by={"value": 20, "unit": ""},
                        lie=["fringe"])),
        ("result", went("P", proximity={"value": 2, "unit": "ft"}, lie=["fringe"])),
        ("result", went(putt=True, putts=1, holed=True)),
    ]  # fmt: skip
    _, approach, putter, putt = one(log, 4).legs
    assert approach.after == putter.before == worth("fairway", 20 * 0.9144)
    assert putter.after == putt.before == worth("green", 2 * 0.3048)


def test_more_strokes_told_than_scored_is_said() -> None:
    log = [("result", went("D")), ("result", went("5i")), ("result", went("9i", holed=True))]
    assert one(log, 2).doubt
