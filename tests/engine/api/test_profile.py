"""Told facts in any unit become a bag that can be flown, or are refused with both limits."""

from __future__ import annotations

import numpy as np
import pytest

from engine import ClubFacts, OutOfRange, PlayerFacts, bag_faults, club_family, si, start_bag
from engine.api.standard import physics
from engine.core.calibrate import bag_launches
from engine.units import quantity


def test_units_make_no_difference() -> None:
    yards = PlayerFacts(clubs=(ClubFacts("7i", quantity(150, "yd")),))
    metres = PlayerFacts(clubs=(ClubFacts("7i", quantity(137.16, "m")),))
    for a, b in zip(start_bag(yards).golfer.clubs, start_bag(metres).golfer.clubs, strict=True):
        assert a.carry_m == pytest.approx(b.carry_m)


def test_told_details_stand() -> None:
    told = ClubFacts(
        "7i", quantity(150, "yd"), loft=quantity(30, "deg"), spread_long=0.07,
        spread_side=quantity(3, "deg"), lean=quantity(-1, "deg"), mishit=0.05,
    )  # fmt: skip
    start = start_bag(PlayerFacts(hand=-1, curve=quantity(-2, "deg"), miss=-1, clubs=(told,)))
    club = next(c for c in start.golfer.clubs if c.name == "7i")
    assert si(quantity(club.loft_rad, "rad"), "deg") == pytest.approx(30)
    assert club.lean_rad == pytest.approx(np.radians(-1))
    assert (club.spread_long, club.mishit) == (0.07, 0.05)
    assert (start.golfer.hand, start.golfer.miss) == (-1, -1)
    for value in ("loft_rad", "spread_long", "spread_side_rad", "lean_rad", "mishit"):
        assert start.of(value, "7i") == "told"


def test_what_is_out_of_range_is_refused() -> None:
    with pytest.raises(OutOfRange):
        start_bag(PlayerFacts(clubs=(ClubFacts("7i", quantity(4, "yd")),)))
    with pytest.raises(OutOfRange):
        start_bag(PlayerFacts(handicap=80))
    with pytest.raises(ValueError, match="no such club"):
        start_bag(PlayerFacts(clubs=(ClubFacts("77i"),)))
    assert club_family("77i") is None
    (fault,) = bag_faults(PlayerFacts(driver_speed=quantity(300, "mph")))
    assert fault.kind == "speed"


@pytest.mark.parametrize("seed", range(12))
def test_every_sound_bag_can_be_flown(seed: int) -> None:
    rng = np.random.default_rng(seed)
    driver = quantity(float(rng.uniform(80, 320)), "yd")
    facts = PlayerFacts(
        handicap=float(rng.uniform(-5, 54)),
        clubs=(ClubFacts("D", driver),),
        curve=quantity(float(rng.choice([-4, 0, 4])), "deg"),
    )
    assert bag_faults(facts) == ()
    swings, _ = bag_launches(start_bag(facts).golfer, physics=physics())
    assert sum(s.kind == "full" for s in swings) == 13
