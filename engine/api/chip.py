"""How to get a ball from beside the green close: club, landing spot, run, or the putter."""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import cache
from typing import TYPE_CHECKING, Literal, cast

from engine.api.green import STEEPEST, checked_stimp_m, green_word
from engine.api.standard import physics
from engine.core.chip import LONGEST_M, SHORTEST_M, chip_options
from engine.core.chipscene import ChipKind, ChipLie, ChipOption, ChipRule, ChipScene
from engine.core.landing import Firmness, ground_of
from engine.core.roll import HOLDS_BELOW, stretch
from engine.core.told import DEEP_M
from engine.errors import NoSolution, OutOfRange
from engine.tables import number, rows
from engine.units import quantity, si

if TYPE_CHECKING:
    from engine.core.golfer import Golfer
    from engine.units import Q

ChipLieName = Literal[
    "fringe", "fairway", "first_cut", "tight", "rough", "deep_rough", "sand", "buried"
]
# Share of the way that is not green where it was not told: judgement.
_EDGE = {"fringe": 0.12, "sand": 0.4, "buried": 0.4}
_EDGE_ELSE, _EDGE_MOST_M = 0.35, 12.0
_PIN_ON_M = 0.5 * DEEP_M  # no farther on a green nobody described than its middle: judgement


@dataclass(frozen=True, slots=True)
class ChipQuestion:
    """A short shot from off the green.

    Attributes
    ----------
    golfer : Golfer
        Who plays it, with what clubs.
    distance : Quantity
        To the hole. [length]
    lie : ChipLieName
        What the ball lies in.
    edge : Quantity or None
        To where the green begins; None takes a share of the way, and no more green
        than to the middle of a usual one. [length]
    over : bool
        Whether trouble before the green has to be carried.
    stimp : Quantity or None
        Level Stimpmeter reading; None is a medium green. [length]
    firmness : {"soft", "normal", "firm", "baked"}
        Of the green.
    up, right : Quantity or None
        Rise of the green towards the hole, and to the right. [-]
    height : Quantity or None
        Green above the ball. [length]
    """

    golfer: Golfer
    distance: Q
    lie: ChipLieName = "fairway"
    edge: Q | None = None
    over: bool = False
    stimp: Q | None = None
    firmness: Firmness = "normal"
    up: Q | None = None
    right: Q | None = None
    height: Q | None = None


@dataclass(frozen=True, slots=True)
class ChipChoice:
    """One way to play it.

    Attributes
    ----------
    kind : ChipKind
        ``putter``, ``bump``, ``chip``, ``pitch``, ``flop``, ``splash`` or ``blast``.
    club : str
        Name, ``putter`` for the putter.
    carry, on, run : Quantity
        Where it lands from the ball, how far onto the green that is, and how far it runs. For
        the putter `carry` is the level putt that needs the same hit. [length]
    past : Quantity
        Where it is meant to stop, beyond the hole. [length]
    effort : float
        Carry over the club's full carry. [-]
    expected : float
        Mean strokes to hole out, this one included. [-]
    saves, short : float
        Chance of two strokes or fewer; chance to come up short of the green. [-]
    """

    kind: ChipKind
    club: str
    carry: Q
    on: Q
    run: Q
    past: Q
    effort: float
    expected: float
    saves: float
    short: float


@dataclass(frozen=True, slots=True)
class ChipAnswer:
    """Ways to play it, best first.

    Attributes
    ----------
    choices : tuple of ChipChoice
        By expected strokes.
    edge : Quantity
        To where the green was taken to begin. [length]
    stimp : Quantity
        Green speed taken. [length]
    """

    choices: tuple[ChipChoice, ...]
    edge: Q
    stimp: Q


