"""What a shot was chosen from: swings in full, and others on the same priced ground."""

from __future__ import annotations

import math
from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

import numpy as np

from engine.core.choice import Decider, Option
from engine.core.flown import Flown
from engine.core.golfer import SwingKind
from engine.core.marks import Mark, aim_at
from engine.core.pattern import SOLID, chance_past
from engine.core.scene import Scene
from engine.core.shapes import extent_m
from engine.core.strokes import LIES, RECOVERY_FREE, SIDEWAYS_OUT, StrokeTable
from engine.core.told import Told
from engine.units import quantity, si

if TYPE_CHECKING:
    from engine.api.flight import PlaysAsAnswer
    from engine.api.shotfacts import ShotFacts
    from engine.units import Q

LEAVES_M = 5.0  # lay-ups that end this near one spot are told apart by strokes: judgement
MISS_M = 8.0  # how far outside the target a common miss lies: judgement
MISS_ROUND_M = 5.0  # and how far round there is looked: judgement
Side = Literal["left", "right", "short", "long"]
FAIRWAY, RECOVERY = LIES.index("fairway"), LIES.index("recovery")


@dataclass(frozen=True, slots=True)
class Play:
    """One swing at its best aim. Offsets are right positive.

    Attributes
    ----------
    club : str
        Name of the club.
    kind : SwingKind
        Full or another swing.
    carry : Quantity
        Mean carry of a solid one here and now. [length]
    total : Quantity
        The same with its roll. [length]
    start : Quantity
        Start line against the line to the pin (down the first leg from a tee), right
        positive. [angle]
    start_at, finish_at : Quantity
        Offset of the start line, and of the mean solid finish, from the line, at `seen_at`.
        [length]
    seen_at : Quantity
        Distance at which offsets are given: the pin's if in reach, else the finish's. [length]
    start_from_middle, finish_from_middle : Quantity
        The same offsets from the middle of the green or fairway. [length]
    half_width : Quantity
        From that middle to the edge. [length]
    strokes : float
        Expected strokes to hole out, this one counted.
    chance : dict
        Chance of ending in each: told trouble by name, ``green``, ``fairway``, ``rough``
        and unnamed ground.
    left : Quantity
        Mean distance left from a ball in play. [length]
    past_front : float
        Chance to get at least to the front of the green.
    par_or_better, double_or_worse : float or None
        Chance of that score on the hole; None where par is unknown.
    """

    club: str
    kind: SwingKind
    carry: Q
    total: Q
    start: Q
    start_at: Q
    finish_at: Q
    seen_at: Q
    start_from_middle: Q
    finish_from_middle: Q
    half_width: Q
    strokes: float
    chance: dict[str, float]
    left: Q
    past_front: float
    par_or_better: float | None
    double_or_worse: float | None


