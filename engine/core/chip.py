"""Which club and landing spot from off the green, or the putter?"""

from __future__ import annotations

from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from engine.core.aero import Ball
from engine.core.air import REFERENCE
from engine.core.capture import HOLE_RADIUS_M, capture_half_width_m
from engine.core.chipscene import ChipOption, ChipRule, ChipScene
from engine.core.flight import GRAVITY_MPS2, Landing, Launch, fly
from engine.core.golfer import Club, ShortGame
from engine.core.landing import run_out
from engine.core.leave import LeaveValues, leave_values
from engine.core.normal import normal_cdf
from engine.core.roll import ROLLING_SHARE, green_deceleration_mps2
from engine.core.wind import Wind
from engine.errors import OutOfRange

Array = NDArray[np.float64]

SHORTEST_M, LONGEST_M = 1.0, 55.0
_SPEED_MPS = np.linspace(5.2, 26.0, 14)
_PAST_M = np.array([-0.6, 0.0, 0.3, 0.7, 1.3, 2.0, 3.0, 4.5, 6.5])
_Z = np.linspace(-3.2, 3.2, 41)
_W = np.exp(-0.5 * _Z**2) / np.exp(-0.5 * _Z**2).sum()
_SIDE_Z = np.array([-1.7, -0.9, -0.3, 0.3, 0.9, 1.7])
_SIDE_W = np.exp(-0.5 * _SIDE_Z**2) / np.exp(-0.5 * _SIDE_Z**2).sum()
# Judgement, no source: direction of a chip; share of mishits that are fat; what fat and thin
# shots do; doubt of run on a green and of a roll through grass; green behind the hole; cost of
# another shot out of the trouble that had to be carried.
_SIDE_RAD = 0.035
_FAT_SHARE, _FAT, _FAT_SD, _THIN, _THIN_SD = 0.6, 0.35, 0.15, 1.7, 0.25
_RUN_DOUBT, _GRASS_DOUBT = 0.1, 0.3
_BEHIND_M = 10.0
_TROUBLE = 0.5
_LEAVES_AGAIN = 0.8


def chip_options(
    *,
    scene: ChipScene,
    clubs: tuple[Club, ...],
    short: ShortGame,
    rules: tuple[ChipRule, ...],
    ball: Ball,
) -> tuple[ChipOption, ...]:
    """Price every club and way to play a short shot, best first.

    Parameters
    ----------
    scene : ChipScene
        Lie, ground and green.
    clubs : tuple of Club
        The clubs carried.
    short : ShortGame
        The player's touch.
    rules : tuple of ChipRule
        Ways to play it.
    ball : Ball
        Drag and lift law, for the flight.

    Returns
    -------
    tuple of ChipOption
        By expected strokes; empty where nothing in the bag fits the lie.

    Raises
    ------
    OutOfRange
        Hole nearer than 1 m or further than 55 m, or the green beginning beyond it.

    Notes
    -----
    Each club is flown at a range of speeds and bounced and rolled out on the green; the speed
    for a finish follows by interpolation. Length errors scale carry and run together, with
    doubt about the run beside them; a share of shots is fat or thin. A finish costs the
    player's own expected putts there; one that is short of the green costs another chip. How
    far past to finish is chosen too, so trouble in front or a bad lie moves the target deep.
    """
    if not SHORTEST_M <= scene.distance_m <= LONGEST_M:
        raise OutOfRange("chip distance", scene.distance_m, SHORTEST_M, LONGEST_M, "m")
    if not 0.0 <= scene.edge_m < scene.distance_m:
        raise OutOfRange("green edge", scene.edge_m, 0.0, scene.distance_m, "m")
    after = leave_values(
        on=scene.on, line_rad=short.putt_line_rad, pace=short.putt_pace, stimp_m=scene.stimp_m
    )
    found = [
        _best_target(scene, short, after, rule, club, *path)
        for rule, club, path in _flown(scene, clubs, rules, ball)
    ]
    putter = _putter(scene, short, after)
    if putter is not None:
        found.append(putter)
    return tuple(sorted((f for f in found if f is not None), key=lambda f: f.expected))


