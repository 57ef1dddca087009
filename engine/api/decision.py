"""Which club, started where, and what may happen: choosing a shot with quantities."""

from __future__ import annotations

import math
from dataclasses import replace
from typing import TYPE_CHECKING

import numpy as np

from engine.api.conditions import AirFacts, air_today, lie_today, wind_today
from engine.api.flight import PlaysAsAnswer, answer_of
from engine.api.shotchoice import Setting, ShotChoice
from engine.api.shotfacts import ShotFacts, told_of
from engine.api.standard import physics
from engine.core.aloft import flown_alone, flown_together
from engine.core.choice import Decider
from engine.core.flown import Flown, fly_bag, flying_bag, habits_of
from engine.core.golfer import SwingKind
from engine.core.handicap import par_of_length
from engine.core.lie import Lie
from engine.core.pattern import SOLID
from engine.core.playsas import flying_plays_as
from engine.core.shapes import extent_m
from engine.core.solve import solve_strokes
from engine.core.strokes import StrokeTable
from engine.core.told import TURN_RAD, scene_of, straightened
from engine.errors import OutOfRange
from engine.units import quantity, si

if TYPE_CHECKING:
    from collections.abc import Sequence

    from engine.core.golfer import Golfer

# Strokes within the noise of what is told: three yards more or less move what two clubs differ by
# so much (median of 60 shots, measured by `tests/bench/decision.py`).
NEAR = 0.03
NEAR_MOST = 4  # swings within that are looked at
NEARER_M = 0.9  # a yard nearer the pin is worth heeding between near ties (judgement)
FEWER_DOUBLES = 0.01  # a difference in doubles worth heeding between near ties
# What a swing that is not the stock one must gain, in strokes (judgement): the less it is
# practised, the more; long clubs are seldom hit with less than a full swing.
STOCK: dict[SwingKind, float] = {
    "full": 0.0, "choked": 0.03, "three_quarter": 0.1, "half": 0.03, "knocked_down": 0.12,
    "high": 0.1, "pitch": 0.0,
}  # fmt: skip
LONG_CLUB = 0.06  # the same again for a driver or wood
CARD_WEIGHT = 0.5  # strokes a double is held dearer by a player protecting a card
NEAREST_M, FARTHEST_M = 5.0, 700.0
FAR_PAST_M = 45.0  # swings that end farther past a pin in reach are not looked at
TEE = Lie(kind="tee")


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


def choose(
    *, golfer: Golfer, table: StrokeTable, facts: ShotFacts, plays: bool = False
) -> ShotChoice:  # fmt: skip
    """Choose the swing and the aim with the fewest expected strokes.

    Parameters
    ----------
    golfer : Golfer
        Who plays.
    table : StrokeTable
        From `solve_player` of the same golfer.
    facts : ShotFacts
        The shot.
    plays : bool
        Whether to tell what the shot plays as too; its flights go along with the bag's.

    Returns
    -------
    ShotChoice
        The choice, the next clubs, and what was assumed.

    Raises
    ------
    OutOfRange
        A distance outside 5 to 700 m (10 to 400 m with `plays`), or a condition outside its
        range.

    Notes
    -----
    Swings within `NEAR` strokes of the best are near ties: fewer doubles decides, then the
    full swing that ends nearest the pin, then the stock swing, which any other must beat by
    `STOCK`. Where par was not told, a double is one
    of a hole as long as what is left.
    """
    setting, assumed = _work_out(golfer, table, facts, plays=plays)
    decider, added, clubs = setting.decider, setting.added, [s.club for s in setting.flown.swings]
    first, best = decider.best(added=added)
    near = [i for _, i in decider.within(first + NEAR, added=added)][:NEAR_MOST]
    options = {i: setting.option(i, doubles=True) for i in near} if len(near) > 1 else {}
    doubles = {i: setting.over(found, setting.too_many) for i, found in options.items()}
    for i in near[1:]:
        if doubles[i] < doubles[best] - FEWER_DOUBLES:
            best = i
    if setting.told.in_reach:
        best = _nearest(setting, near, best=best, doubles=doubles)
    named, others = {clubs[best]}, list[tuple[float, int]]()
    while len(others) < 2:
        rest = np.array([c not in named for c in clubs])
        if not rest.any():
            break
        found = decider.best(added=added, among=rest)
        others.append(found)
        named.add(clubs[found[1]])
    plays_of = {
        i: setting.of(options[i] if i in options else setting.option(i))
        for i in (best, *(i for _, i in others))
    }
    close = bool(others) and others[0][0] <= first + NEAR
    _, _, left, right = extent_m(shape=setting.scene.green)
    return ShotChoice(
        best=plays_of[best],
        others=tuple(plays_of[i] for _, i in others),
        near=close,
        in_reach=setting.told.in_reach,
        pin_from_middle=quantity(-0.5 * (left + right), "m"),
        sideways=setting.sideways() if facts.blocked else None,
        assumed=assumed,
        ruled_out=setting.flown.ruled_out,
        plays=setting.plays,
        _setting=setting,
    )


