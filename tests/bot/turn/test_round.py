"""Scores, strokes received and standings, from what was told in the round."""

import pytest

from bot.model import reading as read
from bot.model.answer import CannotYet
from bot.model.card import Card, OnHole, RoundBegun, RoundOver, ScoreKept, Standings, Strokes
from bot.model.state import Course, HoleNote, Played, Player, Profile, Trip
from tests.support.turns import Bench

PRACTICE = read.Round(intent="start_round", competition=False)
# Stroke indexes of an invented course, odd out and even in, as is usual.
INDEXES = (7, 3, 15, 1, 11, 17, 5, 9, 13, 8, 4, 16, 2, 12, 18, 6, 10, 14)
PARS = (4, 4, 3, 5, 4, 3, 4, 5, 4, 4, 4, 3, 5, 4, 3, 4, 5, 4)


def hole(number: int) -> HoleNote:
    facts = read.Hole(par=PARS[number - 1], stroke_index=INDEXES[number - 1])
    return HoleNote(hole=facts)


def bench(handicap: float | None = None, **course: object) -> Bench:
    made = Bench()
    made.put(Trip(ids=("me",), course="Saltmarrow", tee="white"))
    notes = {n: hole(n) for n in range(1, 19)}
    made.put(Course(ids=("me", "saltmarrow/white"), name="Saltmarrow", holes=notes, **course))
    made.put(Player(ids=("me",), profile=Profile(handicap=handicap)))
    made.take(PRACTICE)
    return made


def kept(bench: Bench, *acts: read.Act, sender: str = "me") -> ScoreKept:
    (answer,) = bench.take(*acts, sender=sender)
    assert isinstance(answer, ScoreKept)
    return answer


def test_scores_add_up_hole_after_hole() -> None:
    b = bench()
    kept(b, read.Score(strokes=5))
    answer = kept(b, read.Score(strokes=4))
    assert (answer.hole, answer.total, answer.to_par, answer.points) == (2, 9, 1, None)


def test_a_score_in_words_needs_the_par() -> None:
    b = bench()
    assert kept(b, read.Score(to_par=1)).strokes == 5
    lone = Bench()
    (answer,) = lone.take(read.Score(to_par=1))
    assert isinstance(answer, CannotYet)
    assert answer.reason == "par_unknown"
    assert lone.get(Trip, "me").round is None
    lone.take(read.Round(intent="set_hole", hole=read.Hole(number=1, par=3)))
    assert kept(lone, read.Score(to_par=1)).strokes == 4


def test_points_and_strokes_with_a_handicap() -> None:
    b = bench(handicap=14.0, rating=71.0, slope=113)
    # Rules of Handicapping 6.1a: 14.0 x 113/113 + (71.0 - 72) = 13; stroke on index 1 to 13.
    (strokes,) = b.take(read.Round(intent="strokes"))
    assert strokes == Strokes(handicap=13, rated=True, hole=1, received=1)
    # Rules of Golf 21.1b: net par earns two points, net bogey one, two over nothing.
    assert kept(b, read.Score(strokes=5)).points == 2  # hole 1, index 7: net par
    assert kept(b, read.Score(strokes=6)).points == 3  # hole 2, index 3: net bogey
    assert kept(b, read.Score(strokes=4)).points == 4  # hole 3, index 15: bogey, no stroke
    answer = kept(b, read.Score(picked_up=True))
    assert (answer.points, answer.total) == (4, None)


def test_tees_without_rating_say_so() -> None:
    (strokes,) = bench(handicap=14.4).take(read.Round(intent="strokes"))
    assert isinstance(strokes, Strokes)
    assert (strokes.handicap, strokes.rated) == (14, False)


def test_no_handicap_no_strokes() -> None:
    (answer,) = bench().take(read.Round(intent="strokes"))
    assert isinstance(answer, CannotYet)
    assert answer.reason == "no_handicap"


def test_three_big_numbers_in_a_row_bring_one_calm_line_once() -> None:
    b = bench()
    assert not kept(b, read.Score(to_par=2)).calm
    assert not kept(b, read.Score(to_par=3)).calm
    assert kept(b, read.Score(to_par=2)).calm
    assert not kept(b, read.Score(to_par=2)).calm
    assert len(b.say(read.Score(to_par=2))) == 1


def test_a_marker_writes_for_another_and_stays_on_the_hole() -> None:
    b = Bench(chat="trip", kind="group")
    names = {"me": "Tavi", "oona": "Oona"}
    b.put(Trip(ids=("trip",), members=("me", "oona"), names=names))
    b.take(PRACTICE)
    answer = kept(b, read.Score(strokes=6, player="Oona"))
    assert (answer.player, answer.hole) == ("Oona", 1)
    assert kept(b, read.Score(strokes=5)).hole == 1
    (board,) = b.take(read.Round(intent="standings"))
    assert isinstance(board, Standings)
    assert [(r.player, r.total) for r in board.rows] == [("Tavi", 5), ("Oona", 6)]


def test_standings_are_by_points_where_all_handicaps_are_known() -> None:
    b = bench(handicap=0.0)
    b.put(b.get(Trip, "me").model_copy(update={"names": {"me": "Tavi", "bram": "Bram"}}))
    b.put(Player(ids=("bram",), profile=Profile(handicap=18.0)))
    b.take(read.Score(strokes=4))
    b.take(read.Score(hole=1, strokes=4, player="Bram"))
    (board,) = b.take(read.Round(intent="standings"))
    assert isinstance(board, Standings)
    assert board.by == "points"
    assert [(r.player, r.points) for r in board.rows] == [("Bram", 3), ("Tavi", 2)]


