"""Does the split find what a known way of choosing costs, on balls it did not draw itself?"""

import pytest

from tests.support.golfers import bogey
from tests.support.policies import Spot, play, spots, true_cost

ROUNDS = 200


@pytest.fixture(scope="module")
def places() -> list[Spot]:
    return spots(bogey(miss=1))


def test_always_at_the_flag_costs_what_brute_force_says(places: list[Spot]) -> None:
    """The true cost is sampled with hard edges and no grid; the measured one is the split's."""
    player = bogey(miss=1)
    true = true_cost(player, places, balls=40_000, seed=3)
    flag = play(player, places, "flag", rounds=ROUNDS, seed=5)
    assert flag.choice == pytest.approx(true, rel=0.1)
    assert flag.worst_sum < 1e-9


def test_a_perfect_chooser_loses_nothing_by_choice(places: list[Spot]) -> None:
    best = play(bogey(miss=1), places, "best", rounds=ROUNDS, seed=7)
    assert best.choice == pytest.approx(0.0, abs=1e-9)
    assert abs(best.execution) < 3.0 * best.execution_error
