"""The only place where the concrete store, engine, transports and settings meet."""

from __future__ import annotations

import json
import tomllib
import uuid
from collections.abc import Callable, Iterator
from datetime import UTC, datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import platformdirs

from bot.conversation import Conversation
from bot.courses import Problem, read_course, read_extract
from bot.courses.layout import course_key
from bot.model.message import Handled, Message, Reply
from bot.model.plan import Plan
from bot.model.state import Course, Document, Player, Trip
from bot.settings import Settings, read_secret, read_token
from bot.storage.backup import backup, restore
from bot.storage.errors import StoreError
from bot.storage.lock import locked
from bot.storage.memory import MemoryStore
from bot.storage.portable import export_lines, import_lines
from bot.storage.sheets import SCORES, SHOTS, scores_sheet, shots_sheet
from bot.storage.sqlite import SqliteStore
from bot.storage.store import Change, Store
from bot.turn.desk import key_of
from bot.turn.flight import flight_page
from bot.wording.base import Style
from bot.wording.flight import flight_lines
from bot.wording.sheet import sheet_html

if TYPE_CHECKING:
    from bot.transports.telegram.doctor import Finding

EPOCH = datetime(2026, 1, 1, tzinfo=UTC)
ME = "me"  # chat and player of the person at this terminal


def default_data() -> Path:
    """Return where the store lives when nobody says otherwise."""
    return platformdirs.user_data_path("two-line-caddie") / "caddie.sqlite"


def open_store(data: str, demo: Path | None) -> Store:
    """Open the store at `data` (``:memory:`` keeps nothing) and put in the demo if it is new."""
    store = MemoryStore() if data == ":memory:" else open_file(Path(data))
    if demo is not None:
        load_demo(store, demo)
    return store


def open_file(path: Path) -> SqliteStore:
    """Open the store in a file, for the calling thread."""
    path.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    return SqliteStore(path)


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
    courses = tuple(dict.fromkeys((*trip.courses, (course.name, course.tee))))
    trip = trip.model_copy(update={"course": course.name, "tee": course.tee, "courses": courses})
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


def sheet(store: Store) -> str | None:
    """Return the kept plan of the player at this terminal as a page, or None."""
    kept = store.load([key_of(Trip, (ME,)), key_of(Player, (ME,))])
    if key_of(Trip, (ME,)) not in kept:
        return None
    trip = Trip.model_validate_json(kept[key_of(Trip, (ME,))].body)
    key = key_of(Plan, (ME, ME, course_key(trip.course or "", trip.tee or "")))
    found = store.load([key]).get(key)
    if found is None:
        return None
    body = kept.get(key_of(Player, (ME,)))
    units = None if body is None else Player.model_validate_json(body.body).units
    return sheet_html(Plan.model_validate_json(found.body), Style(units=units or "imperial"))


def conversation(store: Store) -> Conversation:
    """Return the conversation over `store`."""
    return Conversation(store)


def serve_telegram(settings: Settings, notify_address: str | None) -> int:
    """Serve on Telegram until stopped; returns the exit code.

    Raises `SettingsError` without a token, `StoreError` without a sound store.
    """
    from bot.transports.logs import set_up
    from bot.transports.telegram.access import derived
    from bot.transports.telegram.run import Parts, run  # heavy, and only this command needs it

    settings = settings.model_copy(update={"data": settings.data or default_data()})
    token, secret = read_token(settings).get_secret_value(), read_secret(settings)
    hook = secret.get_secret_value() if secret else derived(token, "webhook").hex()
    secrets = [token, hook]
    set_up(settings.log, secrets)
    parts = Parts(
        settings=settings,
        token=token,
        secret=hook,
        open_store=lambda: open_file(settings.data or default_data()),
        converse=conversation,
        now=lambda: datetime.now(UTC),
        notify_address=notify_address,
    )
    return run(parts)


