"""Every line about the round fits, with the longest of everything."""

import pytest

from bot.model.answer import Answer
from bot.model.card import (
    Card,
    KindFixed,
    OnHole,
    RoundBegun,
    RoundOver,
    Row,
    ScoreKept,
    Standings,
    Strokes,
)
from bot.model.measure import Measure
from bot.model.ruling import Kept, Relief, ReliefOption, Withheld
from bot.wording import Style
from bot.wording.base import WIDTH, word

LONG = "Bartholomea-Wilhelmina of the Saltmarrow"
ROW = Row(
    player=LONG, scores=tuple((n, 12) for n in range(1, 19)), played=18, total=216, to_par=144,
    net_to_par=90, points=0,
)  # fmt: skip
YD = Measure(value=168.4, unit="yd")


def option(name: str, strokes: float) -> ReliefOption:
    return ReliefOption(option=name, distance=YD, strokes=strokes)


@pytest.mark.parametrize(
    "answer",
    [
        RoundBegun(kind_of_round="practice", course=LONG, others=3),
        RoundBegun(kind_of_round="rules", course=LONG, others=3),
        RoundBegun(kind_of_round="rules", others=3, late=True),
        KindFixed(),
        OnHole(hole=18, par=5, stroke_index=18, received=-1),
        ScoreKept(player=LONG, hole=18, strokes=12, par=4, total=216, to_par=144, played=18,
                  points=36, calm=True),
        ScoreKept(hole=18, strokes=None, played=18),
        Card(row=ROW),
        Card(row=Row(player="")),
        Standings(by="points", rows=(ROW,)),
        Standings(by="strokes", rows=()),
        Strokes(handicap=54, rated=False, hole=18, received=3),
        RoundOver(for_all=True, row=ROW),
        RoundOver(for_all=False, row=ROW),
        Withheld(distances=(("pin", YD), ("front", YD), ("middle", YD), ("back", YD))),
        Kept(),
        Relief(topic="red_penalty", options=(option("sideways", 4.23), option("replay", 4.99),
                                             option("line", 5.1))),
    ],
    ids=lambda a: a.kind,
)  # fmt: skip
def test_lines_fit(answer: Answer) -> None:
    for line in word(answer, Style()).lines:
        assert len(line) <= WIDTH, line


def test_a_plus_player_gives_strokes_back() -> None:
    lines = word(Strokes(handicap=-2, rated=True, hole=18, received=-1), Style()).lines
    assert lines == ("Hole 18: 1 stroke given back.", "2 strokes given back in the round.")


def test_a_card_shows_pick_ups_and_gaps() -> None:
    row = Row(player="", scores=((1, 5), (3, None), (10, 4)), played=3)
    assert word(Card(row=row), Style()).lines[:2] == ("Out: 5 . - . . . . . .", "In: 4")
