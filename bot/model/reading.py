"""Everything a message can mean: a tuple of acts, each with only what was said.

A field that was not said is None or empty. Numbers stay as said (`Measure`); a bare
number has the unit ``""`` and the turn settles it. Sides are the player's own, facing the
target. Wind directions are degrees clockwise from the target line, where it comes FROM.
"""

from typing import Annotated, Any, Literal

from pydantic import Field

from bot.model.base import Frozen
from bot.model.measure import Measure

Side = Literal["left", "right"]
HazardSide = Literal["left", "right", "short", "long", "cross", "both", "all"]
HazardKind = Literal[
    "water", "bunker", "ob", "trees", "penalty", "ditch", "gorse", "long_grass", "trouble",
    "drop", "path", "building",
]  # fmt: skip
Lie = Literal[
    "tee", "fairway", "first_cut", "rough", "deep_rough", "fairway_bunker", "greenside_bunker",
    "bunker", "pine_straw", "hardpan", "divot", "fringe", "green", "trees", "wet", "buried",
    "flyer", "sitting_up", "sitting_down", "above_feet", "below_feet", "upslope", "downslope",
    "water", "ob", "penalty", "lost", "path", "blocked",
]  # fmt: skip
Reference = Literal["pin", "front", "middle", "back", "green", "carry", "layup", "corner"]
PinSpot = Literal["front", "middle", "back", "left", "right", "tucked"]
Shape = Literal["straight", "draw", "fade", "hook", "slice", "push", "pull"]
SwingWord = Literal[
    "full", "smooth", "hard", "choked", "three_quarter", "half", "knocked_down", "high",
    "bump", "flop", "chip", "pitch", "splash",
]  # fmt: skip


class Span(Frozen):
    """Characters ``start`` to ``end`` of the message as it came in."""

    start: int
    end: int
    text: str


class Wind(Frozen):
    """A wind as told. `from_deg` is relative to the line, `compass` is not."""

    speed: Measure | None = None
    gust: Measure | None = None
    from_deg: float | None = None
    compass: str | None = None  # N, NNE, ... where it comes from
    across: bool = False  # said to blow across, side not said
    quartering: bool = False  # said to be at an angle, side or sense not said
    at_flag: bool = False  # told as felt at the flag, not as a forecast
    unsteady: bool = False
    # "more" and "less": its speed is by how much it is stronger or weaker than before
    change: (
        Literal[
            "same", "up", "down", "died", "half", "opposite", "mirrored", "more", "less", "double"
        ]
        | None
    ) = None


class Elevation(Frozen):
    """How far the target stands above (+1) or below (-1) the ball."""

    size: Measure | None = None  # length or per cent, never negative
    direction: Literal[-1, 0, 1] | None = None
    word: Literal["little", "big"] | None = None  # "slightly", "steeply"


class Air(Frozen):
    """Air as told."""

    temperature: Measure | None = None
    altitude: Measure | None = None
    pressure: Measure | None = None
    humidity: Measure | None = None
    rain: bool | None = None
    word: Literal["cold", "cool", "warm", "hot", "humid", "thin", "heavy"] | None = None


class Hazard(Frozen):
    """One piece of trouble. `start` is where it begins, `end` where it ends or what clears it."""

    kind: HazardKind
    side: HazardSide | None = None
    start: Measure | None = None
    end: Measure | None = None
    reach_or_carry: Measure | None = None  # a number that may be either
    corner: bool = False  # one of the two sides of one piece of trouble: "short left"
    gap: Measure | None = None  # told set-off from the target, line or green edge
    noted: bool = False  # from the hole's notes, whose gaps are from the line of the hole


class Green(Frozen):
    """The green as told."""

    depth: Measure | None = None
    width: Measure | None = None
    firmness: Literal["soft", "normal", "firm", "baked"] | None = None
    stimp: float | None = None
    speed_word: Literal["slow", "medium", "fast", "very_fast"] | None = None
    falls: Literal["front", "back", "left", "right"] | None = None


