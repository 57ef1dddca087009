"""Shots on a noted hole reckon with its notes, from where the ball lies and on the right side."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from bot import app
from bot.model.measure import Measure
from bot.model.reading import Facts, Green, Hazard, Hole
from bot.model.state import HoleNote
from bot.storage.memory import MemoryStore
from bot.turn import noted
from engine.core.shapes import Strip
from engine.core.told import Told, ToldTrouble, scene_of, straightened
from tests.support.chats import DEMO, Speaker, say

OTHER = {"left": "right", "right": "left"}


def yd(value: float) -> Measure:
    return Measure(value=value, unit="yd")


def chat(*said: str) -> list[dict[str, Any]]:
    """Return the last answer to each message."""
    store = MemoryStore()
    app.load_demo(store, DEMO)
    conversation = app.conversation(store)
    out = []
    for n, text in enumerate(said):
        done = conversation.process(say(Speaker(chat="new"), text, str(n)))
        out.append({**done.answers[-1], "lines": done.reply.lines})
    return out


def laid(
    note: HoleNote, facts: Facts, monkeypatch: pytest.MonkeyPatch, kind: str = "shot"
) -> Facts:
    monkeypatch.setattr(noted, "note_of", lambda f, d: (4, note))
    monkeypatch.setattr(noted, "_moved_back", lambda f, d, u: False)
    return noted.with_notes(facts, kind, None, "imperial")[0]  # type: ignore[arg-type]


LONG = HoleNote(
    hole=Hole(number=4, par=5, length=yd(532), dogleg="right", dogleg_at=yd(240)),
    turn_deg=30.0,
    hazards=(
        Hazard(kind="water", side="right", start=yd(210), end=yd(260), gap=yd(24)),
        Hazard(kind="bunker", side="left", start=yd(250), end=yd(266)),
        Hazard(kind="water", side="cross", start=yd(452), end=yd(476)),
        Hazard(kind="ob", side="left"),
    ),
    green=Green(depth=yd(30), width=yd(24), falls="front"),
)


def mirrored(note: HoleNote) -> HoleNote:
    hole = note.hole.model_copy(update={"dogleg": OTHER[note.hole.dogleg or ""]})
    hazards = tuple(
        h.model_copy(update={"side": OTHER.get(h.side or "", h.side)}) for h in note.hazards
    )
    return note.model_copy(update={"hole": hole, "hazards": hazards})


def placed(facts: Facts) -> list[tuple[str, str | None, float | None, float | None]]:
    return [
        (h.kind, h.side, h.start and round(h.start.value, 6), h.end and round(h.end.value, 6))
        for h in facts.hazards
    ]


# Arithmetic on the card: 532 yards, so 372 to go is 160 along.
@pytest.mark.parametrize(
    ("to_go", "there"),
    [
        (372, [("water", "right", 50, 100), ("bunker", "left", 90, 106),
               ("water", "cross", 292, 316), ("ob", "left", 0, None)]),
        (302, [("water", "right", 0, 30), ("bunker", "left", 20, 36),
               ("water", "cross", 222, 246), ("ob", "left", 0, None)]),
        (200, [("water", "cross", 120, 144), ("ob", "left", 0, None)]),
        (50, [("ob", "left", 0, None)]),
    ],
)  # fmt: skip
def test_trouble_is_placed_from_the_ball_and_drops_out_behind_it(
    to_go: float, there: list[Any], monkeypatch: pytest.MonkeyPatch
) -> None:
    found = laid(LONG, Facts(distance=yd(to_go)), monkeypatch)
    assert placed(found) == there
    assert all(h.noted for h in found.hazards)


@pytest.mark.parametrize("to_go", [532, 372, 302, 270, 120, 40])
def test_a_mirrored_hole_lies_mirrored(to_go: float, monkeypatch: pytest.MonkeyPatch) -> None:
    facts = Facts(distance=yd(to_go))
    here, there = (laid(n, facts, monkeypatch) for n in (LONG, mirrored(LONG)))
    assert [(k, OTHER.get(s or "", s), a, b) for k, s, a, b in placed(here)] == placed(there)
    bends = [f.hole.dogleg if f.hole else None for f in (here, there)]
    assert OTHER.get(bends[0] or "") == bends[1]


def test_the_bend_comes_nearer_and_is_gone_once_passed(monkeypatch: pytest.MonkeyPatch) -> None:
    ahead = laid(LONG, Facts(distance=yd(432)), monkeypatch).hole
    assert ahead is not None
    assert ahead.dogleg == "right"
    assert ahead.dogleg_at is not None
    assert ahead.dogleg_at.value == pytest.approx(140)
    past = laid(LONG, Facts(distance=yd(280)), monkeypatch).hole
    assert past is not None
    assert past.dogleg is None


def test_what_the_message_says_wins(monkeypatch: pytest.MonkeyPatch) -> None:
    told = Facts(
        distance=yd(372),
        hazards=(Hazard(kind="water", side="right", start=yd(70), end=yd(120)),),
        green=Green(depth=yd(20)),
        safe=("left",),
    )
    found = laid(LONG, told, monkeypatch)
    assert placed(found) == [("water", "right", 70, 120), ("water", "cross", 292, 316)]
    assert found.green is not None
    assert (found.green.depth, found.green.width) == (yd(20), yd(24))


def test_metres_meet_yards(monkeypatch: pytest.MonkeyPatch) -> None:
    found = laid(LONG, Facts(distance=Measure(value=340.1568, unit="m")), monkeypatch)
    assert placed(found)[0] == ("water", "right", 50, 100)


@pytest.mark.parametrize(
    "facts",
    [
        Facts(distance=yd(600)),  # longer than the hole
        Facts(distance=yd(180), reference="carry"),  # says nothing of where the ball is
    ],
)
def test_notes_that_do_not_fit_are_left_out(facts: Facts, monkeypatch: pytest.MonkeyPatch) -> None:
    assert laid(LONG, facts, monkeypatch) == facts


@pytest.mark.parametrize("side", ["left", "right"])
def test_the_reply_names_the_hole_and_the_side(side: str) -> None:
    *_, shot = chat(
        f"hole 4 par 5 532 stroke index 7, water {side} 330 to 480, bunker {OTHER[side]} 200",
        "start round", "practice", "hole 4", "300 in",
    )  # fmt: skip
    assert set(shot["troubles"]) == {f"water {side}"}
    line = shot["lines"][1]
    assert "Hole 4" in line
    assert f"water {side}" in line
    assert OTHER[side] not in line.split("Hole")[1]


def test_noted_trouble_moves_the_aim_away_from_it() -> None:
    aims = {}
    for side in ("left", "right"):
        *_, shot = chat(
            f"hole 4 par 5 532 stroke index 7, ob {side} 250 to 532",
            "start round",
            "practice",
            "hole 4",
            "300 in",
        )
        aims[side] = shot["best"]["finish_from_middle"]["value"]
    *_, free = chat(
        "hole 4 par 5 532 stroke index 7", "start round", "practice", "hole 4", "300 in"
    )
    assert aims["right"] < free["best"]["finish_from_middle"]["value"] < aims["left"]


def test_a_ball_that_went_back_is_not_on_the_hole_of_the_notes() -> None:
    first, second, third = chat(
        "hole 4 par 5 532 stroke index 7, water right 100 to 532",
        "start round", "practice", "hole 4", "300 in", "120 in", "250 in",
    )[-3:]  # fmt: skip
    assert first["notes"]
    assert second["troubles"] == {"water right": "right"}
    assert third["notes"] is None
    assert third["troubles"] == {}


def test_a_tee_shot_takes_the_noted_length() -> None:
    *_, shot = chat(
        "hole 4 par 5 532 stroke index 7, water right 210 to 260", "start round", "practice",
        "hole 4, on the tee, wind 15 from the left",
    )  # fmt: skip
    assert shot["distance"]["value"] == pytest.approx(532)
    assert shot["shot_kind"] == "tee"
    assert "water right" in shot["troubles"]


def test_nothing_of_the_notes_is_shown_in_a_round_by_the_rules() -> None:
    *_, shot = chat(
        "hole 4 par 5 532 stroke index 7, water right 210 to 260",
        "start round",
        "rules",
        "hole 4",
        "300 in",
    )
    assert shot["kind"] == "withheld"
    assert "water" not in " ".join(shot["lines"])


def test_why_and_a_change_keep_the_notes() -> None:
    first, why, changed = chat(
        "hole 4 par 5 532 stroke index 7, water right 330 to 532",
        "start round", "practice", "hole 4", "300 in", "why", "what if into 10",
    )[-3:]  # fmt: skip
    assert any("notes of hole 4: water right" in line for line in why["lines"])
    assert first["troubles"] == why["troubles"] == changed["troubles"]


# A hole bent right by 30 degrees 60 m ahead, 150 m on from there. The straight way to the pin
# passes the corner at 60 * 150 * sin 30 / |p| = 22 m on its inside (plane geometry).
@pytest.mark.parametrize("bend", [1, -1])
def test_trouble_inside_a_bend_comes_nearer_to_the_straight_way(bend: int) -> None:
    turn = math.radians(30.0)
    inner, outer = ("right", "left") if bend > 0 else ("left", "right")
    told = Told(
        pin_m=210.0, bend=bend, bend_m=60.0,
        trouble=(
            ToldTrouble("out", "out", inner, 0.0, 110.0, 34.0, "line"),  # type: ignore[arg-type]
            ToldTrouble("water", "penalty", outer, 0.0, 110.0, 34.0, "line"),  # type: ignore[arg-type]
        ),
    )  # fmt: skip
    straight = math.hypot(60 + 150 * math.cos(turn), 150 * math.sin(turn))
    corner = 60 * 150 * math.sin(turn) / straight
    scene, _ = scene_of(straightened(told, turn_rad=turn))
    near, far = (t.shape for t in scene.trouble)
    assert isinstance(near, Strip)
    assert isinstance(far, Strip)
    assert (near.side, far.side) == (bend, -bend)
    assert near.edge_m == pytest.approx(34.0 - corner)
    assert far.edge_m == pytest.approx(34.0)  # beside the ball nothing is gained
    # No point of the real trouble is on the safe side of what stands for it.
    x = np.linspace(0.0, 60.0, 30)
    heading = bend * math.atan2(150 * math.sin(turn), 60 + 150 * math.cos(turn))
    off = -x * math.sin(heading) + bend * 34.0 * math.cos(heading)
    assert np.all(bend * off >= near.edge_m - 4.6)


def test_a_mirrored_bend_is_straightened_in_a_mirror() -> None:
    def told(way: int) -> Told:
        side = "right" if way > 0 else "left"
        return Told(
            pin_m=200.0, bend=way, bend_m=70.0,
            trouble=(ToldTrouble("out", "out", side, 20.0, 90.0),),  # type: ignore[arg-type]
        )  # fmt: skip

    one, other = (scene_of(straightened(told(w)))[0] for w in (1, -1))
    assert one.mirrored() == other
