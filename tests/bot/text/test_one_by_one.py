"""Several shots told in one breath are each their own, and none takes what is of another."""

from __future__ import annotations

import pytest

from bot.model.reading import Act, Result, Score
from bot.text.read import read


def told(text: str) -> tuple[Act, ...]:
    return read(text).acts


def test_a_chip_keeps_its_own_length_and_the_putt_behind_it() -> None:
    full, chip = told("7 iron short, chipped to 6 feet, one putt")
    assert isinstance(full, Result)
    assert isinstance(chip, Result)
    assert (full.club, full.depth, full.proximity, full.putts) == ("7i", "short", None, None)
    assert chip.proximity is not None
    assert (chip.club, chip.proximity.value, chip.putts) == (None, 6, 1)


def test_a_whole_hole_ends_in_its_score() -> None:
    drive, second, chip, score = told("driver left rough, 7 iron short, chip to 6 feet, 1 putt, 4")
    assert isinstance(drive, Result)
    assert (drive.club, drive.side, drive.lie) == ("D", "left", ("rough",))
    assert isinstance(second, Result)
    assert (second.club, second.side, second.depth) == ("7i", None, "short")
    assert isinstance(chip, Result)
    assert chip.putts == 1
    assert isinstance(score, Score)
    assert score.strokes == 4


def test_a_score_by_its_name_leaves_each_shot_its_own() -> None:
    drive, chip, score = told("drive left, then chip to 6 feet, missed putt, bogey")
    assert isinstance(drive, Result)
    assert isinstance(chip, Result)
    assert (drive.club, drive.side, drive.proximity) == ("D", "left", None)
    assert chip.proximity is not None
    assert chip.proximity.value == 6
    assert isinstance(score, Score)
    assert score.to_par == 1


@pytest.mark.parametrize(
    "text",
    ["7 iron, short", "lost ball with driver, hitting three", "7 iron or 8 iron, 150 to the pin"],
)
def test_one_shot_stays_one(text: str) -> None:
    assert len(told(text)) == 1


def test_a_pair_of_feet_close_together_is_a_range() -> None:
    (shot,) = told("8 iron, 5 to 6 feet")
    assert isinstance(shot, Result)
    assert shot.club == "8i"
    assert not any(getattr(a, "club", None) for a in told("5 to 6 feet"))
    assert not any(getattr(a, "club", None) == "7i" for a in told("7 to 12 feet uphill"))


def test_a_club_supposed_was_not_hit() -> None:
    (asked,) = told("say I took the 7 instead")
    assert asked.act == "followup"