class Putt(Frozen):
    """A putt as told. `break_to` is the side the ball moves to."""

    length: Measure | None = None
    slope: Literal["up", "down", "flat"] | None = None
    slope_size: Measure | None = None
    slope_word: Literal["little", "some", "big"] | None = None
    break_to: Side | None = None
    break_size: Measure | None = None  # from the hole's middle, or per cent of side slope
    break_word: Literal["little", "some", "big"] | None = None
    second_break_to: Side | None = None


class Hole(Frozen):
    """Facts about the hole as told."""

    number: int | None = None
    par: int | None = None
    length: Measure | None = None
    stroke_index: int | None = None
    bearing_deg: float | None = None
    dogleg: Side | None = None
    dogleg_at: Measure | None = None
    dogleg_deg: float | None = None  # how far it turns, where notes know it
    fairway_width: Measure | None = None


NO_GAP = "no gap"
"""What is told beside a ball that can only come out sideways."""


class Facts(Frozen):
    """What was told of a shot to come."""

    distance: Measure | None = None
    protect: bool | None = None  # a double must be kept off the card
    reference: Reference | None = None
    front: Measure | None = None
    middle: Measure | None = None
    back: Measure | None = None
    plays_as: Measure | None = None  # the player's own slope-adjusted number
    plays_delta: Measure | None = None  # told as so much longer (+) or shorter (-) than it is
    unit: Literal["yd", "m"] | None = None  # the unit in which the last distance was meant
    farther: Measure | None = None  # told against the last distance: farther (+), nearer (-)
    wind: Wind | None = None
    elevation: Elevation | None = None
    air: Air | None = None
    lie: tuple[Lie, ...] = ()
    lie_angle: Measure | None = None
    hazards: tuple[Hazard, ...] = ()
    gone: tuple[HazardKind, ...] = ()  # trouble that is out of play or was told wrongly
    safe: tuple[HazardSide, ...] = ()
    pin: tuple[PinSpot, ...] = ()
    green: Green | None = None
    hole: Hole | None = None
    putt: Putt | None = None
    leave: Measure | None = None
    club: str | None = None
    clubs_compare: tuple[str, ...] = ()
    club_excluded: str | None = None
    swing: SwingWord | None = None
    shape: Shape | None = None
    beside: tuple[str, ...] = ()  # told and understood, but of no weight in the model: "mud"


class Shot(Frozen):
    """Ask for advice on a shot, with what was told of it."""

    act: Literal["shot"] = "shot"
    kind: Literal["shot", "tee", "layup", "recovery", "chip", "putt"] = "shot"
    facts: Facts = Facts()
    reach: bool = False  # asked whether the green can be reached, or to go or lay up
    player: str | None = None  # asked for somebody else


class FollowUp(Frozen):
    """Lean on the last shot: change some facts, or ask about its answer."""

    act: Literal["followup"] = "followup"
    ask: Literal[
        "change", "correct", "what_if", "why", "why_not", "compare", "reach", "other_reference",
        "same", "alternatives", "miss", "carry",
    ] = "change"  # fmt: skip
    facts: Facts = Facts()
    # The side taken back: "right, not left"; ``told`` is the one told before ("the other side").
    not_side: Side | Literal["told"] | None = None
    supposed: bool = False  # "and if there was no wind?": answered, and nothing of it kept
    step: int = 0  # clubs longer (+) or shorter (-) than the one advised
    player: str | None = None


class Aim(Frozen):
    """Where a shot that was played was aimed; `of` is whether its start or its finish was meant.

    `by` goes to `side` of the mark. ``other`` is a mark no scene holds, such as a tree.
    """

    at: Literal[
        "pin", "middle", "left_edge", "right_edge", "left_half", "right_half", "halfway",
        "advised", "other",
    ]  # fmt: skip
    side: Side | None = None
    by: Measure | None = None
    of: Literal["start", "finish", "either"] = "either"


