"""Parse arguments, read the environment, run one transport; nothing else."""

from __future__ import annotations

import argparse
import io
import json
import logging
import os
import sys
from pathlib import Path

from bot import app
from bot.courses import BadCourse
from bot.settings import SettingsError, read_settings
from bot.storage.errors import StoreError
from bot.storage.portable import BadExport
from bot.storage.store import Store
from bot.text.explain import explain as text_page
from bot.transports import console, pipe

SERVICE = {"telegram": 1, "doctor": 1, "health": 1, "backup": 2, "restore": 2}  # and their words
COMMANDS = (
    "pipe",
    "schema",
    "read TEXT",
    "flight",
    "course FILE",
    "report FILE",
    "export FOLDER",
    "import FILE",
    "recheck",
    "sheet FILE",
    *SERVICE,
)
USAGE = """\
caddie                      chat on this terminal
caddie "160, into 18"       answer one message
caddie pipe                 JSON lines in, JSON lines out
caddie schema               JSON Schemas of those lines
caddie read "160 into 18"   show how a message is read, rule by rule
caddie flight               how your clubs fly, calm and in wind; --every for every swing
caddie telegram             serve on Telegram, as CADDIE_* variables or --settings FILE say
caddie doctor               check settings, store, permissions and the platform
caddie backup FILE          copy the store, in use or not, and check the copy
caddie restore FILE         put a copy in the store's place; the service must not run
caddie health               say whether the running service is well; exit code 1 where not
caddie sheet FILE           write the plan as a page to print; ask for "plan the round" first
caddie report FILE          write the last round's report as a web page
caddie export FOLDER        write everything of yours: JSON lines, tables, their columns
caddie import FILE          put such JSON lines into a new store (--data NEW)
caddie recheck              work the last round's answers out again
caddie course FILE          keep a course: a course file or a GeoJSON map extract
"""


def main(argv: list[str] | None = None) -> int:
    """Run the program and return its exit code: 0 done, 1 trouble with the store, 2 usage."""
    args = _parse(sys.argv[1:] if argv is None else argv)
    logging.basicConfig(level=args.log, stream=sys.stderr, format="%(levelname)s %(message)s")
    if args.words == ["schema"]:
        print(json.dumps(pipe.schema(), indent=2))
        return 0
    if args.words[:1] == ["read"] and len(args.words) > 1:
        print(text_page(" ".join(args.words[1:])))
        return 0
    if args.words and len(args.words) == SERVICE.get(args.words[0]):
        return _serve(args)
    try:
        store = app.open_store(args.data or str(app.default_data()), args.demo)
    except StoreError as error:
        print(f"caddie: {error}", file=sys.stderr)
        return 1
    try:
        return _run(args, store)
    except StoreError as error:
        print(f"caddie: {error}", file=sys.stderr)
        return 1
    except (BrokenPipeError, KeyboardInterrupt):
        return 0
    finally:
        store.close()


def _run(args: argparse.Namespace, store: Store) -> int:
    conversation = app.conversation(store)
    if args.words == ["pipe"]:
        lines = io.TextIOWrapper(sys.stdin.buffer, encoding="utf-8", errors="replace")
        pipe.run(conversation.process, lines, sys.stdout)
        return 0
    if args.words == ["flight"]:
        print("\n".join(app.flights(store, every_swing=args.every)))
        return 0
    if args.words[:1] in (["export"], ["import"], ["report"]) and len(args.words) == 2:
        return _carry(args.words[0], Path(args.words[1]), store)
    if args.words[:1] == ["course"] and len(args.words) == 2:
        return _keep_course(store, Path(args.words[1]), args)
    if args.words[:1] == ["sheet"] and len(args.words) == 2:
        return _write_sheet(store, Path(args.words[1]))
    compose = app.compose_local()
    explain = app.explain if args.explain else None
    data = Path(args.data or app.default_data())
    keep = app.keeper(conversation, Path("caddie-files") if args.data == ":memory:"
                      else data.with_suffix(".files"))  # fmt: skip
    if args.words:
        message = compose(" ".join(args.words))
        handled = conversation.process(message)
        print(handled.reply.text)
        if handled.reply.attached:
            print("\n".join(keep(message)))
        if explain is not None:
            print(explain(handled))
        return 0
    keeps = args.data != ":memory:"
    history = Path(args.data or app.default_data()).with_suffix(".history") if keeps else None
    console.run(conversation.process, compose, history=history, explain=explain, keep=keep)
    return 0


