"""Log lines as JSON, with nothing in them that must not leave the program."""

import json
import logging
import re
import sys
import time
import traceback
from collections.abc import Sequence
from typing import TextIO

URL_TOKEN = re.compile(r"/bot\d+:[A-Za-z0-9_-]+")
NOISY = ("httpx", "httpcore", "tornado.access")
QUIET = (
    "telegram",
)  # its errors quote answers, which may hold what players wrote; ours name them
PLAIN = frozenset(vars(logging.makeLogRecord({}))) | {"message", "taskName", "asctime"}


class JsonLines(logging.Formatter):
    """One JSON object a line: time, level, where, event and its fields, secrets struck out.

    A traceback is given as its frames and the error's type; the error's own text may hold
    what a player wrote or an address with the token in it.
    """

    def __init__(self, secrets: Sequence[str]) -> None:
        super().__init__()
        parts = {part for secret in secrets for part in (secret, secret.partition(":")[2])}
        self._secrets = sorted((part for part in parts if part), key=len, reverse=True)

    def format(self, record: logging.LogRecord) -> str:
        """The line for a record."""
        moment = time.strftime("%Y-%m-%dT%H:%M:%S", time.gmtime(record.created))
        line: dict[str, object] = {
            "at": f"{moment}.{int(record.msecs):03d}Z",
            "level": record.levelname,
            "where": record.name,
            "event": record.getMessage(),
        }
        line.update({k: v for k, v in vars(record).items() if k not in PLAIN})
        if record.exc_info and record.exc_info[0] is not None:
            line["error"] = record.exc_info[0].__name__
            line["frames"] = traceback.format_tb(record.exc_info[2])
        return self.struck(json.dumps(line, default=str))

    def struck(self, text: str) -> str:
        """The text without secrets."""
        for secret in self._secrets:
            text = text.replace(secret, "[struck out]")
        return URL_TOKEN.sub("/bot[struck out]", text)


def set_up(level: str, secrets: Sequence[str], stream: TextIO | None = None) -> None:
    """Send all log lines to `stream` (standard error), and keep libraries to warnings."""
    handler = logging.StreamHandler(stream or sys.stderr)
    handler.setFormatter(JsonLines(secrets))
    logging.basicConfig(level=level, handlers=[handler], force=True)
    for name in NOISY:
        logging.getLogger(name).setLevel(logging.WARNING)
    for name in QUIET:
        logging.getLogger(name).setLevel(logging.CRITICAL)
