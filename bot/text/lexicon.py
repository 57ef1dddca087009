"""Which words does the reader know, and what does a misspelt one stand for?"""

import re
import tomllib
from collections.abc import Iterable
from functools import cache, lru_cache
from importlib.resources import files
from typing import Any, Final

from rapidfuzz import process
from rapidfuzz.distance import OSA

from bot.text.numbers import SPELT
from bot.text.numbers import WORDS as NUMBER_WORDS
from bot.text.patterns import code
from bot.text.pieces import split

Trie = dict[str, Any]
END: Final = ""
DANGER_WORD: Final = 6
_SMALL: Final = ("in", "on", "at", "to", "of", "off", "from", "into", "by")
_ARTICLES: Final = frozenset({"the", "a", "an", "my"})

# Families whose words turn the advice round: one slip of the finger at most is mended.
_LONGEST_SLIP: Final = 7  # letters of a slip of "right"
_GRAVE: Final = frozenset(
    {"side", "height", "place", "wind", "compass", "join", "danger", "rules", "profile", "talk",
     "round", "review", "score", "ask", "miss", "hostile", "result", "number"}
)  # fmt: skip


@cache
def _data() -> dict[str, dict[str, list[str]]]:
    found = files("bot.text").joinpath("vocab.toml").read_text(encoding="utf-8")
    return tomllib.loads(found)


def _plant(trie: Trie, phrase: str, name: str, spoken: dict[str, str]) -> None:
    words = [spoken.get(p.text, p.text) for p in split(phrase)]
    bare = [w for w in words if w not in _ARTICLES]
    for form in (words, bare if len(bare) > 1 else []):
        node = trie
        for word in form:
            node = node.setdefault(word, {})
        if form:
            node.setdefault(END, name)


def _build() -> tuple[dict[str, str], dict[str, str], Trie, Trie, dict[str, str]]:
    data = dict(_data())
    signs: dict[str, str] = data.pop("sign")  # type: ignore[assignment]
    spoken: dict[str, str] = data.pop("spoken")  # type: ignore[assignment]
    units: Trie = {}
    for unit, phrases in data.pop("unit").items():
        for phrase in phrases:
            _plant(units, phrase, unit, spoken)
    words: Trie = {}
    singles: dict[str, str] = {}
    for family, members in data.items():
        for member, phrases in members.items():
            name = f"{family}.{member}"
            code(name)
            for phrase in phrases:
                _plant(words, phrase, name, spoken)
                if phrase.isalpha():
                    singles.setdefault(phrase, name)
    for phrase in (p for phrases in data["danger"].values() for p in phrases):
        for word in phrase.split():  # a slip inside a phrase of danger is mended as well
            if len(word) >= DANGER_WORD and word.isalpha():
                singles.setdefault(word, "danger.part")
    for word in ("face", "chops", "teeth", "breeze"):  # parts of what is said of a wind
        singles.setdefault(word, "wind.part")
    for number in SPELT:
        if len(number) >= 5:
            singles.setdefault(number, "number." + number)
    for unit in ("yards", "metres", "meters", "feet", "knots", "degrees", "percent", "inches"):
        singles.setdefault(unit, "unit." + unit)
    return signs, spoken, words, units, singles


SIGNS, SPOKEN, WORDS, UNITS, _SINGLES = _build()
_BUCKETS: Final[dict[tuple[str, int], list[str]]] = {}
for _word in _SINGLES:
    if len(_word) >= 4:
        _BUCKETS.setdefault((_word[0], len(_word)), []).append(_word)
PARTS: Final = frozenset(_SINGLES) | frozenset(
    w
    for phrase in (
        p
        for f, ms in _data().items()
        if f not in ("sign", "spoken")
        for ps in ms.values()
        for p in ps
    )
    for w in phrase.split()
)
_EVERYDAY: Final = frozenset(
    files("bot.text").joinpath("everyday.txt").read_text(encoding="utf-8").split()
)
_ENDINGS: Final = (
    ("ies", "y"), ("ied", "y"), ("iest", "y"), ("ier", "y"), ("ily", "y"), ("es", ""), ("es", "e"),
    ("s", ""), ("ed", ""), ("ed", "e"), ("ing", ""), ("ing", "e"), ("er", ""), ("er", "e"),
    ("ers", ""), ("ers", "e"), ("est", ""), ("est", "e"), ("ly", ""), ("ness", ""), ("less", ""),
    ("ful", ""), ("y", ""), ("n't", ""),
)  # fmt: skip


def is_real(word: str) -> bool:
    """Whether a word is one of everyday English, plain or with a common ending."""
    if word in _EVERYDAY:
        return True
    for ending, stem in _ENDINGS:
        if not word.endswith(ending) or len(word) - len(ending) < 2:
            continue
        root = word[: len(word) - len(ending)]
        if root + stem in _EVERYDAY and root + stem not in _SINGLES:  # "borrows" is a break
            return True
        # A consonant is doubled behind one short vowel: "dripping", not "sweatting".
        doubled = len(root) > 3 and root[-1] == root[-2] and root[-3] in "aeiou"
        doubled = doubled and root[-4] not in "aeiou"
        if doubled and root[:-1] in _EVERYDAY:
            return True
    return False


_DANGERS: Final = {
    phrase: member
    for member, phrases in _data()["danger"].items()
    if member in ("despair", "lightning", "medical", "tornado", "heat")
    for phrase in phrases
}


