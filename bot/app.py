"""The only place where the concrete store, engine, transports and settings meet."""

from __future__ import annotations

import json
import tomllib
import uuid
from collections.abc import Callable
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import platformdirs

from bot.conversation import Conversation
from bot.courses import Problem, read_course, read_extract
from bot.model.message import Handled, Message, Reply
from bot.model.state import Course, Document, Player, Trip
from bot.storage.memory import MemoryStore
from bot.storage.sqlite import SqliteStore
from bot.storage.store import Change, Store
from bot.turn.desk import key_of

EPOCH = datetime(2026, 1, 1, tzinfo=UTC)
ME = "me"  # chat and player of the person at this terminal


def default_data() -> Path:
    """Return where the store lives when nobody says otherwise."""
    return platformdirs.user_data_path("two-line-caddie") / "caddie.sqlite"


def open_store(data: str, demo: Path | None) -> Store:
    """Open the store at `data` (``:memory:`` keeps nothing) and put in the demo if it is new."""
    store: Store
    if data == ":memory:":
        store = MemoryStore()
    else:
        path = Path(data)
        path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
        store = SqliteStore(path)
    if demo is not None:
        load_demo(store, demo)
    return store


def load_demo(store: Store, demo: Path) -> None:
    """Put the documents of the file `demo` into a store, once."""
    kinds: tuple[type[Document], ...] = (Player, Trip, Course)
    tables = tomllib.loads(demo.read_text("utf-8"))
    documents = {
        key_of(kind, document.ids): document
        for kind in kinds
        for document in map(kind.model_validate, tables.get(kind.shelf, []))
    }
    for listed in tables.get("course_file", []):
        text = (demo.parent / listed["path"]).read_text("utf-8")
        course, _ = read_course(text, owner=listed["owner"])
        documents[key_of(Course, course.ids)] = course
    missing = documents.keys() - store.load(list(documents)).keys()
    seed = Message(chat="demo", sender="demo", text="", sent_at=EPOCH, message_id="demo")
    store.commit(
        Change(
            message=seed,
            reply=Reply(lines=()),
            documents={k: (0, documents[k].model_dump_json()) for k in sorted(missing)},
        )
    )


def add_course(store: Store, path: Path, *, tee: str, name: str) -> tuple[Problem, ...]:
    """Keep the course of a file, our own or a map extract, for the player at this terminal.

    Returns what the file lacks. A hole it has not keeps the notes there were. Raises
    `BadCourse` where the file cannot be used.
    """
    text = path.read_text("utf-8")
    if path.suffix.lower() in (".geojson", ".json"):
        course, problems = read_extract(text, owner=ME, name=name, tee=tee)
    else:
        course, problems = read_course(text, owner=ME)
    key, trip_key = key_of(Course, course.ids), key_of(Trip, (ME,))
    kept = store.load([key, trip_key])
    if key in kept:
        before = Course.model_validate_json(kept[key].body)
        course = course.model_copy(update={"holes": {**before.holes, **course.holes}})
    trip = Trip.model_validate_json(kept[trip_key].body) if trip_key in kept else Trip.new(ME)
    trip = trip.model_copy(update={"course": course.name, "tee": course.tee})
    now = datetime.now(UTC)
    said = Message(
        chat=ME, sender=ME, text=f"course {path.name}", sent_at=now, message_id=uuid.uuid4().hex
    )
    versions = {k: v.version for k, v in kept.items()}
    documents = {key: course.model_dump_json(), trip_key: trip.model_dump_json()}
    store.commit(
        Change(
            message=said,
            reply=Reply(lines=()),
            documents={k: (versions.get(k, 0), body) for k, body in documents.items()},
        )
    )
    return problems


def conversation(store: Store) -> Conversation:
    """Return the conversation over `store`."""
    return Conversation(store)


def compose_local() -> Callable[[str], Message]:
    """Return a maker of messages typed at this terminal, each with a key of its own."""

    def compose(text: str) -> Message:
        return Message(
            chat=ME,
            sender=ME,
            text=text.encode("utf-8", "replace").decode("utf-8"),
            sent_at=datetime.now(UTC),
            message_id=uuid.uuid4().hex,
        )

    return compose


def explain(handled: Handled) -> str:
    """Return how a message was read and how its answer came about, as indented JSON."""
    shown: dict[str, Any] = {"reading": handled.reading, "answer": list(handled.answers)}
    return json.dumps(shown, indent=2, ensure_ascii=False)
