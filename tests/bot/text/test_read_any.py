"""Does `read` survive any text, and do its spans fit?"""

from hypothesis import given, settings
from hypothesis import strategies as st

from bot.text.read import read

WORDS = (
    "160 into 18 mph up 8 ft water right left short pin back bunker , . / - ' \" ? ! wind "
    "one sixty half club 7 iron my goes 3/4 to from carry over 1e309 nan ° % @ # 5' 6\" "
    "yards m km/h par 4 hole putt breaks behind front middle"
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


@settings(max_examples=300, deadline=None)
@given(st.lists(st.sampled_from(sorted(set(WORDS.split()))), max_size=25))
def test_never_raises_on_golf_words_in_any_order(words: list[str]) -> None:
    read(" ".join(words))
    read("".join(words))
