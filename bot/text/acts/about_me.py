"""Which facts about the player does a message list in one breath?"""

from __future__ import annotations

import re

from bot.model.measure import Measure
from bot.model.reading import Expecting, Profile, Side
from bot.text.acts.bundle import Bundle
from bot.text.patterns import Token, apply
from bot.text.quantity import Num
from bot.text.rules import CASCADE
from bot.text.rules.clubs import LOFTED, club_code
from bot.text.tokens import tokens

# Open questions to which a fact about the player is the answer.
ASKED = frozenset({"club_carry", "clubs", "handicap", "hand", "shape", "miss", "swing_speed"})

_APART = re.compile(r"[,;\n]|\s[-/|]\s|\.(?=\s|$)|\band\b", re.IGNORECASE)
_DEGREES = re.compile(
    r"\b(4[4-9]|5\d|6[0-4])\s*(?:°|deg(?:rees?)?\b)(?:\s*wedge\b)?", re.IGNORECASE
)
# Wedges by their first word alone, in a list behind another club's number.
_WEDGES = re.compile(r"(?<=\d)(\s*m?[,;]\s*)(gap|sand|lob)\s+(?=\d{2,3}\b)", re.IGNORECASE)
_PLUS = re.compile(r"(?:^|\s)(?:\+|plus\s+)(?=\d)", re.IGNORECASE)
_OUT = frozenset({"took", "take", "taken", "taking", "left", "pulled", "pull"})
_SHAPES = ("straight", "draw", "fade", "hook", "slice")
_STEEPEST = 72  # degrees: no club has more loft
_HIGHEST = 54  # handicaps end there; a higher number is a score
_NO_CARRY = 20  # no club carries less
_A_BAG = 3  # clubs with their carries, one after the other, that are no shot
_ON_A_HOLE = 15  # no more strokes than this are told for one hole
_FILLERS = frozenset({
    "join", "x", "punct", "miss", "profile.shape_word", "profile.total", "profile.best",
    "profile.bag", "profile.add", "profile.remove", "dist.out", "score.made", "talk",
    "got.approx",
})  # fmt: skip
# What a phrase may hold that tells no fact and is no reason to doubt the others.
_CHAT = frozenset({"x", "join", "punct"})
_CHAT_WORDS = frozenset({
    "side.short", "swing.high", "miss.tend", "carry.verb", "profile.total", "profile.add",
})  # fmt: skip
_COMES_IN = frozenset({"got.club", "join.in"})  # "4 hybrid goes in"
_NEVER = frozenset({"got.wind", "got.hazard", "got.ref", "ask", "punct.q", "got.lie", "lie"})


def about_me(
    whole: Bundle, text: str, expecting: Expecting | None, player: str | None
) -> tuple[Profile, ...]:
    """The facts listed, or none where the message `whole` is anything else."""
    asked = expecting is not None and expecting.about in ASKED
    likely = asked or whole.has("profile", "shape") or len(whole.every("got.club")) > 1
    likely = likely or len(whole.every("miss.lose", "carry.verb", "got.carry")) > 1
    listed = _WEDGES.sub(r"\1\2 wedge ", text)
    if not likely or len(text) > 400 or (whole.has(*_NEVER) and text == listed):
        return ()
    few = [v for t in whole.every("n") if (v := _value(t)) is not None and v.value <= _ON_A_HOLE]
    if whole.has("score.made") and few:
        return ()  # "made 5" is a score, whatever was asked
    facts: list[Profile] = []
    for phrase in _APART.split(listed):
        if not phrase.strip():
            continue
        told = _Phrase(phrase, expecting if asked else None, facts).read()
        if told is None:
            if sum(f.intent == "set_club" for f in facts) >= _A_BAG:
                continue  # a bag is told: what else stands in it is said not to be read
            return ()
        facts += told
    clubs = sum(f.intent == "set_club" for f in facts)
    if not facts or (not asked and (len(facts) < 2 or not (clubs >= 2 or clubs < len(facts)))):
        return ()
    return tuple(f.model_copy(update={"player": player}) for f in facts)


