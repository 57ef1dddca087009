"""Where does each action from each distance lead, on an ordinary hole?

Next-state probabilities from one lie. A state is a lie (or a drop) at one of the distances of
the strokes table, in its order, or a putt at one of the putts table's.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
import numpy.typing as npt

from engine.core.golfer import ShortGame
from engine.core.pattern import Lie, Pattern
from engine.core.strokes import DISTANCE_M, LIES, LIES_AND_DROP, RECOVERY_FREE, SIDEWAYS_OUT
from engine.core.surround import green_share, unnamed_ground
from engine.core.touch import FLUFFED, THINNED, TOUCH_MOST_M, TOUCH_SIDE, touch_scatter

F64 = npt.NDArray[np.float64]
Index = npt.NDArray[np.intp]

# Judgement, as the chance of a way on (`engine.core.strokes`).
PUNCHED_SHARE = 0.4  # of the longest swing: how far on a low ball out can go
PUNCHED_ROUGH = 0.35  # of those that go that far, how many stop in rough
PUNCHED_LEFT_M = 55.0  # and no nearer to the pin: a low ball runs, and has no green in sight
_PUNCHES = 3  # lengths tried, sideways first
_AT_ONCE = 8  # distances laid out at a time: they stay in the processor's cache
_ABLE, _UNABLE = 0.5, 1e6  # mass of an action that can be taken, strokes of one that cannot


@dataclass(frozen=True, slots=True, eq=False)
class Onward:
    """Next-state probabilities of the actions from one lie, only those that are not nought.

    Attributes
    ----------
    chance : ndarray (e,)
        Probabilities, by distance and then action. [-]
    state : ndarray (e,) of int
        Which state each leads to.
    first : ndarray (n * actions,) of int
        Where each action's probabilities start.
    stroke : ndarray (n, actions)
        The stroke itself; very many where an action cannot be taken. [-]
    """

    chance: F64
    state: npt.NDArray[np.int32]
    first: npt.NDArray[np.intp]
    stroke: F64

    def after(self, value: F64) -> F64:
        """Return the mean of a value of states after each action, (n, actions)."""
        found = np.add.reduceat(self.chance * value[self.state], self.first)
        return np.asarray(found.reshape(self.stroke.shape), dtype=np.float64)

    def taking(self, action: npt.NDArray[np.intp]) -> Onward:
        """Return the steps of one action at each distance."""
        n, actions = self.stroke.shape
        row = np.arange(n) * actions + action
        count = np.diff(self.first, append=len(self.chance))[row]
        first = np.cumsum(count) - count
        entry = np.arange(count.sum()) + np.repeat(self.first[row] - first, count)
        stroke = self.stroke[np.arange(n), action][:, None]
        return Onward(self.chance[entry], self.state[entry], first, stroke)


class _Points(NamedTuple):
    """Sample points (swings, q) of swings, and which of them each action at each distance is."""

    weight: F64
    reach_m: F64
    bearing_rad: F64
    pick: Index
    most_m: float  # no such action from farther


def onward(
    *, swings: Pattern, short: ShortGame, lie: Lie, putt_m: F64, longest_m: float
) -> Onward:
    """Return where touch, the likely swings and, from trees, the ways out lead from one lie.

    Parameters
    ----------
    swings : Pattern
        The swings from this lie.
    short : ShortGame
        Touch.
    lie : Lie
        What the ball lies on.
    putt_m : ndarray (p,)
        Distances of the putts table. [m]
    longest_m : float
        How far the longest swing goes from a good lie, roll included. [m]

    Returns
    -------
    Onward
        Probabilities.
    """
    points = _touch_points(short, lie), _swing_points(swings)
    parts: list[tuple[F64, npt.NDArray[np.int32], Index, F64]] = []
    for first in range(0, len(DISTANCE_M), _AT_ONCE):
        at = np.arange(len(DISTANCE_M))[first : first + _AT_ONCE]
        dense = [_land(p, at, putt_m) for p in points]
        if lie == "recovery":
            dense = _out_of_trees(dense, at, PUNCHED_SHARE * longest_m)
        parts.append(_packed(np.concatenate(dense, axis=1)))
    chance, state, count, stroke = (np.concatenate(p) for p in zip(*parts, strict=True))
    return Onward(chance, state, np.cumsum(count) - count, stroke)


def _packed(dense: F64) -> tuple[F64, npt.NDArray[np.int32], Index, F64]:
    """Return steps (n, actions, states) without noughts: what, where, how many, the stroke."""
    able = dense.sum(axis=2) > _ABLE
    dense[~able, 0] = 1.0  # somewhere to go, so that every action has an entry
    flat = dense.reshape(-1, dense.shape[2])
    there = flat != 0.0
    state = np.broadcast_to(np.arange(flat.shape[1], dtype=np.int32), flat.shape)[there]
    return flat[there], state, there.sum(axis=1), np.where(able, 1.0, _UNABLE)


def _cloud(
    share: F64, reach_m: F64, reach_sd_m: F64, bearing_rad: F64, bearing_sd_rad: F64,
    tilt: F64, nodes: tuple[int, int],
) -> tuple[F64, F64, F64]:  # fmt: skip
    """Return weights, reach and bearing of sample points of normal clouds, (n, q) each."""
    zr, za = (np.linspace(-2.8, 2.8, k) for k in nodes)
    bell = np.exp(-0.5 * (zr[:, None] ** 2 + za[None, :] ** 2)).ravel()
    bell /= bell.sum()
    zr, za = np.repeat(zr, nodes[1]), np.tile(za, nodes[0])
    side = tilt[:, None] * zr + np.sqrt(1.0 - tilt[:, None] ** 2) * za
    return (
        share[:, None] * bell,
        np.maximum(reach_m[:, None] + reach_sd_m[:, None] * zr, 0.0),
        bearing_rad[:, None] + bearing_sd_rad[:, None] * side,
    )


def _clouds(p: Pattern) -> tuple[F64, F64, F64]:
    """Return weights, distance and bearing of sample points of whole patterns, (n, q) each."""
    level = np.zeros(len(p))
    parts = [
        _cloud(
            p.share[:, c], p.reach_m[:, c] + p.run_m, np.hypot(p.reach_sd_m[:, c], p.run_sd_m),
            p.bearing_rad[:, c], p.bearing_sd_rad[:, c],
            p.tilt if c == 0 else level, (11, 9) if c == 0 else (7, 5),
        )
        for c in range(p.share.shape[1])
    ]  # fmt: skip
    w, r, a = (np.concatenate(cols, axis=1) for cols in zip(*parts, strict=True))
    return w, r, a


def _land(points: _Points, at: Index, putt_m: F64) -> F64:
    """Return next-state probabilities of actions from some distances, (distances, actions, m)."""
    n, rows = len(DISTANCE_M), points.pick[at]
    out = np.zeros((*rows.shape, LIES_AND_DROP * n + len(putt_m)))  # nobody lands on a tee
    cos, side = np.cos(points.bearing_rad), np.abs(np.sin(points.bearing_rad))
    side *= points.reach_m
    away, reach = DISTANCE_M[at, None, None], points.reach_m[rows]
    to_pin = reach - 2.0 * away * cos[rows]
    to_pin *= reach
    to_pin += away * away
    np.maximum(to_pin, 0.0, out=to_pin)
    np.sqrt(to_pin, out=to_pin)
    mass = points.weight[rows]
    green = green_share(to_pin_m=to_pin)
    ground = unnamed_ground(to_pin_m=to_pin, offline_m=side[rows])
    _share_out(out[:, :, LIES_AND_DROP * n :], [mass * green], putt_m, to_pin)
    mass *= 1.0 - green
    shares = [mass * share for share in ground]
    _share_out(out[:, :, n : LIES_AND_DROP * n], shares, DISTANCE_M, to_pin)
    out[DISTANCE_M[at] > points.most_m] = 0.0
    return out


def _share_out(into: F64, shares: list[F64], nodes_m: F64, to_pin_m: F64) -> None:
    """Share chances out between the two nearest distances, a stretch of `into` a kind."""
    count = len(nodes_m)
    cells = to_pin_m.shape[0] * to_pin_m.shape[1]
    hi = np.clip(np.searchsorted(nodes_m, to_pin_m.ravel()), 1, count - 1)
    part = to_pin_m.ravel() - nodes_m[hi - 1]
    part /= (nodes_m[1:] - nodes_m[:-1])[hi - 1]
    np.clip(part, 0.0, 1.0, out=part)
    hi += np.repeat(np.arange(cells) * count, to_pin_m.shape[2])
    lo = hi - 1
    for i, share in enumerate(shares):
        whole = share.ravel()
        past = whole * part
        found = np.bincount(hi, past, minlength=cells * count)
        found += np.bincount(lo, whole - past, minlength=cells * count)
        into[:, :, i * count : (i + 1) * count] = found.reshape(*to_pin_m.shape[:2], count)


def _swing_points(swings: Pattern) -> _Points:
    """Return the likely swings at each distance, and the longest."""
    total = swings.reach_m[:, 0] + swings.run_m
    gap = np.abs(DISTANCE_M[:, None] - total[None, :])
    likely = np.argsort(gap, axis=1, kind="stable")[:, : min(5, len(total))]
    longest = np.argsort(-total, kind="stable")[: min(2, len(total))]
    pick = np.concatenate([likely, np.tile(longest, (len(DISTANCE_M), 1))], axis=1)
    return _Points(*_clouds(swings), pick, np.inf)


def _touch_points(short: ShortGame, lie: Lie) -> _Points:
    """Return a touch shot at the pin from each distance in its range."""
    d = DISTANCE_M
    rel, mishit = touch_scatter(short=short, lie=lie, distance_m=d)
    level = np.zeros(len(d))
    side = TOUCH_SIDE * rel
    parts = [
        _cloud(1.0 - mishit, d, rel * d, level, side, level, (13, 9)),
        _cloud(0.5 * mishit, FLUFFED * d, 0.15 * d, level, 2.0 * side, level, (5, 5)),
        _cloud(0.5 * mishit, THINNED * d, 0.2 * d, level, side, level, (5, 5)),
    ]
    w, r, a = (np.concatenate(cols, axis=1) for cols in zip(*parts, strict=True))
    return _Points(w, r, a, np.arange(len(d))[:, None], TOUCH_MOST_M)


def _out_of_trees(on: list[F64], at: Index, punched_m: float) -> list[F64]:
    """Return the transitions of the ways out of trees: through a gap, or out to safety.

    A blocked ball goes nowhere, whatever it was meant to do. Out to safety is sideways to the
    fairway, or on along it by up to `punched_m`, the farther the oftener into rough.
    """
    n, rows = len(DISTANCE_M), np.arange(len(at))
    here = LIES.index("recovery") * n + at
    for step in on:
        able = step.sum(axis=2) > _ABLE
        step *= RECOVERY_FREE
        step[rows, :, here] += np.where(able, 1.0 - RECOVERY_FREE, 0.0)
    far = np.linspace(0.0, 1.0, _PUNCHES)
    left = DISTANCE_M[at, None] - far * punched_m
    out = np.zeros((len(at), _PUNCHES, on[0].shape[2]))
    rough = SIDEWAYS_OUT * PUNCHED_ROUGH * np.broadcast_to(far[:, None], (len(at), _PUNCHES, 1))
    _share_out(out[:, :, n : 3 * n], [SIDEWAYS_OUT - rough, rough], DISTANCE_M, left[:, :, None])
    out[rows, :, here] += 1.0 - SIDEWAYS_OUT
    out[(far > 0.0) & (left < PUNCHED_LEFT_M)] = 0.0
    return [*on, out]
