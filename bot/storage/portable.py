"""Everything of one player as JSON lines, and back into an empty store byte for byte."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator
from typing import Any

from bot.model.state import Played
from bot.storage.store import Store

FORMAT = "two-line-caddie player"
VERSION = 1


class BadExport(ValueError):
    """A file that is no export, or one that does not fit; `line` is counted from 1."""

    def __init__(self, line: int, why: str) -> None:
        super().__init__(f"line {line}: {why}")
        self.line, self.why = line, why


def export_lines(store: Store, player: str) -> Iterator[str]:
    """Yield one JSON object a line: a head, then documents, messages and log entries.

    Entries are numbered from 1 in the order of their time, so that the same history gives the
    same bytes wherever it was kept. Of a shared round only this player's card and chart are in.
    """
    found = store.export(player)
    documents = {**found["documents"], **_rounds(store, player)}
    yield _line({"is": FORMAT, "version": VERSION, "player": player})
    for key in sorted(documents):
        yield _line({"is": "document", "key": key, "body": documents[key]})
    for message in found["messages"]:
        yield _line({"is": "message", **message})
    numbers = {e["id"]: n for n, e in enumerate(found["entries"], start=1)}
    for entry in found["entries"]:
        undoes = numbers.get(entry["undoes"])
        yield _line({"is": "entry", **entry, "id": numbers[entry["id"]], "undoes": undoes})


def import_lines(store: Store, lines: Iterable[str]) -> str:
    """Put an export into a store that knows nothing of the player yet; returns the player.

    Raises
    ------
    BadExport
        The lines are no export, or the store already holds something of the player.
    """
    records = [_record(n, line) for n, line in enumerate(lines, start=1) if line.strip()]
    if not records or records[0].get("is") != FORMAT:
        raise BadExport(1, "this is not an export of this program")
    head, *rest = records
    if head.get("version") != VERSION:
        raise BadExport(1, f"version {head.get('version')} cannot be read here")
    player = str(head["player"])
    before = store.export(player)
    if before["documents"] or before["messages"] or before["entries"]:
        raise BadExport(1, "the store already holds this player; import into a new one")
    kinds: dict[str, list[dict[str, Any]]] = {"document": [], "message": [], "entry": []}
    for n, record in enumerate(rest, start=2):
        kind = record.pop("is", None)
        if kind not in kinds:
            raise BadExport(n, "neither document, message nor entry")
        kinds[kind].append(record)
    store.take_in(kinds["document"], kinds["message"], kinds["entry"])
    return player


def _rounds(store: Store, player: str) -> dict[str, Any]:
    """Return the rounds a player was in, with nothing of the others."""
    found = {}
    for key in store.keys("round/"):
        played = Played.model_validate_json(store.load([key])[key].body)
        if player not in played.players and player not in played.scores:
            continue
        own = played.model_copy(
            update={
                "players": tuple(p for p in played.players if p == player),
                "done": tuple(p for p in played.done if p == player),
                "scores": {p: s for p, s in played.scores.items() if p == player},
                "charts": {p: c for p, c in played.charts.items() if p == player},
            }
        )
        found[key] = json.loads(own.model_dump_json())
    return found


def _line(record: dict[str, Any]) -> str:
    return json.dumps(record, sort_keys=True, ensure_ascii=True, separators=(",", ":"))


def _record(n: int, line: str) -> dict[str, Any]:
    try:
        record = json.loads(line)
    except ValueError as error:
        raise BadExport(n, "not JSON") from error
    if not isinstance(record, dict):
        raise BadExport(n, "not a JSON object")
    return record
