"""Does a wind told for the day reach every way a shot can begin?"""

import pytest

from tests.support.chats import play

HEAD = """# a day's wind
@ in trip group
@ as ann Ann
> practice round at Nowhere
> my driver 240, 7i 155, handicap 12
> wind today is westerly 25
"""


@pytest.mark.parametrize("first", ["hole 1 par 4 382", "160", "tee shot 382, par 4", "par 3 160"])
def test_a_shot_without_its_own_wind_never_goes_out_as_calm(first: str) -> None:
    """The bearing of the hole is not known: the way the wind blows is asked for."""
    _, replies = play(f"{HEAD}> {first}\n")
    assert "Where is the wind from" in replies[-1].text
    assert "calm" not in replies[-1].text
