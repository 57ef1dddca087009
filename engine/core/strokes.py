"""How many strokes are left from here? A player's expected strokes by distance and lie.

Playing a hole is a stochastic shortest path: from each distance and lie the player takes
the swing with the fewest expected strokes, lands somewhere on an ordinary hole
(`engine.core.surround`), and goes on from there. The table is solved once a profile and
kept; it also holds the distribution of strokes under that play.

References
----------
.. [1] D. P. Bertsekas and J. N. Tsitsiklis, "An analysis of stochastic shortest path
   problems", Mathematics of Operations Research 16 (1991) 580-595.
.. [2] M. Broadie, "Assessing golfer performance on the PGA Tour", Interfaces 42 (2012)
   146-165: expected strokes by distance and lie as the measure of a position.
"""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
import numpy.typing as npt

from engine.core.golfer import ShortGame
from engine.core.pattern import Habits, Lie, Pattern, Widening, pattern_of
from engine.core.putts import PuttTable, putt_table
from engine.core.surround import green_share, unnamed_ground
from engine.core.touch import FLUFFED, THINNED, TOUCH_MOST_M, TOUCH_SIDE, touch_scatter
from engine.errors import BadTable, NoSolution

F64 = npt.NDArray[np.float64]

LIES: tuple[Lie, ...] = ("tee", "fairway", "rough", "sand", "recovery")
DROP = len(LIES)  # a row after the lies: rough, with a penalty stroke to pay first
DISTANCE_M = np.concatenate(
    [np.arange(2.0, 41.0, 2.0), np.arange(45.0, 126.0, 5.0), np.arange(135.0, 681.0, 10.0)]
)
STIMP_M = 3.048  # a green of ordinary speed, 10 ft
MOST = 12  # strokes counted in the distribution
REACH_FROM: dict[Lie, float] = {
    "tee": 1.0, "fairway": 1.0, "rough": 0.94, "sand": 0.88, "recovery": 0.9,
}  # judgement: share of the carry kept  # fmt: skip
# Judgement: how lies widen a swing when the whole hole is thought through.
WIDENS: dict[Lie, Widening] = {
    "tee": Widening(0.92, 0.97, -0.01), "fairway": Widening(), "rough": Widening(1.55, 1.5, 0.06),
    "sand": Widening(1.8, 1.6, 0.14), "recovery": Widening(2.0, 1.6, 0.16),
}  # fmt: skip
LEAST_LOFT_RAD: dict[Lie, float] = {
    "tee": 0.0, "fairway": 0.218, "rough": 0.297, "sand": 0.349, "recovery": 0.349,
}  # straight faces a lie rules out: common practice, no source  # fmt: skip
_AT_ONCE = 8  # distances
_ABLE, _UNABLE = 0.5, 1e6  # mass of an action that can be taken, strokes of one that cannot
_MAGIC = 20261125.0

# Judgement, held against the published column from trees: which is nearly the fairway's of some
# hundred yards nearer, and little cheaper beside the green.
RECOVERY_FREE = 0.6  # chance that a ball in trees has a way on
SIDEWAYS_OUT = 0.9  # chance that a ball played out sideways or on to safety does get out
PUNCHED_SHARE = 0.4  # of the longest swing: how far on a low ball out can go
PUNCHED_ROUGH = 0.35  # of those that go that far, how many stop in rough
PUNCHED_LEFT_M = 55.0  # and no nearer to the pin: a low ball runs, and has no green in sight
_PUNCHES = 3  # lengths tried, sideways first


