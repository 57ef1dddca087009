"""Plays a planned hole ball by ball: an independent check of what the plan expects.

Nothing is summed or interpolated here. Every ball is drawn from the player's pattern, rolls,
is held by what holds it, and lies on ground drawn from the scene's own shapes; the next shot
is the plan's for the spot. Within the table's reach of the pin the table's mean is
taken, since short game and putts are not the plan's to choose.
"""

from __future__ import annotations

import numpy as np

from engine.core.fields import TABLE_M
from engine.core.golfer import ShortGame
from engine.core.holeplan import SIDEWAYS, SIDEWAYS_M, TOUCH, HoleSolver, Option
from engine.core.line import Line
from engine.core.playbook import Page
from engine.core.ribbon import Ribbon
from engine.core.scene import ORDER, STOPS, Scene, unnamed
from engine.core.strokes import (
    LIES,
    RECOVERY_FREE,
    SIDEWAYS_OUT,
    StrokeTable,
)
from engine.core.touch import TOUCH_SIDE, touch_scatter

GREEN, OUT, WET, LOST = 10, 11, 12, 13
FAIRWAY, ROUGH, SAND, RECOVERY = 1, 2, 3, 4
ROLL_STEPS = 6
MOST_SHOTS = 25


class Walk:
    """One hole, one player, one condition."""

    def __init__(
        self, *, scene: Scene, ribbon: Ribbon, line: Line, pages: tuple[Page, Page],
        short: ShortGame, table: StrokeTable, solver: HoleSolver, condition: int,
        rng: np.random.Generator,
    ) -> None:  # fmt: skip
        self.scene, self.ribbon, self.line = scene, ribbon, line
        self.pages, self.short, self.table = pages, short, table
        self.solver, self.c, self.rng = solver, condition, rng

    def play(self, first: Option, n: int) -> tuple[float, float]:
        """Return the mean score of `n` rounds of the hole and its standard error."""
        score = np.zeros(n)
        x, y = np.zeros(n), np.zeros(n)
        lie = np.full(n, LIES.index("tee"))
        open_ = np.arange(n)
        swing = np.full(n, first.swing)
        start = np.full(n, first.start_rad)
        for shot in range(MOST_SHOTS):
            if not open_.size:
                break
            at = open_
            if shot:
                swing, start = self._decide(x[at], y[at], lie[at])
            else:
                swing, start = swing[at], start[at]
            nx, ny, ground, extra = self._hit(x[at], y[at], lie[at], swing, start)
            score[at] += 1.0 + extra
            moved = ground != OUT
            score[at[~moved]] += 1.0
            x[at[moved]], y[at[moved]], lie[at[moved]] = nx[moved], ny[moved], ground[moved]
            if shot == 0:  # out from the tee: the same swing again
                again = at[~moved]
                while again.size:
                    nx, ny, ground, _ = self._hit(
                        x[again], y[again], lie[again],
                        np.full(again.size, first.swing), np.full(again.size, first.start_rad),
                    )  # fmt: skip
                    score[again] += 1.0
                    ok = ground != OUT
                    score[again[~ok]] += 1.0
                    x[again[ok]], y[again[ok]], lie[again[ok]] = nx[ok], ny[ok], ground[ok]
                    again = again[~ok]
            wet = at[lie[at] == WET]
            score[wet] += 1.0
            cell = self.ribbon.drop[self.ribbon.cell_of(x[wet], y[wet])]
            here = self.ribbon.cell_of(x[wet], y[wet]) == cell
            x[wet] = np.where(here, x[wet], self.ribbon.x_m[cell])
            y[wet] = np.where(here, y[wet], self.ribbon.y_m[cell])
            lie[wet] = ROUGH
            lost = at[lie[at] == LOST]
            score[lost] += 1.0
            lie[lost] = ROUGH
            to_pin = np.hypot(x[at] - self.scene.pin_m[0], y[at] - self.scene.pin_m[1])
            along, _ = self.scene.bend.along(x[at], y[at])
            done = (to_pin < TABLE_M) | (along > self.line.length_m) | (lie[at] == GREEN)
            for kind in (GREEN, FAIRWAY, ROUGH, SAND, RECOVERY):
                which = done & (lie[at] == kind)
                score[at[which]] += (
                    self.table.putts_at(distance_m=to_pin[which])
                    if kind == GREEN
                    else self.table.at(row=kind, distance_m=to_pin[which])
                )
            open_ = at[~done]
        return float(score.mean()), float(score.std() / np.sqrt(n))

    def _page(self, along: np.ndarray) -> np.ndarray:
        return (along >= self.line.turn_at_m).astype(int)

    def _decide(self, x: np.ndarray, y: np.ndarray, lie: np.ndarray):
        along, _ = self.scene.bend.along(x, y)
        swing, start = np.zeros(len(x), dtype=int), np.zeros(len(x))
        for kind in np.unique(lie):
            k = np.flatnonzero(lie == kind)
            swing[k], start[k] = self.solver.decide(
                condition=self.c, x_m=x[k], y_m=y[k], along_m=along[k], lie=int(kind)
            )
        return swing, start

    def _hit(self, x, y, lie, swing, start):
        n, rng = len(x), self.rng
        reach, bearing, run = np.zeros(n), np.zeros(n), np.zeros(n)
        along, _ = self.scene.bend.along(x, y)
        leg = self._page(along)
        to_pin = np.hypot(x - self.line.pin_m[0], y - self.line.pin_m[1])
        for g in range(2):
            for kind in range(len(LIES)):
                own = (lie == kind) & (leg == g)
                for s in np.unique(swing[own]):
                    k = np.flatnonzero(own & (swing == s))
                    if s == TOUCH:
                        reach[k], bearing[k] = self._touch(kind, to_pin[k])
                    elif s >= 0:
                        reach[k], bearing[k], run[k] = self._swing(g, kind, s, len(k))
        a = start + bearing
        extra = np.zeros(n)
        land = x + reach * np.cos(a), y + reach * np.sin(a)
        ground = self._ground(*land)
        end_x, end_y = land
        held = np.isin(ground, (WET, SAND)) & self._holds(*land)
        for step in range(1, ROLL_STEPS + 1):
            r = reach + run * step / ROLL_STEPS
            nx, ny = x + r * np.cos(a), y + r * np.sin(a)
            end_x, end_y = np.where(held, end_x, nx), np.where(held, end_y, ny)
            new = self._ground(nx, ny)
            ground = np.where(held, ground, new)
            held |= np.isin(new, (WET, SAND)) & self._holds(nx, ny)
        free = (lie != RECOVERY) | (rng.random(n) < RECOVERY_FREE) | (swing == SIDEWAYS)
        free |= swing == TOUCH  # a touch shot out of trees has its own wide pattern
        aside = swing == SIDEWAYS
        out_again = aside & (rng.random(n) > SIDEWAYS_OUT)
        end_x, end_y = np.where(free & ~aside, end_x, x), np.where(free & ~aside, end_y, y)
        ground = np.where(free & ~aside, ground, lie)
        to_fairway = aside & ~out_again
        if to_fairway.any():
            at, off = self.scene.bend.along(x[to_fairway], y[to_fairway])
            end_x[to_fairway], end_y[to_fairway] = self.line.place(at, np.sign(off) * SIDEWAYS_M)
            ground[to_fairway] = FAIRWAY
        ground = np.where(out_again, RECOVERY, ground)
        return end_x, end_y, ground, extra

    def _swing(self, leg, lie, s, n):
        p = self.pages[leg].patterns[lie]
        rng = self.rng
        way = rng.choice(4, size=n, p=p.share[s])
        z, w = rng.standard_normal(n), rng.standard_normal(n)
        tilt = np.where(way == 0, p.tilt[s], 0.0)
        reach = np.maximum(p.reach_m[s, way] + p.reach_sd_m[s, way] * z, 0.0)
        side = tilt * z + np.sqrt(1.0 - tilt**2) * w
        bearing = p.bearing_rad[s, way] + p.bearing_sd_rad[s, way] * side
        run = np.maximum(p.run_m[s] + p.run_sd_m[s] * rng.standard_normal(n), 0.0)
        return reach, bearing, run

    def _touch(self, lie, d):
        rel, fluff = touch_scatter(short=self.short, lie=LIES[lie], distance_m=d)
        rng, n = self.rng, len(d)
        u, z, w = rng.random(n), rng.standard_normal(n), rng.standard_normal(n)
        short, long_ = u < 0.5 * fluff, (u >= 0.5 * fluff) & (u < fluff)
        mean = np.where(short, 0.35, np.where(long_, 1.5, 1.0))
        sd = np.where(short, 0.15, np.where(long_, 0.2, rel))
        side = TOUCH_SIDE * rel * np.where(short, 2.0, 1.0)
        return np.maximum(d * (mean + sd * z), 0.0), side * w

    def _holds(self, x, y):
        held = np.zeros(len(x))
        for t in self.scene.trouble:
            if t.kind in STOPS and not getattr(t.shape, "guess_m", 0.0):
                held += t.shape.cover(x, y, np.full(len(x), 0.2))
        return held > 0.5

    def _ground(self, x, y):
        """Return what each ball lies on, drawn where the scene leaves it open."""
        cell = np.full(len(x), 0.2)
        u = self.rng.random(len(x))
        ground = np.full(len(x), -1)
        left = np.ones(len(x))

        def take(kind: int, share: np.ndarray) -> None:
            nonlocal left
            fresh = ground < 0
            hit = fresh & (u < share / np.maximum(left, 1e-12))
            ground[hit] = kind
            rest = fresh & ~hit
            part = np.clip(share / np.maximum(left, 1e-12), 0.0, 1.0)
            u[rest] = (u[rest] - part[rest]) / np.maximum(1.0 - part[rest], 1e-12)
            left = left - share

        take(GREEN, self.scene.green.cover(x, y, cell))
        for t in sorted(self.scene.trouble, key=lambda t: (ORDER.index(t.kind), t.name)):
            share = np.maximum(left, 0.0) * t.shape.cover(x, y, cell)
            kind = {"out": OUT, "penalty": WET, "trees": RECOVERY, "sand": SAND}.get(t.kind)
            if kind is None:
                take(ROUGH, 0.5 * share)
                take(RECOVERY, 0.5 * share)
            else:
                take(kind, share)
        to_pin = np.hypot(x - self.scene.pin_m[0], y - self.scene.pin_m[1])
        free = np.maximum(left, 0.0)
        parts = unnamed(scene=self.scene, x_m=x, y_m=y, to_pin_m=to_pin)
        for kind, part in zip((FAIRWAY, ROUGH, SAND, RECOVERY, LOST), parts, strict=True):
            take(kind, free * part)
        ground[ground < 0] = ROUGH
        return ground
