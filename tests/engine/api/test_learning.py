"""A told result becomes an interval of calm carry and of direction."""

from __future__ import annotations

import math

import pytest

from engine.api.learning import ShotResult, lesson_of, seen_of, too_far
from engine.api.profile import ClubFacts, PlayerFacts, start_bag
from engine.units import quantity

YD = 0.9144


def yd(v: float):
    return quantity(v, "yd")


def carry(**said: object) -> tuple[float, float]:
    seen = seen_of(ShotResult(club="7i", distance=yd(150), **said))  # type: ignore[arg-type]
    return seen.low_m / YD, seen.high_m / YD


def test_a_told_carry_is_good_to_a_few_yards() -> None:
    low, high = carry(carry=yd(146))
    assert low < 146 < high
    assert high - low < 8


def test_words_of_depth() -> None:
    low, high = carry(depth="pin_high")
    assert 140 < low < 150 < high < 160
    low, high = carry(depth="short")
    assert low == -math.inf
    assert 140 < high < 150
    low, high = carry(depth="long")
    assert 150 < low < 160
    assert high == math.inf
    low, high = carry(depth="short", by=yd(12))
    assert low < 138 < high
    assert carry() == (-math.inf, math.inf)


def test_water_holds_the_carry_between_its_edges() -> None:
    assert carry(depth="short", within=(yd(120), yd(138))) == pytest.approx((120, 138))
    assert carry(within=(None, yd(138)))[1] == pytest.approx(138)


def test_a_total_loses_its_run_and_some_certainty() -> None:
    low, high = carry(total=yd(165), run=yd(15))
    assert low < 150 < high
    assert high - low > 8


def test_a_shot_into_wind_comes_back_longer() -> None:
    # 150 that played as 165: a ball pin high would have carried 165 in calm air.
    seen = seen_of(
        ShotResult(
            club="7i",
            distance=yd(150),
            plays_as=yd(165),
            wind_part=yd(12),
            height_part=yd(3),
            carry=yd(150),
        )
    )
    assert (seen.low_m + seen.high_m) / 2 / YD == pytest.approx(165)
    assert seen.wind_share == pytest.approx(-12 / 165)
    assert seen.height_share == pytest.approx(-3 / 165)


def test_side_is_told_from_what_was_meant_less_the_drift() -> None:
    told = ShotResult(club="7i", distance=yd(150), side=1, side_by=yd(10))
    seen = seen_of(told)
    assert seen.left_rad < math.atan2(10, 150) < seen.right_rad
    aimed = seen_of(
        ShotResult(
            club="7i", distance=yd(150), side=1, side_by=yd(10), meant_side=yd(6), drift=yd(4)
        )
    )
    assert (aimed.left_rad + aimed.right_rad) / 2 == pytest.approx(0, abs=1e-9)
    word = seen_of(ShotResult(club="7i", distance=yd(150), side=-1))
    assert word.left_rad == pytest.approx(-math.pi / 2)
    assert word.right_rad < 0
    line = seen_of(ShotResult(club="7i", distance=yd(150), side=0))
    assert line.left_rad == -line.right_rad


def test_a_seven_iron_of_320_is_too_far() -> None:
    bag = start_bag(PlayerFacts(clubs=(ClubFacts("7i", yd(150)),)))
    assert too_far(bag, seen_of(ShotResult(club="7i", carry=yd(320))))
    assert not too_far(bag, seen_of(ShotResult(club="7i", carry=yd(190))))
    assert not too_far(bag, seen_of(ShotResult(club="2i", carry=yd(320))))


def test_a_lesson_starts_from_told_values_and_compares_with_stored_ones() -> None:
    told = start_bag(PlayerFacts(handicap=12, clubs=(ClubFacts("7i", yd(152)),)))
    taken = start_bag(
        PlayerFacts(handicap=12, clubs=(ClubFacts("7i", yd(144), learned=frozenset({"carry_m"})),))
    )
    shots = [
        seen_of(ShotResult(club="7i", carry=yd(144 + d))) for d in (-6, -3, -1, 0, 1, 2, 4, 5)
    ]
    assert [s.club for s in lesson_of(told, told, shots).suggestions] == ["7i"]
    assert lesson_of(told, taken, shots).suggestions == ()
    assert taken.of("carry_m", "7i") == "learned"


def test_feel_already_counted_is_taken_out_again() -> None:
    # Called wind worth 20 yd, counted at half: the reduced shot is as if counted in full.
    full = ShotResult(
        club="7i", distance=yd(150), plays_as=yd(170), wind_part=yd(20), carry=yd(150)
    )
    half = ShotResult(
        club="7i", distance=yd(150), plays_as=yd(160), wind_part=yd(10), wind_feel=0.5,
        carry=yd(150),
    )  # fmt: skip
    assert seen_of(half) == seen_of(full)
