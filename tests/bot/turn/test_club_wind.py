"""A wind told in clubs moves the number as a wind of that strength does."""

import re

import pytest

from tests.support.chats import play, said


def wind_part(message: str) -> int:
    found = re.search(r"wind ([+-]\d+)", said(message)[0])
    assert found, said(message)
    return int(found[1])


@pytest.mark.parametrize("message", ["154, 2 clubs into", "154 into a two club wind"])
def test_clubs_against_play_longer(message: str) -> None:
    assert wind_part(message) >= 2 * wind_part("154, half a club into")


def test_clubs_behind_play_shorter() -> None:
    assert wind_part("154, one club wind behind") < 0


def test_clubs_across_move_the_aim() -> None:
    assert "left" in said("154, two club wind off the left")[1]


def test_more_clubs_than_any_wind_costs_are_asked_back() -> None:
    assert "wind" in " ".join(said("154, 12 clubs into")).lower()
    assert "plays" not in said("154, 12 clubs into")[0]


def test_the_wind_lasts_for_the_next_shot() -> None:
    assert "wind +" in said("154, 2 clubs into", "140")[0]


@pytest.mark.parametrize("carry", [27, 31, 60])
def test_the_shortest_told_clubs_play_too(carry: int) -> None:
    chat = [f"my 5 iron goes {carry}", "skip", "skip", "skip", "one club wind into, 141"]
    _, replies = play("# t\n" + "".join(f"> {m}\n" for m in chat))
    assert "141" in replies[-1].lines[0]
