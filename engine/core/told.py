"""Which scene do a few told facts make? Defaults for everything that was not said."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace
from typing import Literal

from engine.core.pattern import Lie
from engine.core.scene import Kind, Scene, Trouble
from engine.core.shapes import Band, Bend, Oval, Shape, Strip

Side = Literal["left", "right", "short", "long", "across"]

# Judgement, stated to the player where it matters.
DEEP_M, WIDE_M = 26.0, 22.0  # a green nobody described
FROM_EDGE_M = 4.6  # a tucked pin stands five paces in (common practice, no source)
BEND_AT, TURN_RAD = 0.6, math.radians(35.0)  # of the length; a bend told by side only
FAIRWAY_M = 30.0
FAIRWAY_FROM_TEE_M = 80.0
# Mean unknown gap from the green, from the fairway; width (0 = to the end of the world). [m]
GAPS: dict[Kind, tuple[float, float, float]] = {
    "penalty": (6.0, 8.0, 0.0),
    "out": (14.0, 14.0, 0.0),
    "trees": (10.0, 9.0, 0.0),
    "sand": (2.5, 2.5, 10.0),
    "heavy": (5.0, 6.0, 0.0),
}
ACROSS_M: dict[Kind, float] = {
    "penalty": 18.0, "out": 25.0, "trees": 25.0, "sand": 10.0, "heavy": 25.0,
}  # fmt: skip
BUNKER_M = 14.0  # a fairway bunker told by one number
SHORT_GAP_M, LONG_GAP_M = 5.0, 6.0
ALONG_GREEN_M: dict[Kind, tuple[float, float]] = {  # before and past the pin
    "penalty": (45.0, 28.0), "out": (90.0, 60.0), "trees": (70.0, 40.0), "sand": (16.0, 12.0),
    "heavy": (40.0, 30.0),
}  # fmt: skip


@dataclass(frozen=True, slots=True)
class ToldTrouble:
    """One piece of trouble as told.

    Attributes
    ----------
    name : str
        What to call it in results.
    kind : Kind
        What it does to a ball.
    side : Side
        Where it is, facing the target.
    from_m, to_m : float or None
        Where it starts and ends, from the ball along the line. [m]
    gap_m : float or None
        Told set-off of its near edge. [m]
    gap_of : {"edge", "line"}
        From the edge of the green or fairway, or from the line to the pin.
    shift_m : float
        How much farther out it lies than that, nearer negative. [m]
    """

    name: str
    kind: Kind
    side: Side
    from_m: float | None = None
    to_m: float | None = None
    gap_m: float | None = None
    gap_of: Literal["edge", "line"] = "edge"
    shift_m: float = 0.0


@dataclass(frozen=True, slots=True)
class Told:
    """What was told of a shot; None is unknown.

    Attributes
    ----------
    pin_m : float
        To the pin, or what is left of the hole along its line. [m]
    front_m, back_m : float or None
        To the front and back edge of the green. [m]
    width_m : float or None
        Across the green. [m]
    pin_across, pin_along : float or None
        Where the pin stands on the green, -1 (left, front) to +1 (right, back), 0 middle.
    lie : Lie
        What the ball lies on.
    in_reach : bool
        Whether this player can think of the green from here.
    trouble : tuple of ToldTrouble
        What to keep out of.
    fairway_m : float or None
        Width of the fairway. [m]
    bend : int
        Side the hole bends to, right positive, 0 straight.
    bend_m : float or None
        Where it bends, from the ball. [m]
    """

    pin_m: float
    front_m: float | None = None
    back_m: float | None = None
    width_m: float | None = None
    pin_across: float | None = None
    pin_along: float | None = None
    lie: Lie = "fairway"
    in_reach: bool = True
    trouble: tuple[ToldTrouble, ...] = ()
    fairway_m: float | None = None
    bend: int = 0
    bend_m: float | None = None


def scene_of(told: Told, *, turn_rad: float = TURN_RAD) -> tuple[Scene, tuple[str, ...]]:
    """Return the scene, and the names of what was assumed.

    Parameters
    ----------
    told : Told
        What was said.
    turn_rad : float
        How much a bent hole bends. [rad]

    Returns
    -------
    tuple of (Scene, tuple of str)
        ``depth``, ``width``, ``pin``, ``bend``, and ``gap:NAME`` of a trouble told by its
        side only.
    """
    assumed: list[str] = []
    bend = Bend()
    pin = (told.pin_m, 0.0)
    if told.bend:
        at = told.bend_m
        if at is None:
            at = BEND_AT * told.pin_m
            assumed.append("bend")
        turn = turn_rad * told.bend
        rest = max(told.pin_m - at, 0.0)
        bend = Bend(at, turn)
        pin = (at + rest * math.cos(turn), rest * math.sin(turn))
    green = _green(told, pin, assumed)
    half = 0.5 * (told.fairway_m or FAIRWAY_M)
    trouble = tuple(
        Trouble(t.name, t.kind, _shape(t, told, green, half, bend, assumed)) for t in told.trouble
    )
    scene = Scene(
        pin_m=pin,
        green=green,
        trouble=trouble,
        lie=told.lie,
        fairway_half_m=half,
        fairway_from_m=FAIRWAY_FROM_TEE_M if told.lie == "tee" and not told.in_reach else 0.0,
        bend=bend,
    )
    return scene, tuple(assumed)


def straightened(told: Told, *, turn_rad: float = TURN_RAD) -> Told:
    """Return what was told along a bent hole as seen along the straight way to its pin.

    Parameters
    ----------
    told : Told
        A ball that can reach the green past a bend ahead of it.
    turn_rad : float
        How much the hole bends. [rad]

    Returns
    -------
    Told
        Without the bend. Trouble on its inside comes nearer, by as much as that way cuts off
        the corner at most where the trouble lies; on its outside it goes farther off, by the
        least.
    """
    at, bend = told.bend_m, told.bend
    rest = told.pin_m - (at or 0.0)
    if not bend or at is None or at <= 0.0 or rest <= 0.0:
        return replace(told, bend=0)
    straight = math.hypot(at + rest * math.cos(turn_rad), rest * math.sin(turn_rad))
    corner = at * rest * math.sin(turn_rad) / straight

    def cut(along_m: float) -> float:
        return corner * max(min(along_m / at, (told.pin_m - along_m) / rest), 0.0)

    def seen(t: ToldTrouble) -> ToldTrouble:
        if t.side not in ("left", "right") or (t.from_m is None and t.to_m is None):
            return t
        first = max(t.from_m or 0.0, 0.0)
        last = told.pin_m if t.to_m is None else t.to_m
        if (t.side == "right") != (bend > 0):
            return replace(t, shift_m=min(cut(first), cut(last)))
        return replace(t, shift_m=-cut(min(max(at, first), last)))

    return replace(told, bend=0, trouble=tuple(seen(t) for t in told.trouble))


def _green(told: Told, pin: tuple[float, float], assumed: list[str]) -> Oval:
    """Return the green as an oval round what is known of it."""
    deep, wide = DEEP_M, told.width_m or WIDE_M
    if told.width_m is None:
        assumed.append("width")
    if told.front_m is not None and told.back_m is not None:
        deep = max(told.back_m - told.front_m, 2.0)
    else:
        assumed.append("depth")
    if told.pin_across is None and told.pin_along is None and told.front_m is None:
        assumed.append("pin")
    along = told.pin_along or 0.0
    if told.front_m is not None and told.back_m is not None:
        past = 0.5 * (told.front_m + told.back_m) - told.pin_m
    elif told.front_m is not None:
        past = told.front_m + 0.5 * deep - told.pin_m
    elif told.back_m is not None:
        past = told.back_m - 0.5 * deep - told.pin_m
    else:
        past = -along * max(0.5 * deep - FROM_EDGE_M, 0.0)
    off = -(told.pin_across or 0.0) * max(0.5 * wide - FROM_EDGE_M, 0.0)
    return Oval(pin[0] + past, pin[1] + off, 0.5 * deep, 0.5 * wide)


def _shape(
    t: ToldTrouble, told: Told, green: Oval, half_m: float, bend: Bend, assumed: list[str]
) -> Shape:
    """Return where a told trouble lies."""
    if t.side in ("left", "right"):
        return _strip(t, told, green, half_m, bend, assumed)
    near_green = told.in_reach and t.from_m is None and t.to_m is None
    front, back = green.x_m - green.long_m, green.x_m + green.long_m
    across = green.wide_m if near_green and t.kind == "sand" else math.inf
    ends = half_m if t.kind == "sand" and t.gap_of == "line" else math.inf  # bunkers end
    left, right = green.y_m - across, green.y_m + across
    if t.side == "long":
        if t.from_m is not None:
            return Band(t.from_m, t.to_m or math.inf, 0.0, -ends, ends, bend)
        if t.gap_m is None:
            assumed.append(f"gap:{t.name}")
        end = back + 2.0 + ACROSS_M["sand"] if t.kind == "sand" else math.inf
        if t.kind == "sand":
            return Band(back + (t.gap_m or 2.0), end, left_m=left, right_m=right)
        if t.gap_m is not None:
            return Band(back + t.gap_m)
        return Band(back, guess_m=LONG_GAP_M)
    if t.from_m is not None and t.to_m is not None:
        return Band(min(t.from_m, t.to_m), max(t.from_m, t.to_m), 0.0, -ends, ends, bend)
    if t.from_m is not None:
        return Band(t.from_m, t.from_m + ACROSS_M[t.kind], 0.0, -ends, ends, bend)
    if t.to_m is not None:
        return Band(t.to_m - ACROSS_M[t.kind], t.to_m, 0.0, -ends, ends, bend)
    gap = t.gap_m
    if gap is None:
        assumed.append(f"gap:{t.name}")
        gap = 2.0 if t.kind == "sand" else SHORT_GAP_M
    to = front - gap
    return Band(to - ACROSS_M[t.kind], to, left_m=left, right_m=right)


def _strip(
    t: ToldTrouble, told: Told, green: Oval, half_m: float, bend: Bend, assumed: list[str]
) -> Strip:
    """Return a trouble along one side, by the green or by the fairway."""
    side = 1 if t.side == "right" else -1
    before, past = ALONG_GREEN_M[t.kind]
    nowhere = t.from_m is None and t.to_m is None
    by_green = told.in_reach and (t.from_m is None or t.from_m > green.x_m - 60.0)
    by_green = by_green or (nowhere and t.kind == "sand")  # as bunkers mostly are
    gap_green, gap_way, wide = GAPS[t.kind]
    if by_green:
        edge, guess = side * green.y_m + green.wide_m, gap_green
        lo = green.x_m - before if t.from_m is None else t.from_m
        hi = green.x_m + past if t.to_m is None else t.to_m
        bend = Bend()
    else:
        edge, guess = half_m, gap_way
        lo = -math.inf if t.from_m is None else t.from_m
        hi = math.inf if t.to_m is None else t.to_m
        if t.kind == "sand" and t.from_m is not None and t.to_m is None:
            hi = t.from_m + BUNKER_M
        if t.kind == "sand" and t.to_m is not None and t.from_m is None:
            lo = t.to_m - BUNKER_M
    if t.gap_m is not None:
        edge, guess = (t.gap_m if t.gap_of == "line" else edge + t.gap_m), 0.0
    else:
        assumed.append(f"gap:{t.name}")
    return Strip(side, edge + t.shift_m, guess, wide or math.inf, lo, hi, bend)
