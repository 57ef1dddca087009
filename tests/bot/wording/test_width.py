"""Is every line of a reply short enough for a phone, whatever was told?"""

import pytest

from bot.model.measure import Measure
from bot.model.reading import Aim
from bot.model.result import ResultKept
from bot.wording.base import WIDTH, Style, word

SIX = Measure(value=6, unit="yd")


@pytest.mark.parametrize("implied", [False, True])
@pytest.mark.parametrize(
    "aim", [Aim(at="left_edge", by=SIX, side="left"), Aim(at="other"), Aim(at="pin"), None]
)
def test_a_result_worked_out_from_the_next_message_fits(aim: Aim | None, implied: bool) -> None:
    kept = ResultKept(
        club="7i", aim=aim, lie=("green",), penalty=1, implied=implied,
        proximity=Measure(value=172, unit="ft"),
    )  # fmt: skip
    (line,) = word(kept, Style()).lines
    assert len(line) <= WIDTH
    assert "7-iron" in line
