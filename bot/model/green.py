"""Answers on and round the green."""

from typing import ClassVar, Literal

from bot.model.answer import Answer
from bot.model.base import Frozen
from bot.model.measure import Measure
from bot.model.reading import Side

ChipHow = Literal["putter", "bump", "chip", "pitch", "flop", "splash", "blast"]
ChipAssumed = Literal["lie", "edge", "stimp", "grade", "side"]
ChipRefusal = Literal[
    "distance", "edge", "steep", "slope", "no_club", "no_shot", "speed", "height"
]
Refusal = Literal["length", "steep", "slope", "speed", "break", "no_line", "wind"]
Assumed = Literal["stimp", "level", "straight", "grade", "side", "tier", "along"]


class PuttAdvice(Answer):
    """Line and pace of a putt. Sides are the player's, facing the hole; right is positive."""

    kind: Literal["putt"] = "putt"
    length: Measure
    aim: Measure  # in inches from the middle of the hole
    aim_far: Measure  # the same in the player's unit, for wide ones
    pace: Measure  # level putt that needs the same hit
    breaks: Side | None
    second_breaks: Side | None = None
    one: float  # chance to hole it
    three: float  # chance to need three or more
    expected: float
    past: Measure  # where it is meant to stop without a hole
    firm: Measure  # how far off one hit too hard stops
    grade: Measure  # up positive, per cent
    side: Measure  # rise to the right, per cent
    stimp: float
    wind_aim: Measure = Measure(value=0.0, unit="in")  # what a told wind adds to the aim
    wind_pace: Measure = Measure(value=0.0, unit="ft")  # and to the pace
    assumed: tuple[Assumed, ...] = ()
    asks: bool = False  # worked out as if level; the slope is worth asking for


class PuttRefused(Answer):
    """A putt that cannot be: what is out of range, what was given and what would do."""

    urgency: ClassVar[int] = 2
    kind: Literal["putt_refused"] = "putt_refused"
    why: Refusal
    given: float = 0.0
    most: float = 0.0


class PuttWhy(Answer):
    """The parts behind a putt's advice."""

    kind: Literal["putt_why"] = "putt_why"
    putt: PuttAdvice
    climb: Measure  # what up or down adds to the pace


class ChipPick(Frozen):
    """One way to play a short shot. For the putter `carry` is the level putt to hit."""

    how: ChipHow
    club: str
    carry: Measure
    on: Measure  # how far onto the green it lands
    run: Measure
    past: Measure  # where it is meant to stop, beyond the hole
    expected: float
    saves: float  # chance of two strokes or fewer
    short: float  # chance to come up short of the green


class ChipAdvice(Answer):
    """How to play a shot from beside the green."""

    kind: Literal["chip"] = "chip"
    distance: Measure
    lie: str
    best: ChipPick
    other: ChipPick | None = None  # best of the other sort: lofted against putter
    asked: ChipPick | None = None  # what the player asked about, if it is not the best
    more: tuple[ChipPick, ...] = ()
    green_from: Measure  # where the green begins
    over: bool = False
    grade: Measure = Measure(value=0.0, unit="%")  # up positive
    side: Measure = Measure(value=0.0, unit="%")  # rise to the right
    breaks: Side | None = None
    aim: Measure | None = None  # where to start it on a side slope: inches from the hole
    aim_far: Measure | None = None  # the same in the player's unit
    assumed: tuple[ChipAssumed, ...] = ()
    left_out: tuple[str, ...] = ()  # told, and not in the numbers: "wind", "water long"
    not_offered: tuple[str, ...] = ()  # clubs and ways asked about that cannot be played there
    unread: tuple[str, ...] = ()
    explain: bool = False


class ChipRefused(Answer):
    """A short shot that cannot be."""

    urgency: ClassVar[int] = 2
    kind: Literal["chip_refused"] = "chip_refused"
    why: ChipRefusal
    most: float = 0.0
