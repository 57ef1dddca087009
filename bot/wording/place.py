"""Words for a shared point: distances to the green and to what lies on the way."""

from __future__ import annotations

from bot.model.place import FarAway, Placed
from bot.model.reading import Hazard
from bot.wording.base import WIDTH, Lines, Style, capital, word
from bot.wording.numbers import length

_KINDS = {"ob": "out of bounds", "penalty": "penalty area"}
_SIDES = {"cross": "across"}


@word.register
def _(answer: Placed, style: Style) -> Lines:
    near = answer.give_or_take
    about = "" if near is None else f", give or take {length(near, style)}"
    green = "/".join(length(m, style) for m in (answer.front, answer.middle, answer.back))
    first = f"Hole {answer.hole}: front/middle/back {green}{about}."
    second = ""
    for hazard in answer.hazards:
        more = f"{', ' if second else ''}{_trouble(hazard, style)}"
        if len(second) + len(more) < WIDTH:
            second += more
    told = f"{capital(second)}." if second else "Nothing in the way."
    return Lines((first, told))


def _trouble(hazard: Hazard, style: Style) -> str:
    kind = _KINDS.get(hazard.kind, hazard.kind)
    side = _SIDES.get(hazard.side or "", hazard.side or "")
    if hazard.start is None or hazard.end is None:
        return f"{kind} {side}"
    return f"{kind} {side} {length(hazard.start, style)} to {length(hazard.end, style)}"


@word.register
def _(answer: FarAway, style: Style) -> Lines:
    far = length(answer.distance, style)
    return Lines(
        (f"That place is {far} from the green of hole {answer.hole}.",
         "Which hole? Send it like hole 7, then the place again.")
    )  # fmt: skip
