"""Which turn takes which act, and what happens when a message holds several."""

from __future__ import annotations

from bot.model import reading as read
from bot.model.advice import ShotAdvice
from bot.model.answer import Answer, Ask, CannotYet, NotGot
from bot.model.card import OnHole, RoundBegun
from bot.model.danger import Danger, StormHold, StormOver
from bot.model.green import ChipAdvice
from bot.model.plan import NoteKept
from bot.model.review import Exported
from bot.turn import (
    chip,
    club_wind,
    course,
    day,
    erase,
    group,
    implied,
    learning,
    plan,
    point,
    privacy,
    profile,
    putt,
    recheck,
    result,
    review,
    round,
    rules,
    safety,
    score,
    search,
    setup,
    shot,
    talk,
    tallied,
    unclear,
    undo,
)
from bot.turn.desk import Desk, hole_of
from bot.turn.memory import follow
from bot.turn.over import ended, ends_putt, no_putt, on_hole

LONGEST_PIECE = 16  # characters; a longer piece is not repeated
REVIEWS = ("review", "part", "picture", "report")
LEARNING = ("learn", "apply_learning", "club_stats")


def take_turn(desk: Desk, reading: read.Reading) -> tuple[Desk, tuple[Answer, ...]]:
    """Take every act of `reading`, each on the desk the one before it left, danger first."""
    desk = _where_it_is(day.fresh(group.arrive(desk)))
    if desk.message.point is not None:
        return point.take(desk, desk.message.point)
    if all(isinstance(a, read.Nonsense) and a.why == "gibberish" for a in reading.acts):
        return _without_act(desk, reading)
    dangers = [a for a in reading.acts if isinstance(a, read.Safety)]
    told = [club_wind.in_speed(desk, a) for a in reading.acts if not isinstance(a, read.Safety)]
    others = _asked_once([day.meant(desk, unclear.meant(desk, a)) for a in told])
    desk = tallied.on_hole_told(desk, reading)
    answers: list[Answer] = []
    for danger in dangers:
        desk, answer = safety.take(desk, danger)
        answers.append(answer)
    urgent = any(not safety.is_mild(a) for a in dangers)
    for act in others:
        if privacy.asks_advice(desk, act):
            if urgent:
                continue  # golf can wait
            held = None if isinstance(act, read.Review) else safety.hold(desk)
            if held is not None:
                answers.append(held)
                continue
        for meant in implied.unfolded(desk, act, reading):
            desk, answer = privacy.guarded(_take, desk, meant, reading)
            answers.append(answer)
        tee_shot = None if urgent else _on_noted_tee(desk, act, answers[-1:])
        if tee_shot is not None:
            desk, answer = privacy.guarded(_take, desk, tee_shot, reading)
            answers.insert(-1, answer)  # the swing first, then that it is noted
        care = safety.warning(desk) if isinstance(act, read.Day) and not dangers else None
        if care is not None:
            answers.append(care)
    if urgent:
        return desk, _danger_alone(tuple(answers))
    return desk, (*_shortened(tallied.together(tuple(answers))), *_not_got(desk, answers, reading))


def _asked_once(acts: list[read.Act]) -> list[read.Act]:
    """Return the acts without a shot asked again in the same words of the same message."""
    return [a for n, a in enumerate(acts) if not (isinstance(a, read.Shot) and a in acts[:n])]


def _not_got(desk: Desk, answers: list[Answer], reading: read.Reading) -> tuple[Answer, ...]:
    """Say what was not read where the answer itself does not."""
    piece = next((s.text for s in reading.unread if len(s.text) <= LONGEST_PIECE), None)
    if (
        piece is None
        or privacy.by_the_rules(desk)
        or any(isinstance(a, ShotAdvice | ChipAdvice | Ask | CannotYet) for a in answers)
    ):
        return ()
    return (NotGot(piece=piece),)


def _on_noted_tee(desk: Desk, act: read.Act, said: list[Answer]) -> read.Shot | None:
    """Return the tee shot of a hole whose notes are told, without a doubt, as it is begun."""
    if not isinstance(act, read.CourseNote) or act.intent != "note" or act.hole is None:
        return None
    if not any(isinstance(a, NoteKept) and not (a.problem or a.was) for a in said):
        return None
    here = hole_of(desk.round, desk.who)
    if here is None or act.hole.number != here or act.hole.length is None:
        return None
    told = _tee_shot(act.hole)
    if privacy.by_the_rules(desk) or privacy.before_advice(desk, told) or safety.hold(desk):
        return None
    return told


