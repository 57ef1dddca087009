"""Does every word of the vocabulary have one meaning, and one that a reading can hold?"""

import tomllib
from pathlib import Path
from typing import get_args

from bot.model.reading import Lie, Shape, SwingWord

VOCAB = tomllib.loads(
    (Path(__file__).parents[3] / "bot" / "text" / "vocab.toml").read_text(encoding="utf-8")
)


def test_members_that_become_values_are_values() -> None:
    for family, kind in (("lie", Lie), ("shape", Shape), ("swing", SwingWord)):
        assert set(VOCAB[family]) <= set(get_args(kind)), family


def test_a_phrase_has_one_meaning() -> None:
    seen: dict[str, str] = {}
    for family, members in VOCAB.items():
        if family in ("unit", "sign", "spoken"):
            continue
        for member, phrases in members.items():
            for phrase in phrases:
                name = f"{family}.{member}"
                assert seen.setdefault(phrase, name) == name, phrase
