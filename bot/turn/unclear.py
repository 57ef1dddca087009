"""Is a small number told behind a shot in the wind the new wind, or the way that is left?"""

from __future__ import annotations

from bot.model.answer import Answer, Ask
from bot.model.reading import Act, Answered, Expecting, Facts, FollowUp, Reading, Shot, Wind
from bot.turn.desk import Desk
from bot.turn.measures import in_metres
from bot.turn.memory import talked_of

_ABOUT = Expecting(about="wind_or_distance")
_FAR_M = 55.0  # from a shorter shot the next number is that of a chip: judgement


def meant(desk: Desk, act: Act) -> Act:
    """Return an answer to this question as the change of wind, or the shot, it stands for."""
    doubtful = desk.memory.doubtful
    if not isinstance(act, Answered) or desk.memory.expecting != _ABOUT or doubtful is None:
        return act
    if act.words == "wind":
        wind = Wind(speed=doubtful.facts.distance)
        return FollowUp(facts=Facts(wind=wind), player=doubtful.player)
    return doubtful if act.words == "distance" else act


def is_unclear(desk: Desk, act: Shot, reading: Reading) -> bool:
    """Say whether a number may be the wind of the last shot as well as the next distance."""
    if not any(choice.about == "wind_or_distance" for choice in reading.open):
        return False
    before = talked_of(desk.memory, desk.now)
    if before is None or before.wind is None or desk.memory.shot_kind != "shot":
        return False
    return before.distance is not None and in_metres(before.distance, desk.units) >= _FAR_M


def ask(desk: Desk, act: Shot) -> tuple[Desk, Answer]:
    """Ask which of the two it is; the last shot stays as it was told."""
    kept = {"expecting": _ABOUT, "doubtful": act}
    return desk.put(desk.memory.model_copy(update=kept)), Ask(about=_ABOUT)