def plan_chip(question: ChipQuestion) -> ChipAnswer:
    """Price every way to play a short shot with the clubs carried, calm and without grain.

    Parameters
    ----------
    question : ChipQuestion
        The shot.

    Returns
    -------
    ChipAnswer
        See there.

    Raises
    ------
    OutOfRange
        ``chip distance`` outside 1 to 55 m, ``green edge`` beyond the hole, ``slope`` beyond
        25 %, ``slope at the hole`` too steep to hold a ball, ``green speed`` outside 4 to 18 ft,
        or ``height`` beyond 60 m.
    NoSolution
        No club in the bag fits the lie.

    See Also
    --------
    engine.core.chip.chip_options : the model.
    """
    distance_m = si(question.distance, "m")
    if not SHORTEST_M <= distance_m <= LONGEST_M:
        raise OutOfRange("chip distance", distance_m, SHORTEST_M, LONGEST_M, "m")
    edge_m = _edge_m(question, distance_m)
    stimp = question.stimp if question.stimp is not None else green_word("speed", "medium")
    up, right = _grade(question.up), _grade(question.right)
    stimp_m = checked_stimp_m(stimp)
    on = stretch(stimp_m=stimp_m, up=up, right=right)
    if on.steepness >= HOLDS_BELOW:
        grade = math.hypot(up, right)
        most = grade * HOLDS_BELOW / on.steepness
        raise OutOfRange("slope at the hole", 100.0 * grade, 0.0, 100.0 * most, "%")
    golfer = question.golfer
    found = chip_options(
        scene=ChipScene(
            distance_m=distance_m,
            edge_m=edge_m,
            over=question.over,
            lie=_lies()[question.lie],
            green=ground_of(
                surface="green", firmness=question.firmness, grounds=physics().grounds
            ),
            stimp_m=stimp_m,
            on=on,
            up=max(min(up, 0.15), -0.15),
            height_m=0.0 if question.height is None else si(question.height, "m"),
        ),
        clubs=golfer.clubs,
        short=golfer.short,
        rules=_rules(),
        ball=physics().ball,
    )
    if not found:
        raise NoSolution("chip", "no club in the bag fits the lie")
    full_m = {club.name: club.carry_m for club in golfer.clubs}
    choices = tuple(_choice(option, edge_m, full_m.get(option.club)) for option in found)
    return ChipAnswer(choices=choices, edge=quantity(edge_m, "m"), stimp=stimp)


def _choice(option: ChipOption, edge_m: float, full_m: float | None) -> ChipChoice:
    return ChipChoice(
        kind=option.kind,
        club=option.club,
        carry=quantity(option.carry_m, "m"),
        on=quantity(option.carry_m - edge_m, "m"),
        run=quantity(option.run_m, "m"),
        past=quantity(option.past_m, "m"),
        effort=option.carry_m / full_m if full_m else 0.0,
        expected=option.expected,
        saves=option.saves,
        short=option.short,
    )


def _edge_m(question: ChipQuestion, distance_m: float) -> float:
    if question.edge is None:
        near_m = min(_EDGE.get(question.lie, _EDGE_ELSE) * distance_m, _EDGE_MOST_M)
        return near_m if question.lie == "fringe" else max(near_m, distance_m - _PIN_ON_M)
    edge_m = si(question.edge, "m")
    if not 0.0 <= edge_m < distance_m:
        raise OutOfRange("green edge", edge_m, 0.0, distance_m, "m")
    return edge_m


def _grade(q: Q | None) -> float:
    grade = 0.0 if q is None else math.tan(si(q, "rad"))
    if not abs(grade) <= STEEPEST:
        raise OutOfRange("slope", 100.0 * grade, -100.0 * STEEPEST, 100.0 * STEEPEST, "%")
    return grade


@cache
def _rules() -> tuple[ChipRule, ...]:
    return tuple(
        ChipRule(
            kind=cast("ChipKind", row["kind"]),
            loft_low_rad=math.radians(number("chips", row, "loft_low")),
            loft_high_rad=math.radians(number("chips", row, "loft_high")),
            launch=number("chips", row, "launch"),
            spin=number("chips", row, "spin"),
            spread=number("chips", row, "spread"),
            mishit=number("chips", row, "mishit"),
            lies=frozenset(row["lies"].split()),
        )
        for row in rows("chips")
    )


@cache
def _lies() -> dict[str, ChipLie]:
    columns = ("spin", "spread", "mishit", "roll")
    return {
        row["lie"]: ChipLie(row["lie"], *(number("chip_lies", row, c) for c in columns))
        for row in rows("chip_lies")
    }
