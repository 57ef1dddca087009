"""Are sides, directions and signs read right however they are put?"""

import random
from collections.abc import Callable

import pytest

from tests.support.messages import facts_of, ordered
from tests.support.phrased import Phrase, height, trouble, wind

DISTANCES = ("150", "147 yards", "162 to the pin", "it's 158", "got 171")
MESSAGES = 400


def message(pick: random.Random, parts: list[Phrase]) -> str:
    texts = [p.text for p in parts]
    texts.insert(pick.choice((0, 0, len(texts))), pick.choice(DISTANCES))
    return ", ".join(texts)


@pytest.mark.parametrize("kind", [wind, height, trouble])
def test_one_part_however_it_is_put(kind: Callable[[random.Random], Phrase]) -> None:
    pick = random.Random(2)
    wrong = []
    for _ in range(MESSAGES):
        part = kind(pick)
        text = message(pick, [part])
        got = facts_of(text)
        if {k: got.get(k) for k in part.means} != ordered(part.means):
            wrong.append(text)
    assert not wrong


def test_all_parts_together() -> None:
    pick = random.Random(3)
    wrong = []
    for _ in range(MESSAGES):
        parts = pick.sample([wind(pick), height(pick), trouble(pick)], 3)
        means = {name: told for part in parts for name, told in part.means.items()}
        text = message(pick, parts)
        got = facts_of(text)
        if {k: got.get(k) for k in means} != ordered(means):
            wrong.append(text)
    assert not wrong
