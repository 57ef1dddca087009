"""Which club, started where, and what may happen: choosing a shot with quantities."""

from __future__ import annotations

import math
from dataclasses import dataclass, field, replace
from typing import TYPE_CHECKING, Literal

import numpy as np

from engine.api.conditions import (
    AirFacts,
    LieFacts,
    WindFacts,
    air_today,
    lie_today,
    wind_today,
)
from engine.api.standard import physics
from engine.core.choice import Decider, Option
from engine.core.flown import Flown, fly_bag, habits_of
from engine.core.golfer import SwingKind
from engine.core.landing import Firmness
from engine.core.lie import Lie
from engine.core.marks import Mark, aim_at
from engine.core.pattern import SOLID, chance_past
from engine.core.scene import Kind, Scene
from engine.core.shapes import extent_m
from engine.core.strokes import LIES, RECOVERY_FREE, SIDEWAYS_OUT, StrokeTable, solve_strokes
from engine.core.told import TURN_RAD, Side, Told, ToldTrouble, scene_of, straightened
from engine.errors import OutOfRange
from engine.units import quantity, si, si_or_none

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.core.golfer import Golfer
    from engine.units import Q

NEAR = 0.02  # strokes: differences within the noise of the inputs (judgement)
FEWER_DOUBLES = 0.01  # a difference in doubles worth heeding between near ties
# What a swing that is not the stock one must gain, in strokes (judgement): the less it is
# practised, the more; long clubs are seldom hit with less than a full swing.
STOCK: dict[SwingKind, float] = {
    "full": 0.0, "choked": 0.06, "three_quarter": 0.12, "half": 0.03, "knocked_down": 0.12,
    "high": 0.1, "pitch": 0.0,
}  # fmt: skip
LONG_CLUB = 0.06  # the same again for a driver or wood
CARD_WEIGHT = 0.5  # strokes a double is held dearer by a player protecting a card
NEAREST_M, FARTHEST_M = 5.0, 700.0
LEAVES_M = 5.0  # lay-ups that end this near one spot are told apart by strokes: judgement
FAR_PAST_M = 45.0  # swings that end farther past a pin in reach are not looked at
TEE = Lie(kind="tee")
FAIRWAY, RECOVERY = LIES.index("fairway"), LIES.index("recovery")


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
    """

    best: Play
    others: tuple[Play, ...]
    near: bool
    in_reach: bool
    pin_from_middle: Q
    sideways: float | None
    assumed: tuple[str, ...]
    ruled_out: dict[tuple[str, str], str]
    _setting: _Setting = field(repr=False)

    def play(self, club: str, kind: SwingKind | None = None) -> Play | None:
        """Return a swing of one club at its best aim; None if it cannot be played here."""
        swings = self._setting.flown.swings
        return self._best_of(np.array([s.club == club and kind in (None, s.kind) for s in swings]))

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
        return self._best_of(self._setting.totals < si(distance, "m"))

    def past(self, distance: Q) -> Play | None:
        """Return the best swing whose solid finish is past a distance, None if none is."""
        return self._best_of(self._setting.totals >= si(distance, "m"))

    def leaving(self, distance: Q) -> Play:
        """Return the swing whose solid finish leaves nearest to a distance from the pin."""
        wanted_m = si(self._setting.facts.pin, "m") - si(distance, "m")
        off_m = np.abs(self._setting.totals - wanted_m)
        near = self._best_of(off_m < max(float(off_m.min()) + 1e-9, LEAVES_M))
        return near if near is not None else self.best

    def farthest(self) -> Play:
        """Return the longest swing."""
        return self._setting.play(int(np.argmax(self._setting.totals)))

    def _best_of(self, wanted: np.ndarray[tuple[int, ...], np.dtype[np.bool_]]) -> Play | None:
        found = np.flatnonzero(wanted)
        if not len(found):
            return None
        return self._setting.play(int(found[np.argmin(self._setting.scores[found])]))


@dataclass(frozen=True, slots=True, eq=False)
class _Setting:
    """A question worked out: what its plays are made from."""

    facts: ShotFacts
    told: Told
    scene: Scene
    flown: Flown
    decider: Decider
    table: StrokeTable
    scores: np.ndarray[tuple[int, ...], np.dtype[np.float64]]

    @property
    def totals(self) -> np.ndarray[tuple[int, ...], np.dtype[np.float64]]:
        """Mean solid finish of every swing, roll included. [m]"""
        return self.flown.pattern.reach_m[:, SOLID] + self.flown.pattern.run_m

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
        free = float(option.over[min(k, len(option.over) - 1)])
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

    def play(self, swing: int) -> Play:
        """Return one swing in full."""
        return self.of(self.decider.option(swing))

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
        return None if aim is None else self.of(self.decider.option(swing, aim_rad=aim))

    def of(self, option: Option) -> Play:
        """Return an option in quantities."""
        swing = self.flown.swings[option.swing]
        facts, scene = self.facts, self.scene
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
        par, double = None, None
        if facts.par is not None:
            par = 1.0 - self.over(option, facts.par + 1 - facts.stroke)
            double = self.over(option, facts.par + 2 - facts.stroke)
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


def solve_player(golfer: Golfer) -> StrokeTable:
    """Solve a player's strokes to hole out; keep the table until the golfer changes.

    Parameters
    ----------
    golfer : Golfer
        Clubs, pattern and touch.

    Returns
    -------
    StrokeTable
        `StrokeTable.to_bytes` and `from_bytes` carry it to a store and back.

    Raises
    ------
    OutOfRange, NoSolution
        A bag that cannot be flown.
    """
    flown = fly_bag(golfer=golfer, physics=physics(), lie=TEE)
    return solve_strokes(
        habits=habits_of(golfer=golfer, swings=flown.swings),
        short=golfer.short,
        reach_m=flown.pattern.reach_m[:, SOLID],
        run_m=flown.pattern.run_m,
        run_sd_m=flown.pattern.run_sd_m,
    )


def choose(*, golfer: Golfer, table: StrokeTable, facts: ShotFacts) -> ShotChoice:
    """Choose the swing and the aim with the fewest expected strokes.

    Parameters
    ----------
    golfer : Golfer
        Who plays.
    table : StrokeTable
        From `solve_player` of the same golfer.
    facts : ShotFacts
        The shot.

    Returns
    -------
    ShotChoice
        The choice, the next clubs, and what was assumed.

    Raises
    ------
    OutOfRange
        A distance outside 5 to 700 m, or a condition outside its range.

    Notes
    -----
    Swings within `NEAR` strokes of the best are near ties: fewer doubles decides, then the
    stock swing, which any other must beat by `STOCK`.
    """
    setting, assumed = _work_out(golfer, table, facts)
    order = np.argsort(setting.scores, kind="stable")
    first = float(setting.scores[order[0]])
    near = [int(i) for i in order if setting.scores[i] <= first + NEAR][:4]
    plays = {i: setting.play(i) for i in near}
    best = near[0]
    for i in near[1:]:
        a, b = plays[i].double_or_worse, plays[best].double_or_worse
        if a is not None and b is not None and a < b - FEWER_DOUBLES:
            best = i
    others: dict[str, int] = {}
    for i in order:
        club = setting.flown.swings[i].club
        if club != setting.flown.swings[best].club and club not in others and len(others) < 2:
            others[club] = int(i)
    rest = tuple(plays[i] if i in plays else setting.play(i) for i in others.values())
    close = bool(rest) and float(setting.scores[next(iter(others.values()))]) <= first + NEAR
    _, _, left, right = extent_m(shape=setting.scene.green)
    return ShotChoice(
        best=plays[best],
        others=rest,
        near=close,
        in_reach=setting.told.in_reach,
        pin_from_middle=quantity(-0.5 * (left + right), "m"),
        sideways=setting.sideways() if facts.blocked else None,
        assumed=assumed,
        ruled_out=setting.flown.ruled_out,
        _setting=setting,
    )


def value_of_knowing(
    *, golfer: Golfer, table: StrokeTable, answers: Sequence[tuple[float, ShotFacts]]
) -> float:
    """Return how many strokes an answer would save over playing in doubt.

    Parameters
    ----------
    golfer : Golfer
        Who plays.
    table : StrokeTable
        The player's strokes.
    answers : sequence of (float, ShotFacts)
        Every answer that may come, with its chance before asking.

    Returns
    -------
    float
        Strokes, never negative: the best single swing and aim over all answers, less the
        mean of the best for each.
    """
    total = sum(chance for chance, _ in answers)
    surfaces = []
    for chance, facts in answers:
        setting, _ = _work_out(golfer, table, facts)
        names = [(s.club, s.kind) for s in setting.flown.swings]
        surfaces.append((chance / total, names, setting.decider.surface))
    common = set.intersection(*(set(names) for _, names, _ in surfaces))
    blind, told = 0.0, 0.0
    mixed = None
    for chance, names, found in surfaces:
        rows = [i for i, name in enumerate(names) if name in common]
        part = chance * found.strokes[rows]
        mixed = part if mixed is None else mixed + part
        told += chance * float(found.strokes.min())
    if mixed is not None and mixed.size:
        blind = float(mixed.min())
    return max(blind - told, 0.0)


def _work_out(
    golfer: Golfer, table: StrokeTable, facts: ShotFacts
) -> tuple[_Setting, tuple[str, ...]]:
    """Fly the bag, lay the scene and price every swing."""
    pin = si(facts.pin, "m")
    if not NEAREST_M <= pin <= FARTHEST_M:
        raise OutOfRange("distance", pin, NEAREST_M, FARTHEST_M, "m")
    told = _told(facts, pin)
    turn = TURN_RAD if facts.turn is None else si(facts.turn, "rad")
    wind = wind_today(facts.wind)
    wind = replace(wind, from_rad=_turn(wind.from_rad))
    lie = TEE if facts.tee else lie_today(facts.lie)
    flown = fly_bag(
        golfer=golfer,
        physics=physics(),
        air=air_today(facts.air or AirFacts(), usual=facts.usual_air).air,
        reference=air_today(facts.usual_air or AirFacts()).air,
        wind=wind,
        height_m=0.0 if facts.height is None else si(facts.height, "m"),
        lie=lie,
        firmness=facts.firmness,
        green_at_m=pin,
    )
    if facts.blocked:
        flown = flown.low()
    total = flown.pattern.reach_m[:, SOLID] + flown.pattern.run_m
    in_reach = pin <= float(total.max()) + 15.0
    if in_reach and not facts.tee:
        told = straightened(told, turn_rad=turn)
    told = replace(told, in_reach=in_reach and not told.bend)
    if told.in_reach:
        flown = flown.kept(total <= max(pin + FAR_PAST_M, float(total.min())))
    scene, assumed = scene_of(told, turn_rad=turn)
    too_many = None if facts.par is None else facts.par + 2 - facts.stroke
    decider = Decider(
        scene=scene,
        pattern=flown.pattern,
        table=table,
        too_many=too_many,
        weight=CARD_WEIGHT if facts.protect else 0.0,
    )
    kinds = np.array(
        [
            STOCK[s.kind] + LONG_CLUB * (s.kind != "full" and s.family in ("driver", "wood"))
            for s in flown.swings
        ]
    )
    setting = _Setting(facts, told, scene, flown, decider, table, decider.strokes + kinds)
    if facts.wind is None:
        assumed = (*assumed, "calm")
    return setting, assumed


def told_trouble(t: TroubleFacts) -> ToldTrouble:
    """Return one trouble with its places in metres."""
    return ToldTrouble(
        t.name, t.kind, t.side, si_or_none(t.start, "m"), si_or_none(t.end, "m"),
        si_or_none(t.gap, "m"), t.gap_of,
    )  # fmt: skip


def _told(facts: ShotFacts, pin_m: float) -> Told:
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


def _turn(angle_rad: float) -> float:
    """Return an angle in -pi to pi, so that left and right winds mirror to the bit."""
    turned = math.remainder(angle_rad, 2.0 * math.pi)
    return round(turned, 12)


def _off_fairway(scene: Scene, x_m: float, y_m: float) -> float:
    """Return the offset of a point from the middle of the fairway. [m]"""
    _, off = scene.bend.along(np.array([x_m]), np.array([y_m]))
    return float(off[0])
