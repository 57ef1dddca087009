"""Whose score is told, and for which hole?"""

import re
from typing import Final

from bot.model.reading import Score
from bot.text.lexicon import PARTS, WORDS, is_real

_WHO: Final = re.compile(
    r"^\W*([A-Za-z][a-z'’-]{0,20})\s*[:,]?\s+(?:has |just )?"
    r"(?:made|had|took|got|scored|carded|shot)\s+(?:an?\s+)?(?:\d|bogey|par\b|birdie|double|triple)"
)
_OTHERS: Final = frozenset({"he", "she", "they", "partner", "opponent"})
# Words that open a player's own score with a capital.
_NO_NAME: Final = frozenset({
    "i", "we", "you", "just", "finally", "only", "also", "then", "and", "but", "ok", "well", "so",
    "somehow", "now", "already", "have", "ended", "easy", "scrappy", "ugly", "solid", "nice",
})  # fmt: skip
_HOLE: Final = re.compile(
    r"\b(?:(?:on|at)\s+|for\s+(?=the\s|hole\s|number\s|no\.?\s))(?:the\s+|hole\s+|number\s+|no\.?\s*)*(\d{1,2})(?:st|nd|rd|th)?(?:\W*$|\s*,)"
)
_HOLE_FIRST: Final = re.compile(r"^\W*(?:hole|on|no\.?)\s*(?:the\s+)?(\d{1,2})(?:st|nd|rd|th)?\b")
_NOT: Final = re.compile(r"\d\s*,?\s*(?:and )?not (?:an? )?(\d{1,2})\W*$")
MOST: Final = 18


def placed(score: Score, text: str) -> Score:
    """The score with the player and the hole that the sentence names."""
    news: dict[str, object] = {}
    named = _WHO.search(text)
    if score.player is None and named is not None:
        word = named[1]
        if word.casefold() in _OTHERS or (word[0].isupper() and _is_name(word.casefold())):
            news["player"] = word
    if score.hole is None:
        said = text.casefold()
        found = _HOLE.search(said) or _HOLE_FIRST.search(said)
        if found is not None and 1 <= int(found[1]) <= MOST:
            news["hole"] = int(found[1])
    taken_back = _NOT.search(text.casefold())
    if taken_back is not None:
        news["was"] = int(taken_back[1])
    return score.model_copy(update=news) if news else score


def _is_name(word: str) -> bool:
    """Whether a word is none that the reader or the language knows."""
    return word not in _NO_NAME and word not in WORDS and word not in PARTS and not is_real(word)
