"""Parse arguments, read the environment, run one transport; nothing else."""

from __future__ import annotations

import argparse
import io
import json
import logging
import sys
from pathlib import Path

from bot import app
from bot.conversation import Conversation
from bot.storage.errors import StoreError
from bot.transports import console, pipe

COMMANDS = ("pipe", "schema")
USAGE = """\
caddie                      chat on this terminal
caddie "160, into 18"       answer one message
caddie pipe                 JSON lines in, JSON lines out
caddie schema               JSON Schemas of those lines
"""


def main(argv: list[str] | None = None) -> int:
    """Run the program and return its exit code: 0 done, 1 trouble with the store, 2 usage."""
    args = _parse(sys.argv[1:] if argv is None else argv)
    logging.basicConfig(level=args.log, stream=sys.stderr, format="%(levelname)s %(message)s")
    if args.words == ["schema"]:
        print(json.dumps(pipe.schema(), indent=2))
        return 0
    try:
        store = app.open_store(args.data or str(app.default_data()), args.demo)
    except StoreError as error:
        print(f"caddie: {error}", file=sys.stderr)
        return 1
    try:
        return _run(args, app.conversation(store))
    except StoreError as error:
        print(f"caddie: {error}", file=sys.stderr)
        return 1
    except (BrokenPipeError, KeyboardInterrupt):
        return 0
    finally:
        store.close()


def _run(args: argparse.Namespace, conversation: Conversation) -> int:
    if args.words == ["pipe"]:
        lines = io.TextIOWrapper(sys.stdin.buffer, encoding="utf-8", errors="replace")
        pipe.run(conversation.process, lines, sys.stdout)
        return 0
    compose = app.compose_local()
    explain = app.explain if args.explain else None
    if args.words:
        handled = conversation.process(compose(" ".join(args.words)))
        print(handled.reply.text)
        if explain is not None:
            print(explain(handled))
        return 0
    keeps = args.data != ":memory:"
    history = Path(args.data or app.default_data()).with_suffix(".history") if keeps else None
    console.run(conversation.process, compose, history=history, explain=explain)
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
    parser.add_argument("--explain", action="store_true", help="show how an answer came about")
    parser.add_argument(
        "--log", default="WARNING", choices=["DEBUG", "INFO", "WARNING", "ERROR"], help="to stderr"
    )
    return parser.parse_intermixed_args(argv)


if __name__ == "__main__":
    sys.exit(main())
