"""How a labelled message of the corpus is read, with the talk before it, and compared."""

import tomllib
from functools import cache
from pathlib import Path
from typing import Any

from bot.model.reading import Facts, FollowUp, Shot
from bot.text.read import read
from bot.turn.facts import told_facts
from bot.turn.memory import follow, moved_on

CORPUS = Path(__file__).parents[2] / "fixtures" / "messages"
FAILING = CORPUS.parent / "failing.toml"

Group = dict[str, Any]


@cache
def groups(path: Path) -> list[Group]:
    """The groups of one file of the corpus."""
    found: list[Group] = tomllib.loads(path.read_text(encoding="utf-8")).get("group", [])
    return found


def talked(earlier: list[str]) -> Facts | None:
    """The shot talked of after some earlier messages."""
    before: Facts | None = None
    for text in earlier:
        for act in read(text).acts:
            if isinstance(act, FollowUp):
                before = follow(
                    before or Facts(), act.facts, act.not_side, correct=act.ask == "correct"
                )
            elif isinstance(act, Shot):
                before = moved_on(before or Facts(), act.facts)
    return before


def facts_of(text: str, earlier: list[str] | None = None, units: Any = "imperial") -> Any:
    """The flat facts of a message after some others, in a comparable form."""
    return ordered(told_facts(read(text), units, talked(earlier or [])))


def meaning(group: Group) -> Any:
    """What the label says, in the same form."""
    return ordered({"kind": group.get("kind", "shot"), **group["means"]})


def ordered(value: Any) -> Any:
    """The same value with lists sorted, for the order of lies and troubles says nothing."""
    if isinstance(value, dict):
        return {k: ordered(v) for k, v in value.items()}
    if isinstance(value, list):
        return sorted((ordered(v) for v in value), key=repr)
    return float(value) if isinstance(value, int) and not isinstance(value, bool) else value
