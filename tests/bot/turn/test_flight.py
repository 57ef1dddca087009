import tomllib
from pathlib import Path

import pytest

from bot import app
from bot.model.state import Player
from bot.storage.memory import MemoryStore
from bot.turn.flight import flight_page
from bot.wording.flight import flight_lines

DEMO = Path(__file__).parents[3] / "fixtures" / "demo.toml"
ROWS = tomllib.loads(DEMO.read_text("utf-8"))["player"]
PLAYERS = {row["ids"][0]: Player.model_validate(row) for row in ROWS}


def test_the_page_shows_the_stated_carries() -> None:
    player = PLAYERS["me"]
    told = {c.name: c.carry.value for c in player.profile.clubs if c.carry is not None}
    page = flight_page(player)
    assert {r.club: r.carry.value for r in page.rows} == pytest.approx(told, abs=0.05)
    for row in page.rows:
        assert row.into.value < 0.0 < row.down.value < -row.into.value  # help less than hurt
        assert row.run_low.value < row.run_high.value


@pytest.mark.parametrize("name", PLAYERS)
def test_every_demo_bag_flies(name: str) -> None:
    page = flight_page(PLAYERS[name], every_swing=True)
    carries = [row.carry.value for row in page.rows if row.swing == "full"]
    assert carries == sorted(carries, reverse=True)
    assert page.rows[0].carry.unit == ("m" if PLAYERS[name].units == "metric" else "yd")


def test_the_page_says_what_to_send_where_no_club_is_known() -> None:
    lines = flight_lines(flight_page(Player.new("me")))
    assert len(lines) == 1
    assert "Send two carries" in lines[0]


def test_the_terminal_shows_the_player_of_the_store() -> None:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    lines = app.flights(store, every_swing=False)
    assert lines[0].startswith("Tavi's clubs")
    assert any(line.startswith("7-iron") and "153" in line for line in lines)