@dataclass(frozen=True, slots=True, eq=False)
class StrokeTable:
    """Expected strokes to hole out, and their distribution.

    Attributes
    ----------
    strokes : ndarray (6, n)
        Expected strokes by row (tee, fairway, rough, sand, recovery, drop) and distance.
    over : ndarray (m, 6, n)
        Chance of needing more than k strokes, k the first index. [-]
    putt_distance_m, putts : ndarray (p,)
        Expected putts by distance. [m, -]
    putts_over : ndarray (m, p)
        Chance of needing more than k putts. [-]
    """

    strokes: F64
    over: F64
    putt_distance_m: F64
    putts: F64
    putts_over: F64

    def at(self, *, row: int, distance_m: F64) -> F64:
        """Return expected strokes from a row of the table at distances. [m]"""
        return np.asarray(np.interp(distance_m, DISTANCE_M, self.strokes[row]))

    def chance_over(self, *, k: int, row: int, distance_m: F64) -> F64:
        """Return the chance of needing more than `k` strokes from a row at distances. [m]"""
        return np.asarray(np.interp(distance_m, DISTANCE_M, self.over[k, row]))

    def putts_at(self, *, distance_m: F64) -> F64:
        """Return expected putts at distances. [m]"""
        return np.asarray(np.interp(distance_m, self.putt_distance_m, self.putts))

    def to_bytes(self) -> bytes:
        """Return the table as bytes that `from_bytes` reads."""
        head = [_MAGIC, self.strokes.shape[1], self.over.shape[0], len(self.putts)]
        parts = (self.strokes, self.over, self.putt_distance_m, self.putts, self.putts_over)
        return np.concatenate([head, *(p.ravel() for p in parts)]).astype("<f8").tobytes()

    @classmethod
    def from_bytes(cls, data: bytes) -> StrokeTable:
        """Return the table that `to_bytes` wrote.

        Raises
        ------
        BadTable
            The bytes are not a table of this version.
        """
        name = "strokes table"
        if len(data) % 8 or len(data) < 32:
            raise BadTable(name, "its length fits no table")
        flat = np.frombuffer(data, dtype="<f8").astype(np.float64)
        if flat[0] != _MAGIC or flat[1] != len(DISTANCE_M):
            raise BadTable(name, "it was made by another version")
        n, m, p = (int(v) for v in flat[1:4])
        shapes = ((LIES_AND_DROP, n), (m, LIES_AND_DROP, n), (p,), (p,), (m, p))
        sizes = [int(np.prod(s)) for s in shapes]
        if 4 + sum(sizes) != len(flat):
            raise BadTable(name, "its length fits no table")
        cuts = np.cumsum(sizes)[:-1]
        parts = np.split(flat[4:], cuts)
        return cls(*(part.reshape(s) for part, s in zip(parts, shapes, strict=True)))


LIES_AND_DROP = DROP + 1


def solve_strokes(
    *, habits: Habits, short: ShortGame, reach_m: F64, run_m: F64, run_sd_m: F64
) -> StrokeTable:  # fmt: skip
    """Solve a player's strokes to hole out.

    Parameters
    ----------
    habits : Habits
        How the n swings scatter.
    short : ShortGame
        Touch.
    reach_m, run_m, run_sd_m : ndarray (n,)
        Calm carry of each swing from a good lie, and its roll. [m]

    Returns
    -------
    StrokeTable
        The solved table.

    Raises
    ------
    NoSolution
        There are no swings.
    """
    if not len(reach_m):
        raise NoSolution("strokes", "the bag has no clubs")
    if habits.hand < 0:  # one hand only is ever computed: a mirrored player has the same table
        habits = replace(habits, hand=1, miss=-habits.miss, lean_rad=-habits.lean_rad)
    touch = putt_table(line_rad=short.putt_line_rad, pace=short.putt_pace, stimp_m=STIMP_M)
    putts = touch.expected.copy()
    putts[0] = 0.0
    n, width = len(DISTANCE_M), LIES_AND_DROP * len(DISTANCE_M) + len(putts)
    steps: list[_Steps] = []
    for lie in LIES:
        reach = reach_m * REACH_FROM[lie]
        fit = np.flatnonzero(habits.loft_rad >= LEAST_LOFT_RAD[lie])
        if not len(fit):
            fit = np.arange(len(reach))  # some club has to be used
        swings = pattern_of(
            habits=habits, reach_m=reach, bearing_rad=-habits.lean_rad, run_m=run_m,
            run_sd_m=run_sd_m, widening=WIDENS[lie],
        ).taken(fit)  # fmt: skip
        near = [
            _touch_step(short, lie, touch.length_m, width),
            _swing_step(swings, touch.length_m, width),
        ]
        if lie == "recovery":
            near = _recovery_steps(near, PUNCHED_SHARE * float(np.max(reach_m + run_m)))
        steps.append(_packed(near))
    return _solve(steps, touch.length_m, putts, _putts_over(touch), n)


