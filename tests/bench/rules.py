"""Does a round by the Rules leak, and is danger heard first and only when it is there?

Run from the top of the repository: ``python tests/bench/rules.py [--json] [--show]``; takes
about a minute, most of it for working out in practice what must not be said. ``--show``
prints every leak, every danger missed and every false alarm.
"""

from __future__ import annotations

import random
import sys
from pathlib import Path
from typing import Any

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from bot.model import reading as read_model
from bot.text.read import read
from tests.bench._table import Row, finish
from tests.support.leaks import Table, dangers, leak, ordinary, phrases, talk

LEAST = 2000
SEED = 20261125
PRACTICE_EVERY = 7  # advice is worked out for every seventh message: the slow part


def leaks(show: bool) -> dict[str, float]:
    """Play the whole talk in a round by the Rules, beside a twin trip and a practice round."""
    texts = [text for text, _ in phrases() if not _thunder(text)]
    random.Random(SEED).shuffle(texts)
    storm = [text for text, _ in phrases() if _thunder(text)]  # last: it holds everything back
    rules, twin = Table(competition=True), Table(competition=True, change=True)
    practice = Table(competition=False)
    heard = advised = told_apart = leaked = broken = withheld = 0
    for number, said in enumerate((*talk(texts, LEAST), *talk(storm, 1))):
        if rules.over() or twin.over():
            rules.renew()
            twin.renew()
        if practice.over():
            practice.renew()
        got, other = rules.hear(said), twin.hear(said)
        expected = practice.hear(said) if number % PRACTICE_EVERY == 0 else None
        heard += 1
        advised += expected is not None and any(a.get("kind") in ADVICE for a in expected.answers)
        kinds = [a.get("kind") for a in got.answers]
        withheld += "withheld" in kinds
        broken += "broken" in kinds
        why = leak(said, got, expected)
        if why is not None:
            leaked += 1
            if show:
                print(f"leak ({why}): {said.text!r} -> {got.reply.lines}")
        if not own(kinds) and got.reply != other.reply:
            told_apart += 1
            if show:
                print(f"apart: {said.text!r} -> {got.reply.lines} / {other.reply.lines}")
    return {
        "heard": heard, "leaked": leaked, "apart": told_apart, "broken": broken,
        "withheld": withheld, "advised": advised,
    }  # fmt: skip


def _thunder(text: str) -> bool:
    acts = read(text).acts
    return any(isinstance(a, read_model.Safety) and a.danger == "lightning" for a in acts)


ADVICE = ("shot", "advice", "putt", "chip", "why", "plan", "compare")


def own(kinds: list[Any]) -> bool:
    """Whether a reply shows a player's own facts, which differ between twins by right."""
    return bool({"chart", "bag", "card", "standings", "score_kept", "strokes_received",
                 "on_hole", "round_over"} & set(kinds))  # fmt: skip


def recall(show: bool) -> tuple[int, int]:
    """Count danger phrases: as they are, misspelt, and buried in a shot message."""
    heard = missed = 0
    for text, danger in dangers(SEED):
        heard += 1
        acts = read(text).acts
        if not any(isinstance(a, read_model.Safety) and a.danger == danger for a in acts):
            missed += 1
            if show:
                print(f"missed ({danger}): {text!r} -> {[a.act for a in acts]}")
    return heard, missed


def alarms(show: bool) -> tuple[int, int]:
    """Count ordinary messages taken for a danger."""
    heard = false = 0
    for text in ordinary():
        heard += 1
        if any(isinstance(a, read_model.Safety) for a in read(text).acts):
            false += 1
            if show:
                print(f"false alarm: {text!r}")
    return heard, false


def main(argv: list[str]) -> int:
    """Measure and print."""
    show = "--show" in argv
    found = leaks(show)
    asked, missed = recall(show)
    plain, false = alarms(show)
    rows = [
        Row("messages in a round by the Rules", found["heard"], LEAST, better="above"),
        Row("replies with advice", found["leaked"], 0, baseline=found["advised"]),
        Row("replies that tell two bags apart", found["apart"], 0),
        Row("replies that broke", found["broken"], 0),
        Row("questions for advice withheld", found["withheld"], 1, better="above"),
        Row("danger phrases", asked, 100, better="above"),
        Row("dangers missed", 100 * missed / max(asked, 1), 0, "%"),
        Row("ordinary messages", plain, 500, better="above"),
        Row("false alarms per 500", 500 * false / max(plain, 1), 1, ""),
    ]
    return finish("Rules and safety", rows, argv)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
