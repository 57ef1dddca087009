"""Messages no one would label: phrases of the corpus broken, joined, stretched and salted."""

from __future__ import annotations

import random
import tomllib
from collections.abc import Iterator
from pathlib import Path

MESSAGES = Path(__file__).parents[2] / "fixtures" / "messages"

EXTREMES = (
    "\u0000", "\u202e", "\u2066", "\u200b", "\ufeff", "\u200d", "\ufe0f", "\u0301" * 9, "\ud800",
    "\U0010ffff", "\uffff", "\u0663\u0665", "\uff11\uff15\uff10", "\u00bd", "\u2075", "\u2167",
    "\u2019", "\u2033", "\u2212", "\u3000", "\u05d0\u05d1", "\U0001f3cc\ufe0f\u200d\u2642\ufe0f",
    "\x1b[31m", "\r\n", "\t", "\u2028", "\u0130", "\ufb01", "\u1e9e", "\u00df",
)  # fmt: skip
NUMBERS = (
    "0", "-1", "1e309", "nan", "inf", "1_000", "0x1F", "9" * 400, "1" + "0" * 30, "1.2.3", "1,5",
    "1,000,000", "3/0", "1/3", "5'11\"", "--5", "+-3", "12:60", "900 yd", "400 mph", "1e-320",
    "160 150 140 130 120", "(((160)))", "a hundred and a hundred and five",
)  # fmt: skip
MARKUP = ("<b>", "</code>", "&lt;", "*_[`", "](tg://user?id=1)", "/start@other", "$(id)", "'; --")
WORDS = ("no", "not", "why", "undo", "actually", "and", "or", "if", "what about", "left", "right",
         "into", "help",
         "competition on", "on hole", "made", "bag", "forget", "for Dana:")  # fmt: skip


def corpus() -> list[str]:
    """Return every phrase of the corpus, in the order of its files."""
    return [
        text
        for path in sorted(MESSAGES.glob("*.toml"))
        for groups in tomllib.loads(path.read_text("utf-8")).values()
        if isinstance(groups, list)
        for group in groups
        for text in group.get("says", ())
    ]


def mutants(count: int, seed: int) -> Iterator[str]:
    """Yield `count` texts, the same for the same seed."""
    chance = random.Random(seed)
    phrases = corpus()
    for _ in range(count):
        text = chance.choice(phrases)
        for _ in range(chance.choice((0, 1, 1, 2, 3))):
            text = _changed(text, chance, phrases)
        yield text[:100_000]


def _changed(text: str, chance: random.Random, phrases: list[str]) -> str:
    at = chance.randrange(len(text) + 1)
    words = text.split(" ")
    match chance.randrange(11):
        case 0:
            return text[:at] + chance.choice(EXTREMES) + text[at:]
        case 1:
            words.insert(chance.randrange(len(words) + 1), chance.choice(NUMBERS))
        case 2:
            words.insert(chance.randrange(len(words) + 1), chance.choice(WORDS))
        case 3:
            return f"{text}{chance.choice((', ', ' ', '. ', chr(10)))}{chance.choice(phrases)}"
        case 4:
            return text[:at] + text[at + 1 :]
        case 5:
            chance.shuffle(words)
        case 6:
            return text[:at] + chance.choice(MARKUP) + text[at:]
        case 7:
            return text.upper() if chance.random() < 0.5 else text.swapcase()
        case 8:
            return text * chance.choice((2, 3, 20)) if chance.random() < 0.3 else text[at:]
        case 9:
            return "".join(chance.choice(phrases) for _ in range(chance.choice((3, 8, 150))))
        case _:
            return "".join(chr(chance.randrange(1, 0x2FFF)) for _ in range(chance.randrange(60)))
    return " ".join(words)
