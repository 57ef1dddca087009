"""Can a ball only be got out sideways, and which gap is one between trees?"""

from __future__ import annotations

from typing import Any

from bot.model.reading import NO_GAP
from bot.text.patterns import Match, Rule, rule

_HOLE_YD = 30.0  # a wider gap is no way between trees, and the number a club's
_SMALL = frozenset({"small", "tiny", "little", "wee"})


def _gap(match: Match) -> tuple[str, Any] | None:
    """A gap so wide, or small, is one in the trees and no wedge: "gap 5 yards"."""
    token = next(t for t in match.tokens if t.name == "club.GW")
    number = match.value("n")
    narrow = number is not None and number.value <= _HOLE_YD
    if token.text != "gap" or not (narrow or _SMALL & set(token.before.split())):
        return None
    return "lie.trees", None


_ONLY = frozenset({"only", "just", "nothing", "no"})


def _no_gap(match: Match) -> tuple[str, Any] | None:
    """The way on is shut: "can only punch out sideways", "sideways only"."""
    said = {w for t in match.tokens for w in (*t.text.split(), *t.before.split())}
    shut = "sideways" in said or match.one("s") is not None
    return ("got.beside", NO_GAP) if shut and said & _ONLY else None


WAYS: tuple[Rule, ...] = (
    rule("out.no_gap", "x.word* (swing.chip|swing.knocked_down|swing.pitch)? dist.out? wind.cross x.word? (?!(n|wind))|x.word* (swing.chip|swing.knocked_down|swing.pitch) dist.out {s:side.left|side.right}", _no_gap),
    rule("out.sideways", "(swing.chip|swing.knocked_down|swing.pitch) dist.out? wind.cross (?!(n|wind))", lambda m: ("lie.blocked", None) if m.tokens[-1].text == "sideways" else None),
    rule("out.gap", "club.GW (join.of|join.was)? {n:n.len|n.ft|n.bare}|n.len club.GW|club.GW (?!(join.or|n))", _gap),
)  # fmt: skip
