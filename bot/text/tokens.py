"""Which known words, numbers and signs does a message consist of?"""

import re
from typing import Final

from bot.text.lexicon import SIGNS, SPOKEN, WORDS, longest, maybe_side, mend, unrun
from bot.text.measures import measures
from bot.text.normalise import Folded, normalise
from bot.text.numbers import hyphens, is_number_word, numbers
from bot.text.patterns import Token
from bot.text.pieces import Piece, split

MOST: Final = 60
"""Tokens of one message that the rules read; what comes after is unread."""

_MENDED: Final = 80
"""Unknown words of one message that are tried against the vocabulary."""


_DOES: Final = re.compile(r"(?:['’]s)? (?:was|is|had|has|hit|says|said|got)\b")
"""What follows a name that opens a sentence."""
_GOALS: Final = frozenset(
    {"flag", "pin", "stick", "hole", "green", "front", "middle", "back", "the"}
)
# Words that mean another one before certain words: "knot a breath", "wind form the left".
_BY_NEXT: Final[dict[str, tuple[str, frozenset[str]]]] = {
    "knot": ("not", frozenset({"a", "in", "the", "much"})),
    "form": ("from", frozenset({"the", "teh", "left", "right"})),
}
# A small word with the first letter of "the" stuck to it.
_SHIFTED: Final = frozenset({"tot", "int", "ont", "att", "oft", "fort", "byt", "fromt"})
# What dictation writes for tens: "fore tea".
_TENS: Final = {
    "fore": "forty", "for": "forty", "four": "forty", "six": "sixty", "sicks": "sixty",
    "seven": "seventy", "eight": "eighty", "ate": "eighty", "nine": "ninety", "thir": "thirty",
    "fif": "fifty", "twen": "twenty",
}  # fmt: skip
_TEENS: Final = {
    "for": "fourteen", "fore": "fourteen", "four": "fourteen", "six": "sixteen",
    "seven": "seventeen", "eight": "eighteen", "ate": "eighteen", "nine": "nineteen",
    "thir": "thirteen", "fif": "fifteen",
}  # fmt: skip
# What dictation writes for a number in front of a club's noun.
_HEARD: Final = {
    "fore": "four", "for": "four", "to": "two", "too": "two", "ate": "eight", "won": "one",
    "tree": "three", "free": "three", "sex": "six", "sicks": "six", "heaven": "seven",
    "fife": "five", "tow": "two",
}  # fmt: skip

_NOBODY: Final = frozenset({"the", "me", "us", "him", "her", "them", "my", "our", "that"})


