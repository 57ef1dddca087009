"""Where do the shots of each club go, by what was told of them?"""

from __future__ import annotations

import statistics
from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Any

from bot.model.entry import Entry
from bot.model.measure import Measure
from bot.model.review import ClubMisses, ClubPattern
from bot.model.state import Units
from bot.turn.bag import bag_of
from bot.turn.desk import Desk
from bot.turn.measures import measured
from engine import quantity, si

_MISHITS = ("thin", "fat", "top", "shank", "sky", "whiff")
_FEWEST = 2  # carries known well enough for a spread


def misses_of(desk: Desk, entries: Iterable[Entry]) -> tuple[ClubMisses, ...]:
    """Return the misses of every club that was hit, longest club first."""
    shots: dict[str, list[dict[str, Any]]] = defaultdict(list)
    for entry in entries:
        if entry.kind == "result" and entry.body.get("club") and not _is_putt(entry.body):
            shots[entry.body["club"]].append(entry.body)
    carries = {c.name: c.carry_m for c in bag_of(desk.player.profile).golfer.clubs}
    units = desk.player.units or "imperial"
    order = sorted(shots, key=lambda name: -carries.get(name, 0.0))
    return tuple(_club(name, shots[name], carries.get(name), units) for name in order)


def _club(
    name: str, shots: Sequence[dict[str, Any]], carry_m: float | None, units: Units
) -> ClubMisses:
    told = [s["told"] for s in shots]
    solid = [s for s in shots if s["told"].get("contact") not in _MISHITS]
    seen = [s["seen"] for s in solid if s.get("seen")]
    known = [
        0.5 * (s["low_m"] + s["high_m"])
        for s in seen
        if s["low_m"] is not None and s["high_m"] is not None
    ]

    def shown(metres: float) -> Measure:
        return measured(quantity(metres, "m"), "distance", units)

    return ClubMisses(
        club=name,
        shots=len(shots),
        solid=len(solid),
        short=sum(_short(t) for t in told),
        pin_high=sum(t.get("depth") == "pin_high" for t in told),
        long=sum(t.get("depth") == "long" for t in told),
        left=sum(t.get("side") == "left" for t in told),
        right=sum(t.get("side") == "right" for t in told),
        stored=None if carry_m is None else shown(carry_m),
        centre=shown(statistics.fmean(known)) if known else None,
        spread=shown(statistics.stdev(known)) if len(known) >= _FEWEST else None,
    )


def patterns_of(desk: Desk, entries: Iterable[Entry]) -> tuple[ClubPattern, ...]:
    """Return each club's shots that can be drawn, beside the stored pattern, longest first."""
    shots: dict[str, list[dict[str, Any] | None]] = defaultdict(list)
    for entry in entries:
        if entry.kind == "result" and entry.body.get("club") and not _is_putt(entry.body):
            shots[entry.body["club"]].append(entry.body.get("seen"))
    units = desk.player.units or "imperial"
    unit = "m" if units == "metric" else "yd"
    found = []
    for club in bag_of(desk.player.profile).golfer.clubs:
        seen = shots.get(club.name, [])
        dots = [d for d in (_dot(s, club.carry_m) for s in seen if s) if d is not None]
        if not dots:
            continue
        scale = si(quantity(1.0, "m"), unit)
        found.append(
            ClubPattern(
                club=club.name,
                unit=unit,
                carry=club.carry_m * scale,
                long=club.spread_long * club.carry_m * scale,
                side=club.spread_side_rad * club.carry_m * scale,
                lean=club.lean_rad * club.carry_m * scale,
                dots=tuple((x * scale, y * scale) for x, y in dots),
                undrawn=len(seen) - len(dots),
            )
        )
    return tuple(found)


def _dot(seen: dict[str, Any], carry_m: float) -> tuple[float, float] | None:
    """Return side and length of a shot seen well enough, in metres against line and carry."""
    ends = [seen[name] for name in ("left_rad", "right_rad", "low_m", "high_m")]
    if any(end is None for end in ends):
        return None
    left, right, low, high = ends
    length = 0.5 * (low + high)
    return 0.5 * (left + right) * length, length - carry_m


def _short(told: dict[str, Any]) -> bool:
    """Whether a shot came up short: said so, or not struck."""
    return told.get("depth") == "short" or told.get("contact") in ("fat", "top", "whiff")


def _is_putt(body: dict[str, Any]) -> bool:
    return bool(body["told"].get("putt"))
