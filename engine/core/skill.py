"""What spread, mishits and touch go with a handicap."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Final

from engine.core.golfer import Family, ShortGame

MEAN_HANDICAP: Final = 15.0  # mean index of men about 14 (USGA); women and unrated play higher
SD_HANDICAP: Final = 8.0

# Longer clubs scatter wider than irons: tour drives 3.4 deg, 90-shooter's 6.5 deg (M. Broadie,
# "Every Shot Counts", 2014, from memory) against 4.4 deg for a 90-shooter's irons (below).
_SIDE_FACTOR: Final[dict[Family, float]] = {
    "driver": 1.40, "wood": 1.22, "hybrid": 1.08, "iron": 1.0, "wedge": 0.95, "putter": 1.0,
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class Spread:
    """Scatter of one club's shots.

    Attributes
    ----------
    long : float
        Standard deviation of solid carries over the mean. [-]
    side_rad : float
        Standard deviation of the direction of the finish. [rad]
    mishit : float
        Share of shots that are not solid. [-]
    """

    long: float
    side_rad: float
    mishit: float


def handicap_of_score(score: float) -> float:
    """Handicap of a player whose usual 18-hole score is `score`, on a par of 72.

    References
    ----------
    .. [1] D. Knuth, "How well should you play?", USGA: the average round is about three over
       the course handicap.
    """
    return score - 72.0 - 3.0


def driver_carry(handicap: float) -> tuple[float, float]:
    """Mean carry [m] of drives at this handicap, and its relative standard deviation [-].

    Notes
    -----
    Exponential through the average drives of men with handicaps under 6, 6-12, 13-20 and
    over 21: 240, 220, 204 and 187 yd in all [1]_, less 20 yd of roll [2]_. Within a band
    players differ by about an eighth (judgement).

    References
    ----------
    .. [1] R&A and USGA, "Annual Driving Distance Report", 2018 data.
    .. [2] USGA/WHS Course Rating System: roll of the model tee shot on flat ground.
    """
    return (246.0 * math.exp(-0.0107 * handicap) - 20.0) * 0.9144, 0.13


def club_spread(*, handicap: float, family: Family) -> Spread:
    """Scatter usual at this handicap for a club of this family.

    Notes
    -----
    Through a 90-shooter (handicap 15) from 150 yd, whose published pattern implies 11.5 % long
    and short and 4.4 deg sideways over all shots, mishits included [1]_. Scratch and the
    flattening above handicap 30 are judgement, held so that drives scatter 4-9 deg at 80 and
    5-11 deg at 100 [2]_. So is the share of mishits: 4 % at scratch, 12 % at 15.

    References
    ----------
    .. [1] M. Broadie, "Clubbing up" (magazine column): 35 % of greens, half the shots further
       than 59 ft, centre 13 yd short.
    .. [2] M. Broadie, "Every Shot Counts", 2014, fig. 6.3.
    """
    h = min(max(handicap, -6.0), 54.0)
    low = min(h, 35.0)
    return Spread(
        long=0.062 + 0.0044 * low - 0.00006 * low**2,
        side_rad=math.radians(2.9 + 0.075 * h) * _SIDE_FACTOR[family],
        mishit=min(0.04 + 0.005 * max(h, 0.0), 0.22),
    )


def short_game(handicap: float) -> ShortGame:
    """Touch usual at this handicap.

    Notes
    -----
    Putting: line and pace for which, on the rolling and capture model of `putt_table`, an
    eight-foot putt falls about 41 % of the time at scratch and 27 % for a 90-shooter [1]_, who
    three-putts about one in five from 30 ft (from memory), in the two-error form of [2]_. Chips
    and sand are judgement.

    References
    ----------
    .. [1] M. Broadie, "Every Shot Counts", 2014.
    .. [2] A. Gelman, "Model building and expansion for golf putting", 2019: line 1.0 deg and
       pace 8 % for the tour.
    """
    h = min(max(handicap, -6.0), 54.0)
    chip = 0.11 + 0.006 * h
    return ShortGame(
        chip_spread=max(chip, 0.09),
        sand_spread=max(1.5 * chip, 0.14),
        chip_mishit=min(0.02 + 0.005 * max(h, 0.0), 0.25),
        putt_line_rad=0.0292 + 0.00065 * h,
        putt_pace=0.086 + 0.0017 * h,
    )
