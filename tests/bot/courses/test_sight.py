"""Distances from a shared point, against plane geometry on the ellipsoid's own radii."""

import math
from datetime import UTC, datetime

import pytest

from bot.conversation import Conversation
from bot.courses.sight import sight
from bot.model.message import Message, Point
from bot.model.state import Course, Played, Trip
from bot.storage.memory import MemoryStore
from bot.storage.store import Change
from bot.turn.desk import key_of
from tests.bot.courses.test_geojson import CLUB, GREEN, HOLE, SAND, WATER, extract, place

NOW = datetime(2031, 5, 4, 12, tzinfo=UTC)
HERE = (0.0, 100.0)  # metres east and north of the tee
MIDDLE = (106.066, 326.066)
EAST, NORTH = MIDDLE[0] - HERE[0], MIDDLE[1] - HERE[1]
LONG = math.hypot(EAST, NORTH)
# The line to the middle runs through the near and far sides of a green of 24 m by 24 m.
FRONT, BACK = (NORTH - 12.0) * LONG / NORTH, (NORTH + 12.0) * LONG / NORTH


def hole():
    course, _ = extract(HOLE, GREEN, WATER, SAND, CLUB)
    return course, course.holes[4].map


def test_front_middle_and_back_are_along_the_line_to_the_middle() -> None:
    _, drawn = hole()
    seen = sight(drawn, tuple(place(*HERE)))
    assert seen is not None
    told = (seen.front_m, seen.middle_m, seen.back_m)
    assert told == pytest.approx((FRONT, LONG, BACK), abs=0.6)  # outlines are simplified to 0.5 m


def test_trouble_is_seen_from_where_the_player_stands() -> None:
    _, drawn = hole()
    seen = sight(drawn, tuple(place(*HERE)))
    assert seen is not None
    (water,) = seen.trouble
    ux, uy = EAST / LONG, NORTH / LONG
    along = 45.0 * ux + 80.0 * uy  # middle of the pond, 30 m by 30 m, from the point
    half = 15.0 * (ux + uy)
    assert (water.kind, water.side) == ("water", "cross")
    assert (water.start_m, water.end_m) == pytest.approx((along - half, along + half), abs=0.8)


def test_what_lies_behind_is_not_trouble_and_sides_turn_with_the_player() -> None:
    _, drawn = hole()
    past = sight(drawn, tuple(place(60.0, 280.0)))
    assert past is not None
    assert past.trouble == ()
    left_of_it = sight(drawn, tuple(place(-60.0, 150.0)))
    assert left_of_it is not None
    assert ("bunker", "left") in [(t.kind, t.side) for t in left_of_it.trouble]


def conversation() -> Conversation:
    course, _ = hole()
    store = MemoryStore()
    trip = Trip(ids=("me",), course=course.name, tee=course.tee, round="r")
    played = Played(
        ids=("r",), chat="me", kind="practice", hole=4, players=("me",), started_at=NOW
    )
    documents = {
        key_of(Course, course.ids): course,
        key_of(Trip, trip.ids): trip,
        key_of(Played, played.ids): played,
    }
    seed = Message(chat="me", sender="me", text="", sent_at=NOW, message_id="seed")
    bodies = {key: (0, document.model_dump_json()) for key, document in documents.items()}
    store.commit(Change(message=seed, reply={"lines": ()}, documents=bodies))
    return Conversation(store)


def share(bot: Conversation, east: float, north: float, accuracy_m: float | None = 9.0) -> str:
    lon, lat = place(east, north)
    point = Point(latitude=lat, longitude=lon, accuracy_m=accuracy_m)
    message = Message(
        chat="me", sender="me", text="", sent_at=NOW, message_id=f"{east}", point=point
    )
    return bot.handle(message).text


def test_a_point_on_the_hole_gives_numbers_with_their_uncertainty() -> None:
    bot = conversation()
    yards = [f"{m / 0.9144:.0f}" for m in (FRONT, LONG, BACK)]
    lines = share(bot, *HERE).split("\n")
    assert lines[0] == f"Hole 4: front/middle/back {'/'.join(yards)}, give or take 10."
    assert lines[1].startswith("Water across")
    assert "give or take" not in share(bot, 1.0, 100.0, None)
    assert all(len(line) <= 64 for line in lines)


def test_a_point_far_away_asks_which_hole() -> None:
    assert "Which hole?" in share(conversation(), 5000.0, 0.0)