def _flown(
    scene: ChipScene, clubs: tuple[Club, ...], rules: tuple[ChipRule, ...], ball: Ball
) -> list[tuple[ChipRule, Club, tuple[Array, Array]]]:
    """Carry and run by speed for every club and way that fits the lie."""
    ways = [
        (rule, club)
        for rule in rules
        if scene.lie.name in rule.lies
        for club in clubs
        if rule.loft_low_rad <= club.loft_rad <= rule.loft_high_rad
    ]
    if not ways:
        return []
    n = len(_SPEED_MPS)
    speed = np.tile(_SPEED_MPS, len(ways))
    launch = np.repeat([rule.launch * club.loft_rad for rule, club in ways], n)
    spin = np.repeat([rule.spin * scene.lie.spin for rule, _ in ways], n) * speed / ball.radius_m
    landed = fly(
        launch=Launch(speed, launch, np.zeros_like(speed), spin, np.zeros_like(speed)),
        air=REFERENCE,
        wind=Wind(0.0, 0.0),
        ball=ball,
        height_m=scene.height_m,
    )
    run = _run(scene, landed, ball)
    carry = np.where(landed.reached, landed.carry_m, 0.0).reshape(-1, n)
    return [(*way, (carry[i], run.reshape(-1, n)[i])) for i, way in enumerate(ways)]


def _run(scene: ChipScene, landed: Landing, ball: Ball) -> Array:
    slow = green_deceleration_mps2(stimp_m=scene.stimp_m)
    turf = replace(scene.green, roll=slow / (ROLLING_SHARE * GRAVITY_MPS2))
    return run_out(landing=landed, ground=turf, ball=ball, slope=scene.up).run_m


def _best_target(
    scene: ChipScene,
    short: ShortGame,
    after: LeaveValues,
    rule: ChipRule,
    club: Club,
    carry: Array,
    run: Array,
) -> ChipOption | None:
    total = np.maximum.accumulate(carry + run)
    wanted = scene.distance_m + _PAST_M
    wanted = wanted[(wanted > 0.5) & (wanted <= total[-1])]
    if not wanted.size:
        return None
    # Below the slowest flight carry and run shrink together.
    meant = np.interp(wanted, np.append(0.0, total), np.append(0.0, carry))
    sand = rule.kind in ("splash", "blast")
    touch = short.sand_spread if sand else short.chip_spread
    spread = touch * rule.spread * scene.lie.spread
    mishit = min(short.chip_mishit * rule.mishit * scene.lie.mishit, 0.6)
    rolled = wanted - meant
    error = np.hypot(spread * wanted, _RUN_DOUBT * np.abs(rolled))
    stops = wanted[:, None] + error[:, None] * _Z
    lands = meant[:, None] * (1.0 + spread * _Z)
    before = (lands < scene.edge_m) | (stops < scene.edge_m)
    stops = np.where(before, np.minimum(lands, scene.edge_m), stops)
    trouble = scene.over or sand
    clean, saved = _worth(scene, short, after, stops, before, _SIDE_RAD * wanted, trouble=trouble)
    poor = _poor(scene, short, after, wanted, meant, trouble=trouble)
    expected = (1.0 - mishit) * (clean @ _W) + mishit * poor
    on_green = meant >= scene.edge_m
    if on_green.any():  # what a ball does that lands short is not modelled: do not plan on it
        expected = np.where(on_green, expected, np.inf)
    i = int(expected.argmin()) if on_green.any() else len(meant) - 1
    return ChipOption(
        kind=rule.kind,
        club=club.name,
        carry_m=float(meant[i]),
        run_m=float(rolled[i]),
        past_m=float(wanted[i] - scene.distance_m),
        expected=float(expected[i]),
        saves=float((1.0 - mishit) * (saved[i] @ _W)),
        short=float((1.0 - mishit) * (before[i] @ _W) + mishit * _FAT_SHARE),
    )


