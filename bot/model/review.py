"""What was played, looked back on: strokes lost by hole, part and cause, unrounded."""

from __future__ import annotations

from datetime import datetime
from typing import ClassVar, Literal

from bot.model.answer import Answer
from bot.model.base import Frozen
from bot.model.golfer import Changed
from bot.model.measure import Measure
from bot.model.reading import Aim

Part = Literal["tee", "approach", "short", "putting"]
Cause = Literal["", "club", "swing", "side", "hero"]
PARTS: tuple[Part, ...] = ("tee", "approach", "short", "putting")


class LegShown(Frozen):
    """A stroke, or several that nothing is known between; losses are positive."""

    hole: int
    first: int  # number of its first stroke on the hole
    made: int
    penalty: int
    part: Part
    before: float  # expected strokes with the best on offer
    played: float
    after: float
    club: str = ""
    told: str = ""  # where it went, a word or two
    cause: Cause = ""  # how the choice departed from the advice
    advised: str = ""  # club of the advice
    asked: bool = False
    taken: bool | None = None  # whether the advice was taken, None where nobody can say
    choice: float = 0.0
    aimed: Aim | None = None  # as told
    aim: float = 0.0  # of the choice, what the aim cost against the best one of that swing
    execution: float = 0.0
    untold: bool = False  # strokes only the score knows of

    @property
    def causes(self) -> tuple[tuple[Cause, float], ...]:
        """What the choice cost, by cause; the parts add up to it where it has a cause."""
        if not self.cause:
            return ()
        if self.cause == "side" or not self.aim:
            return ((self.cause, self.choice),)
        return ((self.cause, self.choice - self.aim), ("side", self.aim))


class HoleShown(Frozen):
    """A hole: score, what was to be expected, and its legs in order."""

    hole: int
    par: int | None = None
    score: int
    expected: float
    planned: float | None = None  # by the plan made before the round
    legs: tuple[LegShown, ...]
    doubt: bool = False  # the score and the strokes told do not agree
    length_taken: bool = False  # nobody told how long the hole is

    @property
    def lost(self) -> float:
        """Strokes over what was to be expected."""
        return self.score - self.expected


class RoundShown(Frozen):
    """One round of one player, as far as the log tells."""

    round: str
    course: str = ""
    at: datetime | None = None
    planned_at: datetime | None = None  # when the plan was made that it is held against
    holes: tuple[HoleShown, ...] = ()
    unscored: tuple[int, ...] = ()  # holes with strokes told and no score
    picked_up: tuple[int, ...] = ()
    blank: tuple[int, ...] = ()  # scored, but not a stroke told
    under_rules: bool = False


class Sum(Frozen):
    """Strokes lost by some legs."""

    choice: float = 0.0
    execution: float = 0.0
    penalty: float = 0.0
    legs: int = 0

    @property
    def total(self) -> float:
        """All three together."""
        return self.choice + self.execution + self.penalty


class Followed(Frozen):
    """Whether advice was taken, and what departing from it cost in expectation."""

    asked: int = 0
    taken: int = 0
    cost: float = 0.0  # of departures that were dearer
    gained: float = 0.0  # of those that were cheaper
    departures: tuple[LegShown, ...] = ()


class Trouble(Frozen):
    """A double bogey or worse, and the stroke where it began."""

    hole: int
    over: int
    began: LegShown | None = None


class ClubMisses(Frozen):
    """Where the shots of a club went, by what was told of them."""

    club: str
    shots: int
    solid: int
    short: int
    pin_high: int
    long: int
    left: int
    right: int
    stored: Measure | None = None
    centre: Measure | None = None  # mean carry of solid shots with a known length
    spread: Measure | None = None  # their standard deviation


class ClubPattern(Frozen):
    """Where a club's shots finished against its stored pattern, in the player's unit.

    `dots` are (side, length) against the line meant and the stored carry, calm and level.
    """

    club: str
    unit: str
    carry: float
    long: float  # standard deviation of the stored pattern, along the line
    side: float  # the same, across it
    lean: float  # where the stored pattern's middle lies, right positive
    dots: tuple[tuple[float, float], ...]
    rough: tuple[bool, ...]  # for each dot, whether only the sense of it was told
    undrawn: int = 0  # shots told too roughly to be drawn


class Coaching(Frozen):
    """One thing a coach would say, with the number it rests on."""

    about: Literal["keep", "choices", "practise"]
    what: str  # names a wording
    part: str = ""
    club: str = ""
    way: Literal["", "less", "more"] = ""  # club than was advised
    value: float = 0.0
    penalty: float = 0.0  # of the value
    count: int = 0
    of: int = 0


class ReviewShown(Answer):
    """A look back on rounds; `part` is what was asked for, empty for the summary."""

    kind: Literal["review"] = "review"
    part: str = ""
    player: str = ""  # name, for the page's head
    rounds: tuple[RoundShown, ...]
    total: Sum
    by_part: dict[str, Sum]
    by_cause: dict[str, float]  # cost of choices by cause
    followed: Followed
    troubles: tuple[Trouble, ...] = ()
    clubs: tuple[ClubMisses, ...] = ()
    patterns: tuple[ClubPattern, ...] = ()
    drifted: tuple[Changed, ...] = ()
    coach: tuple[Coaching, ...] = ()


class NothingToReview(Answer):
    """There is no round, or nothing in it to look back on."""

    advice: ClassVar[bool] = False
    kind: Literal["nothing_to_review"] = "nothing_to_review"
    why: Literal["no_round", "no_score", "no_shots", "no_hole"]
    when: str = ""
    hole: int | None = None


class FoundShot(Frozen):
    """A shot found in the log."""

    at: datetime
    hole: int
    stroke: int
    club: str
    distance: Measure | None = None
    told: str = ""


class LogFound(Answer):
    """What a search of the log found: the shots of a hole, or how often a miss came."""

    kind: Literal["log_found"] = "log_found"
    about: str
    hole: int | None = None
    club: str | None = None
    course: str = ""
    shots: tuple[FoundShot, ...] = ()
    count: int = 0
    of: int = 0


class Differs(Frozen):
    """An answer that today's engine would give otherwise."""

    hole: int | None
    of: str
    was: str
    now: str
    was_strokes: float
    now_strokes: float


class Rechecked(Answer):
    """Answers of a round worked out again from the log."""

    kind: Literal["rechecked"] = "rechecked"
    checked: int
    skipped: int = 0  # not enough is logged to work them out again
    engine_then: tuple[str, ...] = ()
    engine_now: str
    differ: tuple[Differs, ...] = ()


class Exported(Answer):
    """Everything of the player is attached, for them alone."""

    kind: Literal["exported"] = "exported"
