"""Is every phrase of the corpus read exactly as it was labelled?"""

from pathlib import Path
from typing import Any

import pytest

from tests.support.messages import CORPUS, FAILING, Group, facts_of, groups, meaning

AT_LEAST = 600  # phrases
LESS_THAN_IT_SEEMS = 0.2  # share that reads as nothing, or as less than it seems
QUIET = ("nothing", "talk", "safety", "rules", "round", "review", "follow")  # files
NO_SHOT = ("smalltalk", "nonsense", "unclear", "safety", "rules", "round", "review", "followup")


FILES = sorted(CORPUS.glob("*.toml"))


def phrases(path: Path) -> list[tuple[Group, str]]:
    return [(group, phrase) for group in groups(path) for phrase in group["says"]]


def read_as(group: Group, phrase: str) -> Any:
    return facts_of(phrase, group.get("after"), group.get("units", "imperial"))


@pytest.mark.parametrize("path", FILES, ids=lambda p: p.stem)
def test_every_phrase_is_read_as_labelled(path: Path) -> None:
    wrong = [f"{g['id']}: {p}" for g, p in phrases(path) if read_as(g, p) != meaning(g)]
    assert not wrong


def test_known_failures_still_fail() -> None:
    right = [p for group, p in phrases(FAILING) if read_as(group, p) == meaning(group)]
    assert not right, "now read right: move them to the corpus"


def test_corpus_is_large_and_holds_enough_that_is_no_shot() -> None:
    quiet = sum(
        len(group["says"])
        for path in FILES
        for group in groups(path)
        if path.stem in QUIET or group.get("kind", "shot") in NO_SHOT
    )
    count = sum(len(phrases(path)) for path in FILES)
    assert count >= AT_LEAST
    assert quiet >= LESS_THAN_IT_SEEMS * count


def test_ids_are_unique() -> None:
    for path in FILES:
        names = [group["id"] for group in groups(path)]
        assert len(names) == len(set(names)), path.stem
