"""Is the message nothing but clubs, each with how far it goes?"""

from collections.abc import Sequence
from typing import Final, NamedTuple

from bot.model.measure import Measure
from bot.model.reading import Profile
from bot.text.patterns import Token
from bot.text.quantity import Num
from bot.text.rules.clubs import LOFTED, club_code

_BESIDE: Final = frozenset({
    "punct.c", "punct.stop", "join.and", "join.was", "carry.verb", "miss.lose", "miss.tend",
    "profile.shape_word", "profile.show", "join.now", "profile.bag", "profile.update", "wind.club",
})  # fmt: skip
_WORDS: Final = frozenset({
    "=", "here's", "heres", "here", "distances", "carries", "yardages", "numbers",
})  # fmt: skip
_SETS: Final = frozenset({"=", "set", "change", "update"})
_GOES: Final = frozenset({"carry.verb", "profile.update"})
_NUMBERS: Final = frozenset({"n.bare", "n.len", "n.det", "n.deg"})
_CARRIES: Final = (20.0, 420.0)  # yards or metres
_OF_LOFTS: Final = 3  # pairs of bare numbers that make a row without any club's name
_SHORTEST: Final = 2


class _Pair(NamedTuple):
    club: str
    number: Measure
    named: bool
    total: bool = False


def bag_row(raw: Sequence[Token]) -> tuple[Profile, ...]:
    """The carries of the clubs, in the order told; empty where the message says more than that.

    Wedges may be told by their loft alone: "pw 120, 52 105, 56 90".
    """
    pairs: list[_Pair] = []
    open_club: tuple[str, bool] | None = None
    for at, token in enumerate(raw):
        if token.name == "profile.total" and pairs and open_club is None:
            every = at == len(raw) - 1 and not any(t.name == "carry.verb" for t in raw)
            marked = range(len(pairs)) if every else (len(pairs) - 1,)
            for n in marked:
                pairs[n] = pairs[n]._replace(total=True)
        elif open_club is not None and token.name in _NUMBERS:
            number = _carry(token)
            if number is None:
                return ()
            pairs.append(_Pair(open_club[0], number, open_club[1]))
            open_club = None
        elif (both := _joined(token)) is not None and open_club is None:
            pairs.append(both)
        elif (club := _club(token)) is not None and open_club is None:
            open_club = club
        elif (
            token.name not in _BESIDE
            and token.text not in _WORDS | _SETS
            and not (token.name == "join.to" and open_club is not None)
        ):
            return ()
    named = any(p.named for p in pairs)
    told = any(t.name in _GOES or t.text in _SETS for t in raw) or _stated(raw)
    least = 1 if told and len(pairs) == 1 else _SHORTEST if named else _OF_LOFTS
    if open_club is not None or len(pairs) < least:
        return ()
    if not named and least > 1 and any(p.club.endswith("i") for p in pairs):
        return ()
    return tuple(
        Profile(
            intent="set_club", club=p.club, carry=None if p.total else p.number,
            total=p.number if p.total else None,
        )
        for p in pairs
    )  # fmt: skip


def _stated(raw: Sequence[Token]) -> bool:
    """Whether a carry is told as a fact: "8 is really 150 now", "I hit my 56 95"."""
    words = {w for t in raw for w in t.before.split()}
    names = {t.name for t in raw}
    hit = any(
        t.name == "profile.shape_word" and "i" in f"{t.before} {t.text}".split() for t in raw
    )
    return ("is" in words and "join.now" in names) or (hit and "my" in words)


def _club(token: Token) -> tuple[str, bool] | None:
    """The club a token names, and whether by its name and not by a number alone."""
    if token.name.startswith("club."):
        code = club_code(token)
        return None if code is None else (code, True)
    if token.name == "hazard.bunker" and token.text == "sand":
        return "SW", True
    if token.name not in _NUMBERS or not isinstance(token.value, Num):
        return None
    if token.value.value in LOFTED and token.value.low is None:
        return f"{token.value.value:g}", False
    code = club_code(token)
    return None if code is None else (code, False)


def _joined(token: Token) -> _Pair | None:
    """A driver named by its letter, or a loft and a carry joined by a dash: "52-105"."""
    value = token.value
    if token.name not in _NUMBERS or not isinstance(value, Num):
        return None
    if "d" in token.before.split() and (carry := _carry(token)) is not None:
        return _Pair("D", carry, named=True)
    if value.low in LOFTED and value.high is not None and value.high > LOFTED[-1]:
        return _Pair(f"{value.low:g}", Measure(value=value.high, unit=value.unit), named=False)
    return None


def _carry(token: Token) -> Measure | None:
    """The number as a carry; a mark behind it that looks like degrees is none."""
    value = token.value
    if not isinstance(value, Num) or not _CARRIES[0] <= value.value <= _CARRIES[1]:
        return None
    told = value.measure()
    return told.model_copy(update={"unit": ""}) if told.unit == "deg" else told