def service_health(settings: Settings) -> dict[str, Any]:
    """Return the health of the service that works on the store, running or not."""
    from bot.transports.telegram.health import health

    data = settings.data or default_data()
    if not data.exists():
        return {"healthy": False, "store": f"{data} does not exist"}
    try:
        store = open_file(data)
    except StoreError as error:
        return {"healthy": False, "store": str(error)}
    try:
        return health(store, datetime.now(UTC), settings.poll_seconds + 30.0)
    finally:
        store.close()


def back_up(settings: Settings, target: Path) -> str:
    """Copy the store while it may be in use; returns what was done. Raises `StoreError`."""
    size = backup(settings.data or default_data(), target)
    return f"{target}: {size} bytes, sound"


def put_back(settings: Settings, copy: Path) -> str:
    """Put a backup in the store's place; returns what was done.

    Raises `StoreError` where the copy is not sound or the service runs; nothing is changed then.
    """
    data = settings.data or default_data()
    data.parent.mkdir(parents=True, exist_ok=True, mode=0o700)
    with locked(data):
        kept = restore(copy, data, datetime.now(UTC))
    before = "" if kept is None else f"; what was there is {kept}"
    return f"{data}: restored from {copy}{before}"


def examine(settings: Settings) -> Iterator[Finding]:
    """Return what a check of settings, store, permissions and platform finds."""
    from bot.transports.telegram.doctor import examine as look

    data = settings.data or default_data()
    return look(settings, data, lambda: open_file(data))


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


def flights(store: Store, *, every_swing: bool) -> tuple[str, ...]:
    """Return the page of how the clubs of the player at this terminal fly."""
    key = key_of(Player, (ME,))
    kept = store.load([key])
    player = Player.model_validate_json(kept[key].body) if key in kept else Player.new(ME)
    return flight_lines(flight_page(player, every_swing=every_swing))


def export_to(store: Store, folder: Path) -> tuple[Path, ...]:
    """Write everything of the player at this terminal into a folder; returns the files."""
    folder.mkdir(parents=True, exist_ok=True, mode=0o700)
    texts = {
        "caddie.jsonl": "".join(f"{line}\n" for line in export_lines(store, ME)),
        "shots.csv": shots_sheet(store, ME),
        "scores.csv": scores_sheet(store, ME),
        "columns.txt": "".join(
            f"{sheet} {name}: {what}\n"
            for sheet, columns in (("shots.csv", SHOTS), ("scores.csv", SCORES))
            for name, what in columns.items()
        ),
    }
    for name, text in texts.items():
        (folder / name).write_bytes(text.encode("utf-8"))
    return tuple(folder / name for name in texts)


def report_to(store: Store, path: Path) -> bool:
    """Write the report on the last round of the player at this terminal, if there is one."""
    talk = conversation(store)
    message = compose_local()("report")
    talk.process(message)
    for found in talk.attached(message.chat, message.message_id):
        path.write_bytes(found.body)
        return True
    return False


def import_from(store: Store, path: Path) -> str:
    """Put an export into a store that is new to its player. Raises `BadExport`."""
    return import_lines(store, path.read_text("utf-8").splitlines())


def keeper(talk: Conversation, folder: Path) -> Callable[[Message], tuple[str, ...]]:
    """Return a writer of the files that go with a reply, which says where they are."""

    def keep(message: Message) -> tuple[str, ...]:
        kept = []
        for name, body in talk.attached(message.chat, message.message_id):
            folder.mkdir(parents=True, exist_ok=True, mode=0o700)
            path = folder / f"{message.sent_at:%Y%m%d-%H%M%S}-{name}"
            path.write_bytes(body)
            kept.append(str(path))
        return tuple(kept)

    return keep


def explain(handled: Handled) -> str:
    """Return how a message was read and how its answer came about, as indented JSON."""
    shown: dict[str, Any] = {"reading": handled.reading, "answer": list(handled.answers)}
    return json.dumps(shown, indent=2, ensure_ascii=False)
