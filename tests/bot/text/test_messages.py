"""Is every phrase of the corpus read exactly as it was labelled?"""

import tomllib
from pathlib import Path
from typing import Any

import pytest

from bot.text.read import read
from bot.turn.facts import told_facts

CORPUS = Path(__file__).parents[3] / "fixtures" / "messages"
FAILING = CORPUS.parent / "failing.toml"
AT_LEAST = 600


def cases(path: Path) -> list[Any]:
    groups = tomllib.loads(path.read_text(encoding="utf-8")).get("group", [])
    return [
        pytest.param(group, phrase, id=f"{path.stem}/{group['id']}/{phrase}")
        for group in groups
        for phrase in group["says"]
    ]


def ordered(value: Any) -> Any:
    """The same value with lists sorted, for the order of lies and troubles says nothing."""
    if isinstance(value, dict):
        return {k: ordered(v) for k, v in value.items()}
    if isinstance(value, list):
        return sorted((ordered(v) for v in value), key=repr)
    return float(value) if isinstance(value, int) and not isinstance(value, bool) else value


def reading_of(group: dict[str, Any], phrase: str) -> Any:
    return ordered(told_facts(read(phrase), group.get("units", "imperial")))


def meaning(group: dict[str, Any]) -> Any:
    return ordered({"kind": group.get("kind", "shot"), **group["means"]})


ALL = [case for path in sorted(CORPUS.glob("*.toml")) for case in cases(path)]


@pytest.mark.parametrize(("group", "phrase"), ALL)
def test_phrase(group: dict[str, Any], phrase: str) -> None:
    assert reading_of(group, phrase) == meaning(group)


@pytest.mark.parametrize(("group", "phrase"), cases(FAILING) if FAILING.exists() else [])
def test_known_failure_still_fails(group: dict[str, Any], phrase: str) -> None:
    assert reading_of(group, phrase) != meaning(group), "now read right: move it to the corpus"
