"""How rightly and how fast messages are read, beside a general quantity extractor.

Run from the top of the repository: ``python tests/bench/reading.py [--json] [--fuzz N]
[--labels FILE] [--units FILE]``; takes about 40 s, and about 40 s more per 100,000 fuzzed
messages. ``--labels`` takes labelled messages the corpus does not hold, one JSON object a line
(text, context, locale_units, kind, expect, tags); ``--units`` sentences with their quantities
(cases: text and quantities of value, kind, unit). Neither is part of the project.
"""

from __future__ import annotations

import gc
import random
import statistics
import sys
import time
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parents[2]))

from quantulum3 import parser as extractor

from bot.text.read import read
from tests.bench._table import Row, finish
from tests.support.labelled import score_labels
from tests.support.messages import CORPUS, facts_of, groups, meaning
from tests.support.quantities import score_units

FUZZ = 20_000
LONG = 5_000
NUMBERS = (
    "distance_yd", "distance_m", "front_yd", "middle_yd", "back_yd", "plays_as_yd", "leave_yd",
    "hole_yd", "carry_yd",
)  # fmt: skip


def main(argv: list[str]) -> int:
    corpus = [
        (phrase, group) for path in sorted(CORPUS.glob("*.toml"))
        for group in groups(path) for phrase in group["says"]
    ]  # fmt: skip
    texts = [phrase for phrase, _ in corpus]
    for text in texts:
        read(text)
    right = sum(
        facts_of(p, g.get("after"), g.get("units", "imperial")) == meaning(g) for p, g in corpus
    )
    ours_ms, theirs_ms, ours_found, theirs_found = against_extractor(corpus)
    rows = [
        Row("corpus read exactly right", 100 * right / len(corpus), 100, "%", "above"),
        Row("its lengths found", ours_found, 95, "%", "above", theirs_found),
        Row("a message, median", statistics.median(ours_ms), 1, "ms", "below",
            statistics.median(theirs_ms)),
        Row("a message, slowest of corpus", max(ours_ms), 5, "ms"),
        Row(f"a text of {LONG} characters, worst", worst_long(texts), 5, "ms"),
        Row("time for twice the length", growth(texts), 2.5, "times"),
        Row("fuzzed texts that broke it", fuzzed(texts, int(option(argv, "--fuzz") or FUZZ)), 0,
            "texts"),
    ]  # fmt: skip
    labels, units = option(argv, "--labels"), option(argv, "--units")
    if labels:
        rows += score_labels(Path(labels))
    if units:
        rows += score_units(Path(units))
    return finish("Reading messages", rows, argv)


def option(argv: list[str], name: str) -> str | None:
    """The word after an option."""
    return argv[argv.index(name) + 1] if name in argv else None


def clocked(text: str, repeats: int = 3) -> float:
    """The shortest of some readings of a text [ms]."""
    best = float("inf")
    for _ in range(repeats):
        begun = time.process_time()
        read(text)
        best = min(best, time.process_time() - begun)
    return best * 1e3


def against_extractor(
    corpus: list[tuple[str, dict]],
) -> tuple[list[float], list[float], float, float]:
    """Times of both [ms], and the shares of messages all of whose lengths each finds [%]."""
    gc.disable()
    ours, theirs = [], []
    counted = found_ours = found_theirs = 0
    for text, group in corpus:
        ours.append(clocked(text))
        begun = time.process_time()
        try:
            values = [q.value for q in extractor.parse(text)]
        except Exception:  # it is not ours to mend
            values = []
        theirs.append((time.process_time() - begun) * 1e3)
        labelled = [v for k, v in group["means"].items() if k in NUMBERS]
        if "after" in group or not labelled:
            continue
        counted += 1
        said = facts_of(text, None, group.get("units", "imperial"))
        found_ours += all(v in said.values() for v in labelled)
        found_theirs += all(any(abs(v - w) < 1e-6 for w in values) for v in labelled)
    gc.enable()
    return ours, theirs, 100 * found_ours / counted, 100 * found_theirs / counted


def worst_long(texts: list[str]) -> float:
    """The slowest of some texts of `LONG` characters, plain, mutated and built to hurt [ms]."""
    pick = random.Random(5)
    mixed = [" ".join(pick.sample(texts, 250))[:LONG] for _ in range(20)]
    built = [
        (piece * LONG)[:LONG]
        for piece in ("9 ", "left ", "water left 160 into ", "wnid bukner ", "one ", "a", "into ",
                      "1/2 ", "- ", "pin back ", "12 mph ", "the ", "'s ", "x2")
    ]  # fmt: skip
    gc.disable()
    worst = max(clocked(text, 5) for text in mixed + built)
    gc.enable()
    return worst


def growth(texts: list[str]) -> float:
    """How much longer 400 characters take than 200."""
    pick = random.Random(7)
    short, double = [], []
    for _ in range(60):
        text = ", ".join(pick.sample(texts, 30))
        short.append(clocked(text[:200], 5))
        double.append(clocked(text[:400], 5))
    return statistics.median(double) / statistics.median(short)


def fuzzed(texts: list[str], count: int) -> int:
    """How many of `count` mutated messages raised or gave spans that do not fit."""
    pick = random.Random(11)
    signs = "0123456789 .,-/'\"°%➡️🌬½\u200b\u202e\x00\n():;?!eEmMyYlLrR"
    broken = 0
    for _ in range(count):
        text = list(pick.choice(texts))
        for _ in range(pick.randint(1, 6)):
            at = pick.randrange(len(text) + 1)
            deed = pick.random()
            if deed < 0.35 or not text:
                text.insert(at, pick.choice(signs))
            elif deed < 0.6:
                text.pop(min(at, len(text) - 1))
            elif deed < 0.8:
                other = pick.choice(texts)
                text[at:at] = other[: pick.randint(1, 12)]
            else:
                other_at = pick.randrange(len(text))
                at = min(at, len(text) - 1)
                text[at], text[other_at] = text[other_at], text[at]
        try:
            broken += not fits("".join(text))
        except Exception as error:
            print(f"broke on {''.join(text)!r}: {error!r}", file=sys.stderr)
            broken += 1
    return broken


def fits(text: str) -> bool:
    """Whether all spans of a reading are pieces of its text."""
    reading = read(text)
    spans = [*reading.unread, *(f.span for f in reading.trace), *(c.span for c in reading.open)]
    return all(s.text in text and 0 <= s.start <= s.end <= len(text) for s in spans)


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
