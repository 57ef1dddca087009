"""What was told of a shot, in quantities, and the same in metres."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Literal

from engine.api.conditions import AirFacts, LieFacts, WindFacts
from engine.core.landing import Firmness
from engine.core.scene import Kind
from engine.core.told import Side, Told, ToldTrouble
from engine.units import si_or_none

if TYPE_CHECKING:
    from engine.units import Q


@dataclass(frozen=True, slots=True)
class TroubleFacts:
    """One piece of trouble as told; None is unknown.

    Attributes
    ----------
    name : str
        What to call it in results, such as ``water``.
    kind : {"out", "penalty", "sand", "trees", "heavy"}
        What it does to a ball.
    side : {"left", "right", "short", "long", "across"}
        Where it is, facing the target.
    start, end : Quantity or None
        Where it starts and ends, from the ball along the line; `end` of trouble across is
        the carry that clears it. [length]
    gap : Quantity or None
        Set-off of its near edge. [length]
    gap_of : {"edge", "line"}
        From the edge of the green or fairway, or from the line to the pin.
    """

    name: str
    kind: Kind
    side: Side
    start: Q | None = None
    end: Q | None = None
    gap: Q | None = None
    gap_of: Literal["edge", "line"] = "edge"


@dataclass(frozen=True, slots=True)
class ShotFacts:
    """A shot as told; None is unknown and gets a stated default.

    Attributes
    ----------
    pin : Quantity
        To the pin, or what is left of the hole along its line. [length]
    front, back, width : Quantity or None
        To the front and the back of the green, and across it. [length]
    pin_across, pin_along : float or None
        Where the pin stands on the green, -1 (left, front) to +1 (right, back), 0 middle.
    tee : bool
        The ball is on a tee.
    lie : LieFacts or None
        Where the ball sits, if not on a tee; None is a level fairway.
    trouble : tuple of TroubleFacts
        What to keep out of.
    fairway : Quantity or None
        Width of the fairway. [length]
    bend : int
        Side the hole bends to, +1 right, -1 left, 0 straight.
    bend_at, turn : Quantity or None
        Where it bends, and by how much. [length, angle]
    wind : WindFacts or None
        The wind; None is calm.
    height : Quantity or None
        Target above the ball. [length]
    air, usual_air : AirFacts or None
        Today's air, and the air the carries belong to.
    firmness : Firmness
        Of the turf.
    par : int or None
        Par of the hole.
    stroke : int
        Number of the stroke about to be played, counted from 1.
    blocked : bool
        Trees stand between ball and target: only a low ball may find a way, or sideways.
    protect : bool
        The player is protecting a card: doubles weigh more.
    """

    pin: Q
    front: Q | None = None
    back: Q | None = None
    width: Q | None = None
    pin_across: float | None = None
    pin_along: float | None = None
    tee: bool = False
    lie: LieFacts | None = None
    trouble: tuple[TroubleFacts, ...] = ()
    fairway: Q | None = None
    bend: int = 0
    bend_at: Q | None = None
    turn: Q | None = None
    wind: WindFacts | None = None
    height: Q | None = None
    air: AirFacts | None = None
    usual_air: AirFacts | None = None
    firmness: Firmness = "normal"
    par: int | None = None
    stroke: int = 1
    blocked: bool = False
    protect: bool = False


def told_of(facts: ShotFacts, pin_m: float) -> Told:
    """Return the facts in metres."""
    return Told(
        pin_m=pin_m,
        front_m=si_or_none(facts.front, "m"),
        back_m=si_or_none(facts.back, "m"),
        width_m=si_or_none(facts.width, "m"),
        pin_across=facts.pin_across,
        pin_along=facts.pin_along,
        lie="tee" if facts.tee else "fairway",
        trouble=tuple(told_trouble(t) for t in facts.trouble),
        fairway_m=si_or_none(facts.fairway, "m"),
        bend=facts.bend,
        bend_m=si_or_none(facts.bend_at, "m"),
    )


def told_trouble(t: TroubleFacts) -> ToldTrouble:
    """Return one trouble with its places in metres."""
    return ToldTrouble(
        t.name, t.kind, t.side, si_or_none(t.start, "m"), si_or_none(t.end, "m"),
        si_or_none(t.gap, "m"), t.gap_of,
    )  # fmt: skip
