"""Green speed and slopes as the engine takes them, from what was said or is usual."""

from __future__ import annotations

from typing import TYPE_CHECKING

from bot.model.reading import Facts, Putt
from bot.model.state import Units
from bot.turn.desk import Desk
from bot.turn.measures import to_quantity
from engine import green_word, quantity, si, side_slope_of_break

if TYPE_CHECKING:
    from engine.units import Q

_HIGH_SIDE = {"left": 1.0, "right": -1.0}  # a ball that breaks left has high ground on its right
_WIDTHS = {"ball": 1.68, "cup": 4.25}  # inches: Equipment Rules, Rules of Golf
SHORTEST_M = 0.1  # a shorter putt is refused for its length, not for its slope


def stimp_of(desk: Desk, facts: Facts) -> tuple[Q, bool]:
    """Return the green speed told with the shot or today, and whether a usual one was taken."""
    green = facts.green
    told = green.stimp if green else None
    if told is None and green is not None and green.speed_word is not None:
        return green_word("speed", green.speed_word), False
    if told is None:
        told = desk.trip.day.stimp
    if told is None:
        return green_word("speed", "medium"), True
    return quantity(told, "ft"), False


def grade_of(putt: Putt, length: Q, units: Units) -> tuple[Q, bool]:
    """Return the rise towards the hole as a grade, and whether a usual one was taken."""
    if putt.slope in (None, "flat"):
        return quantity(0.0, "%"), False
    sign = -1.0 if putt.slope == "down" else 1.0
    size = putt.slope_size
    if size is None:
        slope = green_word("grade", putt.slope_word or "some")
        return quantity(sign * si(slope, "%"), "%"), putt.slope_word is None
    if size.unit in ("", "%", "deg"):
        return quantity(sign * abs(size.value), size.unit or "%"), False
    rise = si(to_quantity(size, "putt", units), "m")
    way = max(si(length, "m"), SHORTEST_M)
    return quantity(sign * 100.0 * abs(rise) / way, "%"), False


def side_of(putt: Putt, length: Q, grade: Q, stimp: Q) -> tuple[Q, bool]:
    """Return the rise to the right as a grade, and whether a usual one was taken."""
    if putt.break_to is None:
        return quantity(0.0, "%"), False
    sign = _HIGH_SIDE[putt.break_to]
    size = putt.break_size
    if size is None:
        slope = green_word("side", putt.break_word or "some")
        return quantity(sign * si(slope, "%"), "%"), putt.break_word is None
    if size.unit in ("%", "deg"):
        return quantity(sign * abs(size.value), size.unit), False
    if size.unit in ("", "ball", "cup"):
        width_in = abs(size.value) * _WIDTHS.get(size.unit, 1.0)
    else:
        width_in = abs(si(to_quantity(size, "putt", "imperial"), "in"))
    if width_in == 0.0:
        return quantity(0.0, "%"), False
    break_right = quantity(-sign * width_in, "in")
    found = side_slope_of_break(length=length, up=grade, stimp=stimp, break_right=break_right)
    return found, False