def _putts_over(touch: PuttTable) -> F64:
    """Return the chance of needing more than k putts, (MOST, p)."""
    over = np.empty((MOST, len(touch.length_m)))
    over[0] = 1.0
    over[1] = 1.0 - touch.one
    over[2] = np.maximum(over[1] - touch.two, 0.0)
    # Three and more fall off evenly, at the rate that keeps the expected putts.
    rest = np.maximum(touch.expected - 1.0 - over[1] - over[2], 0.0)
    rate = np.where(rest + over[2] > 1e-12, rest / np.maximum(rest + over[2], 1e-12), 0.0)
    for k in range(3, MOST):
        over[k] = over[k - 1] * rate
    over[:, 0] = 0.0
    return over


@dataclass(frozen=True, slots=True, eq=False)
class _Steps:
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

    def taking(self, action: npt.NDArray[np.intp]) -> _Steps:
        """Return the steps of one action at each distance."""
        n, actions = self.stroke.shape
        row = np.arange(n) * actions + action
        count = np.diff(self.first, append=len(self.chance))[row]
        first = np.cumsum(count) - count
        entry = np.arange(count.sum()) + np.repeat(self.first[row] - first, count)
        stroke = self.stroke[np.arange(n), action][:, None]
        return _Steps(self.chance[entry], self.state[entry], first, stroke)


def _packed(steps: list[F64]) -> _Steps:
    """Return steps (n, actions, states), side by side, without their noughts."""
    dense = np.concatenate(steps, axis=1)
    steps.clear()  # these are the largest arrays there are
    able = dense.sum(axis=2) > _ABLE
    dense[~able, 0] = 1.0  # somewhere to go, so that every action has an entry
    flat = dense.reshape(-1, dense.shape[2])
    there = flat != 0.0
    count = there.sum(axis=1)
    state = np.broadcast_to(np.arange(flat.shape[1], dtype=np.int32), flat.shape)[there]
    return _Steps(flat[there], state, np.cumsum(count) - count, np.where(able, 1.0, _UNABLE))


def _solve(steps: list[_Steps], putt_m: F64, putts: F64, putts_over: F64, n: int) -> StrokeTable:
    """Return the table of the best play over all actions, by value iteration."""
    value = np.concatenate([np.full(LIES_AND_DROP * n, 5.0), putts])
    rows = np.arange(n)
    best = [np.zeros(n, dtype=np.intp) for _ in steps]
    rough = LIES.index("rough")
    for _ in range(200):
        moved = 0.0
        for i, step in enumerate(steps):
            each = step.stroke + step.after(value)
            best[i] = np.argmin(each, axis=1)
            new = each[rows, best[i]]
            moved = max(moved, float(np.max(np.abs(new - value[i * n : (i + 1) * n]))))
            value[i * n : (i + 1) * n] = new
        value[DROP * n : (DROP + 1) * n] = 1.0 + value[rough * n : (rough + 1) * n]
        if moved < 1e-7:
            break
    chosen = [step.taking(action) for step, action in zip(steps, best, strict=True)]
    over = np.ones((MOST, len(value)))
    over[:, LIES_AND_DROP * n :] = putts_over
    for k in range(1, MOST):
        for i, step in enumerate(chosen):
            over[k, i * n : (i + 1) * n] = step.after(over[k - 1])[:, 0]
        over[k, DROP * n : (DROP + 1) * n] = over[k - 1, rough * n : (rough + 1) * n]
    cut = LIES_AND_DROP * n
    return StrokeTable(
        strokes=value[:cut].reshape(LIES_AND_DROP, n),
        over=over[:, :cut].reshape(MOST, LIES_AND_DROP, n),
        putt_distance_m=putt_m,
        putts=putts,
        putts_over=putts_over,
    )


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


