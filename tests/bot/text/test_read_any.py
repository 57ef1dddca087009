"""Does `read` survive any text, and do its spans fit?"""

import tomllib
from importlib.resources import files

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.text.read import read

VOCABULARY = tomllib.loads(files("bot.text").joinpath("vocab.toml").read_text(encoding="utf-8"))
PHRASES = sorted({p for part in VOCABULARY.values() for told in part.values() for p in told})
NUMBERS = (
    "160 18 8 , . / - ' \" ? ! one sixty half 7 3/4 1e309 nan ° % @ # 5' 6\" 4th 12th 7's 3w "
    "10:30 120-130 12ft 30m 8mph 20C first too won -3 +4 0.5 1,5"
)


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=300))
def test_never_raises_and_spans_fit(text: str) -> None:
    reading = read(text)
    assert reading.text == text
    for span in (
        *reading.unread,
        *(f.span for f in reading.trace),
        *(c.span for c in reading.open),
    ):
        assert 0 <= span.start <= span.end <= len(text)
    for found in reading.trace:
        assert found.span.text == text[found.span.start : found.span.end]


@settings(max_examples=600, deadline=None)
@given(
    st.lists(
        st.one_of(st.sampled_from(sorted(set(NUMBERS.split()))), st.sampled_from(PHRASES)),
        max_size=12,
    )
)
def test_never_raises_on_golf_words_in_any_order(words: list[str]) -> None:
    read(" ".join(words))
    read("".join(words))
