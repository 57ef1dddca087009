"""Is a club more or less asked for than the one advised, or one chosen by its number?"""

import re

_COUNT = {"two": 2, "2": 2}
_NUMBER = r"(?P<{}>one|two|1|2|an?|another|an extra|a full)"
_CLUB = r"(?:clubs?|sticks?|irons?)"
_MORE = frozenset({"more", "extra", "up", "longer", "bigger", "another", "an extra"})
_STEPS = (
    rf"(?:{_NUMBER.format('a')}\s+)?(?P<b>more|less|fewer|extra)\s+{_CLUB}",
    rf"{_NUMBER.format('c')}\s+{_CLUB}\s+(?P<d>more|less|fewer|extra|up|down|longer|shorter)",
    r"club\s+(?P<e>up|down)",
    r"(?:up|go up|down|go down)\s+(?:a|one)\s+(?:club|stick)",
    r"(?P<f>another|an extra)\s+(?:club|stick)",
    r"(?:take|hit|try|go|use|play)\s+(?:one\s+)?(?P<g>more|less)",
    r"one\s+(?P<h>more|less|up|down)",
    r"(?:a\s+)?(?P<i>longer|shorter|bigger|smaller)\s+(?:club|stick)",
)
_OPENS = (
    r"(?P<why>why not|why wouldn'?t i|not)\s+",
    r"(?:what (?:about|if (?:i|we))|how about|would you|is it|maybe|think|better)\s+",
    r"(?:(?:should|shall|can|could) (?:i|we)|do (?:i|we) need|am i better (?:with|off))\s+",
)
_ENDS = (
    r"here|instead|then|on this|for safety|to be safe|to be sure"
    r"|and (?:swing )?(?:easy|smooth)"
)
_ASKED = re.compile(
    rf"^\W*(?:(?:so|and|but|or|ok|hmm)\W+)*(?:{'|'.join(_OPENS)})?"
    r"(?:just\s+)?(?:take|took|hit|go|went|use|try|play|with)?\s*"
    rf"(?:{'|'.join(f'(?:{s})' for s in _STEPS)})(?:\s+(?:{_ENDS}))?\W*$"
)
_IRON = "[2-9]|two|three|four|five|six|seven|eight|nine"
_CHOSEN = re.compile(
    r"^\W*(?:(?:ok|okay|right|so|yeah|yes|yep|alright|fine|good)\W+)*(?:"
    rf"(?:the )?(?P<a>{_IRON})(?: it is| it'll be| for me| then)(?: then)?"
    r"|(?:i'll|i will|i'm|let's|lets|gonna) (?:go|going|take|play|use)(?: with)?"
    rf" (?:the )?(?P<b>{_IRON})(?: then)?)\W*$"
)
_FIGURES = {
    "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8, "nine": 9,
}  # fmt: skip


def chosen(text: str) -> str | None:
    """The iron chosen by its number alone, behind advice.

    >>> chosen("ok, 6 it is"), chosen("I'll go with the seven"), chosen("6 it was")
    ('6i', '7i', None)
    """
    said = " ".join(text.casefold().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'").split())
    found = _CHOSEN.match(said)
    if found is None:
        return None
    number = found["a"] or found["b"] or ""
    return f"{_FIGURES.get(number, number)}i"


def club_step(text: str) -> tuple[int, bool] | None:
    """How many clubs longer (+) or shorter (-) are asked about, and whether it is a "why not".

    >>> club_step("why not one club less?"), club_step("club up?"), club_step("take 2 more clubs")
    ((-1, True), (1, False), (2, False))
    >>> club_step("it plays a club more")
    """
    said = " ".join(text.casefold().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'").split())
    found = _ASKED.match(said)
    if found is None:
        return None
    words = {found[g] for g in "bdefghi"} - {None}
    up = bool(words & _MORE) or re.search(r"\b(?:go )?up (?:a|one) ", said) is not None
    count = _COUNT.get(found["a"] or found["c"] or "", 1)
    return (count if up else -count), found["why"] is not None