def _nearest(
    setting: Setting, near: Sequence[int], *, best: int, doubles: dict[int, float]
) -> int:
    """Return the near tie a golfer expects: the full swing that ends nearest the pin."""
    off = {i: abs(float(setting.totals[i]) - setting.told.pin_m) for i in near}
    for i in near:
        full = setting.flown.swings[i].kind == "full"
        safe = not doubles or doubles[i] < doubles[best] + FEWER_DOUBLES
        if full and safe and off[i] < off[best] - NEARER_M:
            best = i
    return best


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
    golfer: Golfer, table: StrokeTable, facts: ShotFacts, *, plays: bool = False
) -> tuple[Setting, tuple[str, ...]]:
    """Fly the bag, lay the scene and price every swing."""
    pin = si(facts.pin, "m")
    if not NEAREST_M <= pin <= FARTHEST_M:
        raise OutOfRange("distance", pin, NEAREST_M, FARTHEST_M, "m")
    told = told_of(facts, pin)
    turn = TURN_RAD if facts.turn is None else si(facts.turn, "rad")
    flown, played = _fly(golfer, facts, pin, plays=plays)
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
    # A double is two over par: over that of a hole as long as what is left, where none was told.
    par, stroke = facts.par or par_of_length(length_m=pin), facts.stroke if facts.par else 1
    too_many = par + 2 - stroke
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
    setting = Setting(facts, told, scene, flown, decider, table, kinds, too_many, played)
    if facts.wind is None:
        assumed = (*assumed, "calm")
    return setting, assumed


def _fly(
    golfer: Golfer, facts: ShotFacts, pin_m: float, *, plays: bool
) -> tuple[Flown, PlaysAsAnswer | None]:
    """Fly the bag, and the player's plain flights with it if it is asked what the shot plays."""
    constants = physics()
    today = air_today(facts.air or AirFacts(), usual=facts.usual_air)
    reference = air_today(facts.usual_air or AirFacts(), usual=facts.usual_air).air
    wind, lie = wind_today(facts.wind), lie_today(facts.lie)
    height_m = 0.0 if facts.height is None else si(facts.height, "m")
    bag = flying_bag(
        golfer=golfer, physics=constants, air=today.air,
        wind=replace(wind, from_rad=_turn(wind.from_rad)), height_m=height_m,
        lie=TEE if facts.tee else lie, firmness=facts.firmness, green_at_m=pin_m,
        reference=reference,
    )  # fmt: skip
    if not plays:
        return flown_alone(bag, ball=constants.ball), None
    plain = flying_plays_as(
        golfer=golfer, physics=constants, target_m=pin_m, height_m=height_m, air=today.air,
        wind=wind, lie=lie, reference=reference,
    )  # fmt: skip
    flown, found = flown_together(bag, plain, ball=constants.ball)
    return flown, answer_of(found, wind=wind, height_m=height_m, assumed=today.assumed)


def _turn(angle_rad: float) -> float:
    """Return an angle in -pi to pi, so that left and right winds mirror to the bit."""
    turned = math.remainder(angle_rad, 2.0 * math.pi)
    return round(turned, 12)
