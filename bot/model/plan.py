"""A plan made before the round, and answers about it and about the notes of a course."""

from __future__ import annotations

from datetime import datetime
from typing import ClassVar, Literal

from pydantic import Field

from bot.model.answer import Answer
from bot.model.base import Frozen
from bot.model.measure import Measure
from bot.model.state import Document, HoleNote

Condition = Literal["calm", "into", "down", "today"]
Miss = Literal["left", "right", "short", "long"]


class PlannedShot(Frozen):
    """One shot: `aside` right of the pin if it gets home, else of the middle of the hole."""

    club: str
    swing: str
    total: Measure
    aside: Measure
    left: Measure
    strokes: float


class Dear(Frozen):
    """A miss that costs more than the others, and how many strokes more."""

    side: Miss
    strokes: float


class Conditions(Frozen):
    """How a hole is played in one condition, and what to expect of it."""

    condition: Condition
    strokes: float
    par_or_better: float
    double_or_worse: float
    tee: PlannedShot
    other: PlannedShot | None = None
    next: PlannedShot | None = None
    go: PlannedShot | None = None
    lay: PlannedShot | None = None
    liked: PlannedShot | None = None
    chance: dict[str, float] = Field(default_factory=dict)
    off_tee: Dear | None = None
    at_green: Dear | None = None


class PlannedHole(Frozen):
    """A hole of the plan; the first of its conditions is the day's, or calm."""

    number: int
    par: int
    length: Measure
    stroke_index: int | None = None
    received: int | None = None
    fairway_half: Measure
    conditions: tuple[Conditions, ...]
    assumed: tuple[str, ...] = ()
    text: str = ""


class ClubToday(Frozen):
    """What a club carries in the day's air: calm, into and down the plan's wind."""

    club: str
    calm: Measure
    into: Measure
    down: Measure


class Plan(Document):
    """A player's plan for a course: ids are chat, player and the course's key."""

    shelf: ClassVar[str] = "plan"
    course: str = ""
    tee: str = ""
    made_at: datetime | None = None
    made_for: str = ""  # what it was worked out from; another value is another plan
    profile_version: int = 0
    wind: str = ""  # of the day, as the sheet says it
    wind_speed: Measure | None = None  # of the into and down columns
    holes: dict[int, PlannedHole] = Field(default_factory=dict)
    lacks: tuple[str, ...] = ()
    clubs: tuple[ClubToday, ...] = ()
    target: int | None = None  # plays to handicap
    usual: int | None = None  # the average round at that handicap
    tees: tuple[int, int] | None = None  # yards of a course that suits the player's drive
    drive: Measure | None = None


class NoteKept(Answer):
    """A hole's notes as they stand after a change, and what is wrong with them."""

    advice: ClassVar[bool] = False
    kind: Literal["note_kept"] = "note_kept"
    hole: int
    note: HoleNote
    was: str = ""  # who had written what this changes, if somebody else
    problem: str = ""
    undone: bool = False


class HoleShown(Answer):
    """The notes of a hole."""

    advice: ClassVar[bool] = False
    kind: Literal["hole_shown"] = "hole_shown"
    hole: int
    note: HoleNote


class CourseShown(Answer):
    """Which holes of a course have notes."""

    advice: ClassVar[bool] = False
    kind: Literal["course_shown"] = "course_shown"
    course: str
    tee: str
    holes: tuple[int, ...]
    par: int | None = None
    problems: tuple[str, ...] = ()


class HolePlanned(Answer):
    """A hole's plan, whole, as it was made; see `Plan`.

    Not advice in the sense of the Rules: it was written before the round (4.3a) and is given
    back as it was. Whether it may be given back in this chat, its turn decides.
    """

    advice: ClassVar[bool] = False
    kind: Literal["hole_planned"] = "hole_planned"
    planned: PlannedHole
    made_at: datetime


class RoundPlanned(Answer):
    """A whole plan in two lines, or its sheet line by line; see `HolePlanned`."""

    advice: ClassVar[bool] = False
    kind: Literal["round_planned"] = "round_planned"
    plan: Plan
    sheet: bool = False
