"""Advice on a shot: the numbers behind the two lines, in the player's units, unrounded."""

from typing import Literal

from pydantic import Field

from bot.model.answer import Answer
from bot.model.base import Frozen
from bot.model.measure import Measure
from bot.model.reading import HazardKind, HazardSide, Reference, Wind


class Weighed(Frozen):
    """One swing at its best aim; offsets are right positive, at the distance `seen_at`."""

    club: str
    swing: str
    carry: Measure
    total: Measure
    start: Measure
    finish: Measure
    seen_at: Measure
    start_from_middle: Measure
    finish_from_middle: Measure
    half_width: Measure
    strokes: float
    chances: dict[str, float]
    left: Measure
    past_front: float
    par_or_better: float | None = None
    double_or_worse: float | None = None


class PlaysAs(Frozen):
    """The calm, level number, and the parts that add up to it from the distance told."""

    total: Measure
    wind: Measure
    height: Measure
    air: Measure
    lie: Measure
    thumb: Measure  # what rules of thumb would say; for comparison only
    beyond: bool = False


class Change(Frozen):
    """A fact that would change the choice, and to what."""

    fact: Literal["wind_less", "wind_more", "shorter", "longer"]
    by: Measure
    club: str
    swing: str


class NotedTrouble(Frozen):
    """Trouble from the hole's notes, from the ball on; `name` is its name among the chances."""

    name: str
    kind: HazardKind
    side: HazardSide | None = None
    start: Measure | None = None
    end: Measure | None = None


class UsedNotes(Frozen):
    """Which hole's notes the advice reckons with, and what of them mattered."""

    hole: int
    trouble: tuple[NotedTrouble, ...]


class ShotAdvice(Answer):
    """Which club, how, and where to start it; `ask` says whether `why` was asked."""

    kind: Literal["shot"] = "shot"
    shot_kind: str
    distance: Measure
    reference: Reference = "pin"
    plays: PlaysAs | None = None
    best: Weighed
    others: tuple[Weighed, ...] = ()
    compared: tuple[Weighed, ...] = ()  # what the player asked to have weighed
    near: bool = False
    in_reach: bool = True
    pin_from_middle: Measure
    wind: Wind | None = None
    of_day: bool = False  # that wind is the day's
    day_now: bool = False  # and was not told with this shot
    day_was: Wind | None = None  # the day's wind, where the one told for this shot is another
    troubles: dict[str, str] = Field(default_factory=dict)  # name in `chances` -> side
    assumed: tuple[str, ...] = ()
    carried: tuple[str, ...] = ()
    unread: tuple[str, ...] = ()
    rise: Measure | None = None  # height taken where only up (+) or down (-) was told
    left_out: tuple[str, ...] = ()  # told and understood, but without weight in the model
    guessed_bag: bool = False
    blocked: bool = False  # trees between ball and target
    shut: bool = False  # told that there is no way but sideways
    sideways: float | None = None  # strokes of coming out sideways
    short_of: str = ""  # name of trouble ahead that the choice stays short of
    liked: bool = False  # leaves the yardage the player likes
    card: bool = False  # doubles weigh more: the player protects a card
    ask: Literal["", "compare", "why_not", "reach", "what_if", "miss"] = ""
    missed: dict[str, float] = Field(default_factory=dict)  # side -> strokes from beside there
    about: str = ""  # kind of told trouble that was asked about
    refused: dict[str, str] = Field(default_factory=dict)  # club -> why it cannot be used
    farthest: Weighed | None = None
    leave: Measure | None = None  # what the player wants left
    leaving: Weighed | None = None  # the swing that leaves nearest to it
    other_way: Weighed | None = None  # laying up where going was chosen, or going
    notes: UsedNotes | None = None  # of the hole, where they mattered
    changes: tuple[Change, ...] = ()  # what would change the choice
    explain: bool = False


class NoBagYet(Answer):
    """A shot of somebody whose clubs are not known: what it plays for an average player."""

    kind: Literal["no_bag"] = "no_bag"
    distance: Measure
    plays: PlaysAs
