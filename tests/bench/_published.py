"""Do the players and the choice agree with what was published of real ones?"""

from __future__ import annotations

import numpy as np

from engine import PlayerFacts, solve_player, start_bag
from engine.api.standard import physics
from engine.core.choice import Decider
from engine.core.flown import fly_bag
from engine.core.lie import Lie
from engine.core.scene import Scene, Trouble
from engine.core.shapes import Oval, Strip
from engine.core.surround import green_share
from tests.bench._table import Row
from tests.support.brute import landings
from tests.support.golfers import bogey, field, plain_pattern, scratch, tour
from tests.support.tables import load_table

YD = 0.9144


def professional() -> list[Row]:
    """Strokes to hole out of professional-like players against the published table."""
    tables = [(share, solve_player(golfer)) for share, golfer in field()]
    reference = load_table("strokes_professional")
    gaps: dict[str, list[float]] = {}
    for row in reference.rows:
        distance = float(row["yd"])
        for i, lie in enumerate(("tee", "fairway", "rough", "sand", "recovery")):
            if not row[lie] or (lie == "tee" and not 340 <= distance <= 580):
                continue
            if lie == "fairway" and not 20 <= distance <= 220:
                continue
            at = np.array(distance * YD)
            found = sum(share * float(table.at(row=i, distance_m=at)) for share, table in tables)
            gaps.setdefault(lie, []).append(abs(found - float(row[lie])))
    goals = {"tee": 0.05, "fairway": 0.05, "rough": 9.0, "sand": 9.0, "recovery": 9.0}
    return [
        Row(f"published strokes, {lie}, worst (goal 9 = shown only)", max(g), goals[lie])
        for lie, g in gaps.items()
    ]


def greens() -> list[Row]:
    """Greens hit and distance left of a professional-like player from 151 to 175 yards.

    Published (tour data of 2011 and 2012, an analyst's article): 71 % and 28 ft from the
    fairway, 49 % and 45 ft from rough.
    """
    rows, rng = [], np.random.default_rng(1)
    for lie, share, left_ft in (("fairway", 0.71, 28.0), ("rough", 0.49, 45.0)):
        names, pattern = plain_pattern(tour(), lie=lie)
        to_pin = []
        for swing in (names.index("8i"), names.index("7i")):
            carry, bearing, roll = landings(pattern, swing, 0.0, 100_000, rng)
            pin = pattern.reach_m[swing, 0] + pattern.run_m[swing]
            far = carry + roll
            to_pin.append(np.hypot(far * np.cos(bearing) - pin, far * np.sin(bearing)))
        hit, left = green_share(to_pin_m=np.array(to_pin)).mean(), np.mean(to_pin) / 0.3048
        rows += [
            Row(f"professional from 163, {lie}: greens off {share:.0%}", abs(hit - share), 0.04),
            Row("the same: distance left off published", abs(left / left_ft - 1.0), 0.1, "share"),
        ]
    return rows


def rated() -> list[Row]:
    """Yards of hole worth a stroke for the players that courses are rated for."""
    lengths = np.arange(280.0, 561.0, 20.0)
    out_rows = []
    for name, player, published in (("scratch", scratch(), 220.0), ("bogey", bogey(), 160.0)):
        strokes = solve_player(player).at(row=0, distance_m=lengths * YD)
        yards = 1.0 / np.polyfit(lengths, strokes, 1)[0]
        off = abs(yards / published - 1.0)
        out_rows.append(Row(f"yards a stroke, {name}, off {published:.0f}", off, 0.05, "share"))
    return out_rows


def published() -> list[Row]:
    """Published examples: out of bounds right of a 400-yard four, and greens hit from 150."""
    rows = []
    for score, gain in ((80, 0.1), (100, 0.2)):
        golfer = start_bag(PlayerFacts(score=score, hand=1)).golfer
        flown = fly_bag(golfer=golfer, physics=physics(), lie=Lie(kind="tee"))
        hole = Scene(
            (400 * YD, 0.0), Oval(400 * YD, 0.0, 13.0, 11.0),
            (Trouble("out", "out", Strip(1, 25 * YD)),), lie="tee", fairway_from_m=70.0,
        )  # fmt: skip
        found = Decider(scene=hole, pattern=flown.pattern.taken([0]), table=solve_player(golfer))
        centre = found.option(0, aim_rad=-float(flown.pattern.bearing_rad[0, 0]))
        best = found.option(0)
        saved = centre.strokes - best.strokes
        rows.append(Row(f"{score}-shooter, out right: gain off published", abs(saved - gain), 0.1))
        edge = -best.finish_m[1] / hole.fairway_half_m
        rows.append(
            Row(f"{score}-shooter: aim over half the fairway's width", edge, 0.7, "", "above")
        )
    golfer = start_bag(PlayerFacts(score=90, hand=1)).golfer
    table = solve_player(golfer)
    flown = fly_bag(golfer=golfer, physics=physics(), green_at_m=150 * YD)
    total = flown.pattern.reach_m[:, 0] + flown.pattern.run_m
    full = [i for i, s in enumerate(flown.swings) if s.kind == "full"]
    swing = min(full, key=lambda i: abs(total[i] - 150 * YD))
    for short, greens in ((13.0, 0.35), (0.0, 0.44)):
        pin = float(total[swing]) + short * YD
        # Radius 15.4 yd: what the published 35 % implies with the published scatter.
        scene = Scene((pin, 0.0), Oval(pin, 0.0, 15.4 * YD, 15.4 * YD))
        found = Decider(scene=scene, pattern=flown.pattern.taken([swing]), table=table)
        aim = -float(flown.pattern.bearing_rad[swing, 0])
        hit = found.option(0, aim_rad=aim).chance["green"]
        name = f"90-shooter from 150, {short:.0f} yd short: greens off {greens:.0%}"
        rows.append(Row(name, abs(hit - greens), 0.03))
    return rows