def _tee_shot(hole: read.Hole) -> read.Shot:
    return read.Shot(kind="tee", facts=read.Facts(hole=hole))


def _danger_alone(answers: tuple[Answer, ...]) -> tuple[Answer, ...]:
    """Leave out whatever was said beside a danger; it is kept all the same."""
    return tuple(a for a in answers if isinstance(a, Danger | StormHold | StormOver))[:1]


def _shortened(answers: tuple[Answer, ...]) -> tuple[Answer, ...]:
    """Make heat and cold short where golf was asked in the same breath."""
    if len(answers) == 1:
        return answers
    return tuple(
        a.model_copy(update={"brief": True}) if isinstance(a, Danger) else a for a in answers
    )


def _without_act(desk: Desk, reading: read.Reading) -> tuple[Desk, tuple[Answer, ...]]:
    more = rules.take_more(desk) if reading.text.strip().casefold() == "more" else None
    if more is not None:
        return desk, (more,)
    bound = privacy.not_read(desk)
    if bound is not None:
        return desk, (bound,)
    desk, answer = setup.welcome(desk) or (desk, setup.again(desk) or talk.not_read(reading))
    return desk, (answer,)


def _take(desk: Desk, act: read.Act, reading: read.Reading) -> tuple[Desk, Answer]:
    if isinstance(act, read.Shot):
        desk = round.arrive(desk, act.facts.hole)
    if isinstance(act, read.Shot | read.FollowUp | read.Result):
        desk = round.stand(desk)
    desk = _where_it_is(desk)
    if isinstance(act, read.FollowUp) and desk.memory.shot_kind == "putt" and ends_putt(act):
        desk = desk.put(ended(desk.memory))
    planned = plan.from_tee(desk, act)
    if planned is not None:
        return plan.take(desk, planned)
    match act:
        case read.Shot() if unclear.is_unclear(desk, act, reading):
            return unclear.ask(desk, act)
        case read.Shot(kind="putt") if not chip.off_green(act.facts):
            return putt.take(day.share(desk, act), day.filled(desk, act), reading)
        case read.Shot():
            desk = day.share(desk, act)
            if act.kind in ("chip", "putt") and chip.near(act.facts, desk.units):
                return chip.take(desk, day.filled(desk, act), reading)
            return setup.hold(desk, act) or shot.take(desk, act, reading)
        case read.FollowUp() if desk.memory.shot_kind == "putt":
            return putt.take_followup(day.share(desk, act), act)
        case read.FollowUp() if desk.memory.shot_kind == "chip" and not chip.near(
            act.facts, desk.units
        ):
            told = day.filled(desk, read.Shot(facts=act.facts, player=act.player))
            return setup.hold(desk, told) or shot.take(desk, told, reading)
        case read.FollowUp() if desk.memory.shot_kind == "chip":
            return chip.take_followup(day.share(desk, act), act, reading)
        case read.FollowUp(ask="change" | "correct") if act.facts.putt is not None:
            return putt.take(desk, read.Shot(kind="putt", facts=act.facts), reading)
        case read.FollowUp() if _first_told(desk, act):
            before = desk.memory.asked_for or read.Facts()
            told = read.Shot(facts=follow(before, act.facts), player=act.player)
            return setup.hold(desk, told) or shot.take(desk, told, reading)
        case read.FollowUp():
            return shot.take_followup(desk, act, reading)
        case read.Answered():
            return _take_answered(desk, act, reading)
        case read.Day():
            return day.take(desk, act)
        case read.Round(intent="join" | "leave" | "invite"):
            return group.take(desk, act, reading)
        case read.Round(intent="set_course" | "set_tee"):
            return course.take_name(desk, act)
        case read.Round(intent="set_hole" | "next_hole"):
            return _from_tee(*round.take(desk, act, reading), act, reading)
        case read.Round():
            return learning.after_round(*_go_on(*round.take(desk, act, reading), reading))
        case read.Result():
            return result.take(desk, act)
        case read.Score():
            return result.ask_missing(*score.take(desk, act, reading))
        case read.RulesHelp():
            return rules.take(desk, act, reading)
        case read.Profile(intent="allow" | "disallow"):
            return group.take_helper(desk, act)
        case read.Profile():
            return _go_on_set_up(*profile.take(desk, act, reading), reading)
        case read.Review() if act.intent in LEARNING:
            return learning.take(desk, act)
        case read.Review() if act.intent in REVIEWS:
            return review.take(desk, act)
        case read.Review(intent="search"):
            return desk, search.take(desk, act)
        case read.Review(intent="recheck"):
            return desk, recheck.take(desk, act)
        case read.Review(intent="export"):
            return desk, Exported()
        case read.CourseNote(intent="plan_hole" | "plan_round" | "sheet"):
            return plan.take(desk, act)
        case read.CourseNote():
            return course.take(desk, act)
        case read.Talk():
            return _talk(desk, act)
        case read.Nonsense():
            return desk, talk.refuse(act)
        case _:
            return desk, CannotYet(reason="act", said=act.act)