def _any_of(phrases: Iterable[str]) -> re.Pattern[str]:
    """The longest of some phrases as whole words, sorted by letter: one try a letter a word."""
    letters: dict[str, list[str]] = {}
    for phrase in sorted(phrases, key=len, reverse=True):
        letters.setdefault(phrase[0], []).append(re.escape(phrase[1:]))
    branches = (f"{re.escape(first)}(?:{'|'.join(rest)})" for first, rest in letters.items())
    return re.compile(rf"\b(?:{'|'.join(branches)})\b")


_DANGER: Final = _any_of(_DANGERS)


def danger_in(text: str) -> str | None:
    """The danger whose words stand anywhere in a long text, or None."""
    found = _DANGER.search(text.lower())
    return None if found is None else _DANGERS[found[0]]


def _bones(word: str) -> str:
    """A word without its vowels, but for one that opens it."""
    return word[:1] + "".join(c for c in word[1:] if c not in "aeiou")


_BONES: Final[dict[str, set[str]]] = {}
for _word in _SINGLES:
    if len(_word) >= 4:
        _BONES.setdefault(_bones(_word), set()).add(_word)


def _fleshed(word: str) -> str | None:
    """The one word meant by its consonants alone: "hzrd", "bhnd"."""
    if len(word) < 3 or set(word) & set("aeiouy"):
        return None
    found = _BONES.get(word, set())
    return min(found) if len({_SINGLES[w] for w in found}) == 1 else None


@lru_cache(maxsize=4096)
def mend(word: str) -> str:
    """The vocabulary word that `word` is a slip of, or `word` itself.

    A real English word is never mended, nor a word with two equally near meanings. A word
    that could turn the advice round is mended for one slip only, and only from four letters; a
    word of consonants alone, from three, where they are those of one meaning.
    """
    if len(word) < 3 or len(word) > 16 or word in PARTS or is_real(word):
        return word
    if not word.isalpha() or not word.isascii():
        return word
    whole = _fleshed(word)
    if whole is not None:
        return whole
    if len(word) < 4:
        return word
    limit = 1 if len(word) < 7 else 2
    nearby = [
        target
        for first in {word[0], word[1]}
        for size in range(len(word) - limit, len(word) + limit + 1)
        for target in _BUCKETS.get((first, size), ())
    ]
    near = process.extract(word, nearby, scorer=OSA.distance, score_cutoff=limit, limit=6)
    if not near:
        return word
    best = near[0][1]
    tied = [w for w, d, _ in near if d == best]
    tied = [w for w in tied if _SINGLES[w] != "danger.part"] or tied
    meanings = {_SINGLES[w] for w in tied}
    if len(meanings) > 1:
        same_start = {_SINGLES[w] for w in tied if w[0] == word[0] and w[-1] == word[-1]}
        if len(same_start) != 1:
            return word
        tied = [w for w in tied if _SINGLES[w] in same_start]
    target = tied[0]
    family = _SINGLES[target].split(".")[0]
    if family in _GRAVE and best > 1:
        return word
    return target


@lru_cache(maxsize=4096)
def maybe_side(word: str) -> bool:
    """Whether an unknown word may be a slip of a side's, too far off to be taken for it."""
    known = word in PARTS or is_real(word)
    if known or not word.isalpha() or not 3 <= len(word) <= _LONGEST_SLIP:
        return False
    limit = 1 if len(word) < 4 else 2
    return any(OSA.distance(word, side, score_cutoff=limit) <= limit for side in ("left", "right"))


@lru_cache(maxsize=1024)
def unrun(word: str) -> tuple[str, ...] | None:
    """The known words that an unknown one was run together from, or None.

    Two are tried first, then the longest known word at every place.
    """
    if word in PARTS or is_real(word) or not word.isalpha():
        return None
    small = next((s for s in _SMALL if word.startswith(s)), None)
    if small is not None and len(word) > 3 and word[len(small) :] in ("my", "the", "our"):
        return small, word[len(small) :]
    if len(word) < 6:
        return None
    for at in range(3, len(word) - 2):
        head, tail = word[:at], word[at:]
        if _whole(head) and _whole(tail):
            return head, tail
    parts: list[str] = []
    at = 0
    while at < len(word):
        end = next((e for e in range(len(word), at + 2, -1) if _whole(word[at:e])), None)
        if end is None:
            return None
        parts.append(word[at:end])
        at = end
    return tuple(parts)


def _whole(word: str) -> bool:
    """Whether a part of a run-together word is a word of numbers, units or the vocabulary."""
    return word in _SINGLES or word in NUMBER_WORDS or END in UNITS.get(word, {})


def longest(trie: Trie, texts: list[str], at: int) -> tuple[int, str] | None:
    """How many pieces from `at` the longest known phrase takes, and its name."""
    node = trie.get(texts[at])
    if node is None:
        return None
    best: tuple[int, str] | None = None
    here = at + 1
    if END in node:
        best = (1, node[END])
    while here < len(texts):
        text = texts[here]
        follow = node.get(text)
        if follow is None:
            sided = texts[here - 1] in ("left", "right")  # "hazard right a club of wind"
            if text in _ARTICLES and here + 1 < len(texts) and not sided:
                here += 1
                continue
            break
        node = follow
        here += 1
        if END in node:
            best = (here - at, node[END])
    return best