def _serve(args: argparse.Namespace) -> int:
    environment = dict(os.environ)
    if args.data:
        environment["CADDIE_DATA"] = args.data
    try:
        settings = read_settings(environment, args.settings)
        if args.words[0] in ("backup", "restore"):
            act = app.back_up if args.words[0] == "backup" else app.put_back
            print(act(settings, Path(args.words[1])))
            return 0
        if args.words == ["health"]:
            state = app.service_health(settings)
            print(json.dumps(state))
            return 0 if state["healthy"] else 1
        if args.words == ["doctor"]:
            findings = list(app.examine(settings))
            for found in findings:
                print(f"{'ok ' if found.ok else 'BAD'} {found.what}: {found.detail}")
            return 0 if all(found.ok for found in findings) else 1
        return app.serve_telegram(settings, environment.get("NOTIFY_SOCKET"))
    except SettingsError as error:
        for line in error.lines:
            print(f"caddie: {line}", file=sys.stderr)
        return 2
    except StoreError as error:
        print(f"caddie: {error}", file=sys.stderr)
        return 1


def _carry(what: str, path: Path, store: Store) -> int:
    """Write or take in what a player carries away: an export or a report."""
    try:
        if what == "export":
            for written in app.export_to(store, path):
                print(written)
        elif what == "import":
            print(f"{path}: taken in, player {app.import_from(store, path)}")
        elif not app.report_to(store, path):
            print("caddie: there is no round to report on", file=sys.stderr)
            return 1
        else:
            print(path)
    except OSError as error:
        print(f"caddie: {path}: {error.strerror}", file=sys.stderr)
        return 2
    except (BadExport, UnicodeDecodeError) as error:
        print(f"caddie: {path}: {error}", file=sys.stderr)
        return 2
    return 0


def _keep_course(store: Store, path: Path, args: argparse.Namespace) -> int:
    try:
        problems = app.add_course(store, path, tee=args.tee, name=args.name)
    except OSError as error:
        print(f"caddie: {path}: {error.strerror}", file=sys.stderr)
        return 2
    except UnicodeDecodeError:
        print(f"caddie: {path}: not a text file", file=sys.stderr)
        return 2
    except BadCourse as error:
        for problem in error.problems:
            print(f"{path}: {problem}", file=sys.stderr)
        return 2
    for problem in problems:
        print(f"{path}: {problem}")
    print(f"{path}: kept")
    return 0


def _write_sheet(store: Store, path: Path) -> int:
    page = app.sheet(store)
    if page is None:
        print('caddie: no plan yet; send "plan the round" first', file=sys.stderr)
        return 2
    try:
        path.write_text(page, "utf-8")
    except OSError as error:
        print(f"caddie: {path}: {error.strerror}", file=sys.stderr)
        return 2
    print(f"{path}: written")
    return 0


def _parse(argv: list[str]) -> argparse.Namespace:
    parser = argparse.ArgumentParser(
        prog="caddie",
        description="A golf caddie that answers a short message with two lines.",
        epilog=USAGE,
        formatter_class=argparse.RawDescriptionHelpFormatter,
    )
    parser.add_argument("words", nargs="*", help="a message, or one of: " + ", ".join(COMMANDS))
    parser.add_argument("--data", help="file of the store; :memory: keeps nothing")
    parser.add_argument("--demo", type=Path, help="put this demo data into a new store")
    parser.add_argument("--tee", default="", help="tees of a map extract, such as white")
    parser.add_argument("--every", action="store_true", help="every swing of the bag's flights")
    parser.add_argument("--name", default="", help="name of the course on a map extract")
    parser.add_argument("--settings", type=Path, help="TOML file of the service's settings")
    parser.add_argument("--explain", action="store_true", help="show how an answer came about")
    parser.add_argument(
        "--log", default="WARNING", choices=["DEBUG", "INFO", "WARNING", "ERROR"], help="to stderr"
    )
    return parser.parse_intermixed_args(argv)


if __name__ == "__main__":
    sys.exit(main())
