"""Where do the shots of each club go, by what was told of them?"""

from __future__ import annotations

import statistics
from collections import defaultdict
from collections.abc import Iterable, Sequence
from typing import Any

from bot.model.entry import Entry
from bot.model.measure import Measure, Unit
from bot.model.review import ClubMisses, ClubPattern
from bot.model.state import Units
from bot.turn.bag import bag_of
from bot.turn.desk import Desk
from bot.turn.learning import seen_in
from bot.turn.measures import measured
from engine import likely_finish, quantity, si

_MISHITS = ("thin", "fat", "top", "shank", "sky", "whiff")
_FEWEST = 3  # carries known well enough for a middle and a spread
_WELL_M = 18.0  # ends of a carry closer than this tell it well enough: judgement


def misses_of(desk: Desk, entries: Iterable[Entry]) -> tuple[ClubMisses, ...]:
    """Return the misses of every club that was hit, longest club first."""
    shots: dict[str, list[dict[str, Any]]] = defaultdict(list)
    for entry in entries:
        if entry.kind == "result" and entry.body.get("club") and not _is_putt(entry.body):
            shots[entry.body["club"]].append(entry.body)
    carries = {c.name: c.carry_m for c in bag_of(desk.player.profile).golfer.clubs}
    units = desk.units
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
        if None not in (s["low_m"], s["high_m"]) and s["high_m"] - s["low_m"] < _WELL_M
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
        centre=shown(statistics.fmean(known)) if len(known) >= _FEWEST else None,
        spread=shown(statistics.stdev(known)) if len(known) >= _FEWEST else None,
    )


def patterns_of(desk: Desk, entries: Iterable[Entry]) -> tuple[ClubPattern, ...]:
    """Return each club's shots that can be drawn, beside the stored pattern, longest first."""
    shots: dict[str, list[Entry]] = defaultdict(list)
    for entry in entries:
        if entry.kind == "result" and entry.body.get("club") and not _is_putt(entry.body):
            shots[entry.body["club"]].append(entry)
    unit: Unit = "m" if desk.player.units == "metric" else "yd"
    found = []
    for club in bag_of(desk.player.profile).golfer.clubs:
        told = shots.get(club.name, [])
        seen = (seen_in(e) for e in told if e.body["told"].get("contact") not in _MISHITS)
        ends = [likely_finish(seen=s, club=club) for s in seen if s is not None]
        drawn = [f for f in ends if f is not None]
        if not drawn:
            continue
        carry = si(quantity(club.carry_m, "m"), unit)
        found.append(
            ClubPattern(
                club=club.name,
                unit=unit,
                carry=carry,
                long=club.spread_long * carry,
                side=club.spread_side_rad * carry,
                lean=club.lean_rad * carry,
                dots=tuple((si(f.side, unit), si(f.long, unit)) for f in drawn),
                rough=tuple(f.rough for f in drawn),
                undrawn=len(told) - len(drawn),
            )
        )
    return tuple(found)


def _short(told: dict[str, Any]) -> bool:
    """Whether a shot came up short: said so, or not struck."""
    return told.get("depth") == "short" or told.get("contact") in ("fat", "top", "whiff")


def _is_putt(body: dict[str, Any]) -> bool:
    return bool(body["told"].get("putt")) or body.get("club") == "P"
