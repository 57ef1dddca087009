"""The documents the bot keeps: each is one JSON text under one key.

A document is never changed in place: a turn puts a new one. `schema_number` is raised
with a migration when a field changes its meaning.
"""

from __future__ import annotations

from datetime import datetime
from typing import ClassVar, Literal, Self

from pydantic import Field

from bot.model.base import Frozen
from bot.model.ground import HoleMap
from bot.model.measure import Measure
from bot.model.reading import Air, Expecting, Facts, Green, Hazard, Hole, Shape, Shot, Side, Wind

Units = Literal["imperial", "metric"]
Source = Literal["told", "guessed", "learned"]


class Document(Frozen):
    """A stored document; `shelf` is the first part of its key, `ids` name the rest."""

    shelf: ClassVar[str]
    schema_number: int = 1
    ids: tuple[str, ...]

    @classmethod
    def new(cls, *ids: str) -> Self:
        """An empty document under these ids."""
        return cls(ids=ids)


class ClubFact(Frozen):
    """What is known of one club: only what was told or learned; the rest is worked out."""

    name: str
    carry: Measure | None = None
    carry_source: Source = "told"
    best_ever: bool = False  # `carry` was told as the longest one, not the usual one
    told_carry: Measure | None = None  # what was told before `carry` was learned
    total: Measure | None = None  # told with roll
    loft_deg: float | None = None
    spread_long: float | None = None  # share of the carry
    spread_side_deg: float | None = None
    lean_deg: float | None = None
    mishit: float | None = None
    shots: int = 0  # solid shots behind a learned value
    learned: tuple[str, ...] = ()  # names of the other values that were learned


class Profile(Frozen):
    """What a player has told, or let be learned, about themselves. Each change is a version."""

    version: int = 0
    hand: Side | None = None
    handicap: float | None = None
    usual_score: int | None = None
    speed: Measure | None = None  # driver clubhead speed
    clubs: tuple[ClubFact, ...] = ()
    without: tuple[str, ...] = ()  # clubs a usual bag has and this one has not
    shape: Shape | None = None
    miss: Literal["left", "right", "both", "short", "long", "fat", "thin"] | None = None
    leave: Measure | None = None  # full-swing yardage liked
    swings: tuple[str, ...] | None = None
    wind_feel: float = 1.0  # true wind over called wind, learned
    height_feel: float = 1.0
    putt_line_deg: float | None = None  # spread of the start line of putts, learned
    putt_pace: float | None = None  # spread of the roll of putts over the roll, learned
    good_ones: bool = False  # told carries are the player's good ones, not the average
    learned: tuple[str, ...] = ()  # names of the values above that were learned


class Player(Document):
    """One person, the same in every chat."""

    shelf: ClassVar[str] = "player"
    name: str = ""
    units: Units | None = None
    profile: Profile = Profile()
    protect_card: bool = False
    learn_by_itself: bool = False
    tempo: Literal["short", "full"] = "short"
    helpers: tuple[str, ...] = ()  # player ids allowed to ask and set up for this one
    invited: bool = False
    setup: str | None = None  # question of the setting-up that is open
    setup_skipped: tuple[str, ...] = ()
    playing: str | None = None  # id of the round this player is in, in whatever chat


class Told(Frozen):
    """A fact with the moment it was told, so that it can grow old."""

    facts: Facts = Facts()
    at: datetime | None = None


class Memory(Document):
    """What one player said last in one chat: ids are chat and player."""

    shelf: ClassVar[str] = "memory"
    shot: Facts = Facts()  # the shot being talked about, merged
    shot_kind: str = "shot"
    shot_at: datetime | None = None
    hole: int | None = None  # hole the talk is on, in a round
    expecting: Expecting | None = None  # open question
    asked_for: Facts | None = None  # facts waiting for the answer
    doubtful: Shot | None = None  # a number that may be the wind as well as the way left
    asked_this_hole: int = 0
    last_answer: str | None = None  # message id of the last advice
    asked_what: str | None = None  # what an open yes or no is about
    rules_topic: str | None = None  # last topic of the Rules, for "more"
    forget_asked: datetime | None = None
    open_shot: str | None = None  # message id of advice whose result is not known yet
    asked_result: str | None = None  # the same of advice whose result was asked for


class DayFacts(Frozen):
    """Conditions that stay: shared in a chat."""

    wind: Wind | None = None
    wind_bearing_deg: float | None = None  # bearing of the hole the wind was told on
    air: Air | None = None
    stimp: float | None = None
    turf: Literal["soft", "normal", "firm", "baked"] | None = None
    metar: str | None = None
    at: datetime | None = None


class Trip(Document):
    """What everybody in one chat shares: id is the chat."""

    shelf: ClassVar[str] = "trip"
    day: DayFacts = DayFacts()
    members: tuple[str, ...] = ()  # player ids
    names: dict[str, str] = Field(default_factory=dict)  # player id -> name shown here
    round: str | None = None  # round being played
    course: str | None = None
    tee: str | None = None
    courses: tuple[tuple[str, str], ...] = ()  # name and tees of the courses with notes here
    thunder_at: datetime | None = None  # last thunder or flash told


class HoleNote(Frozen):
    """What is known of a hole, as told or imported."""

    hole: Hole
    turn_deg: float | None = None  # how far the hole bends, where known
    climb: Measure | None = None  # tee to green, up positive
    hazards: tuple[Hazard, ...] = ()
    green: Green | None = None
    map: HoleMap | None = None
    text: str = ""
    by: str = ""  # name of who changed it last


class Course(Document):
    """Notes of a course from one set of tees: ids are owner (a chat) and name/tee."""

    shelf: ClassVar[str] = "course"
    name: str = ""
    tee: str = ""
    country: str | None = None  # ISO 3166-1 code
    rating: float | None = None
    slope: int | None = None
    holes: dict[int, HoleNote] = Field(default_factory=dict)


class HoleScore(Frozen):
    """A player's score on a hole."""

    strokes: int | None = None
    putts: int | None = None
    picked_up: bool = False


class Played(Document):
    """A round: id is the round's own id. `scores` by player id and hole."""

    shelf: ClassVar[str] = "round"
    chat: str = ""
    course: str | None = None
    tee: str | None = None
    kind: Literal["practice", "rules"] | None = None
    kind_fixed: bool = False
    holes: int = 18
    hole: int | None = None
    players: tuple[str, ...] = ()
    scores: dict[str, dict[int, HoleScore]] = Field(default_factory=dict)
    done: tuple[str, ...] = ()  # players whose round is over
    charts: dict[str, Profile] = Field(default_factory=dict)  # as before the first stroke
    notes: dict[int, HoleNote] = Field(default_factory=dict)  # as before the first stroke
    told: dict[int, Hole] = Field(default_factory=dict)  # par and index said in the round
    been: dict[str, int] = Field(default_factory=dict)  # hole each last named or played on
    started_at: datetime | None = None
    ended_at: datetime | None = None
