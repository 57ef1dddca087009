"""What a shot plays as, and how this player's clubs fly."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING

from engine.api.conditions import (
    AirFacts,
    LieFacts,
    WindFacts,
    air_today,
    lie_today,
    wind_today,
)
from engine.api.standard import physics
from engine.core.bagview import view_bag
from engine.core.golfer import Golfer, SwingKind
from engine.core.landing import Firmness, ground_of
from engine.core.playsas import PlaysAs, plays_as
from engine.core.thumb import thumb_m
from engine.core.wind import Wind
from engine.units import quantity, si

if TYPE_CHECKING:
    from engine.units import Q


@dataclass(frozen=True, slots=True)
class PlaysAsQuestion:
    """A shot told: how far, and in what.

    Attributes
    ----------
    golfer : Golfer
    distance : Quantity
        To the target as it lies.
    height : Quantity or None
        Target above the ball.
    wind : WindFacts or None
    air : AirFacts
        Today's.
    usual : AirFacts
        Of the day the stated carries belong to.
    lie : LieFacts or None
    """

    golfer: Golfer
    distance: Q
    height: Q | None = None
    wind: WindFacts | None = None
    air: AirFacts = field(default_factory=AirFacts)
    usual: AirFacts = field(default_factory=AirFacts)
    lie: LieFacts | None = None


@dataclass(frozen=True, slots=True)
class PlaysAsAnswer:
    """The plays-as number and its parts, which add up to it exactly.

    Attributes
    ----------
    total : Quantity
    wind, height, air, lie : Quantity
        Parts; `total` is the distance plus these four.
    thumb : Quantity
        What rules of thumb for wind and height give; for comparison only.
    beyond : bool
        True where it plays longer than the longest club.
    assumed : tuple of str
        Inputs of the air that were filled in.
    """

    total: Q
    wind: Q
    height: Q
    air: Q
    lie: Q
    thumb: Q
    beyond: bool
    assumed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class SwingFlight:
    """How one swing flies, calm and in one wind.

    Attributes
    ----------
    club : str
    kind : SwingKind
    carry, apex, run, run_doubt : Quantity
        Calm and level; `run_doubt` is one standard deviation.
    descent : Quantity
        Angle below the horizontal.
    into, down : Quantity
        Change of carry in the wind ahead and behind.
    across : Quantity
        Drift in the wind from the side.
    """

    club: str
    kind: SwingKind
    carry: Q
    apex: Q
    run: Q
    run_doubt: Q
    descent: Q
    into: Q
    down: Q
    across: Q


def shot_plays_as(question: PlaysAsQuestion) -> PlaysAsAnswer:
    """Return what a shot plays as.

    Raises
    ------
    OutOfRange
        A quantity outside the range of the model.
    NoSolution
        The bag cannot be calibrated.
    """
    today = air_today(question.air, usual=question.usual)
    wind = wind_today(question.wind)
    target_m = si(question.distance, "m")
    height_m = 0.0 if question.height is None else si(question.height, "m")
    found = plays_as(
        golfer=question.golfer,
        physics=physics(),
        target_m=target_m,
        height_m=height_m,
        air=today.air,
        wind=wind,
        lie=lie_today(question.lie),
        reference=air_today(question.usual, usual=question.usual).air,
    )
    return answer_of(found, wind=wind, height_m=height_m, assumed=today.assumed)


def answer_of(
    found: PlaysAs, *, wind: Wind, height_m: float, assumed: tuple[str, ...]
) -> PlaysAsAnswer:  # fmt: skip
    """Return a plays-as number in quantities."""
    thumb = thumb_m(target_m=found.target_m, wind=wind, height_m=height_m)
    return PlaysAsAnswer(
        total=quantity(found.total_m, "m"),
        wind=quantity(found.wind_m, "m"),
        height=quantity(found.height_m, "m"),
        air=quantity(found.air_m, "m"),
        lie=quantity(found.lie_m, "m"),
        thumb=quantity(thumb, "m"),
        beyond=found.beyond,
        assumed=assumed,
    )


def bag_flights(
    golfer: Golfer,
    *,
    wind: Q,
    firmness: Firmness = "normal",
    usual: AirFacts | None = None,
    full_only: bool = True,
) -> tuple[SwingFlight, ...]:
    """Return how each club of a bag flies, calm and in one wind from three sides.

    Parameters
    ----------
    golfer : Golfer
        Whose bag.
    wind : Quantity
        Speed at 10 m.
    firmness : Firmness
        Of the fairway the run is told for.
    usual : AirFacts or None
        Air of the stated carries.
    full_only : bool
        Leave the other swings the player owns out.

    Returns
    -------
    tuple of SwingFlight
        In the order of the bag.

    Raises
    ------
    OutOfRange
        A wind or a carry outside the range of the model.
    NoSolution
        The bag cannot be calibrated.
    """
    constants = physics()
    base = usual or AirFacts()
    views = view_bag(
        golfer=golfer,
        physics=constants,
        wind_mps=si(wind, "m/s"),
        ground=ground_of(surface="fairway", firmness=firmness, grounds=constants.grounds),
        full_only=full_only,
        air=air_today(base, usual=base).air,
    )
    return tuple(
        SwingFlight(
            club=view.club,
            kind=view.kind,
            carry=quantity(view.carry_m, "m"),
            apex=quantity(view.apex_m, "m"),
            run=quantity(view.run_m, "m"),
            run_doubt=quantity(view.run_sd_m, "m"),
            descent=quantity(view.descent_rad, "rad"),
            into=quantity(view.into_m, "m"),
            down=quantity(view.down_m, "m"),
            across=quantity(view.across_m, "m"),
        )
        for view in views
    )
