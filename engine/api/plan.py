"""How should this player play this hole, in calm, into and down the wind?"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from engine.api.conditions import AirFacts, air_today
from engine.api.holefacts import HoleFacts, Sketch, draw
from engine.api.standard import physics
from engine.core.handicap import par_of_length
from engine.core.holeplan import HoleSolver
from engine.core.landing import Firmness
from engine.core.planview import Avoid, Reader, View
from engine.core.planview import Shot as CoreShot
from engine.core.playbook import Book, Page, write_book
from engine.core.ribbon import lay_hole
from engine.core.shapes import extent_m
from engine.core.wind import CALM, Wind
from engine.errors import OutOfRange
from engine.units import quantity, si

if TYPE_CHECKING:
    from engine.core.golfer import Golfer, SwingKind
    from engine.core.strokes import StrokeTable
    from engine.units import Q

Condition = Literal["calm", "into", "down", "today"]
CONDITIONS: tuple[Condition, ...] = ("calm", "into", "down")
DEEP = ("today", "calm")  # conditions whose next shots are looked at
SHORTEST_M, LONGEST_M = 45.0, 735.0
NODES_FROM = 0.25  # of the length: where the net of nodes starts
MOST_OVER_PAR = 2  # strokes over par that are told apart


@dataclass(frozen=True, slots=True)
class PlanShot:
    """One shot of a plan.

    Attributes
    ----------
    club : str
    kind : SwingKind
    total : Quantity
        How far a solid one goes, roll included. [length]
    aside : Quantity
        Where it ends, right of the pin if it reaches, else of the middle of the hole. [length]
    left : Quantity
        What it leaves to the pin. [length]
    strokes : float
        Expected strokes from before it.
    """

    club: str
    kind: SwingKind
    total: Q
    aside: Q
    left: Q
    strokes: float


@dataclass(frozen=True, slots=True)
class Side:
    """A miss that costs clearly more than the others, and how many strokes more."""

    side: Literal["left", "right", "short", "long"]
    strokes: float


@dataclass(frozen=True, slots=True)
class ConditionPlan:
    """How a hole is played in one condition.

    Attributes
    ----------
    condition : {"calm", "into", "down", "today"}
    strokes : float
        Expected score.
    par_or_better, double_or_worse : float
        Chances. [-]
    tee : PlanShot
    other : PlanShot or None
        Best with another club.
    next : PlanShot or None
        After a good tee shot; None where that reaches the green, and for into and down.
    go, lay : PlanShot or None
        Both ways, where the green can be thought of from the tee or the next shot.
    liked : PlanShot or None
        The lay-up to the yardage the player likes.
    chance : dict
        Chance of the tee shot ending in each trouble.
    off_tee, at_green : Side or None
        Where not to miss.
    """

    condition: Condition
    strokes: float
    par_or_better: float
    double_or_worse: float
    tee: PlanShot
    other: PlanShot | None
    next: PlanShot | None
    go: PlanShot | None
    lay: PlanShot | None
    liked: PlanShot | None
    chance: dict[str, float]
    off_tee: Side | None
    at_green: Side | None


@dataclass(frozen=True, slots=True)
class HolePlan:
    """A hole planned: `par` as told or taken from the length, and what was assumed."""

    par: int
    fairway_half: Q
    green_half_width: Q
    conditions: tuple[ConditionPlan, ...]
    assumed: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class PlanDay:
    """What all holes of a plan share.

    Attributes
    ----------
    wind_speed : Quantity
        Strength of the ``into`` and ``down`` columns. [speed]
    air, usual_air : AirFacts
        Today's air, and the air the carries belong to.
    firmness : Firmness
        Of the turf.
    liked : Quantity or None
        Yardage the player likes to leave. [length]
    """

    wind_speed: Q
    air: AirFacts = field(default_factory=AirFacts)
    usual_air: AirFacts = field(default_factory=AirFacts)
    firmness: Firmness = "normal"
    liked: Q | None = None


def plan_holes(
    *, golfer: Golfer, table: StrokeTable, holes: Sequence[HoleFacts], day: PlanDay
) -> tuple[HolePlan, ...]:
    """Plan holes for a player.

    Parameters
    ----------
    golfer : Golfer
        Who plays.
    table : StrokeTable
        From `solve_player` of the same golfer.
    holes : sequence of HoleFacts
        The holes.
    day : PlanDay
        What they share.

    Returns
    -------
    tuple of HolePlan
        One a hole; ``today`` comes first among its conditions where a wind was given.

    Raises
    ------
    OutOfRange
        A hole outside 45 to 735 m, or a condition outside its range.
    """
    for hole in holes:
        length = si(hole.length, "m")
        if not SHORTEST_M <= length <= LONGEST_M:
            raise OutOfRange("hole length", length, SHORTEST_M, LONGEST_M, "m")
    speed = si(day.wind_speed, "m/s")
    drawn = [draw(hole) for hole in holes]
    winds: list[Wind] = [CALM, Wind(speed, 0.0), Wind(speed, math.pi)]
    for hole, sketch in zip(holes, drawn, strict=True):
        if hole.wind is not None:
            mps, comes_from = si(hole.wind[0], "m/s"), si(hole.wind[1], "rad")
            winds += [Wind(mps, comes_from), Wind(mps, comes_from - sketch.turn_rad)]
    book = write_book(
        golfer=golfer,
        physics=physics(),
        winds=winds,
        air=air_today(day.air, usual=day.usual_air).air,
        firmness=day.firmness,
    )
    plans, used = [], len(CONDITIONS)
    for hole, sketch in zip(holes, drawn, strict=True):
        pages = [(page, page) for page in book.pages[: len(CONDITIONS)]]
        names = CONDITIONS
        if hole.wind is not None:
            pages.insert(0, (book.pages[used], book.pages[used + 1]))
            names, used = ("today", *CONDITIONS), used + 2
        plans.append(_plan(hole, sketch, golfer, table, book, pages, names, day))
    return tuple(plans)


def _plan(
    hole: HoleFacts, sketch: Sketch, golfer: Golfer, table: StrokeTable, book: Book,
    pages: list[tuple[Page, Page]], names: tuple[Condition, ...], day: PlanDay,
) -> HolePlan:  # fmt: skip
    par = hole.par or par_of_length(length_m=sketch.line.length_m)
    climb = 0.0 if hole.climb is None else si(hole.climb, "m") / sketch.line.length_m
    if climb:
        pages = [(a.climbing(climb), b.climbing(climb)) for a, b in pages]
    ribbon = lay_hole(scene=sketch.scene, fairways=sketch.fairways)
    solver = HoleSolver(
        ribbon=ribbon, line=sketch.line, pages=tuple(pages), short=golfer.short, table=table,
        most=par + MOST_OVER_PAR,
    )  # fmt: skip
    solver.solve(from_m=NODES_FROM * sketch.line.length_m)
    front, back, left, right = extent_m(shape=sketch.scene.green)
    reader = Reader(
        solver=solver, book=book, line=sketch.line, ribbon=ribbon,
        green_half_m=(0.5 * (back - front), 0.5 * (right - left)),
        fairway_half_m=sketch.scene.fairway_half_m,
        liked_m=None if day.liked is None else si(day.liked, "m"),
    )  # fmt: skip
    assumed = sketch.assumed if hole.par else ("par", *sketch.assumed)
    return HolePlan(
        par=par,
        fairway_half=quantity(sketch.scene.fairway_half_m, "m"),
        green_half_width=quantity(0.5 * (right - left), "m"),
        conditions=tuple(
            _condition(name, reader.view(i, deep=name in DEEP), book, par)
            for i, name in enumerate(names)
        ),
        assumed=assumed,
    )


def _condition(name: Condition, view: View, book: Book, par: int) -> ConditionPlan:
    def shot(core: CoreShot | None) -> PlanShot | None:
        return None if core is None else _shot(core, book)

    return ConditionPlan(
        condition=name,
        strokes=view.strokes,
        par_or_better=1.0 - float(view.over[par]),
        double_or_worse=float(view.over[par + 1]),
        tee=_shot(view.tee, book),
        other=shot(view.other),
        next=shot(view.next),
        go=shot(view.fork.go if view.fork else None),
        lay=shot(view.fork.lay if view.fork else None),
        liked=shot(view.liked),
        chance=view.chance,
        off_tee=_side(view.off_tee),
        at_green=_side(view.at_green),
    )


def _shot(core: CoreShot, book: Book) -> PlanShot:
    swing = book.swings[core.swing]
    return PlanShot(
        club=swing.club,
        kind=swing.kind,
        total=quantity(core.total_m, "m"),
        aside=quantity(core.aside_m, "m"),
        left=quantity(core.left_m, "m"),
        strokes=core.strokes,
    )


def _side(avoid: Avoid | None) -> Side | None:
    return None if avoid is None else Side(avoid.side, avoid.strokes)
