"""What putts came to: kept with each result, counted by length, learned from."""

from __future__ import annotations

import math
from typing import Any

from bot.model.golfer import Changed, MadeOf, PuttingShown
from bot.model.green import PuttAdvice
from bot.model.measure import Measure
from bot.model.reading import Result
from bot.turn.bag import bag_of, told_only
from bot.turn.desk import Desk
from bot.turn.implied import Open
from bot.turn.measures import measured, to_quantity
from engine import PuttingLesson, PuttResult, putting_lesson, quantity, si

_DAY = 86_400.0
_EIGHTY = 1.2816  # standard deviations either side that hold four fifths of a normal
_FEW = 30  # putts below which spreads say little


def putt_body(desk: Desk, act: Result, last: Open | None) -> dict[str, Any] | None:
    """Return an advised putt's result for its entry, under its key ``putt``; None if unsure."""
    if last is None or last.kind != "putt" or act.conceded:
        return None
    advice = PuttAdvice.model_validate(last.advice)
    units = desk.units
    if act.holed is None and act.putts is None:
        return None
    first = act.putts is None or act.putts == 1  # more than one: the first did not go in
    holed = first and (act.proximity is None if act.holed is None else act.holed)
    left = None if holed or act.proximity is None else act.proximity
    return {
        "length_m": si(to_quantity(advice.length, "putt", units), "m"),
        "holed": holed,
        "left_m": None if left is None else si(to_quantity(left, "putt", units), "m"),
    }


def shown(desk: Desk) -> PuttingShown:
    """Return the make rates of this player."""
    found = lesson(desk)
    units = desk.units
    return PuttingShown(
        putts=found.putts,
        rates=tuple(
            MadeOf(
                low=measured(rate.low, "putt", units),
                high=measured(rate.high, "putt", units),
                tried=rate.tried,
                holed=rate.holed,
                expected=rate.expected,
            )
            for rate in found.rates
        ),
        few=found.putts < _FEW,
    )


def lesson(desk: Desk) -> PuttingLesson:
    """Refit the putting from the whole log."""
    profile = desk.player.profile
    return putting_lesson(
        _putts(desk),
        short=bag_of(told_only(profile)).golfer.short,
        stored=bag_of(profile).golfer.short,
    )


def changes(desk: Desk) -> tuple[Changed, ...]:
    """Return the stored spreads of putting that the log contradicts."""
    found = lesson(desk)
    stored = bag_of(desk.player.profile).golfer.short
    made = []
    if "putt_line_rad" in found.changed:
        made.append(
            Changed(
                value="putt_line_deg",
                stored=_degrees(stored.putt_line_rad),
                learned=_degrees(found.line_rad),
                half=_degrees(found.line_rad * math.expm1(_EIGHTY * found.line_doubt)),
                solid=found.putts,
            )
        )
    if "putt_pace" in found.changed:
        made.append(
            Changed(
                value="putt_pace",
                stored=Measure(value=stored.putt_pace),
                learned=Measure(value=found.pace),
                half=Measure(value=found.pace * math.expm1(_EIGHTY * found.pace_doubt)),
                solid=found.putts,
            )
        )
    return tuple(made)


def _degrees(angle_rad: float) -> Measure:
    return Measure(value=si(quantity(angle_rad, "rad"), "deg"), unit="deg")


def _putts(desk: Desk) -> list[PuttResult]:
    logged = desk.shelf.entries(player=desk.who, kinds=("result",))
    today = (e for e in desk.entries if e.kind == "result" and e.player == desk.who)
    putts = []
    for entry in (*logged, *today):
        body = entry.body.get("putt")
        if body is None:
            continue
        left = body["left_m"]
        putts.append(
            PuttResult(
                length=quantity(body["length_m"], "m"),
                holed=body["holed"],
                left=None if left is None else quantity(left, "m"),
                age_days=max((desk.now - entry.at).total_seconds() / _DAY, 0.0),
            )
        )
    return putts
