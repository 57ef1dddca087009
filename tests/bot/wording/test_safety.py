"""Every danger in two lines that fit, whatever the numbers."""

from typing import get_args

import pytest

from bot.model.danger import Danger, StormHold, StormOver
from bot.model.measure import Measure
from bot.wording import Style
from bot.wording.base import WIDTH, word
from engine.api.danger import ColdBand, HeatBand

PERILS = get_args(Danger.model_fields["peril"].annotation)
CALLS = (("112", "911"), ("999",))


@pytest.mark.parametrize("calls", CALLS)
@pytest.mark.parametrize("peril", PERILS)
def test_a_danger_fits_two_lines(peril: str, calls: tuple[str, ...]) -> None:
    lines = word(Danger(peril=peril, emergency=calls), Style()).lines
    assert len(lines) == 2
    assert all(len(line) <= WIDTH for line in lines), lines
    if peril in ("medical", "heat", "cold"):
        assert all(call in " ".join(lines) for call in calls)


@pytest.mark.parametrize(
    ("peril", "band"),
    [("heat", b) for b in get_args(HeatBand)] + [("cold", b) for b in get_args(ColdBand)],
)
def test_felt_temperatures_fit(peril: str, band: str) -> None:
    felt = Measure(value=-104.4, unit="degF")
    answer = Danger(peril=peril, emergency=("112", "911"), felt=felt, band=band)
    lines = word(answer, Style()).lines
    assert lines[0].startswith("Feels like -104F")
    assert all(len(line) <= WIDTH for line in lines), lines


def test_where_to_shelter_and_where_not() -> None:
    # US National Weather Service: a full building or a hard-topped car is safe; trees, carts
    # and open shelters are not; wait 30 minutes after the last thunder.
    text = " ".join(word(Danger(peril="lightning", emergency=("112",)), Style()).lines)
    for part in ("building", "hard-top car", "not under trees", "no cart", "no hut", "30 min"):
        assert part in text


def test_minutes_are_rounded_up() -> None:
    assert "12 min" in word(StormHold(minutes_left=11.1), Style()).lines[0]


@pytest.mark.parametrize("known", [True, False])
def test_the_course_has_the_last_word(known: bool) -> None:
    lines = word(StormOver(known=known), Style()).lines
    assert "course" in " ".join(lines)
    assert all(len(line) <= WIDTH for line in lines), lines


@pytest.mark.parametrize("peril", ["heat", "cold"])
def test_a_symptom_fits(peril: str) -> None:
    lines = word(Danger(peril=peril, emergency=("112", "911"), ill=True), Style()).lines
    assert all(len(line) <= WIDTH for line in lines), lines


def test_a_strike_fits() -> None:
    strike = Measure(value=20.5, unit="km")
    answer = Danger(peril="lightning", emergency=("112",), strike=strike)
    assert all(len(line) <= WIDTH for line in word(answer, Style()).lines)
