"""Handicap arithmetic against the published rules and a published worked example."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from engine.core.handicap import (
    course_handicap,
    net_double_bogey,
    playing_handicap,
    score_differential,
    stableford_points,
    strokes_received,
)
from engine.errors import OutOfRange


def test_differential_of_the_published_example() -> None:
    # D. Knuth, "How well should you play?" (USGA): 80 on 68.7 / 105 is a differential of 12.2.
    assert score_differential(adjusted_gross=80, slope=105, course_rating=68.7) == 12.2


def test_differential_is_the_score_over_the_rating_on_a_standard_course() -> None:
    # Rules of Handicapping 5.1a: 113 over a slope of 113 is one.
    assert score_differential(adjusted_gross=85, slope=113, course_rating=71.3) == 13.7
    assert score_differential(adjusted_gross=85, slope=113, course_rating=71.3, pcc=1) == 12.7


def test_course_handicap_is_the_index_on_a_standard_course() -> None:
    # Rules of Handicapping 6.1a: slope 113 and rating equal to par leave the index, rounded.
    assert course_handicap(index=14.4, slope=113, course_rating=72, par=72) == 14
    assert course_handicap(index=14.5, slope=113, course_rating=72, par=72) == 15


@pytest.mark.parametrize(
    ("index", "slope", "rating", "par", "exact"),
    [
        # By hand from index x slope / 113 + (rating - par), Rules of Handicapping 6.1a.
        (10.4, 132, 72.3, 71, 13.45),  # 12.149 + 1.3
        (21.6, 124, 70.1, 72, 21.80),  # 23.703 - 1.9
        (0.0, 140, 74.2, 72, 2.2),
        (54.0, 155, 75.0, 72, 77.07),
        (-2.1, 129, 71.8, 72, -2.60),  # -2.397 - 0.2
    ],
)
def test_course_handicap_by_hand(
    index: float, slope: int, rating: float, par: int, exact: float
) -> None:
    assert course_handicap(index=index, slope=slope, course_rating=rating, par=par) == round(exact)


def test_a_tie_rounds_up_also_for_a_plus_player() -> None:
    # Rules of Handicapping, rounding: .5 rounds upward, so -1.5 becomes -1.
    assert course_handicap(index=-1.5, slope=113, course_rating=72, par=72) == -1
    assert course_handicap(index=1.5, slope=113, course_rating=72, par=72) == 2


def test_nine_holes_use_half_the_index_to_one_decimal() -> None:
    # Rules of Handicapping 6.1b: 15.3 halves to 7.65, used as 7.7; on a standard nine 8.
    assert course_handicap(index=15.3, slope=113, course_rating=36, par=36, holes=9) == 8
    assert course_handicap(index=14.8, slope=113, course_rating=36, par=36, holes=9) == 7


def test_playing_handicap() -> None:
    # Rules of Handicapping 6.2 and Appendix C: individual stroke play 95 per cent.
    assert playing_handicap(course_handicap=20, allowance=0.95) == 19
    assert playing_handicap(course_handicap=10, allowance=0.95) == 10


@pytest.mark.parametrize(
    ("handicap", "stroke_index", "received"),
    [
        # Rules of Handicapping, Appendix E: order of the stroke index, then round again.
        (18, 18, 1), (5, 5, 1), (5, 6, 0), (20, 2, 2), (20, 3, 1), (38, 2, 3), (0, 1, 0),
        # A plus handicap gives strokes back from index 18 down.
        (-2, 18, -1), (-2, 17, -1), (-2, 16, 0), (-2, 1, 0),
    ],
)  # fmt: skip
def test_strokes_received(handicap: int, stroke_index: int, received: int) -> None:
    assert strokes_received(handicap=handicap, stroke_index=stroke_index) == received


@given(handicap=st.integers(-10, 60), holes=st.sampled_from([9, 18]))
def test_strokes_add_up_to_the_handicap(handicap: int, holes: int) -> None:
    given_ = [
        strokes_received(handicap=handicap, stroke_index=i, holes=holes)
        for i in range(1, holes + 1)
    ]
    assert sum(given_) == handicap
    assert given_ == sorted(given_, reverse=True)


def test_net_double_bogey() -> None:
    # Rules of Handicapping 3.1b: par plus two plus strokes received.
    assert net_double_bogey(par=4, received=1) == 7
    assert net_double_bogey(par=3, received=0) == 5
    assert net_double_bogey(par=5, received=-1) == 6


@pytest.mark.parametrize(
    ("net_to_par", "points"), [(3, 0), (2, 0), (1, 1), (0, 2), (-1, 3), (-2, 4), (-3, 5), (-4, 6)]
)
def test_stableford_points(net_to_par: int, points: int) -> None:
    # Rules of Golf 21.1b, table of points against the fixed score.
    strokes = 4 + 1 + net_to_par
    assert stableford_points(par=4, received=1, strokes=strokes) == points


def test_a_picked_up_ball_scores_no_points() -> None:
    assert stableford_points(par=4, received=2, strokes=None) == 0  # Rules of Golf 21.1b


@given(par=st.integers(3, 6), received=st.integers(-1, 4))
def test_net_double_bogey_is_where_points_run_out(par: int, received: int) -> None:
    # Both rules define the same score: net double bogey earns nothing, one better earns one.
    worst = net_double_bogey(par=par, received=received)
    assert stableford_points(par=par, received=received, strokes=worst) == 0
    assert stableford_points(par=par, received=received, strokes=worst - 1) == 1


@pytest.mark.parametrize(
    "call",
    [
        lambda: course_handicap(index=60, slope=113, course_rating=72, par=72),
        lambda: course_handicap(index=10, slope=40, course_rating=72, par=72),
        lambda: course_handicap(index=10, slope=113, course_rating=72, par=72, holes=12),
        lambda: strokes_received(handicap=10, stroke_index=19),
        lambda: strokes_received(handicap=10, stroke_index=10, holes=9),
        lambda: playing_handicap(course_handicap=10, allowance=1.5),
        lambda: score_differential(adjusted_gross=80, slope=113, course_rating=70, pcc=5),
    ],
)
def test_refuses_what_the_rules_do_not_know(call) -> None:
    with pytest.raises(OutOfRange):
        call()
