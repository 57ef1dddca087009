"""A player's shots and scores as tables any spreadsheet opens; every column is described."""

from __future__ import annotations

import csv
import io
from collections.abc import Iterable, Mapping
from typing import Any

from bot.model.entry import Entry
from bot.storage.store import Store

SHOTS: dict[str, str] = {
    "round": "id of the round, empty outside one",
    "hole": "number of the hole",
    "at": "when the result was told, ISO 8601, UTC",
    "asked": "what was asked: shot, tee, chip, putt; empty where nothing was",
    "distance": "distance told for the shot",
    "unit": "unit of the distance",
    "lie": "lie told for the shot, words joined by a space",
    "advised": "club advised",
    "advised_swing": "swing advised",
    "club": "club played, the advised one where none was named",
    "depth": "short, pin_high or long of the target, as told",
    "side": "left or right of the line, as told",
    "ended": "where it ended, words joined by a space",
    "contact": "contact, as told",
    "putts": "putts counted by this result",
    "penalty": "penalty strokes",
    "best": "expected strokes with the best on offer",
    "played": "expected strokes as played",
    "choice": "played less best: what the choice cost",
    "implied": "1 where the result was taken from the next message",
    "engine": "version of the engine that answered",
}
SCORES: dict[str, str] = {
    "round": "id of the round",
    "hole": "number of the hole",
    "at": "when the score was told, ISO 8601, UTC",
    "strokes": "strokes, penalties counted; empty after a pick-up",
    "putts": "putts, where told",
    "picked_up": "1 after a pick-up",
}


def shots_sheet(store: Store, player: str) -> str:
    """Return a player's shots as CSV (RFC 4180), one result a line in order of time."""
    entries = list(store.entries(player=player, kinds=("answer", "result")))
    asked = {(e.chat, e.message_id): e for e in entries if e.kind == "answer"}
    rows = (
        _shot(e, asked.get((e.chat, str(e.body.get("shot")))))
        for e in entries
        if e.kind == "result"
    )
    return _sheet(SHOTS, rows)


def scores_sheet(store: Store, player: str) -> str:
    """Return a player's scores as CSV (RFC 4180), in order of time."""
    rows = (
        {
            "round": e.round, "hole": e.hole, "at": e.at.isoformat(),
            "strokes": e.body.get("strokes"), "putts": e.body.get("putts"),
            "picked_up": int(bool(e.body.get("picked_up"))),
        }
        for e in store.entries(player=player, kinds=("score",))
    )  # fmt: skip
    return _sheet(SCORES, rows)


def _shot(result: Entry, answer: Entry | None) -> dict[str, Any]:
    told, priced = result.body["told"], result.body.get("priced") or {}
    facts = {} if answer is None else answer.body["facts"]
    advice = {} if answer is None else answer.body["advice"]
    distance = advice.get("distance") or advice.get("length") or {}
    advised = priced.get("advised") or {}
    best, played = priced.get("best"), priced.get("played")
    return {
        "round": result.round,
        "hole": result.hole,
        "at": result.at.isoformat(),
        "asked": priced.get("of") or advice.get("kind"),
        "distance": distance.get("value"),
        "unit": distance.get("unit"),
        "lie": " ".join(facts.get("lie", ())),
        "advised": advised.get("club"),
        "advised_swing": advised.get("swing"),
        "club": result.body.get("club"),
        "depth": told.get("depth"),
        "side": told.get("side"),
        "ended": " ".join(told.get("lie", ())),
        "contact": told.get("contact"),
        "putts": told.get("putts"),
        "penalty": result.body.get("penalty"),
        "best": best,
        "played": played,
        "choice": None if best is None or played is None else played - best,
        "implied": int(bool(told.get("implied"))),
        "engine": None if answer is None else answer.engine_version,
    }


def _sheet(columns: Mapping[str, str], rows: Iterable[Mapping[str, Any]]) -> str:
    out = io.StringIO(newline="")
    writer = csv.DictWriter(out, list(columns), lineterminator="\r\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()
