"""A short word that a result was kept."""

from __future__ import annotations

from bot.model.result import ResultDoubted, ResultKept
from bot.wording.base import Lines, Style, word
from bot.wording.clubs import club

_LIES = {
    "ob": "out of bounds", "deep_rough": "deep rough", "fairway_bunker": "fairway bunker",
    "greenside_bunker": "bunker", "first_cut": "first cut", "pine_straw": "pine straw",
    "penalty": "penalty area", "long_grass": "long grass",
}  # fmt: skip
_DEPTHS = {"pin_high": "pin high"}


@word.register
def _(answer: ResultKept, style: Style) -> Lines:
    depth = _DEPTHS.get(answer.depth or "", answer.depth)
    parts = [p for p in (depth, answer.side) if p]
    where = " ".join(parts)
    lie = ", ".join(_LIES.get(lie, lie) for lie in answer.lie)
    told = [club(answer.club) if answer.club else "", where, lie]
    if answer.putts is not None:
        told.append("1 putt" if answer.putts == 1 else f"{answer.putts} putts")
    if answer.penalty:
        told.append(f"penalty {answer.penalty}")
    kept = ", ".join(t for t in told if t)
    return Lines((f"Kept: {kept}." if kept else "Kept.",))


@word.register
def _(answer: ResultDoubted, style: Style) -> Lines:
    return Lines(
        (
            f"That is further than your {club(answer.club)} goes; I did not keep it.",
            "Which club was it, or how far short or long?",
        )
    )
