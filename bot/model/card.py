"""Answers about the round: its kind, its scores, and the strokes a handicap gives."""

from typing import ClassVar, Literal

from bot.model.answer import Answer
from bot.model.base import Frozen
from bot.model.ruling import Kind


class RoundBegun(Answer):
    """A round is on; its kind is said at once, and so is who else it binds."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 4
    kind: Literal["round_begun"] = "round_begun"
    kind_of_round: Kind
    course: str | None = None
    holes: int = 18
    others: int = 0  # other players in the same round
    late: bool = False  # turned into a round by the Rules after a stroke was logged


class KindFixed(Answer):
    """The kind cannot change any more: a stroke of this round was logged."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 4
    kind: Literal["kind_fixed"] = "kind_fixed"


class OnHole(Answer):
    """The hole being played now, with what is known of it."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 1
    kind: Literal["on_hole"] = "on_hole"
    hole: int
    par: int | None = None
    noted_par: int | None = None  # in the notes, where the par told is another
    stroke_index: int | None = None
    received: int | None = None


class ScoreKept(Answer):
    """A hole's score was written down."""

    advice: ClassVar[bool] = False
    kind: Literal["score_kept"] = "score_kept"
    player: str = ""  # name, when not the sender's own
    hole: int
    strokes: int | None  # None: picked up
    par: int | None = None
    total: int | None = None  # strokes so far; None after a pick-up
    to_par: int | None = None  # so far; None where a par is not known
    played: int = 1
    points: int | None = None  # Stableford points so far
    calm: bool = False  # three big numbers in a row
    missing: str | None = None  # club advised for a shot of the hole whose result was not told


class ScoresKept(Answer):
    """Scores of several holes, or of several players, were written down."""

    advice: ClassVar[bool] = False
    kind: Literal["scores_kept"] = "scores_kept"
    scores: tuple[tuple[str, int, int | None], ...]  # name unless the sender's own, hole, strokes
    total: int | None = None  # as of the score kept last
    to_par: int | None = None
    points: int | None = None
    played: int = 1


class Row(Frozen):
    """One player's line of the card or the standings."""

    player: str
    scores: tuple[tuple[int, int | None], ...] = ()  # hole, strokes
    played: int = 0
    total: int | None = None
    to_par: int | None = None
    net_to_par: int | None = None
    points: int | None = None


class Card(Answer):
    """A player's scores, hole by hole."""

    advice: ClassVar[bool] = False
    kind: Literal["card"] = "card"
    row: Row
    hole: int | None = None  # the one asked for
    par: int | None = None


class Standings(Answer):
    """Everybody in the round, best first. `by` says what they are ranked by."""

    advice: ClassVar[bool] = False
    kind: Literal["standings"] = "standings"
    by: Literal["points", "net", "to_par", "strokes"]
    rows: tuple[Row, ...]


class Strokes(Answer):
    """Strokes a player receives, on one hole or in the round."""

    advice: ClassVar[bool] = False
    kind: Literal["strokes_received"] = "strokes_received"
    handicap: int  # Course Handicap, or the index rounded where the tees are not rated
    rated: bool
    hole: int | None = None
    received: int | None = None


class RoundOver(Answer):
    """The round is over, for this player or for all."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 4
    kind: Literal["round_over"] = "round_over"
    for_all: bool
    row: Row | None = None
    doubted: int = 0  # stored numbers the player's shots contradict
    taken: bool = False  # those were taken over, as the player has set