class Result(Frozen):
    """What became of a shot, or of several in one breath (each a `Result`)."""

    act: Literal["result"] = "result"
    club: str | None = None
    swing: SwingWord | None = None
    carry: Measure | None = None
    total: Measure | None = None
    side: Side | None = None
    side_by: Measure | None = None
    depth: Literal["short", "pin_high", "long"] | None = None
    by: Measure | None = None
    contact: (
        Literal["solid", "thin", "fat", "top", "shank", "toe", "heel", "sky", "whiff"] | None
    ) = None
    curve: Shape | None = None
    lie: tuple[Lie, ...] = ()
    proximity: Measure | None = None
    penalty: int | None = None
    holed: bool | None = None
    conceded: bool | None = None
    provisional: bool | None = None
    putts: int | None = None
    putt: bool = False  # this result is of a putt
    left: Measure | None = None  # still to go to the pin
    aim: Aim | None = None
    implied: bool = False  # worked out from the next message, not told
    player: str | None = None


class Score(Frozen):
    """A score for a hole: a number, or a word relative to par, or a pick-up."""

    act: Literal["score"] = "score"
    hole: int | None = None
    strokes: int | None = None
    to_par: int | None = None
    putts: int | None = None
    picked_up: bool = False
    again: bool = False  # puts right the score told last
    was: int | None = None  # strokes told before, which this takes back: "7 not 6"
    bare: bool = False  # a number put right, which may be that of a club
    player: str | None = None


class Profile(Frozen):
    """Tell something about the player or the bag."""

    act: Literal["profile"] = "profile"
    intent: Literal[
        "show", "set_club", "add_club", "remove_club", "set_shape", "set_miss", "set_leave",
        "set_handicap", "set_hand", "set_units", "set_speed", "set_swing", "set_name",
        "set_tempo", "set_card", "start_setup", "skip", "allow", "disallow",
    ]  # fmt: skip
    club: str | None = None
    carry: Measure | None = None
    total: Measure | None = None
    loft: Measure | None = None
    best_ever: bool = False  # told as the longest one, not the usual one
    shape: Shape | None = None
    miss: Literal["left", "right", "both", "short", "long", "fat", "thin"] | None = None
    leave: Measure | None = None
    handicap: float | None = None
    usual_score: int | None = None
    hand: Side | None = None
    units: Literal["imperial", "metric"] | None = None
    speed: Measure | None = None
    swing: SwingWord | None = None
    owns: bool | None = None
    name: str | None = None
    choice: str | None = None
    player: str | None = None


class Round(Frozen):
    """Start, steer or end a round."""

    act: Literal["round"] = "round"
    intent: Literal[
        "start_round", "end_round", "set_hole", "next_hole", "competition_on",
        "competition_off", "set_course", "set_tee", "join", "leave", "card", "standings",
        "strokes", "invite", "which_hole",
    ]  # fmt: skip
    course: str | None = None
    tee: str | None = None
    holes: int | None = None
    players: tuple[str, ...] = ()
    hole: Hole | None = None
    competition: bool | None = None
    match: str | None = None


class Day(Frozen):
    """Conditions that stay for the day: wind, air, green speed, turf, a pasted METAR."""

    act: Literal["day"] = "day"
    wind: Wind | None = None
    air: Air | None = None
    green: Green | None = None
    turf: Literal["soft", "normal", "firm", "baked"] | None = None
    metar: str | None = None


class CourseNote(Frozen):
    """Write or show notes about a hole, or plan it."""

    act: Literal["course"] = "course"
    intent: Literal["note", "show_hole", "plan_hole", "plan_round", "sheet", "delete", "show"]
    hole: Hole | None = None
    hazards: tuple[Hazard, ...] = ()
    green: Green | None = None
    text: str | None = None