def _land(
    weight: F64, r: F64, a: F64, pick: npt.NDArray[np.intp], putt_m: F64, width: int
) -> F64:  # fmt: skip
    """Return rows of next-state probabilities of actions with sample points.

    `weight`, `r` and `a` are (swings, q); `pick` says which swing each action at each distance
    is, (n_distance, actions).
    """
    n, actions = pick.shape
    out = np.empty((n, actions, width))
    cos, side = np.cos(a), np.abs(np.sin(a))
    side *= r
    for d in range(0, n, _AT_ONCE):  # few distances at once stay in the processor's cache
        rows = pick[d : d + _AT_ONCE]
        away, reach = DISTANCE_M[d : d + _AT_ONCE, None, None], r[rows]
        to_pin = reach - 2.0 * away * cos[rows]
        to_pin *= reach
        to_pin += away * away
        np.maximum(to_pin, 0.0, out=to_pin)
        np.sqrt(to_pin, out=to_pin)
        mass = weight[rows]
        green = green_share(to_pin_m=to_pin)
        ground = unnamed_ground(to_pin_m=to_pin, offline_m=side[rows])
        block = out[d : d + _AT_ONCE]
        _share_out(block[:, :, LIES_AND_DROP * n :], [mass * green], putt_m, to_pin)
        mass *= 1.0 - green
        shares = [mass * share for share in ground]
        _share_out(block[:, :, n : LIES_AND_DROP * n], shares, DISTANCE_M, to_pin)
    out[:, :, :n] = 0.0  # nobody lands on a tee
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


def _swing_step(swings: Pattern, putt_m: F64, width: int) -> F64:
    """Return the transitions of the likely swings at each distance."""
    total = swings.reach_m[:, 0] + swings.run_m
    gap = np.abs(DISTANCE_M[:, None] - total[None, :])
    likely = np.argsort(gap, axis=1, kind="stable")[:, : min(5, len(total))]
    longest = np.argsort(-total, kind="stable")[: min(2, len(total))]
    pick = np.concatenate([likely, np.tile(longest, (len(DISTANCE_M), 1))], axis=1)
    w, r, a = _clouds(swings)
    return _land(w, r, a, pick, putt_m, width)


def _touch_step(short: ShortGame, lie: Lie, putt_m: F64, width: int) -> F64:
    """Return the transitions of a touch shot at the pin; no mass beyond its range."""
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
    step = _land(w, r, a, np.arange(len(d))[:, None], putt_m, width)
    step[d > TOUCH_MOST_M] = 0.0
    return step


def _recovery_steps(on: list[F64], punched_m: float) -> list[F64]:
    """Return the transitions of the ways out of trees: through a gap, or out to safety.

    A blocked ball goes nowhere, whatever it was meant to do. Out to safety is sideways to the
    fairway, or on along it by up to `punched_m`, the farther the oftener into rough.
    """
    n, width = len(DISTANCE_M), on[0].shape[2]
    rows, at = np.arange(n), LIES.index("recovery") * n
    for step in on:
        able = step.sum(axis=2) > _ABLE
        step *= RECOVERY_FREE
        step[rows, :, at + rows] += np.where(able, 1.0 - RECOVERY_FREE, 0.0)
    far = np.linspace(0.0, 1.0, _PUNCHES)
    left = DISTANCE_M[:, None] - far * punched_m
    out = np.zeros((n, _PUNCHES, width))
    rough = SIDEWAYS_OUT * PUNCHED_ROUGH * np.broadcast_to(far[:, None], (n, _PUNCHES, 1))
    _share_out(out[:, :, n : 3 * n], [SIDEWAYS_OUT - rough, rough], DISTANCE_M, left[:, :, None])
    out[rows, :, at + rows] += 1.0 - SIDEWAYS_OUT
    out[(far > 0.0) & (left < PUNCHED_LEFT_M)] = 0.0
    return [*on, out]
