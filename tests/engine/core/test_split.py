"""Do the parts of the strokes lost add up, and does out of bounds cost two?"""

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from engine.core.split import split

STROKES = st.floats(0.0, 9.0)
COUNTS = st.integers(0, 4).map(float)


@st.composite
def holes(draw: st.DrawFn) -> tuple[np.ndarray, ...]:
    n = draw(st.integers(1, 12))
    values = draw(arrays(np.float64, n, elements=STROKES))
    played = draw(arrays(np.float64, n, elements=STROKES))
    made, penalty = (draw(arrays(np.float64, n, elements=COUNTS)) for _ in range(2))
    return values, played, np.append(values[1:], 0.0), made, penalty


@given(holes())
def test_the_parts_add_up_to_score_less_expectation(hole: tuple[np.ndarray, ...]) -> None:
    before, played, after, made, penalty = hole
    parts = split(before=before, played=played, after=after, made=made, penalty=penalty)
    score = made.sum() + penalty.sum()
    assert parts.total.sum() == pytest.approx(score - before[0], abs=1e-9)


def test_out_of_bounds_costs_two_whatever_the_hole() -> None:
    """Rules of Golf 2023, 18.2b: one penalty stroke, and played again from the same place."""
    for worth in (2.7, 4.41, 6.03):
        one = np.array([worth])
        parts = split(
            before=one, played=one, after=one, made=np.array([1.0]), penalty=np.array([1.0])
        )
        assert parts.total == pytest.approx(2.0, abs=1e-12)
        assert parts.choice == 0.0
        assert parts.penalty == 1.0


def test_a_worked_hole() -> None:
    """M. Broadie, Every Shot Counts (2014), baseline from memory: 400 yd tee 3.99, 160 fairway
    2.98, holed in one putt from 8 ft (1.5 expected): gains of 0.01, 0.48, 0.50, made in three.
    The identity is checked, not the table.
    """
    before = np.array([3.99, 2.98, 1.5])
    parts = split(
        before=before, played=before, after=np.append(before[1:], 0.0), made=np.ones(3),
        penalty=np.zeros(3),
    )  # fmt: skip
    assert parts.execution == pytest.approx([-0.01, -0.48, -0.50], abs=1e-12)
    assert parts.total.sum() == pytest.approx(3.0 - 3.99, abs=1e-12)
