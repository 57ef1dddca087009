"""Does the review of the whole golden round say what a hand calculation of it says?

The table below was drawn up by reading the transcript: from where each stroke was played, with
what, and where it came to. The arithmetic is done here, on the strokes that the log's answers
expected and on the player's solved table; nothing of the review is used. Strokes lost are the
expectation after less the one before and the strokes made, M. Broadie, Interfaces 42 (2012)
146-165; stroke and distance is Rules of Golf 2023, 18.2b, one penalty stroke for water 17.1d.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import datetime
from functools import cache
from typing import Any

import pytest

from bot.conversation import Conversation
from bot.model.review import ReviewShown
from bot.model.state import Player
from bot.storage.memory import MemoryStore
from bot.turn.bag import bag_of
from engine import Ground, StrokeTable, expected_strokes, quantity, solve_player
from tests.support.chats import ROOT, Speaker, play, say

ROUND = (ROOT / "fixtures" / "conversations" / "demo_round.chat").read_text("utf-8")
HOLED = "holed"
START = "> start round, Saltmarrow Links, white tees, practice"
NAMES = {"D": "driver", "3w": "3 wood", "4h": "4 hybrid", "5i": "5 iron", "6i": "6 iron",
         "7i": "7 iron", "8i": "8 iron", "9i": "9 iron", "PW": "pw", "52": "52",
         "56": "56"}  # fmt: skip


@dataclass(frozen=True)
class Hand:
    """A stroke, or several that nothing is known between, as read off the transcript.

    `start` and `end` are places: the message whose answer gave the place its value, or feet on the
    green, or in the hole. `club` is the one that was named, if one was.
    """

    part: str
    start: str | tuple[Ground, float]
    end: str | tuple[Ground, float]
    club: str = ""
    made: int = 1
    penalty: int = 0


def green(feet: float) -> tuple[Ground, float]:
    return ("green", feet)


H = Hand
# By hole: par, score, and the strokes. A second answer at the same place is the one that stands.
HOLES: dict[int, tuple[int, int, tuple[Hand, ...]]] = {
    1: (4, 4, (
        H("tee", "hole 1 par 4 382, into 12, bunker left 225", "148 left, into 12, pin front",
          "D"),
        H("approach", "148 left, into 12, pin front", "18 ft putt, up 1%, breaks left a cup",
          "7i"),
        H("putting", "18 ft putt, up 1%, breaks left a cup", HOLED, made=2),
    )),
    2: (5, 5, (
        H("tee", "hole 2, par 5 512, ob all down the right", "285 to go, rough, bunker right 430",
          "D"),
        H("approach", "285 to go, rough, bunker right 430", "118 pin back", "5i"),
        H("approach", "118 pin back", "chip 14 yards, short grass, up the slope", "PW"),
        H("short", "chip 14 yards, short grass, up the slope", green(5)),
        H("putting", green(5), HOLED),
    )),
    3: (3, 3, (
        H("approach", "6 or 7?", "25 ft putt, down 2%, breaks right a cup", "6i"),
        H("putting", "25 ft putt, down 2%, breaks right a cup", HOLED, made=2),
    )),
    4: (5, 6, (
        H("tee", "hole 4 par 5 532 water right 210 to 260", "300 to go, rough", "D",
          penalty=1),
        H("approach", "300 to go, rough", "sorry 121", "4h"),
        H("approach", "sorry 121", green(20), "PW"),
        H("putting", green(20), HOLED, made=2),
    )),
    5: (4, 5, (
        H("tee", "what about 3 wood?", "190, into 15, front bunker left", "D"),
        H("approach", "190, into 15, front bunker left", "now 22 out in the sand, pin back",
          "4h"),
        H("short", "now 22 out in the sand, pin back", "8 ft putt, flat, straight"),
        H("putting", "8 ft putt, flat, straight", HOLED, made=2),
    )),
    6: (4, 3, (
        H("tee", "hole 6 par 4 298 water left", "108", "4h"),
        H("approach", "108", green(12), "52"),
        H("putting", green(12), HOLED),
    )),
    7: (4, 5, (
        H("tee", "hole 7 par 4 428", "175, trees, blocked", "D"),
        H("approach", "175, trees, blocked", "95 to the flag, flag middle, downwind 10"),
        H("approach", "95 to the flag, flag middle, downwind 10", green(15)),
        H("putting", green(15), HOLED, made=2),
    )),
    8: (3, 4, (
        H("approach", "hole 8 par 3 192, into 10", "15 yards, rough, pin on the front", "4h"),
        H("short", "15 yards, rough, pin on the front", green(3)),
        H("putting", green(3), HOLED, made=2),
    )),
    9: (4, 6, (
        H("tee", "hole 9 par 4 396 ob left", "wind died", "D"),
        H("approach", "wind died", "20 yards, rough, downhill, pin back", "6i"),
        H("short", "20 yards, rough, downhill, pin back",
          "fat, still off the green. chip again, 12 yards"),
        H("putting", "fat, still off the green. chip again, 12 yards", green(6)),
        H("putting", green(6), HOLED, made=2),
    )),
    10: (4, 4, (
        H("tee", "hole 10 par 4 368", "155 down 12", "3w"),
        H("approach", "155 down 12", "30 ft putt, flat, breaks left a ball", "8i"),
        H("putting", "30 ft putt, flat, breaks left a ball", HOLED, made=2),
    )),
    11: (3, 2, (
        H("approach", "hole 11 par 3 148, no wind, front pin", "10 ft putt, up 1%, straight",
          "8i"),
        H("putting", "10 ft putt, up 1%, straight", HOLED),
    )),
    12: (5, 5, (
        H("tee", "hole 12 par 5 488", "lay up to 100", "D"),
        H("approach", "lay up to 100", "98, helping a bit", "5i"),
        H("approach", "98, helping a bit", green(14), "52"),
        H("putting", green(14), HOLED, made=2),
    )),
    13: (4, 5, (
        H("tee", "hole 13 par 4 407, bunkers both sides 230",
          "172 from the fairway bunker, into 8", "D"),
        H("approach", "172 from the fairway bunker, into 8", "30 out, fairway, pin middle",
          "5i"),
        H("short", "30 out, fairway, pin middle", green(9)),
        H("putting", green(9), HOLED, made=2),
    )),
    14: (4, 4, (
        H("tee", "hole 14 par 4 342", "130 uphill 15 ft", "3w"),
        H("approach", "130 uphill 15 ft", ("fairway", 60), "9i"),  # 20 yards right
        H("short", ("fairway", 60), green(2)),
        H("putting", green(2), HOLED),
    )),
    15: (3, 5, (
        H("approach", "hole 15 par 3 176 off the right 16, bunker left", "18 yards sand, plugged",
          "5i"),
        H("short", "18 yards sand, plugged", green(25)),
        H("putting", green(25), HOLED, made=3),
    )),
    16: (4, 5, (
        H("tee", "hole 16 par 4 374", "150 in the rough, flyer lie, water long", "D"),
        H("approach", "150 in the rough, flyer lie, water long",
          "35 ft putt, up 2%, breaks left a cup", "9i"),
        H("putting", "35 ft putt, up 2%, breaks left a cup", HOLED, made=3),
    )),
    17: (5, 5, (
        H("tee", "hole 17 par 5 546 into 20", "330 left, bunker right 240", "D"),
        H("approach", "330 left, bunker right 240", "140, into 20, water short carry 120", "4h"),
        H("approach", "140, into 20, water short carry 120", green(15), "6i"),
        H("putting", green(15), HOLED, made=2),
    )),
    18: (4, 7, (
        H("tee", "hole 18 par 4 420, ob right", "hole 18 par 4 420, ob right", "D", penalty=1),
        H("tee", "hole 18 par 4 420, ob right", "200 left, helping 15, bunker right"),
        H("approach", "200 left, helping 15, bunker right", green(40), "4h"),
        H("putting", green(40), HOLED, made=3),
    )),
}  # fmt: skip


@cache
def store() -> MemoryStore:
    found = MemoryStore()
    play(ROUND, found)
    return found


@cache
def advice() -> dict[str, dict[str, Any]]:
    """Return every answer of the round by the message that asked."""
    lines = ROUND.splitlines()
    entries = store().entries(player="me", kinds=("answer",))
    return {lines[int(e.message_id[1:])].removeprefix("> "): e.body["advice"] for e in entries}


@cache
def table_value(ground: Ground, feet: float) -> float:
    """Return expected strokes from the player's table, solved here, not out of the store."""
    return expected_strokes(table=solved(), ground=ground, distance=quantity(feet, "ft"))


