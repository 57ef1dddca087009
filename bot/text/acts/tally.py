"""Does the message set right or list what holes were played in, or ask what is on the card?"""

import re
from typing import Final

from bot.model.reading import Act, Hole, Round, Score

_TO_PAR: Final = {
    "albatross": -3, "eagle": -2, "birdie": -1, "bird": -1, "par": 0, "bogey": 1, "bogie": 1,
    "double": 2, "double bogey": 2, "triple": 3, "triple bogey": 3, "quad": 4,
}  # fmt: skip
_FIGURES: Final = {
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10,
}  # fmt: skip
_LONGEST_FIRST: Final = sorted((*_TO_PAR, *_FIGURES), key=len, reverse=True)
_TOLD: Final = rf"(?:an? )?(\d{{1,2}}|{'|'.join(_LONGEST_FIRST)})"
_SORRY: Final = r"(?:(?:sorry|no|nope|oops|wait|actually|correction|my bad|hang on)[ ,]*)*"
_N: Final = r"(\d{1,2})(?:st|nd|rd|th)?"
_ONE: Final = (
    rf"(?:(?:the )?hole (?:number )?{_N}|(?:on )?the (\d{{1,2}})(?:st|nd|rd|th)(?: hole)?)"
)
_AFTER: Final = r"(?:,? not (?:an? )?\w+)?"
_WAS: Final = re.compile(
    rf"{_SORRY}{_ONE} (?:was|is|were|should be|should have been|should've been|shoulda been)"
    rf" (?:actually |really )?{_TOLD}{_AFTER}"
)
_CHANGE: Final = re.compile(
    rf"{_SORRY}(?:change|make|correct|fix|set|put) (?:my )?(?:score )?(?:on |for |of )?{_ONE}"
    rf"(?: score)? ?(?:to|as|into|=)? ?{_TOLD}{_AFTER}"
)
_IT_WAS: Final = re.compile(
    r"(?:(?:sorry|no|nope|oops|wait|actually|correction|my bad|hang on)[ ,]+)+"
    rf"(?:it|that|that one)(?: was|'s| is| should be) (?:actually )?{_TOLD}{_AFTER}"
)
_LISTED: Final = re.compile(rf"(?:hole |h|no\.? ?|#)?{_N} ?(?:[:=-]|was|made|in)? ?{_TOLD}")
_ROW: Final = re.compile(
    rf"(?:{'|'.join(w for w in _LONGEST_FIRST if w in _TO_PAR)})", re.IGNORECASE
)
_WHICH: Final = re.compile(
    r"(?:what|which)(?:'s| is)? hole(?: (?:are we|am i|is (?:this|it|next)|we|i'm|now|is that))*"
    r"(?: on| at| now)*|what are we on|where are we"
)
_CARD: Final = re.compile(
    r"(?:what'?s |what is |show |give me )?(?:my |the )?scores?(?: so far| now| please)?"
    r"|what (?:did|have|has) (?:i|we) (?:make|made|got|scored?|shot|had)(?: so far)?"
    r"|what(?:'s| is| am) (?:i|my total|my score)(?: at| on)?(?: so far)?"
    r"|how (?:am i|are we) (?:scoring|standing)|how many (?:am i|over am i)"
)
_ON_HOLE: Final = re.compile(
    r"what (?:did|have) (?:i|we) (?:have|had|make|made|got|get|score|scored|shoot|take) (?:on|at)"
    rf" (?:the |hole )*{_N}(?: hole)?|(?:what'?s |what was )?my score (?:on|at|for)"
    rf" (?:the |hole )*{_N}(?: hole)?"
)
MOST_HOLES: Final = 18
MOST_STROKES: Final = 15


def tally(text: str) -> tuple[Act, ...]:
    """The scores of holes named one by one, or the question for some; empty where neither is.

    >>> [s.strokes for s in tally("hole 1 4, hole 2 6, hole 3 3")]
    [4, 6, 3]
    """
    said = " ".join(text.casefold().replace("’", "'").split()).strip(" .!?")
    if not said or len(said) > 160:
        return ()
    return _asked(said) or _put_right(said) or _list(said) or _row(said)


def _asked(said: str) -> tuple[Act, ...]:
    if _WHICH.fullmatch(said):
        return (Round(intent="which_hole"),)
    if _CARD.fullmatch(said):
        return (Round(intent="card"),)
    found = _ON_HOLE.fullmatch(said)
    number = None if found is None else int(found[1] or found[2])
    if number is None or not 1 <= number <= MOST_HOLES:
        return ()
    return (Round(intent="card", hole=Hole(number=number)),)


def _put_right(said: str) -> tuple[Act, ...]:
    found = _WAS.fullmatch(said) or _CHANGE.fullmatch(said)
    if found is not None:
        score = _score(found[3], int(found[1] or found[2]))
        return () if score is None else (score,)
    found = _IT_WAS.fullmatch(said)
    score = None if found is None else _score(found[1], None)
    if score is None:
        return ()
    number = score.strokes is not None
    return (score.model_copy(update={"again": True, "bare": number}),)


def _list(said: str) -> tuple[Act, ...]:
    """Holes with their scores: "hole 1 4, hole 2 6, 3 a 3"."""
    if not said.startswith("hole"):
        return ()
    pieces = [p.strip() for p in re.split(r",|;| and |\n", said) if p.strip()]
    found = [_LISTED.fullmatch(p) for p in pieces]
    scores = [None if f is None else _score(f[2], int(f[1])) for f in found]
    told = tuple(s for s in scores if s is not None)
    return told if len(told) == len(pieces) >= 2 else ()


def _row(said: str) -> tuple[Act, ...]:
    """Words of score one after the other, a hole each: "par par bogey"."""
    words = _ROW.findall(said)
    if len(words) < 2 or re.sub(r"[ ,;/]|\b(?:and|then)\b", "", _ROW.sub("", said)):
        return ()
    return tuple(Score(to_par=_TO_PAR[w]) for w in words)


def _score(told: str, hole: int | None) -> Score | None:
    if hole is not None and not 1 <= hole <= MOST_HOLES:
        return None
    if told in _TO_PAR:
        return Score(hole=hole, to_par=_TO_PAR[told])
    strokes = _FIGURES.get(told) or int(told)
    return Score(hole=hole, strokes=strokes) if 1 <= strokes <= MOST_STROKES else None