def _where_it_is(desk: Desk) -> Desk:
    """Return the desk with what was told of another hole than the one played forgotten."""
    played = desk.round
    memory = on_hole(desk.memory, None if played is None else played.hole)
    return desk if memory is desk.memory else desk.put(memory)


def _from_tee(
    desk: Desk, answer: Answer, act: read.Round, reading: read.Reading
) -> tuple[Desk, Answer]:
    """Give the plan of the hole played now, or the tee shot of one told with its length."""
    if not isinstance(answer, OnHole):
        return desk, answer
    desk = _where_it_is(desk)
    planned = plan.of_hole(desk, answer.hole)
    if planned is not None:
        return desk, planned
    if act.hole is None or act.hole.length is None or privacy.by_the_rules(desk):
        return desk, answer
    told = _tee_shot(act.hole)
    first = privacy.before_advice(desk, told) or setup.hold(desk, told)
    return first or shot.take(desk, told, reading)


def _first_told(desk: Desk, act: read.FollowUp) -> bool:
    """Whether facts lean on a shot that waits for an answer, or come before any shot."""
    if act.facts == read.Facts():
        return False
    if act.ask in ("compare", "what_if") and desk.memory.shot_at is None:
        return True  # "7 or 8?" before any distance
    if act.ask not in ("change", "correct"):
        return False
    return desk.memory.asked_for is not None or desk.memory.shot_at is None


def _take_answered(desk: Desk, act: read.Answered, reading: read.Reading) -> tuple[Desk, Answer]:
    asked = desk.memory.expecting
    match asked.about if asked else None:
        case "round_kind":
            return _go_on(*round.take_kind(desk, act), reading)
        case "result":
            return result.take_answered(desk, act)
        case "round_end":
            return learning.after_round(*round.take_end(desk, act))
        case _ if learning.waiting(desk):
            return learning.take_answered(desk, act)
        case _ if setup.open_here(desk):
            return _go_on_set_up(*profile.take_answered(desk, act), reading)
        case "distance" if desk.memory.shot_kind == "putt" and no_putt(act.number):
            desk = desk.put(ended(desk.memory))
            told = read.Shot(facts=act.facts.model_copy(update={"distance": act.number}))
            return shot.take(desk, told, reading)
        case _ if desk.memory.shot_kind == "putt":
            return putt.take_answered(desk, act)
        case _ if desk.memory.shot_kind == "chip":
            return chip.take_answered(desk, act, reading)
        case _:
            return shot.take_answered(desk, act, reading)


def _talk(desk: Desk, act: read.Talk) -> tuple[Desk, Answer]:
    match act.intent:
        case "undo":
            return undo.take(desk)
        case "forget_me":
            return erase.take(desk)
        case "start" | "greeting" | "thanks":
            return setup.welcome(desk) or (desk, talk.take(act))
        case _:
            return desk, talk.take(act)


def _go_on_set_up(desk: Desk, answer: Answer, reading: read.Reading) -> tuple[Desk, Answer]:
    """Advise on the shot that waited for the first facts of a newcomer."""
    waiting = setup.held(desk)
    if waiting is None:
        return desk, answer
    return privacy.before_advice(*waiting) or shot.take(*waiting, reading)


def _go_on(desk: Desk, answer: Answer, reading: read.Reading) -> tuple[Desk, Answer]:
    """Advise on the shot that waited for the kind of round, once that is practice."""
    waiting = desk.memory.asked_for
    if not isinstance(answer, RoundBegun) or waiting is None:
        return desk, answer
    desk = desk.put(desk.memory.model_copy(update={"asked_for": None}))
    if answer.kind_of_round == "rules":
        return desk, answer
    if waiting.putt is not None:
        return putt.take(desk, read.Shot(kind="putt", facts=waiting), reading)
    return shot.take(desk, read.Shot(facts=waiting), reading)
