"""Is every phrase of the corpus read exactly as it was labelled?"""

from pathlib import Path
from typing import Any

import pytest

from tests.support.messages import CORPUS, FAILING, Group, facts_of, groups, meaning

AT_LEAST = 600  # phrases
LESS_THAN_IT_SEEMS = 0.2  # share that reads as nothing, or as less than it seems
QUIET = ("nothing", "talk", "safety", "rules", "round", "review", "follow")  # files
NO_SHOT = ("smalltalk", "nonsense", "unclear", "safety", "rules", "round", "review", "followup")


def cases(path: Path) -> list[Any]:
    return [
        pytest.param(group, phrase, id=f"{path.stem}/{group['id']}/{phrase}")
        for group in groups(path)
        for phrase in group["says"]
    ]


FILES = sorted(CORPUS.glob("*.toml"))
ALL = [case for path in FILES for case in cases(path)]


def read_as(group: Group, phrase: str) -> Any:
    return facts_of(phrase, group.get("after"), group.get("units", "imperial"))


@pytest.mark.parametrize(("group", "phrase"), ALL)
def test_phrase(group: Group, phrase: str) -> None:
    assert read_as(group, phrase) == meaning(group)


@pytest.mark.parametrize(("group", "phrase"), cases(FAILING) if FAILING.exists() else [])
def test_known_failure_still_fails(group: Group, phrase: str) -> None:
    assert read_as(group, phrase) != meaning(group), "now read right: move it to the corpus"


def test_corpus_is_large_and_holds_enough_that_is_no_shot() -> None:
    quiet = sum(
        len(group["says"])
        for path in FILES
        for group in groups(path)
        if path.stem in QUIET or group.get("kind", "shot") in NO_SHOT
    )
    assert len(ALL) >= AT_LEAST
    assert quiet >= LESS_THAN_IT_SEEMS * len(ALL)


def test_ids_are_unique() -> None:
    for path in FILES:
        names = [group["id"] for group in groups(path)]
        assert len(names) == len(set(names)), path.stem
