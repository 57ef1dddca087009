"""What does the message look like with case, quotes, dashes and signs folded?"""

import re
import unicodedata
from typing import NamedTuple

LIMIT = 500
"""Characters that the slot rules read; the rest is only searched for danger words."""

_QUOTES = {
    "’": "'", "‘": "'", "‛": "'", "´": "'", "`": "'", "′": "'", "ʹ": "'",
    "“": '"', "”": '"', "„": '"', "″": '"', "«": '"', "»": '"',
    "–": "-", "—": "-", "‒": "-", "−": "-", "‐": "-", "‑": "-", "―": "-", "→": " right ",
    "←": " left ", "↑": " up ", "↓": " down ", "↗": " up ", "↘": " down ",
    "½": " 1/2", "¼": " 1/4", "¾": " 3/4", "⅓": " 1/3", "⅔": " 2/3", "º": "°", "˚": "°",
    "×": "x", "…": ".", "\u00a0": " ", "≈": "~", "&": " and ", "•": ",", "·": ",",
}  # fmt: skip

# A letter typed for the nought of a number: "16o", "1o5"; not the hour of "5o'clock".
_NOUGHT = re.compile(r"(?<=\d)(?<!h2)o(?![a-z']| ?clock)")


# The g left off in writing, "helpin' 15": the mark is no foot.
_DROPPED_G = re.compile(r"(?<=[a-z]in)'(?=\s)")


class Folded(NamedTuple):
    """A folded text and, for each of its characters, the position it came from."""

    text: str
    origin: tuple[int, ...] | range
    size: int

    def start(self, at: int) -> int:
        """Where the folded character `at` begins in the message."""
        return self.origin[at] if at < len(self.origin) else self.size

    def end(self, at: int) -> int:
        """Where the folded text up to `at` ends in the message."""
        return self.origin[at - 1] + 1 if at > 0 else 0


def normalise(text: str, signs: dict[str, str]) -> Folded:
    """The first `LIMIT` characters of `text` in plain lower case; `signs` are pictures' words."""
    part = text[:LIMIT]
    if part.isascii():
        lowered = _tidied(part.lower())
        return Folded(lowered, range(len(lowered)), len(part))
    out: list[str] = []
    origin: list[int] = []
    for at, char in enumerate(part):
        new = _fold(char, signs)
        out.append(new)
        origin.extend([at] * len(new))
    return Folded(_tidied("".join(out)), tuple(origin), len(part))


def _tidied(text: str) -> str:
    """The text with letters that stand for noughts, and marks for a g, put right in place."""
    return _DROPPED_G.sub(" ", _NOUGHT.sub("0", text))


def _fold(char: str, signs: dict[str, str]) -> str:
    if char < "\x7f":
        return char.lower()
    if char in signs:
        return f" {signs[char]} "
    if char in _QUOTES:
        return _QUOTES[char]
    category = unicodedata.category(char)
    if category in {"Cf", "Mn", "Me", "Cc", "Cs", "Co", "Cn"}:
        return ""
    plain = unicodedata.normalize("NFKD", char)
    kept = "".join(c for c in plain if not unicodedata.combining(c)).lower()
    return kept if len(kept) <= 4 else " "