class _Phrase:
    """One phrase of a list, read from left to right."""

    def __init__(self, text: str, asked: Expecting | None, before: list[Profile]) -> None:
        _, self.found = tokens(_DEGREES.sub(r"\1 wedge ", text))
        for rules in CASCADE:
            apply(rules, self.found, [])
        self.names = {t.name for t in self.found}
        self.texts = {t.text for t in self.found}
        self.plus = _PLUS.search(text) is not None
        self.asked = asked
        self.before = before

    def read(self) -> list[Profile] | None:
        """The facts of the phrase; None where something in it is no such fact."""
        families = self.names | {n.split(".")[0] for n in self.names}
        if families & _NEVER:
            return None
        if "x" in families and "scratch" not in self.texts and all(map(_chat, self.names)):
            return []  # "I'm a beginner", "short hitter"
        if self.names == {"miss.tend", "carry.verb"}:
            return []  # "average carries": what a carry is taken for
        facts: list[Profile] = []
        rest = list(self.found)
        while rest:
            token = rest.pop(0)
            fact = self._fact(token, rest)
            if fact is not None:
                facts.append(fact)
            elif token.name not in _FILLERS and token.name.split(".")[0] not in _FILLERS:
                return None
        if not facts and not (families & {"talk"}):
            return None
        return facts

    def _fact(self, token: Token, rest: list[Token]) -> Profile | None:
        name = token.name
        club = token.value if name == "got.club" else None
        goes = bool(rest) and rest[0].name in ("miss.lose", "carry.verb", "got.carry")
        if name == "n.det" or (name == "n.bare" and goes):
            club = club_code(token)
        if club is not None:
            return self._club(str(club), rest)
        last = self.before[-1] if self.before else None
        if name == "got.carry" and last is not None and last.intent == "add_club":
            self.before.pop()  # "4 hybrid in, that one carries 188"
            return last.model_copy(update={"carry": token.value.measure()})
        if name == "got.excluded":
            return Profile(intent="remove_club", club=str(token.value))
        if name in ("profile.hand", "profile.rhand"):
            left = (name == "profile.hand") != ("join.not" in self.names)
            hand: Side = "left" if left else "right"
            return Profile(intent="set_hand", hand=hand)
        if name in ("profile.metric", "profile.imperial"):
            return Profile(
                intent="set_units", units="metric" if name == "profile.metric" else "imperial"
            )
        if name == "join.off" and len(self.found) == 2 and (off := _take_number(rest)) is not None:
            return self._level(off.value)  # "off 16"
        if name == "x.word" and token.text == "scratch":
            return Profile(intent="set_handicap", handicap=0.0)
        return self._number(token, rest) or self._habit(token, rest)

    def _club(self, club: str, rest: list[Token]) -> Profile | None:
        out = self.texts & _OUT and "dist.out" in self.names
        if out or "profile.remove" in self.names or self.names == {"got.club", "dist.out"}:
            return Profile(intent="remove_club", club=club)
        number = _take_number(rest)
        if number is None:
            new = "profile.add" in self.names or self.names - {"miss.lose"} == _COMES_IN
            return Profile(intent="add_club", club=club) if new else None
        if number.unit == "deg":  # a loft, or a mark behind the number that looks like degrees
            if number.value <= _STEEPEST:
                return None
            number = number.model_copy(update={"unit": ""})
        if not number.unit and number.value < _NO_CARRY:
            return None
        total, best = "profile.total" in self.names, self._once()
        return Profile(
            intent="set_club", club=club, carry=None if total else number,
            total=number if total else None, best_ever=best,
        )  # fmt: skip

    def _once(self) -> bool:
        return "profile.best" in self.names or bool(self.texts & {"once", "best"})

    def _number(self, token: Token, rest: list[Token]) -> Profile | None:
        if token.name == "profile.handicap":
            number = _take_number(rest)
            return None if number is None else self._level(number.value)
        if token.name == "profile.score_usual":
            number = _take_number(rest)
            return None if number is None else _score(number.value)
        value = _value(token)
        if value is None:
            return None
        if any(t.name == "profile.handicap" for t in rest):
            rest[:] = [t for t in rest if t.name != "profile.handicap"]
            return self._level(value.value)
        clubs = any(f.intent == "set_club" for f in self.before)
        clubs = clubs or (self.asked is not None and self.asked.about in ("club_carry", "clubs"))
        if clubs and _is_wedge(value) and rest:
            return self._club(f"{value.value:.0f}", rest)
        if self.asked is None:
            return None
        if self.asked.about == "handicap":
            return self._level(value.value)
        if self.asked.about == "club_carry":
            carry_told = any(f.intent == "set_club" for f in self.before)
            if value.value <= _HIGHEST or carry_told:
                return self._level(value.value)
            return Profile(intent="set_club", club="7i", carry=value)
        return None

    def _level(self, value: float) -> Profile:
        if value > _HIGHEST:
            return _score(value)
        return Profile(intent="set_handicap", handicap=-value if self.plus else value)

    def _habit(self, token: Token, rest: list[Token]) -> Profile | None:
        family, _, word = token.name.partition(".")
        missing = bool(self.names & {"miss.word", "miss.lose", "miss.tend"})
        if token.name == "miss.both":
            return Profile(intent="set_miss", miss="both")
        if family == "side" and word in ("left", "right", "both"):
            if missing or (self.asked and self.asked.about == "miss"):
                return Profile(intent="set_miss", miss=word)
            if self.asked and self.asked.about == "hand" and word != "both":
                return Profile(intent="set_hand", hand=word)
            return None
        if family == "shape" and word in _SHAPES and not missing:
            return Profile(intent="set_shape", shape=word)
        return None


def _is_wedge(value: Measure) -> bool:
    """Whether a bare number is a wedge's loft in degrees."""
    return not value.unit and value.value in LOFTED


def _score(value: float) -> Profile:
    return Profile(intent="set_handicap", usual_score=round(value))


def _chat(name: str) -> bool:
    return name in _CHAT_WORDS or name.split(".")[0] in _CHAT


def _value(token: Token) -> Measure | None:
    """The number of a token, as said; a height that is only a plus and a number counts."""
    if isinstance(token.value, Num) and token.name.split(".")[0] == "n":
        return token.value.measure()
    size = getattr(token.value, "size", None)
    return size if token.name == "got.height" and isinstance(size, Measure) else None


def _take_number(rest: list[Token]) -> Measure | None:
    """Take the next number off the row, past fillers."""
    for i, token in enumerate(rest):
        number = _value(token)
        if number is not None:
            del rest[i]
            return number
        if token.name not in _FILLERS and token.name.split(".")[0] not in _FILLERS:
            return None
    return None
