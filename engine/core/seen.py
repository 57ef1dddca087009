"""What was seen of logged shots, brought back to calm, level, reference air."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Final, Literal

import numpy as np
from numpy.typing import NDArray

from engine.core.heavy import Floats

HALF_LIFE_DAYS: Final = 365.0  # judgement: a shot a year old counts half
_SHARPEST_M: Final = 0.5  # no player sees a carry closer than this
_SHARPEST_RAD: Final = math.radians(0.15)
_BEYOND: Final = 1e3


@dataclass(frozen=True, slots=True)
class Seen:
    """One full shot as far as it was seen; every end may be infinite.

    Attributes
    ----------
    club : str
        Short name.
    low_m, high_m : float
        The calm, level carry in reference air lies between these. [m]
    left_rad, right_rad : float
        The direction of the finish, less what the wind did, lies between these, right
        positive. [rad]
    age_days : float
        How long ago. [day]
    wind_share : float
        What the called wind was worked out to add to the carry, over the calm carry. [-]
    height_share : float
        The same of the called height. [-]
    doubt : float
        Standard deviation of the way back to calm and level, over the carry. [-]
    contact : {"solid", "mishit"} or None
        As the player said, None if nothing was said.
    curve_rad : float or None
        Curve the player named, right positive. [rad]
    """

    club: str
    low_m: float = -math.inf
    high_m: float = math.inf
    left_rad: float = -math.inf
    right_rad: float = math.inf
    age_days: float = 0.0
    wind_share: float = 0.0
    height_share: float = 0.0
    doubt: float = 0.0
    contact: Literal["solid", "mishit"] | None = None
    curve_rad: float | None = None


@dataclass(frozen=True, slots=True, eq=False)
class Packed:
    """Shots as arrays, one row a shot of a club in the bag; lengths over the club's carry.

    Attributes
    ----------
    club : ndarray (n,) of int
        Index of the club.
    low, high : ndarray (n,)
        Ends of the carry over the club's believed carry. [-]
    left, right : ndarray (n,)
        Ends of the direction. [rad]
    weight : ndarray (n,)
        Fading, 1 for today. [-]
    lever : ndarray (n, 2)
        How the carry moves with the wind and the height factor. [-]
    doubt : ndarray (n,)
        As in `Seen`. [-]
    said : ndarray (n,) of int
        +1 said to be solid, -1 said to be a mishit, 0 nothing said.
    """

    club: NDArray[np.intp]
    low: Floats
    high: Floats
    left: Floats
    right: Floats
    weight: Floats
    lever: Floats
    doubt: Floats
    said: NDArray[np.int8]

    def __len__(self) -> int:
        """Return the number of shots."""
        return int(self.club.size)


def pack(shots: Sequence[Seen], names: Sequence[str], carry_m: Floats) -> Packed:
    """Turn shots into arrays; shots of clubs no longer in the bag are left out."""
    index = {name: i for i, name in enumerate(names)}
    kept = [s for s in shots if s.club in index]
    club = np.array([index[s.club] for s in kept], dtype=np.intp)
    table = np.array(
        [
            (s.low_m, s.high_m, s.left_rad, s.right_rad, s.age_days, s.wind_share,
             s.height_share, s.doubt, _SAID[s.contact])
            for s in kept
        ],
        dtype=float,
    ).reshape(-1, 9)  # fmt: skip
    low, high, left, right, age, wind, height, doubt, said = table.T
    low, high = _at_least(low, high, _SHARPEST_M)
    left, right = _at_least(left, right, _SHARPEST_RAD)
    scale = carry_m[club]
    effect = 1.0 + wind + height
    return Packed(
        club=club,
        low=np.clip(low / scale, -_BEYOND, _BEYOND),
        high=np.clip(high / scale, -_BEYOND, _BEYOND),
        left=np.clip(left, -_BEYOND, _BEYOND),
        right=np.clip(right, -_BEYOND, _BEYOND),
        weight=np.exp2(-np.maximum(age, 0.0) / HALF_LIFE_DAYS),
        lever=np.stack([wind / effect, height / effect], axis=1),
        doubt=doubt,
        said=said.astype(np.int8),
    )


_SAID: Final = {"solid": 1.0, "mishit": -1.0, None: 0.0}


def _at_least(low: Floats, high: Floats, half: float) -> tuple[Floats, Floats]:
    """Widen intervals narrower than twice `half`."""
    short = np.maximum(half - 0.5 * (high - low), 0.0)
    return low - short, high + short
