"""Mapped ground and told ground make the same plan where they are the same ground."""

import pytest

from engine import HoleFacts, MapArea, PlanDay, PlayerFacts, plan_holes, quantity, start_bag
from engine.api.decision import solve_player
from engine.api.shotfacts import TroubleFacts
from engine.errors import OutOfRange

DAY = PlanDay(wind_speed=quantity(10.0, "mph"))
GOLFER = start_bag(PlayerFacts(handicap=14.0)).golfer
TABLE = solve_player(GOLFER)


def planned(hole: HoleFacts):
    return plan_holes(golfer=GOLFER, table=TABLE, holes=[hole], day=DAY)[0].conditions[0]


def metres(yards: float) -> float:
    return yards * 0.9144


def test_a_mapped_pond_is_the_pond_that_was_told() -> None:
    length = quantity(400.0, "yd")
    told = TroubleFacts(
        "water", "penalty", "right", start=quantity(200.0, "yd"), end=quantity(300.0, "yd"),
        gap=quantity(18.0, "yd"), gap_of="line",
    )  # fmt: skip
    near, far = metres(18.0), metres(150.0)
    first, last = metres(200.0), metres(300.0)
    corners = ((first, near), (last, near), (last, far), (first, far))
    by_word = planned(HoleFacts(length=length, par=4, trouble=(told,)))
    by_map = planned(
        HoleFacts(length=length, par=4, areas=(MapArea("water", "penalty", corners),))
    )
    # Where trouble is told on one side the other side is taken for quieter; a map says nothing.
    assert by_map.strokes == pytest.approx(by_word.strokes, abs=0.1)
    assert by_map.chance["water"] == pytest.approx(by_word.chance["water"], abs=0.02)


def test_a_mapped_green_is_where_the_pin_stands() -> None:
    end = metres(160.0)
    green = MapArea(
        "green", "green", ((end - 14, -9), (end + 14, -9), (end + 14, 9), (end - 14, 9))
    )
    small = MapArea("green", "green", ((end - 4, -4), (end + 4, -4), (end + 4, 4), (end - 4, 4)))
    line = ((0.0, 0.0), (end, 0.0))
    length = quantity(160.0, "yd")
    wide = planned(HoleFacts(length=length, par=3, line_m=line, areas=(green,)))
    tight = planned(HoleFacts(length=length, par=3, line_m=line, areas=(small,)))
    assert wide.strokes < tight.strokes


@pytest.mark.parametrize("yards", [10.0, 5000.0])
def test_a_length_that_cannot_be_is_refused(yards: float) -> None:
    with pytest.raises(OutOfRange):
        planned(HoleFacts(length=quantity(yards, "yd")))


def test_par_is_taken_from_the_length_and_said() -> None:
    found = plan_holes(
        golfer=GOLFER, table=TABLE, holes=[HoleFacts(length=quantity(400.0, "yd"))], day=DAY
    )[0]
    assert found.par == 4
    assert "par" in found.assumed


def test_a_climb_costs_and_a_drop_pays() -> None:
    def score(feet: float) -> float:
        climb = quantity(feet, "ft")
        return planned(HoleFacts(length=quantity(420.0, "yd"), par=4, climb=climb)).strokes

    assert score(-40.0) < score(0.0) < score(40.0)
