"""Write a score on the card, and put right one that an edited message corrects."""

from __future__ import annotations

from bot.model.answer import Answer, CannotYet
from bot.model.card import ScoreKept
from bot.model.reading import Reading, Round, Score
from bot.model.state import HoleScore, Played
from bot.turn import card, round
from bot.turn.desk import Desk, hole_of

LOOK_BACK = 60  # scores of this chat looked through for the one an edit corrects
MOST_STROKES = 25  # a higher number is taken for a slip


def take(desk: Desk, act: Score, reading: Reading) -> tuple[Desk, Answer]:
    """Write a score on the card."""
    before, played = desk, card.running(desk)
    if played is None:
        desk, played = round.begin(desk, Round(intent="start_round"))
    corrected = _corrected(desk)
    if corrected is None and act.hole is None and (act.again or act.was is not None):
        corrected = _last_told(desk, played)
        kept = played.scores.get(desk.who, {}).get(corrected or 0)
        if not act.again and (kept is None or kept.strokes != act.was):
            corrected = None
    if corrected is not None:
        played = _without(played, desk.who, corrected)
    number = act.hole if act.hole is not None else corrected or hole_of(played, desk.who) or 1
    if not 1 <= number <= played.holes:
        return before, CannotYet(reason="no_such_hole", value=number, low=1, high=played.holes)
    par = card.hole_facts(desk, played, number).par
    strokes = act.strokes
    if strokes is None and act.to_par is not None and par is not None:
        strokes = par + act.to_par
    if strokes is None and not act.picked_up:
        return before, CannotYet(reason="par_unknown", value=number)
    if strokes is not None and not 1 <= strokes <= MOST_STROKES:
        return before, CannotYet(reason="score_absurd", value=strokes)
    moves = _own(desk) and corrected is None
    score = HoleScore(strokes=strokes, putts=act.putts, picked_up=act.picked_up)
    mine = {**played.scores.get(desk.who, {}), number: score}
    played = round.with_player(played, desk.who).model_copy(
        update={
            "scores": {**played.scores, desk.who: mine},
            "kind_fixed": True,
            "hole": min(max(number + 1, played.hole or 1), played.holes) if moves else played.hole,
        }
    )
    done = len(mine) == played.holes
    if done and desk.who not in played.done:
        played = played.model_copy(update={"done": (*played.done, desk.who)})
    desk = desk.put(played).log("score", score.model_dump(mode="json"), hole=number)
    desk = round.bind(desk, played)
    if moves:
        of = desk.memory.hole or number  # so that the putt of this hole is over on the next
        desk = desk.put(desk.memory.model_copy(update={"asked_this_hole": 0, "hole": of}))
    if done:
        return round.close_if_all_done(desk, played)
    row = card.row_of(desk, desk.who, played)
    return desk, ScoreKept(
        player="" if _own(desk) else card.company(desk).names.get(desk.who, ""),
        hole=number,
        strokes=strokes,
        par=par,
        total=row.total,
        to_par=row.to_par,
        played=row.played,
        points=row.points,
        calm=_own(desk) and card.third_big(desk, desk.who, played, number),
    )


def _corrected(desk: Desk) -> int | None:
    """Return the hole whose score the message corrects, when it is an edit of one."""
    first = desk.message.edit_of
    if first is None:
        return None
    scores = desk.shelf.entries(
        chat=desk.message.chat, kinds=("score",), newest_first=True, limit=LOOK_BACK
    )
    return next(
        (e.hole for e in scores if e.player == desk.who and e.message_id.split(".")[0] == first),
        None,
    )


def _last_told(desk: Desk, played: Played) -> int | None:
    """Return the hole of this player's last score, which "no, made 4" puts right."""
    mine = played.scores.get(desk.who, {})
    scores = desk.shelf.entries(
        player=desk.who, chat=desk.message.chat, kinds=("score",), newest_first=True, limit=1
    )
    return next((e.hole for e in scores if e.hole in mine), None)


def _without(played: Played, who: str, hole: int) -> Played:
    left = {n: s for n, s in played.scores.get(who, {}).items() if n != hole}
    return played.model_copy(update={"scores": {**played.scores, who: left}})


def _own(desk: Desk) -> bool:
    return desk.who == desk.message.sender
