"""What does a solved hole say to a player? The tee shot, what follows, where not to miss."""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import Literal

import numpy as np
import numpy.typing as npt

from engine.core.holeplan import HoleSolver, Option
from engine.core.line import Line
from engine.core.playbook import Book
from engine.core.ribbon import Ribbon
from engine.core.strokes import LIES

F64 = npt.NDArray[np.float64]
Side = Literal["left", "right", "short", "long"]

NEAR_TIE = 0.05  # strokes a swing that is not the stock one must gain (judgement)
HOME_M = 8.0  # a swing that ends this far short of the green's middle, less its half, is home
LAY_M = 35.0  # a swing that ends farther short than this lays up
WIDE_M = np.array([7.0, 12.0, 17.0])  # a miss is priced this far off the fairway
EDGE_M = 9.0  # and this far off the green
TELLING = 0.2  # strokes by which one miss must be dearer to be named
SAME_LEAVE_M = 9.0
ONE_SHOT_M = 230.0  # a longer hole is thought of beyond its tee shot
NEARLY = 0.85  # of the longest shot: from nearer than this nobody lays up


@dataclass(frozen=True, slots=True)
class Shot:
    """One shot of a plan.

    Attributes
    ----------
    swing : int
        Row of the book.
    aside_m : float
        Where a solid one ends, right of the pin if it reaches, else of the line. [m]
    total_m, left_m : float
        How far a solid one goes, and what is left to the pin. [m]
    strokes : float
        Expected strokes from before this shot. [-]
    """

    swing: int
    aside_m: float
    total_m: float
    left_m: float
    strokes: float


@dataclass(frozen=True, slots=True)
class Fork:
    """Going for the green against laying up, from the same spot."""

    go: Shot
    lay: Shot


@dataclass(frozen=True, slots=True)
class Avoid:
    """A side that costs more than the others, and by how many strokes."""

    side: Side
    strokes: float


@dataclass(frozen=True, slots=True, eq=False)
class View:
    """A hole in one condition.

    Attributes
    ----------
    strokes : float
        Expected for the hole. [-]
    over : ndarray (most,)
        Chance of needing more than k strokes. [-]
    tee : Shot
        The tee shot.
    other : Shot or None
        The best with another club.
    next : Shot or None
        The shot after a good tee shot; None where the tee shot reaches the green.
    fork : Fork or None
        Go or lay up, at the tee or at the next shot, where both can be thought of.
    liked : Shot or None
        The lay-up to the yardage the player likes, from the spot of `next`.
    chance : dict
        Chance of the tee shot ending in each trouble. [-]
    off_tee, at_green : Avoid or None
        Where not to miss.
    """

    strokes: float
    over: F64
    tee: Shot
    other: Shot | None
    next: Shot | None
    fork: Fork | None
    liked: Shot | None
    chance: dict[str, float]
    off_tee: Avoid | None
    at_green: Avoid | None