def _putter(scene: ChipScene, short: ShortGame, after: LeaveValues) -> ChipOption | None:
    if scene.lie.roll <= 0.0 or scene.over or scene.height_m > 0.5:
        return None
    slow = green_deceleration_mps2(stimp_m=scene.stimp_m)
    grass = scene.edge_m * scene.lie.roll * ROLLING_SHARE * GRAVITY_MPS2 / slow
    wanted = np.maximum(scene.distance_m + _PAST_M, scene.edge_m + 0.3)
    further = 1.0 - scene.on.pull_x_mps2 / slow
    roll = grass + (wanted - scene.edge_m) * max(further, 0.1)
    pace = short.putt_pace * roll / max(further, 0.1)
    error = np.hypot(pace, _GRASS_DOUBT * max(grass - scene.edge_m, 0.0))
    stops = wanted[:, None] + error[:, None] * _Z
    before = stops < scene.edge_m
    stops = np.maximum(stops, 0.5 * scene.edge_m)
    clean, saved = _worth(
        scene, short, after, stops, before, short.putt_line_rad * wanted, trouble=False
    )
    expected = clean @ _W
    i = int(expected.argmin())
    return ChipOption(
        kind="putter",
        club="putter",
        carry_m=float(roll[i]),
        run_m=0.0,
        past_m=float(wanted[i] - scene.distance_m),
        expected=float(expected[i]),
        saves=float(saved[i] @ _W),
        short=float(before[i] @ _W),
    )


def _worth(
    scene: ChipScene,
    short: ShortGame,
    after: LeaveValues,
    stops: Array,
    before: NDArray[np.bool_],
    side_m: Array,
    *,
    trouble: bool,
) -> tuple[Array, Array]:
    """Strokes, this one included, and chance of two or fewer, by where it stops."""
    past = stops - scene.distance_m
    across = side_m[:, None, None] * _SIDE_Z
    more, again = after.at(np.broadcast_to(past[..., None], (*past.shape, len(_SIDE_Z))), across)
    more, again = more @ _SIDE_W, again @ _SIDE_W
    off = before | (past > _BEHIND_M)
    more = np.where(off, _off_green(short, after, np.abs(past)), more)
    more = np.where(before & trouble, more + _TROUBLE, more)
    again = np.where(off, 1.0, again)
    slow = green_deceleration_mps2(stimp_m=scene.stimp_m)
    speed = np.sqrt(2.0 * slow * np.maximum(past, 0.0))
    width = np.where(past > -HOLE_RADIUS_M, capture_half_width_m(speed_mps=speed), 0.0)
    holed = np.where(off, 0.0, 2.0 * normal_cdf(width / side_m[:, None]) - 1.0)
    return 1.0 + (1.0 - holed) * more, holed + (1.0 - holed) * (1.0 - again)


def _off_green(short: ShortGame, after: LeaveValues, away: Array) -> Array:
    """Strokes still to come from off the green: a plain chip and the putts after it."""
    left = _LEAVES_AGAIN * short.chip_spread * away + 0.5
    putts = np.interp(left, after.level.length_m, after.level.expected)
    return np.asarray(1.0 + putts + short.chip_mishit)


def _poor(
    scene: ChipScene,
    short: ShortGame,
    after: LeaveValues,
    wanted: Array,
    meant: Array,
    *,
    trouble: bool,
) -> Array:
    """Strokes after a fat or a thin one."""
    fat = meant[:, None] * np.maximum(_FAT + _FAT_SD * _Z, 0.05)
    thin = wanted[:, None] * (_THIN + _THIN_SD * _Z)
    side = 2.0 * _SIDE_RAD * wanted
    args = (scene, short, after)
    short_of, _ = _worth(*args, fat, fat < scene.edge_m, side, trouble=trouble)
    beyond, _ = _worth(*args, thin, np.zeros(thin.shape, dtype=np.bool_), side, trouble=False)
    return np.asarray(_FAT_SHARE * (short_of @ _W) + (1.0 - _FAT_SHARE) * (beyond @ _W))
