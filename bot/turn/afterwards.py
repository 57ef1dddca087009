"""What would have been advised in a round by the Rules, worked out once it is over?

By the Rules nothing is worked out while a round is on; the shots told wait in the log. When the
review opens they are weighed on the profile as it stood before the first stroke, and kept as a
computed table, so that it is done once.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Sequence
from typing import Any

from bot.model.advice import ShotAdvice
from bot.model.entry import Entry
from bot.model.reading import Facts, Result
from bot.model.state import DayFacts, Memory, Played
from bot.turn.desk import Desk
from bot.turn.implied import Open
from bot.turn.priced import priced
from bot.turn.shot import advice_for
from engine import ENGINE_VERSION, NoSolution, OutOfRange

_OFF_TEE = 0.85  # share of the hole's length left from which a ball is on its tee: judgement


def opened_up(desk: Desk, played: Played, entries: Sequence[Entry]) -> list[Entry]:
    """Return the entries with an answer for each shot that was withheld, results priced by it."""
    if played.kind != "rules" or not any(e.kind == "withheld" for e in entries):
        return list(entries)
    then = played.charts.get(desk.who, desk.player.profile)
    blank = desk.put(Memory.new(desk.message.chat, desk.who))
    blank = blank.put(desk.player.model_copy(update={"profile": then}))
    numbers = ",".join(str(e.id) for e in entries)
    named = f"{ENGINE_VERSION} {played.ids[0]} {desk.who} {numbers}"
    key = hashlib.sha256(named.encode()).hexdigest()  # tells nobody's id
    made = desk.tables("afterwards", key, lambda: _worked_out(blank, played, entries))
    bodies: list[dict[str, Any] | None] = json.loads(made)
    out = []
    for entry, body in zip(entries, bodies, strict=True):
        if body is None:
            out.append(entry)
            continue
        kind = {"withheld": "answer"}.get(entry.kind, entry.kind)
        out.append(entry.model_copy(update={"kind": kind, "body": body}))
    return out


def _worked_out(desk: Desk, played: Played, entries: Sequence[Entry]) -> bytes:
    """Return the new body of each entry as JSON, null where it stays as it is."""
    bodies: list[dict[str, Any] | None] = []
    last: Open | None = None
    for entry in entries:
        body: dict[str, Any] | None = None
        if entry.kind == "withheld":
            last = _advised(desk, played, entry)
            if last is not None:
                body = {"facts": entry.body.get("facts") or {}, "advice": last.advice}
        elif entry.kind == "result" and last is not None and not entry.body["told"].get("putt"):
            worth = priced(desk, Result.model_validate(entry.body["told"]), last)
            body = {**entry.body, "shot": entry.body.get("shot") or last.message_id,
                    "priced": worth}  # fmt: skip
            last = None
        bodies.append(body)
    return json.dumps(bodies).encode()


def _advised(desk: Desk, played: Played, entry: Entry) -> Open | None:
    """Return the advice a withheld shot would have had; None where it was no full shot."""
    if entry.body.get("kind", "shot") not in ("shot", "tee", "layup", "recovery"):
        return None
    facts = Facts.model_validate(entry.body.get("facts") or {})
    if facts.distance is None or facts.putt is not None:
        return None
    hole = played.told.get(entry.hole or 0)
    length = None if hole is None or hole.length is None else hole.length.value
    on_tee = length is not None and facts.distance.value >= _OFF_TEE * length
    kind = "tee" if on_tee or entry.body.get("kind") == "tee" else "shot"
    day = DayFacts.model_validate(entry.body.get("day") or {})
    trip = desk.trip
    desk = desk.put(trip.model_copy(update={"day": day}))
    try:
        advice = advice_for(desk, facts, kind)
    except (NoSolution, OutOfRange):
        return None
    if not isinstance(advice, ShotAdvice):
        return None
    dumped = advice.model_dump(mode="json")
    return Open(entry.message_id, "shot", dumped, facts, entry.hole, day)
