"""Any text at all is read without an error."""

import pytest

from bot.text.read import read
from tests.support.mutants import mutants


@pytest.mark.parametrize("seed", range(8))
def test_broken_phrases_are_read(seed: int) -> None:
    for text in mutants(60, seed):
        unread = read(text).unread
        assert all(0 <= s.start <= s.end <= len(text) for s in unread), text


@pytest.mark.parametrize("digit", ["\u2466", "\u1369", "\u278b", "\u19da", "\u2167", "\u0e55"])
def test_signs_that_look_like_digits(digit: str) -> None:
    read(f"{digit} 150 {digit}")