@dataclass(frozen=True, slots=True)
class ShotChoice:
    """The choice, and what it was chosen from.

    Attributes
    ----------
    best : Play
        What to play.
    others : tuple of Play
        The best of the other clubs, fewest strokes first.
    near : bool
        The first of them is as good within the noise of what was told.
    in_reach : bool
        Whether the longest swing can get to the green.
    pin_from_middle : Quantity
        Offset of the pin from the middle of the green, right positive. [length]
    sideways : float or None
        Expected strokes of coming out sideways, where the way is blocked.
    assumed : tuple of str
        What was not told and filled in: ``depth``, ``width``, ``pin``, ``bend``, ``calm``,
        and ``gap:NAME`` of a trouble told by its side only.
    ruled_out : dict
        Swings the lie rules out, (club, kind) -> reason.
    plays : PlaysAsAnswer or None
        What the shot plays as, if that was asked.
    """

    best: Play
    others: tuple[Play, ...]
    near: bool
    in_reach: bool
    pin_from_middle: Q
    sideways: float | None
    assumed: tuple[str, ...]
    ruled_out: dict[tuple[str, str], str]
    plays: PlaysAsAnswer | None
    _setting: Setting = field(repr=False)

    def play(self, club: str, kind: SwingKind | None = None) -> Play | None:
        """Return a swing of one club at its best aim; None if it cannot be played here."""
        swings = self._setting.flown.swings
        return self._setting.best_of(
            np.array([s.club == club and kind in (None, s.kind) for s in swings])
        )

    def kind(self, kind: SwingKind) -> Play | None:
        """Return the best swing of one kind, None if no club can be swung so here."""
        return self._setting.best_of(
            np.array([s.kind == kind for s in self._setting.flown.swings])
        )

    def family(self, club: str) -> tuple[str, ...]:
        """Return the clubs of the bag that a name stands for: ``H`` is any hybrid."""
        names = dict.fromkeys(s.club for s in self._setting.flown.swings)
        if club in names or club != "H":
            return (club,)
        return tuple(n for n in names if n.endswith("h")) or (club,)

    def aimed(
        self, play: Play, *, mark: Mark, halves: float = 0.0, off: Q | None = None, finish: bool
    ) -> Play | None:
        """Return a swing with its start, or its finish, meant for a mark and not its best aim.

        Parameters
        ----------
        play : Play
            The swing, one of this choice's own.
        mark : {"pin", "middle"}
            The pin (or the line to it), or the middle of the green (or, out of its reach, of
            the fairway).
        halves : float
            Half widths right of the mark; -1 from the middle is the left edge. [-]
        off : Quantity or None
            How far right of there. [length]
        finish : bool
            Whether the mean solid finish is meant for the mark, and not the start line.

        Returns
        -------
        Play or None
            None for a line too far off to be played.
        """
        return self._setting.aimed(
            play.club, play.kind, mark, halves, 0.0 if off is None else si(off, "m"), finish=finish
        )

    def short_of(self, distance: Q) -> Play | None:
        """Return the best swing whose solid finish is short of a distance, None if none is."""
        return self._setting.best_of(self._setting.totals < si(distance, "m"))

    def past(self, distance: Q) -> Play | None:
        """Return the best swing whose solid finish is past a distance, None if none is."""
        return self._setting.best_of(self._setting.totals >= si(distance, "m"))

    def leaving(self, distance: Q) -> Play:
        """Return the swing whose solid finish leaves nearest to a distance from the pin."""
        wanted_m = si(self._setting.facts.pin, "m") - si(distance, "m")
        off_m = np.abs(self._setting.totals - wanted_m)
        near = self._setting.best_of(off_m < max(float(off_m.min()) + 1e-9, LEAVES_M))
        return near if near is not None else self.best

    def missed(self) -> dict[Side, float]:
        """Return expected strokes from beside the target, by the side a ball misses it on.

        The spots lie `MISS_M` outside the edges of the green, on its axes through the pin; where
        the green is out of reach, outside the fairway where the best swing ends.
        """
        scene, told = self._setting.scene, self._setting.told
        if told.in_reach:
            front, back, left, right = extent_m(shape=scene.green)
            pin_y = scene.pin_m[1]
            spots: dict[Side, tuple[float, float]] = {
                "left": (told.pin_m, left - MISS_M),
                "right": (told.pin_m, right + MISS_M),
                "short": (front - MISS_M, pin_y),
                "long": (back + MISS_M, pin_y),
            }
        else:
            at = si(self.best.seen_at, "m")
            middle = si(self.best.finish_at, "m") - si(self.best.finish_from_middle, "m")
            off = si(self.best.half_width, "m") + MISS_M
            spots = {"left": (at, middle - off), "right": (at, middle + off)}
        found = {
            side: self._setting.decider.from_near(x, y, MISS_ROUND_M)
            for side, (x, y) in spots.items()
        }
        return {side: strokes for side, strokes in found.items() if strokes is not None}

    def farthest(self) -> Play:
        """Return the longest swing."""
        return self._setting.play(int(np.argmax(self._setting.totals)))


