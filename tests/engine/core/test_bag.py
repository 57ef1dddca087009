"""The start bag: plausible on published rows, told values kept, guesses marked."""

from __future__ import annotations

import itertools
import math
from statistics import median

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from engine.core.bag import USUAL_SET
from engine.core.facts import ClubFact, Facts
from engine.core.gapping import club_type
from engine.core.skill import club_spread, driver_carry, handicap_of_score
from tests.support.bags import built

YD = 0.9144

# Average carries of tour women measured by radar about 2010-2015, as reprinted by teachers
# (from memory, so used only within a wide band).
TOUR_WOMEN = {"D": 218, "3w": 195, "5w": 185, "5i": 161, "6i": 152, "7i": 141, "8i": 130,
              "9i": 119, "PW": 107}  # fmt: skip


def carries(facts: Facts) -> dict[str, float]:
    return {c.name: c.carry_m / YD for c in built(facts).golfer.clubs}


@pytest.mark.parametrize("known", ["D", "5i", "7i", "9i"])
def test_other_clubs_follow_from_one_carry(known: str) -> None:
    bag = carries(Facts(handicap=0.0, clubs=(ClubFact(known, TOUR_WOMEN[known] * YD),)))
    errors = [abs(bag[n] / y - 1) for n, y in TOUR_WOMEN.items() if n != known and n in bag]
    assert median(errors) < 0.06


@pytest.mark.parametrize(
    ("handicap", "drive_yd"),
    # R&A and USGA driving distance report, 2018: men under 6, 6-12, 13-20, over 21.
    [(3, 240), (9, 220), (16.5, 204), (26, 187)],
)
def test_drives_by_handicap_are_the_published_ones(handicap: float, drive_yd: float) -> None:
    # All of them roll some 20 yd (USGA/WHS Course Rating System, model tee shot).
    assert driver_carry(handicap)[0] / YD + 20 == pytest.approx(drive_yd, rel=0.02)


def test_average_round_is_three_over_the_handicap() -> None:
    # D. Knuth, "How well should you play?", USGA.
    assert handicap_of_score(90) == pytest.approx(15)


def test_drive_directions_lie_in_the_published_bands() -> None:
    # M. Broadie, "Every Shot Counts", 2014, fig. 6.3: 4-9 deg at 80, 5-11 deg at 100.
    for score, low, high in ((80, 4, 9), (100, 5, 11)):
        side = club_spread(handicap=handicap_of_score(score), family="driver").side_rad
        assert low < math.degrees(side) < high


def test_a_usual_carry_stands_and_the_rest_are_guesses() -> None:
    start = built(Facts(handicap=18, clubs=(ClubFact("7i", 150 * YD),)))
    by_name = {c.name: c for c in start.golfer.clubs}
    assert by_name["7i"].carry_m == pytest.approx(150 * YD)
    assert start.of("carry_m", "7i") == "told"
    assert start.of("carry_m", "8i") == "guessed"
    assert start.of("handicap") == "told"
    assert start.of("hand") == "guessed"
    assert set(by_name) == set(USUAL_SET)
    assert start.doubt("7i") < start.doubt("8i") < start.doubt("D")


def test_the_best_one_ever_is_not_the_usual_one() -> None:
    start = built(Facts(handicap=10, clubs=(ClubFact("6i", 200 * YD, "best"),)))
    six = next(c for c in start.golfer.clubs if c.name == "6i")
    assert 160 < six.carry_m / YD < 190
    assert start.of("carry_m", "6i") == "guessed"


def test_no_side_is_guessed() -> None:
    golfer = built(Facts()).golfer
    assert golfer.curve_rad == 0.0
    assert golfer.miss == 0
    assert all(c.lean_rad == 0.0 for c in golfer.clubs)


def test_clubs_told_take_the_place_of_usual_ones() -> None:
    names = set(carries(Facts(clubs=(ClubFact("3h"), ClubFact("56"), ClubFact("7w")))))
    assert {"3h", "56", "7w"} <= names
    assert "SW" not in names
    assert len(names) <= 13
    assert set(carries(Facts(clubs=(ClubFact("7i"), ClubFact("PW")), only=True))) == {"7i", "PW"}
    assert "LW" not in carries(Facts(without=frozenset({"LW"})))


@settings(deadline=None, max_examples=60)
@given(
    handicap=st.none() | st.floats(-5, 54),
    told=st.dictionaries(st.sampled_from(USUAL_SET), st.floats(0.75, 1.3), max_size=5),
    base=st.floats(100, 290),
)
def test_any_facts_give_a_full_bag(
    handicap: float | None, told: dict[str, float], base: float
) -> None:
    typical = carries(Facts(clubs=(ClubFact("D", base * YD),)))
    facts = Facts(
        handicap=handicap,
        clubs=tuple(ClubFact(n, typical[n] * f * YD) for n, f in told.items()),
    )
    golfer = built(facts).golfer
    assert len(golfer.clubs) == 13
    for club in golfer.clubs:
        assert 20 < club.carry_m / YD < 420
        assert 0 < club.spread_long < 0.3
        assert 0 < club.spread_side_rad < 0.3
        assert 0 <= club.mishit < 0.5
    # Without contradicting facts the order is that of the lofts.
    if not told:
        lofts = [c.loft_rad for c in golfer.clubs]
        assert lofts == sorted(lofts)


@pytest.mark.parametrize("name", ["", "putt", "12i", "99", "x"])
def test_no_such_club(name: str) -> None:
    assert club_type(name) is None


def test_a_total_is_longer_than_its_carry() -> None:
    # USGA/WHS Course Rating System: some 20 yd of roll in the model tee shot.
    start = built(Facts(clubs=(ClubFact("D", 230 * YD, "total"),)))
    assert start.golfer.clubs[0].carry_m / YD == pytest.approx(210, abs=4)
    assert start.of("carry_m", "D") == "guessed"


@pytest.mark.parametrize(("head_mph", "low", "high"), [(100, 9.5, 15), (80, 6.5, 11), (60, 4, 7)])
def test_gaps_between_irons_shrink_with_speed(head_mph: float, low: float, high: float) -> None:
    # Common practice, no source: 10 to 15 yd above 90 mph with the driver, 7 to 10 below, 5 to
    # 6 at the slowest; half a yard to a yard either way allowed here.
    bag = carries(Facts(driver_speed_mps=head_mph * 0.44704))
    irons = [bag[n] for n in ("5i", "6i", "7i", "8i", "9i", "PW")]
    gaps = [a - b for a, b in itertools.pairwise(irons)]
    assert low < sum(gaps) / len(gaps) < high


def test_a_measured_head_speed_gives_the_measured_carry() -> None:
    # Men's tour averages (from memory, hence the wide band): 113 mph carries some 275 yd.
    assert carries(Facts(driver_speed_mps=113 * 0.44704, handicap=-4))["D"] == pytest.approx(
        275, rel=0.06
    )
