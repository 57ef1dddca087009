"""What became of a shot: tied to the advice it followed, kept, and reduced for learning."""

from __future__ import annotations

from collections.abc import Mapping
from datetime import timedelta
from typing import Any

from bot.model.advice import ShotAdvice
from bot.model.answer import Answer, Noted
from bot.model.card import ScoreKept
from bot.model.entry import Entry
from bot.model.measure import Measure
from bot.model.reading import Answered, Expecting, Result
from bot.model.result import ResultDoubted, ResultKept
from bot.turn.desk import Desk
from bot.turn.implied import Open, opened
from bot.turn.learning import seen_body
from bot.turn.priced import priced
from bot.turn.putting import putt_body
from bot.turn.reduced import club_of, impossible, reduced

_COST = {"water": 1, "penalty": 1, "ob": 1, "lost": 1}  # Rules of Golf 2023, 17.1 and 18.2
_TWICE = timedelta(minutes=10)  # the same words again within this are the same result
_MENDS = timedelta(minutes=30)  # a bare club so soon after a result corrects it


def take(desk: Desk, act: Result) -> tuple[Desk, Answer]:
    """Keep one result; several in a message come one after the other."""
    last = opened(desk)
    if last is not None and last.kind == "putt" and act.club is None and not act.putt:
        act = act.model_copy(update={"putt": True, "putts": act.putts or 1})
    before = _result_before(desk)
    told = _told(act)
    if last is None and before is not None:
        if _again(desk, before, told):
            return desk, ResultKept(club=before.body["club"], again=True)
        mends = set(told) <= {"club", "aim"} and not _played_again(before)
        completes = _completes(act, before)
        recent = desk.now - before.at <= _MENDS and before.id is not None
        if recent and (mends or completes):
            desk = desk.log("undo", {"why": "corrected"}, undoes=before.id)
            desk = _open_again(desk, before)
            whole = Result.model_validate({**before.body["told"], **told})
            desk, answer = take(desk, whole)
            if isinstance(answer, ResultKept):
                answer = answer.model_copy(update={"corrected": not completes})
            return desk, answer
    return _keep(desk, act, last)


def ask_missing(desk: Desk, answer: Answer) -> tuple[Desk, Answer]:
    """Ask, once and with the score of its hole, for the result of a shot that was asked about."""
    memory, last = desk.memory, opened(desk)
    if not isinstance(answer, ScoreKept) or answer.player or answer.calm or last is None:
        return desk, answer
    if last.kind != "shot" or memory.asked_result == last.message_id or last.hole != answer.hole:
        return desk, answer
    asked = {"asked_result": last.message_id, "expecting": Expecting(about="result")}
    best = ShotAdvice.model_validate(last.advice).best
    return desk.put(memory.model_copy(update=asked)), answer.model_copy(
        update={"missing": best.club}
    )


def take_answered(desk: Desk, act: Answered) -> tuple[Desk, Answer]:
    """Take a word for where the ball went; anything else leaves the result open."""
    desk = desk.put(desk.memory.model_copy(update={"expecting": None}))
    if act.words in ("left", "right"):
        return take(desk, Result(side="left" if act.words == "left" else "right"))
    return desk, Noted(what="left_open")


def _keep(desk: Desk, act: Result, last: Open | None) -> tuple[Desk, Answer]:
    of_shot = last is not None and last.kind == "shot" and not act.putt
    advice = ShotAdvice.model_validate(last.advice) if last is not None and of_shot else None
    facts = last.facts if last is not None and of_shot else None
    club = club_of(act, advice)
    teaches = not act.implied or act.club is not None
    worth = priced(desk, act, last)
    meant = None if worth is None or "aim" not in worth else worth["aim"]["finish"]
    seen = (
        reduced(
            act,
            advice=advice,
            facts=facts,
            player=desk.player,
            meant=None if meant is None else Measure.model_validate(meant),
        )
        if teaches
        else None
    )  # a club nobody named teaches nothing
    if seen is not None and club is not None and impossible(act, seen, desk.player):
        return desk, ResultDoubted(club=club)
    penalty = act.penalty
    if penalty is None:
        penalty = max((_COST.get(lie, 0) for lie in act.lie), default=0)
    body: dict[str, Any] = {
        "shot": None if last is None or (act.putt and last.kind != "putt") else last.message_id,
        "club": club,
        "told": _told(act),
        "penalty": penalty,
        "seen": None if seen is None else seen_body(seen),
        "priced": worth,
        "putt": putt_body(desk, act, last),
    }
    desk = desk.log(
        "result", body, hole=None if last is None else last.hole,
        profile_version=desk.player.profile.version,
    )  # fmt: skip
    if last is not None and (last.kind == "putt" or not act.putt):
        more = Expecting(about="result") if of_shot and _bare(body["told"]) else None
        closed = {"open_shot": None, "expecting": more}
        desk = desk.put(desk.memory.model_copy(update=closed))
    return desk, ResultKept(
        club=club,
        aim=None if act.putt else act.aim,
        side=act.side,
        depth=act.depth,
        lie=act.lie,
        putts=act.putts,
        penalty=penalty,
        of_advice=advice is not None,
        total=act.total or act.carry,
        proximity=act.proximity,
        contact=act.contact,
        holed=bool(act.holed),
        provisional=bool(act.provisional),
        implied=act.implied,
    )


def _completes(act: Result, before: Entry) -> bool:
    """Whether a result says where the ball of the one before went, told by club or aim alone.

    So "hit 7-iron" and "on the green", a thumb's two presses, are one stroke.
    """
    return _bare(before.body["told"]) and act.club is None and not act.putt


def _played_again(before: Entry) -> bool:
    """Whether the stroke before was out of bounds or lost: what comes next is another one."""
    return not {"ob", "lost"}.isdisjoint(before.body["told"].get("lie", ()))


def _bare(told: Mapping[str, object]) -> bool:
    """Whether only what was played was told, and not where the ball went."""
    return set(told) <= {"club", "swing", "aim"}


def _told(act: Result) -> dict[str, object]:
    told = act.model_dump(mode="json", exclude_defaults=True)
    told.pop("act", None)
    return told


def _result_before(desk: Desk) -> Entry | None:
    """Return the player's newest result here, where nothing was asked or scored since."""
    mine = [e for e in desk.entries if e.player == desk.who]
    kept = desk.shelf.entries(
        player=desk.who,
        chat=desk.message.chat,
        kinds=("result", "answer", "score"),
        newest_first=True,
        limit=1,
    )
    newest = mine[-1] if mine else next(iter(kept), None)
    return newest if newest is not None and newest.kind == "result" else None


def _again(desk: Desk, before: Entry, told: dict[str, object]) -> bool:
    """Whether a result is the one before, told a second time; a stroke may well be alike."""
    twice = told == before.body["told"] and before.id is not None
    return twice and set(told) != {"contact"} and desk.now - before.at <= _TWICE


def _open_again(desk: Desk, before: Entry) -> Desk:
    return desk.put(desk.memory.model_copy(update={"open_shot": before.body["shot"]}))