def test_the_hole_is_told_with_the_stroke_on_it() -> None:
    (answer,) = bench(handicap=4.0).take(read.Round(intent="set_hole", hole=read.Hole(number=4)))
    assert answer == OnHole(hole=4, par=5, stroke_index=1, received=1)


@pytest.mark.parametrize("number", [0, 19])
def test_there_is_no_such_hole(number: int) -> None:
    (answer,) = bench().take(read.Round(intent="set_hole", hole=read.Hole(number=number)))
    assert isinstance(answer, CannotYet)
    assert answer.reason == "no_such_hole"


def test_an_absurd_score_is_not_kept() -> None:
    b = bench()
    (answer,) = b.take(read.Score(strokes=160))
    assert isinstance(answer, CannotYet)
    assert b.get(Played, b.get(Trip, "me").round or "").scores == {}


def test_the_card_says_what_is_missing() -> None:
    b = bench()
    b.take(read.Score(hole=1, strokes=5))
    b.take(read.Score(hole=3, picked_up=True))
    (answer,) = b.take(read.Round(intent="card"))
    assert isinstance(answer, Card)
    assert b.say(read.Round(intent="card"))[0] == "Out: 5 . -"


def test_the_last_hole_ends_the_round() -> None:
    b = bench()
    for _ in range(17):
        b.take(read.Score(to_par=0))
    (answer,) = b.take(read.Score(to_par=0))
    assert isinstance(answer, RoundOver)
    assert answer.row is not None
    assert answer.row.to_par == 0
    (answer,) = b.take(read.Round(intent="card"))
    assert isinstance(answer, Card)


def test_an_edited_score_corrects_the_hole_it_was_for() -> None:
    b = bench()
    kept(b, read.Score(strokes=5))
    kept(b, read.Score(strokes=4))
    (answer,) = b.take(read.Score(strokes=7), edit_of=str(b.count))
    assert isinstance(answer, ScoreKept)
    assert (answer.hole, answer.total) == (2, 12)
    assert kept(b, read.Score(strokes=3)).hole == 3


def test_the_first_to_report_a_hole_does_not_move_the_others_past_it() -> None:
    b = Bench(chat="trip", kind="group")
    b.put(Trip(ids=("trip",), members=("me", "oona", "bram")))
    b.take(PRACTICE)
    told = [
        kept(b, read.Score(strokes=5), sender=who).hole
        for who in ("me", "oona", "bram", "oona", "me", "bram")
    ]
    assert told == [1, 1, 1, 2, 2, 2]


def test_a_round_may_start_on_another_hole() -> None:
    b = bench()
    b.take(read.Round(intent="set_hole", hole=read.Hole(number=10)))
    assert [kept(b, read.Score(strokes=5)).hole for _ in range(2)] == [10, 11]


def test_a_round_begun_by_a_score_can_still_be_called_practice() -> None:
    b = Bench()
    b.take(read.Score(strokes=5))
    (answer,) = b.take(read.Round(intent="competition_off"))
    assert answer == RoundBegun(kind_of_round="practice")


def test_a_round_left_open_yesterday_is_over() -> None:
    b = bench()
    kept(b, read.Score(strokes=5))
    b.pass_time(hours=20)
    answer = kept(b, read.Score(strokes=4))
    assert (answer.hole, answer.played) == (1, 1)


def test_a_player_of_a_group_keeps_their_card_in_private() -> None:
    b = Bench(chat="trip", kind="group")
    names = {"me": "Tavi", "oona": "Oona"}
    b.put(Trip(ids=("trip",), members=("me", "oona"), names=names))
    b.take(PRACTICE)
    (answer,) = b.take(read.Score(strokes=5), sender="oona", chat="oona")
    assert isinstance(answer, ScoreKept)
    assert kept(b, read.Score(strokes=4)).hole == 1
    (board,) = b.take(read.Round(intent="standings"), sender="oona", chat="oona")
    assert isinstance(board, Standings)
    assert [(r.player, r.total) for r in board.rows] == [("Tavi", 4), ("Oona", 5)]
    (over,) = b.take(read.Round(intent="end_round"), sender="oona", chat="oona")
    assert isinstance(over, RoundOver)
    assert not over.for_all
    assert kept(b, read.Score(strokes=4)).hole == 2


def test_a_private_round_does_not_end_that_of_the_group() -> None:
    b = Bench(chat="trip", kind="group")
    b.put(Trip(ids=("trip",), members=("me", "oona")))
    b.take(PRACTICE)
    b.take(PRACTICE, sender="oona", chat="oona")
    assert b.get(Played, b.get(Trip, "trip").round or "").ended_at is None
    assert kept(b, read.Score(strokes=4)).hole == 1


def test_the_next_hole_after_a_score_is_the_one_the_score_moved_on_to() -> None:
    b = bench()
    b.take(read.Score(strokes=5))
    on = [b.take(read.Round(intent="next_hole"))[0] for _ in range(2)]
    assert [o.hole for o in on if isinstance(o, OnHole)] == [2, 3]


def test_the_next_hole_of_a_group_is_the_same_for_all() -> None:
    b = Bench(chat="trip", kind="group")
    names = {"me": "Tavi", "oona": "Oona"}
    b.put(Trip(ids=("trip",), members=("me", "oona"), names=names))
    b.take(PRACTICE)
    b.take(read.Score(strokes=5))
    on = [b.take(read.Round(intent="next_hole"), sender=who)[0] for who in ("me", "oona", "me")]
    assert [o.hole for o in on if isinstance(o, OnHole)] == [2, 2, 3]


def test_the_next_hole_after_a_shot_on_this_one_is_another() -> None:
    b = bench()
    b.take(read.Score(strokes=5))
    b.take(read.Result(club="7i", side="left"))
    (answer,) = b.take(read.Round(intent="next_hole"))
    assert isinstance(answer, OnHole)
    assert answer.hole == 3
