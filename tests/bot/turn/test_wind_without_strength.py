"""A wind told by its direction alone counts, and what was taken for its strength is said.

That it must not be taken for calm is common practice, no source.
"""

import re

import pytest

from tests.support.chats import said


@pytest.mark.parametrize(
    ("message", "sign"),
    [("155 into the wind", 1), ("155 downwind", -1), ("155, wind in our faces", 1)],
)
def test_the_number_moves_the_way_the_wind_blows(message: str, sign: int) -> None:
    number, aim = said(message)
    found = re.search(r"wind ([+-]\d+)", number)
    assert found, number
    assert int(found[1]) * sign > 0
    assert "mph" in aim


def test_a_strength_told_next_is_that_wind_s() -> None:
    told_at_once = said("155 into 20")[0]
    assert said("155 into the wind", "20 mph")[0] == told_at_once


def test_no_strength_is_made_up_for_a_wind_that_has_one() -> None:
    assert "Taking" not in said("155 into 20")[1]
