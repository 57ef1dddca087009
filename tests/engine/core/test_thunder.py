"""Flash to bang against the rule that weather services teach."""

import pytest

from engine.core.thunder import strike_distance_m
from engine.errors import OutOfRange

MILE_M = 1609.344


def test_five_seconds_a_mile() -> None:
    # US National Weather Service, flash to bang: five seconds a mile, 30 seconds six miles.
    assert strike_distance_m(seconds=5) / MILE_M == pytest.approx(1, rel=0.07)
    assert strike_distance_m(seconds=30) / MILE_M == pytest.approx(6, rel=0.07)


def test_no_thunder_is_heard_from_farther() -> None:
    with pytest.raises(OutOfRange):
        strike_distance_m(seconds=300)