def tokens(text: str) -> tuple[Folded, list[Token]]:
    """The folded text and its tokens, small words kept out but remembered in `before`."""
    folded = normalise(text, SIGNS)
    pieces = split(folded.text)[: 2 * MOST]
    texts: list[str] = []
    spread: list[Piece] = []
    tried = 0
    for piece in pieces:
        word = piece.text
        if named(text, folded, piece.start, piece.end):
            texts.append(word)
            spread.append(piece)
            continue
        if word == "th" and (not spread or spread[-1].end < piece.start):
            word = "the"  # "4th" is glued
        word = "driver" if word == "d" and text[folded.start(piece.start)] == "D" else word
        word = SPOKEN.get(word, word)
        parts: tuple[str, ...] | None = _sided(word, text, folded, piece)
        if (
            parts is None
            and tried < _MENDED
            and len(word) > 2
            and not word[0].isdecimal()
            and not is_number_word(word)
        ):
            tried += 1
            mended = mend(word)
            word = SPOKEN.get(mended, mended)
        if word.endswith("'s") and word not in WORDS and word[:-2] in WORDS:
            word = word[:-2]
        if parts is None and tried < _MENDED:
            parts = unrun(word)
        start = piece.start
        for part in parts or (word,):
            end = start + len(part) if parts else piece.end
            texts.append(mend(part) if parts else part)
            spread.append(piece._replace(text=part, start=start, end=end))
            start = end
    pieces = spread
    for at in range(len(texts) - 1):
        heard = _HEARD.get(texts[at])
        wind_clubs = texts[at + 1] == "club" and texts[at + 2 : at + 3] == ["wind"]
        if heard and (texts[at + 1] in ("iron", "wood", "hybrid") or wind_clubs):
            texts[at] = heard
    for at in range(len(texts) - 1):  # "one fore tea too to the hole"
        ten = _TENS.get(texts[at]) if texts[at + 1] in ("tea", "tee") else None
        if ten and at and is_number_word(texts[at - 1]):
            texts[at], texts[at + 1] = ten, ","
    for at in range(len(texts) - 1):  # "into for teen"
        if texts[at + 1] == "teen" and texts[at] in _TEENS:
            texts[at], texts[at + 1] = _TEENS[texts[at]], ","
    for at in range(1, len(texts)):  # "the wind's at fore"
        if texts[at] == "fore" and texts[at - 1] in ("at", "blowing", "wind"):
            texts[at] = "four"
    for at in range(len(texts) - 1):  # "tot he flag"
        if texts[at + 1] == "he" and texts[at] in _SHIFTED:
            texts[at], texts[at + 1] = texts[at][:-1], "the"
    for at in range(len(texts) - 1):  # "breaks a foot"
        if (
            texts[at] == "a"
            and texts[at + 1] in ("foot", "yard", "metre", "meter")
            and texts[at - 1 : at] != ["half"]
        ):
            texts[at] = "one"
    for at in range(len(texts) - 1):
        meant, followers = _BY_NEXT.get(texts[at], ("", frozenset()))
        if texts[at + 1] in followers:
            texts[at] = meant
    for at in range(2, len(texts) - 2):  # "F 149 M 160 B 172"
        around = texts[at - 2], texts[at], texts[at + 2]
        if around[1] in ("m", "c") and around[0] in ("f", "front") and around[2] in ("b", "back"):
            texts[at] = "middle"
    for at in range(1, len(texts) - 1):  # "144 2 flag"
        far = len(texts[at - 1]) > 1 and texts[at - 1].isdecimal()
        if texts[at] == "2" and far and texts[at + 1] in _GOALS:
            texts[at] = "to"
            pieces[at] = pieces[at]._replace(text="to")
    for at in range(2, len(texts)):  # "one sixty to the whole"
        if texts[at - 2 : at + 1] == ["to", "the", "whole"]:
            texts[at] = "hole"
    texts = ["putts" if t == "puts" else t for t in texts]
    for at in range(1, len(texts)):  # "par fore", "made ate": a number comes there
        after = texts[at + 1] if at + 1 < len(texts) else ""
        alone = texts[at - 1] == "made" and not after.isalnum()
        if (alone or (texts[at - 1] == "par" and after not in _NOBODY)) and texts[at] in _HEARD:
            texts[at] = _HEARD[texts[at]]
    for at in range(len(texts) - 2):  # dictation hears "in two" for "into"
        told = is_number_word(texts[at + 2]) or "wind" in texts[at + 2 : at + 4]
        told = told or (
            texts[at + 2] in ("for", "fore") and "mile" in " ".join(texts[at + 3 :])[:5]
        )
        if texts[at : at + 2] == ["in", "two"] and told:
            texts[at], texts[at + 1] = "into", ","
    found: list[Token] = []
    at = 0
    while at < len(pieces):
        piece = pieces[at]
        known = None
        if not is_number_word(texts[at]) or texts[at] in ("one", "two", "three", "four"):
            known = longest(WORDS, texts, at)
        if known is not None:
            size, name = known
            if (texts[at].isdecimal() and size == 1) or (is_number_word(texts[at]) and size == 1):
                known = None
        if known is None:
            name = (
                "d"
                if piece.text[0].isdecimal() or (piece.text[0] == "." and len(piece.text) > 1)
                else "x.side"
                if maybe_side(texts[at])
                else "x.word"
            )
            found.append(Token(name, piece.start, piece.end, texts[at]))
            at += 1
            continue
        text = " ".join(texts[at : at + size])
        found.append(Token(name, piece.start, pieces[at + size - 1].end, text))
        at += size
    full = [_not_a_number(t) for t in measures(numbers(hyphens(found)))]
    kept: list[Token] = []
    before: list[str] = []
    for token in full:
        if token.text == "s" and kept and kept[-1].name in ("wind.noun", "join.from"):
            token = token._replace(name="compass.s")
        if token.name == "filler.skip":
            before.append(token.text)
            continue
        kept.append(token._replace(before=" ".join(before)) if before else token)
        before.clear()
        if len(kept) == MOST:
            break
    return folded, kept


def named(text: str, folded: Folded, start: int, end: int) -> bool:
    """Whether a word is written like a name: a capital inside a sentence."""
    first, last = folded.start(start), folded.end(end)
    word = text[first:last]
    if len(word) < 2 or not word[0].isupper() or not word[1:].islower():
        return False
    head = text[:first].rstrip(" \t\"'(")
    if not head:  # a sentence opens with a capital as well
        return word.casefold() not in WORDS and _DOES.match(text[last:]) is not None
    return head[-1] not in ".!?\n:-/|"


def _sided(word: str, text: str, folded: Folded, piece: Piece) -> tuple[str, str] | None:
    """A known word and the side glued to it as a capital: "bunkerR"."""
    if len(word) < 3 or word[-1] not in "lr" or word in WORDS:
        return None
    first, last = folded.start(piece.start), folded.end(piece.end)
    said = text[first:last]
    if said[-1:] not in ("L", "R") or said == said.upper() or mend(word[:-1]) not in WORDS:
        return None
    return word[:-1], word[-1]


def _not_a_number(token: Token) -> Token:
    """A lone "one" is a pronoun, not a number."""
    if token.name in ("n.bare", "n.det") and token.text == "one":
        return token._replace(name="x.word", value=None)
    return token