@dataclass(frozen=True, slots=True)
class Reader:
    """Everything a view is read from.

    Attributes
    ----------
    solver, book, line, ribbon
        The solved hole.
    green_half_m : (float, float)
        Half the green's depth and width. [m]
    fairway_half_m : float
        Half the fairway's width. [m]
    liked_m : float or None
        Yardage the player likes to leave. [m]
    """

    solver: HoleSolver
    book: Book
    line: Line
    ribbon: Ribbon
    green_half_m: tuple[float, float]
    fairway_half_m: float
    liked_m: float | None = None

    def view(self, condition: int, *, deep: bool = True) -> View:
        """Return what the hole says in one condition; only if `deep` beyond the tee shot."""
        options = self.solver.tee(condition)
        tee = self._preferred(options)
        odds = self.solver.odds(condition=condition, option=tee)
        shot = self._shot(tee, (0.0, 0.0))
        name = self.book.swings[tee.swing].club
        other = next((o for o in options if self._stock(o) and self._club(o) != name), None)
        follow: tuple[Option, ...] = ()
        spot = tee.finish_m
        home = self._home_m()
        if deep and shot.left_m > home and self.line.length_m > ONE_SHOT_M:
            follow = self.solver.options(
                condition=condition, x_m=spot[0], y_m=spot[1],
                along_m=float(self.ribbon.along_m[self._cell(spot)]), lie=LIES.index("fairway"),
            )  # fmt: skip
        then = self._shot(self._preferred(follow), spot) if follow else None
        fork = self._fork(options, (0.0, 0.0)) if self.line.length_m > ONE_SHOT_M else None
        if fork is None and follow:
            fork = self._fork(follow, spot)
        from_m = then.strokes if then else shot.strokes
        return View(
            strokes=tee.strokes,
            over=odds.over,
            tee=shot,
            other=self._shot(other, (0.0, 0.0)) if other else None,
            next=then,
            fork=fork,
            liked=self._liked(follow, spot) if fork else None,
            chance=odds.chance,
            off_tee=self._off_tee(condition, shot),
            at_green=self._at_green(condition, spot if follow else (0.0, 0.0), from_m),
        )

    def _preferred(self, options: tuple[Option, ...]) -> Option:
        """Return the best, or a stock swing that is as good."""
        close = [o for o in options if o.strokes <= options[0].strokes + NEAR_TIE]
        return next((o for o in close if self._stock(o)), options[0])

    def _stock(self, option: Option) -> bool:
        return self.book.swings[option.swing].kind == "full"

    def _club(self, option: Option) -> str:
        return self.book.swings[option.swing].club

    def _cell(self, spot: tuple[float, float]) -> int:
        return int(self.ribbon.cell_of(np.array([spot[0]]), np.array([spot[1]]))[0])

    def _home_m(self) -> float:
        return self.green_half_m[0] + HOME_M

    def _shot(self, option: Option, spot: tuple[float, float]) -> Shot:
        x, y = option.finish_m
        pin_x, pin_y = self.line.pin_m
        left = math.hypot(pin_x - x, pin_y - y)
        aside = option.aside_m
        if left > self._home_m():  # told against the line of the hole where it ends
            aside = float(self.ribbon.off_m[self._cell(option.finish_m)])
        return Shot(
            swing=option.swing, aside_m=aside,
            total_m=math.hypot(x - spot[0], y - spot[1]), left_m=left, strokes=option.strokes,
        )  # fmt: skip

    def _fork(self, options: tuple[Option, ...], spot: tuple[float, float]) -> Fork | None:
        """Return the best way to go and to lay up, where the bag can do both."""
        pin_x, pin_y = self.line.pin_m
        to_pin = math.hypot(pin_x - spot[0], pin_y - spot[1])
        shots = [self._shot(o, spot) for o in options]
        go = [s for s in shots if s.total_m >= to_pin - self._home_m()]
        lay = [s for s in shots if s.total_m < to_pin - LAY_M]
        longest = max(s.total_m for s in shots)
        if not go or not lay or to_pin < NEARLY * longest:
            return None
        return Fork(go=go[0], lay=lay[0])

    def _liked(self, options: tuple[Option, ...], spot: tuple[float, float]) -> Shot | None:
        if self.liked_m is None:
            return None
        shots = [self._shot(o, spot) for o in options]
        near = [s for s in shots if abs(s.left_m - self.liked_m) <= SAME_LEAVE_M]
        return near[0] if near else None

    def _price(self, condition: int, x: F64, y: F64, again: float) -> float:
        """Return the mean price of some spots; out of bounds is played `again`."""
        cell = self.ribbon.cell_of(x, y)
        cost = self.solver.fields.cost[condition, cell] + self.ribbon.out[cell] * (1.0 + again)
        return float(np.mean(cost))

    def _off_tee(self, condition: int, tee: Shot) -> Avoid | None:
        if self.line.length_m < ONE_SHOT_M or tee.left_m <= self._home_m():
            return None
        along = self.line.length_m - tee.left_m if not self.line.turn_rad else tee.total_m
        around = along + np.array([-20.0, -10.0, 0.0, 10.0])
        price: dict[Side, float] = {}
        ways: tuple[tuple[Side, float], ...] = (("left", -1.0), ("right", 1.0))
        for name, way in ways:
            off = np.repeat(way * (self.fairway_half_m + WIDE_M), len(around))
            at = np.tile(around, len(WIDE_M))
            price[name] = self._price(condition, *self.line.place(at, off), tee.strokes)
        return _dearest(price)

    def _at_green(self, condition: int, spot: tuple[float, float], again: float) -> Avoid | None:
        pin_x, pin_y = self.line.pin_m
        gap = math.hypot(pin_x - spot[0], pin_y - spot[1]) or 1.0
        ux, uy = (pin_x - spot[0]) / gap, (pin_y - spot[1]) / gap
        deep, wide = self.green_half_m[0] + EDGE_M, self.green_half_m[1] + EDGE_M
        fan = np.array([-0.35, 0.0, 0.35])
        price: dict[Side, float] = {}
        ways: tuple[tuple[Side, float], ...] = (
            ("long", 0.0), ("right", 0.5 * math.pi), ("short", math.pi), ("left", -0.5 * math.pi),
        )  # fmt: skip
        for name, turn in ways:
            along, aside = deep * np.cos(turn + fan), wide * np.sin(turn + fan)
            x = pin_x + along * ux - aside * uy
            y = pin_y + along * uy + aside * ux
            price[name] = self._price(condition, x, y, again)
        return _dearest(price)


def _dearest(price: dict[Side, float]) -> Avoid | None:
    """Return the dearest side if it costs clearly more than the others do on average."""
    side = max(price, key=lambda s: price[s])
    rest = [v for s, v in price.items() if s != side]
    more = price[side] - sum(rest) / len(rest)
    return Avoid(side, more) if more >= TELLING else None