@cache
def solved() -> StrokeTable:
    body = store().load(["player/me"])["player/me"].body
    return solve_player(bag_of(Player.model_validate_json(body).profile).golfer)


def worth(place: str | tuple[Ground, float]) -> float:
    if place == HOLED:
        return 0.0
    if isinstance(place, tuple):
        return table_value(*place)
    found = advice()[place]
    if found["kind"] == "putt":
        return float(found["expected"])
    return float(found["best"]["expected" if found["kind"] == "chip" else "strokes"])


def played(hole: int, stroke: Hand) -> float:
    """Return what the club that was named was expected to take, full unless it was advised."""
    if not apart(stroke):
        return worth(stroke.start)
    assert isinstance(stroke.start, str)
    found = advice()[stroke.start]
    full = full_swing(found, stroke.club)
    if full is None:
        both = f"{NAMES[stroke.club]} or {NAMES[found['best']['club']]}?"
        full = full_swing(compared(hole, stroke.start, both), stroke.club)
    assert full is not None
    return full


def apart(stroke: Hand) -> bool:
    """Whether a club was named that is not the one advised."""
    if not stroke.club or not isinstance(stroke.start, str):
        return False
    return bool(advice()[stroke.start]["best"]["club"] != stroke.club)


def full_swing(found: dict[str, Any], club: str) -> float | None:
    every = (found["best"], *found["compared"], *found["others"])
    return next(
        (float(w["strokes"]) for w in every if (w["club"], w["swing"]) == (club, "full")), None
    )