class Review(Frozen):
    """Ask about what was played."""

    act: Literal["review"] = "review"
    intent: Literal[
        "review", "part", "club_stats", "search", "learn", "apply_learning", "picture",
        "report", "export", "recheck",
    ]  # fmt: skip
    part: str | None = None
    club: str | None = None
    hole: int | None = None
    last: int | None = None
    when: Literal["today", "yesterday", "last"] | None = None
    about: str | None = None


class RulesHelp(Frozen):
    """Ask for help with a Rule."""

    act: Literal["rules"] = "rules"
    topic: Literal[
        "yellow_penalty", "red_penalty", "penalty_area", "unplayable", "ob", "lost", "bunker",
        "embedded", "free_relief", "drop", "wrong_ball", "provisional", "ball_moved", "search",
        "distance_device", "advice", "clubs", "other",
    ]  # fmt: skip
    facts: Facts = Facts()


class Safety(Frozen):
    """A danger told: always answered first."""

    act: Literal["safety"] = "safety"
    danger: Literal[
        "despair", "medical", "tornado", "lightning", "people_in_range", "animal", "heat", "cold",
        "all_clear",
    ]  # fmt: skip
    facts: Facts = Facts()
    asked: bool = False  # heat or cold asked about, or told as weather: nobody feels ill
    flash_to_bang: float | None = None  # seconds


class Answered(Frozen):
    """A reply to the bot's own question, in a word or a number."""

    act: Literal["answered"] = "answered"
    yes: bool | None = None
    skip: bool = False
    unknown: bool = False
    number: Measure | None = None
    facts: Facts = Facts()
    words: str | None = None


class Talk(Frozen):
    """Everything that needs no golf: thanks, greeting, help, mood, undo, forget."""

    act: Literal["talk"] = "talk"
    intent: Literal[
        "thanks", "greeting", "help", "mood_low", "chatter", "undo", "forget_me", "privacy",
        "start", "stop", "other_language",
    ]  # fmt: skip
    topic: str | None = None


class Nonsense(Frozen):
    """A number that cannot be, or text that must not be taken for a shot."""

    act: Literal["nonsense"] = "nonsense"
    why: Literal["distance", "wind", "height", "temperature", "number", "hostile", "gibberish"]
    said: str


Act = Annotated[
    Shot | FollowUp | Result | Score | Profile | Round | Day | CourseNote | Review | RulesHelp
    | Safety | Answered | Talk | Nonsense,
    Field(discriminator="act"),
]  # fmt: skip


class Choice(Frozen):
    """A span with two meanings left open, named by what the turn must settle.

    `options` are short names such as ``("height_ft", "wind_mph")``; the act holds the first.
    """

    span: Span
    about: Literal[
        "wind_dir", "wind_side", "units", "height_or_wind", "reach_or_carry", "distance",
        "club_or_distance", "break_side", "side", "clarify", "wind_or_distance",
    ]  # fmt: skip
    options: tuple[str, ...] = ()


class Found(Frozen):
    """A rule that fired, and where."""

    rule: str
    span: Span
    value: str


class Reading(Frozen):
    """One reading of one message."""

    text: str
    acts: tuple[Act, ...] = ()
    open: tuple[Choice, ...] = ()
    unread: tuple[Span, ...] = ()  # spans that could matter and were not read
    trace: tuple[Found, ...] = ()
    facts: dict[str, Any] = Field(
        default_factory=dict
    )  # flat, in plain units, with what is carried


class Expecting(Frozen):
    """What the bot's last question asked for, so that one word can answer it."""

    about: Literal[
        "wind_dir", "wind_side", "wind_speed", "distance", "units", "height_or_wind",
        "reach_or_carry", "confirm_distance", "confirm_wind", "break_side", "side", "clarify",
        "yes_no", "hand", "shape", "miss", "handicap", "club_carry", "clubs", "swing_speed",
        "score", "result", "round_kind", "round_end", "name", "slope", "wind_or_distance",
    ]  # fmt: skip
