"""Answers about the player: the bag, what was kept of it, what to ask next, what was learned."""

from typing import ClassVar, Literal

from bot.model.answer import Answer
from bot.model.base import Frozen
from bot.model.measure import Measure
from bot.model.reading import Shape, Side
from bot.model.state import Source

Question = Literal["start", "carry", "handicap", "hand", "shape", "miss", "usual"]
Miss = Literal["left", "right", "both", "short", "long", "fat", "thin"]


class ClubLine(Frozen):
    """One club as it stands, and how far it is known."""

    name: str
    carry: Measure
    source: Source
    half: Measure | None = None  # the truth is within this four times in five
    loft_deg: float | None = None
    spread_long: float | None = None  # share of the carry
    spread_source: Source = "guessed"
    side_deg: float | None = None
    lean_deg: float = 0.0  # right positive
    mishit: float | None = None
    solid: int = 0  # solid shots logged
    shots: int = 0


class BagShown(Answer):
    """The bag as it stands; `only` where one club was asked for."""

    advice: ClassVar[bool] = False
    kind: Literal["bag"] = "bag"
    version: int
    who: str = ""  # named where the bag is not the asker's own
    clubs: tuple[ClubLine, ...]
    only: str | None = None
    hand: Side | None = None
    handicap: float
    handicap_source: Source
    shape: Shape | None = None
    miss: Miss | None = None
    leave: Measure | None = None
    wind_feel: float = 1.0
    height_feel: float = 1.0


class Kept(Frozen):
    """One thing that was kept: a number, or a word."""

    what: Literal[
        "carry", "total", "total_beside", "best", "loft", "club_in", "club_out", "hand",
        "handicap", "score", "shape", "miss", "leave", "units", "speed", "swing_in", "swing_out",
        "name", "tempo", "card", "usual", "good",
    ]  # fmt: skip
    club: str = ""
    value: Measure | None = None
    before: Measure | None = None
    word: str = ""


class ProfileKept(Answer):
    """What was kept, and the next question of the setting-up; `done` closes it."""

    advice: ClassVar[bool] = False
    kind: Literal["profile_kept"] = "profile_kept"
    who: str = ""  # named where it was told for somebody else
    kept: tuple[Kept, ...] = ()
    ask: Question | None = None
    done: bool = False
    undone: bool = False  # an earlier change was taken back instead


class SetUp(Answer):
    """A question of the setting-up; `hello` before the first, `again` after an unread reply."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 3
    kind: Literal["set_up"] = "set_up"
    ask: Question
    hello: bool = False
    again: bool = False


class ProfileDoubt(Answer):
    """What was told cannot be right; nothing was kept."""

    advice: ClassVar[bool] = False
    urgency: ClassVar[int] = 3
    kind: Literal["profile_doubt"] = "profile_doubt"
    fault: Literal[
        "unknown", "twice", "too_many", "range", "order", "handicap", "score", "speed",
        "short_total", "which_club", "how_far", "what",
    ]  # fmt: skip
    club: str = ""
    other: str = ""
    value: Measure | None = None
    low: Measure | None = None
    high: Measure | None = None


class Changed(Frozen):
    """One stored value that logged shots contradict."""

    club: str = ""
    value: Literal[
        "carry_m", "spread_long", "spread_side_rad", "lean_rad", "mishit", "miss", "wind_feel",
        "height_feel", "putt_line_deg", "putt_pace",
    ]  # fmt: skip
    stored: Measure
    learned: Measure
    half: Measure
    solid: int

    @property
    def key(self) -> str:
        """Name under which a yes or no to it is remembered."""
        return f"learn:{self.club}:{self.value}"


class MadeOf(Frozen):
    """Putts of a band of lengths: tried, holed, and what the stored numbers expect."""

    low: Measure
    high: Measure
    tried: int
    holed: int
    expected: float


class PuttingShown(Answer):
    """Make rates by length."""

    kind: Literal["putting"] = "putting"
    putts: int
    rates: tuple[MadeOf, ...] = ()
    few: bool = False


class LessonShown(Answer):
    """What logged shots say of the stored numbers; `ask` is the one a yes would take over."""

    kind: Literal["lesson"] = "lesson"
    shots: int
    ask: Changed | None = None
    more: int = 0  # further ones waiting
    taken: tuple[Changed, ...] = ()  # taken over just now
    by_itself: bool | None = None  # the setting, where it was just changed
    picked: bool = False  # only good shots seem to get logged


class ClubLearned(Answer):
    """What the log knows of one club beside what is stored."""

    kind: Literal["club_learned"] = "club_learned"
    stored: ClubLine
    learned: Measure
    half: Measure
    solid: int
    bad: int
    shots: int
    few: bool  # too few solid shots to lean on