def compared(hole: int, at: str, ask: str) -> dict[str, Any]:
    """Return the advice at a place when two clubs are compared there, in a talk of its own."""
    lines = ROUND.splitlines()
    first = next(i for i, line in enumerate(lines) if line.startswith(f"> hole {hole}"))
    last = lines.index(f"> {at}")
    said = [line for line in lines[first : last + 1] if line.startswith("> ")]
    own = MemoryStore()
    play("\n".join(["# apart", "@ demo", START, *said, f"> {ask}"]), own)
    *_, entry = own.entries(player="me", kinds=("answer",))
    found: dict[str, Any] = entry.body["advice"]
    assert found["best"]["strokes"] == pytest.approx(worth(at), abs=1e-9)
    return found


def lost(hole: int, stroke: Hand) -> tuple[float, float, float]:
    """Return choice, execution and penalty."""
    before, after, price = worth(stroke.start), worth(stroke.end), played(hole, stroke)
    return price - before, stroke.made + after - price, float(stroke.penalty)


@cache
def review() -> ReviewShown:
    speaker = Speaker(at=datetime.fromisoformat("2026-06-01T20:00:00+00:00"))
    handled = Conversation(store()).process(say(speaker, "review", "the-review"))
    return ReviewShown.model_validate(handled.answers[0])


def test_the_hand_table_is_the_card() -> None:
    assert sum(par for par, _, _ in HOLES.values()) == 72
    assert sum(score for _, score, _ in HOLES.values()) == 83
    for _, score, strokes in HOLES.values():
        assert sum(s.made + s.penalty for s in strokes) == score


@pytest.mark.parametrize("number", HOLES)
def test_every_stroke_of_a_hole_is_as_by_hand(number: int) -> None:
    par, score, strokes = HOLES[number]
    shown = next(h for h in review().rounds[0].holes if h.hole == number)
    assert (shown.par, shown.score) == (par, score)
    assert [leg.part for leg in shown.legs] == [s.part for s in strokes]
    for leg, stroke in zip(shown.legs, strokes, strict=True):
        got = (leg.choice, leg.execution, leg.penalty)
        assert got == pytest.approx(lost(number, stroke), abs=1e-9), stroke
        assert (leg.made, leg.penalty) == (stroke.made, stroke.penalty)
    assert shown.expected == pytest.approx(worth(strokes[0].start), abs=1e-9)
    assert not shown.doubt


def test_the_round_adds_up_by_part() -> None:
    for part in ("tee", "approach", "short", "putting"):
        rows = [lost(n, s) for n, (_, _, strokes) in HOLES.items() for s in strokes
                if s.part == part]  # fmt: skip
        found = review().by_part[part]
        by_hand = [sum(column) for column in zip(*rows, strict=True)]
        assert [found.choice, found.execution, found.penalty] == pytest.approx(by_hand, abs=1e-9)
    expected = sum(worth(strokes[0].start) for _, _, strokes in HOLES.values())
    assert review().total.total == pytest.approx(83 - expected, abs=1e-9)
    assert review().total.penalty == 2.0


def test_the_doubles_and_where_they_began() -> None:
    by_hand = {}
    for n, (par, score, strokes) in HOLES.items():
        if score - par >= 2:
            sums = [sum(lost(n, s)) for s in strokes]
            worst = sums.index(max(sums))
            by_hand[n] = 1 + sum(s.made + s.penalty for s in strokes[:worst])
    assert list(by_hand) == [9, 15, 18]
    shown = {t.hole: t.began.first for t in review().troubles if t.began is not None}
    assert shown == by_hand


def test_the_advice_is_counted_as_by_hand() -> None:
    """Departures are the strokes with a club of their own; putts are no choice of club."""
    found = review().followed
    costs = [lost(n, s)[0] for n, (_, _, strokes) in HOLES.items() for s in strokes if apart(s)]
    assert found.asked - found.taken == len(costs)
    assert found.cost == pytest.approx(sum(c for c in costs if c > 0.0), abs=1e-9)
    assert found.gained == pytest.approx(-sum(c for c in costs if c < 0.0), abs=1e-9)


def test_the_three_sentences_rest_on_the_hand_figures() -> None:
    """Kept is the part that gained most, practised the one that lost most, choices the dearest."""
    swings = {}
    for part in ("tee", "approach", "short", "putting"):
        rows = [lost(n, s) for n, (_, _, strokes) in HOLES.items() for s in strokes
                if s.part == part]  # fmt: skip
        swings[part] = sum(execution + penalty for _, execution, penalty in rows)
    keep, change, practise = review().coach
    assert keep.part == min(swings, key=lambda p: swings[p])
    assert keep.value == pytest.approx(-swings[keep.part])
    assert practise.part == max(swings, key=lambda p: swings[p])
    assert practise.value == pytest.approx(swings[practise.part])
    assert change.about == "choices"
    assert 0.0 < change.value <= review().followed.cost
