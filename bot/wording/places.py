"""Where a ball is started or should finish, in a caddie's words."""

from __future__ import annotations

from bot.model.advice import ShotAdvice
from bot.model.measure import Measure
from bot.wording.numbers import whole

AT = 1.5  # yards or metres taken for the spot itself
NEAR = 2.5  # from an edge
SHORT = 0.25  # chance to reach the front below which the green's marks mean little


def on_green(offset: Measure, advice: ShotAdvice) -> str:
    """Return where a line crosses the green: by the flag, its edges or the middle."""
    off, half = offset.value, advice.best.half_width.value
    middle = -advice.pin_from_middle.value
    from_middle = off - middle
    side = "right" if from_middle > 0 else "left"
    if abs(off) < AT:
        return "flag line" if advice.best.past_front < SHORT else "flag"
    if advice.best.past_front < SHORT:
        return f"{_by(abs(off), 'right' if off > 0 else 'left')} of the flag"
    if abs(abs(from_middle) - half) <= NEAR:
        return f"{side} edge"
    if abs(from_middle) > half:
        return f"{_by(abs(from_middle) - half, side)} of the green"
    if abs(middle) >= 2 * AT and off * middle > 0:
        share = off / middle
        if abs(from_middle) < AT:
            return "middle of the green"
        if 0.3 < share < 0.75:
            return "half-way to the middle"
    return f"{_by(abs(off), 'right' if off > 0 else 'left')} of the flag"


def on_fairway(from_middle: Measure, half_width: Measure) -> str:
    """Return where a line crosses the fairway: its middle, a half, an edge or past it."""
    off, half = from_middle.value, half_width.value
    side = "right" if off > 0 else "left"
    if abs(off) < 2 * AT:
        return "middle"
    if abs(abs(off) - half) <= 2 * NEAR:
        return f"{side} edge"
    if abs(off) < half:
        return f"{side} half"
    return f"{_by(abs(off) - half, side)} of the fairway"


def _by(length: float, side: str) -> str:
    return f"{whole(Measure(value=length, unit='yd'))} {side}"
