"""Words for the Rules, and for what a round by the Rules leaves unsaid."""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from bot.model.ruling import Kept, Relief, ReliefOption, Ruling, Withheld
from bot.wording.base import Lines, Style, word
from bot.wording.numbers import length, strokes

_OPTION = {
    "replay": "again from {d}",
    "line": "line to {d}",
    "sideways": "drop at {d}",
}

_REFERENCE = {
    None: "", "pin": " to the pin", "front": " front", "middle": " middle", "back": " back",
    "green": " green", "carry": " carry", "layup": " lay-up", "corner": " corner",
}  # fmt: skip

WITHHELD = "Kept. By the Rules no advice until the round is over."


@cache
def topics() -> dict[str, dict[str, Any]]:
    """Return what is said on each topic of the Rules."""
    return tomllib.loads(Path(__file__).with_name("rules.toml").read_text(encoding="utf-8"))


@word.register
def _(answer: Ruling, style: Style) -> Lines:
    said = topics()[answer.topic]
    if answer.more:
        return Lines((*said["more"], "The committee and its local rules come first."))
    return Lines(tuple(said["lines"]), buttons=("more",))


@word.register
def _(answer: Relief, style: Style) -> Lines:
    best, *rest = answer.options
    rule = topics()[answer.topic]["rule"]
    other = ", ".join(f"{_option(o, style)}: {strokes(o.strokes)}" for o in rest)
    return Lines(
        (
            f"Best: {_option(best, style)}, {strokes(best.strokes)} to hole out ({rule}).",
            f"{other[0].upper()}{other[1:]}. Committee decides.",
        )
    )


@word.register
def _(answer: Withheld, style: Style) -> Lines:
    told = ", ".join(f"{length(m, style)}{_REFERENCE[ref]}" for ref, m in answer.distances)
    return Lines((f"{told}, as told.", WITHHELD) if told else (WITHHELD,))


@word.register
def _(answer: Kept, style: Style) -> Lines:
    return Lines(("Kept.",))


def _option(option: ReliefOption, style: Style) -> str:
    return _OPTION[option.option].format(d=length(option.distance, style))
