"""What does each club do today, and how long a course suits this player's drive?"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import TYPE_CHECKING

import numpy as np

from engine.api.conditions import AirFacts, air_today
from engine.api.standard import physics
from engine.core.landing import Firmness
from engine.core.pattern import SOLID
from engine.core.playbook import write_book
from engine.core.wind import CALM, Wind
from engine.units import quantity, si

if TYPE_CHECKING:
    from engine.core.golfer import Golfer
    from engine.units import Q

# Average drive and the course lengths that suit it, yards: USGA and PGA of America guidance on
# choosing forward tees, 2011, as quoted by golf pages; low and high end of each range.
_DRIVE_YD = (100.0, 125.0, 150.0, 175.0, 200.0, 225.0, 250.0, 275.0)
_LOW_YD = (2100.0, 2800.0, 3500.0, 4400.0, 5200.0, 5800.0, 6200.0, 6700.0)
_HIGH_YD = (2300.0, 3000.0, 3700.0, 4600.0, 5400.0, 6000.0, 6400.0, 6900.0)


@dataclass(frozen=True, slots=True)
class ClubCarries:
    """Mean solid full swings of one club from a good lie in today's air.

    Attributes
    ----------
    club : str
    calm, into, down : Quantity
        Carry without wind, and with the wind ahead and behind. [length]
    total : Quantity
        Carry and roll without wind. [length]
    """

    club: str
    calm: Q
    into: Q
    down: Q
    total: Q


def clubs_today(
    *,
    golfer: Golfer,
    wind_speed: Q,
    air: AirFacts,
    firmness: Firmness = "normal",
) -> tuple[ClubCarries, ...]:
    """Return what each club of a bag carries today, longest first.

    Parameters
    ----------
    golfer : Golfer
        Whose bag.
    wind_speed : Quantity
        At 10 m. [speed]
    air : AirFacts
        Today's air.
    firmness : Firmness
        Of the turf.

    Returns
    -------
    tuple of ClubCarries
        Full swings only.

    Raises
    ------
    OutOfRange, NoSolution
        A condition or a bag outside the range of the model.
    """
    speed = si(wind_speed, "m/s")
    book = write_book(
        golfer=golfer,
        physics=physics(),
        winds=[CALM, Wind(speed, 0.0), Wind(speed, math.pi)],
        air=air_today(air).air,
        firmness=firmness,
    )
    reach = [page.patterns[0].reach_m[:, SOLID] for page in book.pages]
    total = book.pages[0].total_m(0)
    return tuple(
        ClubCarries(
            club=swing.club,
            calm=quantity(float(reach[0][i]), "m"),
            into=quantity(float(reach[1][i]), "m"),
            down=quantity(float(reach[2][i]), "m"),
            total=quantity(float(total[i]), "m"),
        )
        for i, swing in enumerate(book.swings)
        if swing.kind == "full"
    )


def suited_length(drive: Q) -> tuple[Q, Q]:
    """Return the range of 18-hole lengths that suit an average drive, roll included.

    Parameters
    ----------
    drive : Quantity
        Average drive. [length]

    Returns
    -------
    tuple of Quantity
        Low and high end, held at the ends of the published table. [length]
    """
    yards = si(drive, "yd")
    low, high = (float(np.interp(yards, _DRIVE_YD, row)) for row in (_LOW_YD, _HIGH_YD))
    return quantity(low, "yd"), quantity(high, "yd")