@dataclass(frozen=True, slots=True, eq=False)
class Setting:
    """A question worked out: what its plays are made from."""

    facts: ShotFacts
    told: Told
    scene: Scene
    flown: Flown
    decider: Decider
    table: StrokeTable
    added: np.ndarray[tuple[int, ...], np.dtype[np.float64]]
    too_many: int  # strokes from here that are one fewer than a double, the stroke at hand counted
    plays: PlaysAsAnswer | None

    @property
    def totals(self) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
        """Mean solid finish of every swing, roll included. [m]"""
        return self.flown.pattern.reach_m[:, SOLID] + self.flown.pattern.run_m

    @property
    def tails(self) -> tuple[int, ...]:
        """Strokes from here with which par, and one over par, are still made; none without par."""
        return () if self.facts.par is None else (self.too_many - 1, self.too_many)

    def strokes(self, free: float) -> float:
        """Return expected strokes where the way on may be blocked."""
        if not self.facts.blocked:
            return free
        stuck = 1.0 + float(self.table.at(row=RECOVERY, distance_m=np.array(self.told.pin_m)))
        return RECOVERY_FREE * free + (1.0 - RECOVERY_FREE) * stuck

    def over(self, option: Option, k: int) -> float:
        """Return the chance of needing more than `k` strokes, the stroke at hand counted."""
        if k <= 0:
            return 1.0
        free = option.over[k]
        if not self.facts.blocked:
            return free
        at = np.array(self.told.pin_m)
        stuck = (
            1.0 if k == 1 else float(self.table.chance_over(k=k - 1, row=RECOVERY, distance_m=at))
        )
        return RECOVERY_FREE * free + (1.0 - RECOVERY_FREE) * stuck

    def sideways(self) -> float:
        """Return expected strokes of coming out sideways."""
        at = np.array(self.told.pin_m)
        fair, stuck = (float(self.table.at(row=r, distance_m=at)) for r in (FAIRWAY, RECOVERY))
        return 1.0 + SIDEWAYS_OUT * fair + (1.0 - SIDEWAYS_OUT) * stuck

    def option(self, swing: int, *, doubles: bool = False) -> Option:
        """Return one swing at its best aim, with the chance of a double if par or that asks."""
        tails = self.tails or ((self.too_many,) if doubles else ())
        return self.decider.option(swing, tails=tails)

    def play(self, swing: int) -> Play:
        """Return one swing in full."""
        return self.of(self.option(swing))

    def best_of(self, wanted: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]) -> Play | None:
        """Return the best of some of the swings, None if there are none."""
        if not wanted.any():
            return None
        return self.play(self.decider.best(added=self.added, among=wanted)[1])

    def aimed(
        self, club: str, kind: SwingKind, mark: Mark, halves: float, off_m: float, *, finish: bool
    ) -> Play | None:
        """Return one swing with its start or finish meant for a mark."""
        swing = next(
            i for i, s in enumerate(self.flown.swings) if (s.club, s.kind) == (club, kind)
        )
        aim = aim_at(
            scene=self.scene, in_reach=self.told.in_reach, pin_m=self.told.pin_m,
            total_m=float(self.totals[swing]),
            bearing_rad=float(self.flown.pattern.bearing_rad[swing, SOLID]),
            mark=mark, halves=halves, off_m=off_m, finish=finish,
        )  # fmt: skip
        return (
            None
            if aim is None
            else self.of(self.decider.option(swing, aim_rad=aim, tails=self.tails))
        )

    def of(self, option: Option) -> Play:
        """Return an option in quantities."""
        swing = self.flown.swings[option.swing]
        scene = self.scene
        x, y = option.finish_m
        pattern = self.flown.pattern
        front, _, left, right = extent_m(shape=scene.green)
        total = float(pattern.reach_m[option.swing, SOLID] + pattern.run_m[option.swing])
        if self.told.in_reach:
            at = self.told.pin_m
            start_at, finish_at = at * math.tan(option.start_rad), y
            middle_start = middle_finish = 0.5 * (left + right)
            half = 0.5 * (right - left)
        else:
            at = x
            start_at, finish_at = at * math.tan(option.start_rad), y
            middle_start = start_at - _off_fairway(scene, at, start_at)
            middle_finish = y - _off_fairway(scene, x, y)
            half = scene.fairway_half_m
        par: float | None = None
        double: float | None = None
        if self.tails:
            par, double = (self.over(option, k) for k in self.tails)
            par = 1.0 - par
        return Play(
            club=swing.club,
            kind=swing.kind,
            carry=quantity(float(self.flown.carry_m[option.swing]), "m"),
            total=quantity(total, "m"),
            start=quantity(option.start_rad, "rad"),
            start_at=quantity(start_at, "m"),
            finish_at=quantity(finish_at, "m"),
            seen_at=quantity(at, "m"),
            start_from_middle=quantity(start_at - middle_start, "m"),
            finish_from_middle=quantity(finish_at - middle_finish, "m"),
            half_width=quantity(half, "m"),
            strokes=self.strokes(option.strokes),
            chance=option.chance,
            left=quantity(option.left_m, "m"),
            past_front=chance_past(pattern=pattern, swing=option.swing, distance_m=front),
            par_or_better=par,
            double_or_worse=double,
        )


def _off_fairway(scene: Scene, x_m: float, y_m: float) -> float:
    """Return the offset of a point from the middle of the fairway. [m]"""
    _, off = scene.bend.along(np.array([x_m]), np.array([y_m]))
    return float(off[0])
