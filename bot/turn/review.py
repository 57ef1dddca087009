"""What did the rounds cost, where, and was the advice taken? The review and its parts."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from datetime import datetime, timedelta

from bot.courses.layout import course_key
from bot.model.answer import Answer
from bot.model.entry import Entry, EntryKind
from bot.model.reading import Hole, Review
from bot.model.review import (
    PARTS,
    Followed,
    HoleShown,
    LegShown,
    NothingToReview,
    ReviewShown,
    RoundShown,
    Sum,
    Trouble,
)
from bot.model.state import Course, Played
from bot.turn import card
from bot.turn.afterwards import opened_up
from bot.turn.against import plan_before, plans
from bot.turn.bag import bag_of
from bot.turn.coach import coaching
from bot.turn.desk import Desk
from bot.turn.drift import drifted
from bot.turn.ledger import Worth, hole_of, metres_of, worth_of
from bot.turn.misses import misses_of, patterns_of
from bot.turn.weigh import table_of
from engine import Ground, Q, expected_strokes

DOUBLE = 2  # strokes over par
MOST_ROUNDS = 200
_DRAWN = ("picture", "report")  # parts with pictures of the clubs
_DRIFT = ("", "clubs", "report")  # parts that show stored numbers which the log contradicts


def take(desk: Desk, act: Review) -> tuple[Desk, Answer]:
    """Look back on the rounds asked for: the last one, yesterday's, or the last few."""
    rounds = chosen(desk, act)
    if not rounds:
        return desk, NothingToReview(why="no_round", when=act.when or "")
    part = act.part or {"part": "cost", "picture": "picture", "report": "report"}.get(act.intent)
    return desk, reviewed(desk, rounds, part=part or "")


def reviewed(desk: Desk, rounds: Sequence[Played], *, part: str = "") -> Answer:
    """Return the look back on these rounds."""
    rows: list[RoundShown] = []
    made = plans(desk)
    results: list[Entry] = []  # answers are long: they are let go with their round
    for played in rounds:
        entries = opened_up(desk, played, _logged(desk, played))
        rows.append(round_shown(desk, played, entries, made))
        results += [e for e in entries if e.kind == "result"]
    shown = tuple(rows)
    holes = [hole for one in shown for hole in one.holes]
    if not any(played.scores.get(desk.who) for played in rounds):
        return NothingToReview(why="no_score" if results else "no_shots")
    legs = [leg for hole in holes for leg in hole.legs]
    by_part: dict[str, Sum] = {p: sum_of(leg for leg in legs if leg.part == p) for p in PARTS}
    causes: dict[str, float] = defaultdict(float)
    for leg in legs:
        for cause, cost in leg.causes:
            causes[cause] += cost
    followed = _followed(legs)
    clubs = misses_of(desk, results)
    carries = {c.name: c.carry_m for c in bag_of(desk.player.profile).golfer.clubs}
    total = sum_of(legs)
    return ReviewShown(
        part=part,
        player=desk.player.name,
        rounds=shown,
        total=total,
        by_part=by_part,
        by_cause=dict(causes),
        followed=followed,
        troubles=tuple(_troubles(holes)),
        clubs=clubs,
        patterns=patterns_of(desk, results) if part in _DRAWN else (),
        drifted=drifted(desk) if part in _DRIFT else (),
        coach=coaching(legs, by_part, followed, clubs, carries),
    )


def chosen(desk: Desk, act: Review) -> tuple[Played, ...]:
    """Return the rounds a review is of, oldest first."""
    if act.when in (None, "last") and act.last in (None, 1):
        latest = _latest(desk)
        if latest is not None:
            return (latest,)
    mine = played_by(desk)
    if act.when == "yesterday":
        day = (desk.now - timedelta(days=1)).date()
        return tuple(p for p in mine if _day(desk, p) == day)
    if act.when == "today":
        return tuple(p for p in mine if _day(desk, p) == desk.now.date())
    return tuple(mine[-min(act.last or 1, MOST_ROUNDS) :])


def _latest(desk: Desk) -> Played | None:
    """Return the newer of the round here and the one the player is in elsewhere."""
    elsewhere = desk.player.playing
    rounds = [desk.round, desk.get(Played, elsewhere) if elsewhere else None]
    mine = [
        p for p in rounds
        if p is not None and p.started_at is not None and desk.who in (*p.players, *p.scores)
    ]  # fmt: skip
    return max(mine, key=lambda p: p.started_at or desk.now, default=None)


def played_by(desk: Desk) -> list[Played]:
    """Return all rounds in which this player has something on record, oldest first."""
    kinds: tuple[EntryKind, ...] = ("score", "round")  # short entries: a season has thousands
    ids = dict.fromkeys(
        e.round for e in desk.shelf.entries(player=desk.who, kinds=kinds) if e.round is not None
    )
    here = desk.round
    rounds = [desk.get(Played, i) for i in ids]
    if here is not None and here.ids[0] not in ids and desk.who in here.players:
        rounds.append(here)
    return sorted(
        (p for p in rounds if p.started_at is not None), key=lambda p: p.started_at or desk.now
    )


def round_shown(
    desk: Desk, played: Played, entries: Sequence[Entry], made: Sequence[Entry]
) -> RoundShown:
    """Return one round hole by hole; `made` are the player's plans."""
    units = desk.units
    worth = worth_here(desk)
    by_hole: dict[int, list[Entry]] = defaultdict(list)
    for entry in entries:
        number = entry_hole(entry)
        if number is not None:
            by_hole[number].append(entry)
    scores = played.scores.get(desk.who, {})
    course = course_of(desk, played)
    plan = plan_before(made, played)
    holes = []
    for number in sorted(scores):
        known = _hole(course, played, number)
        found = hole_of(
            number, by_hole.get(number, []), scores[number], par=known.par,
            length_m=metres_of(known.length, units), worth=worth, units=units,
        )  # fmt: skip
        if found is not None:
            holes.append(found.model_copy(update={"planned": plan.holes.get(number)}))
    told = {n for n, found in by_hole.items() if any(e.kind == "result" for e in found)}
    return RoundShown(
        round=played.ids[0],
        course=played.course or "",
        at=played.started_at,
        planned_at=plan.made_at,
        holes=tuple(holes),
        unscored=tuple(sorted(told - scores.keys())),
        picked_up=tuple(n for n in sorted(scores) if scores[n].picked_up),
        blank=tuple(h.hole for h in holes if all(leg.untold for leg in h.legs)),
        under_rules=played.kind == "rules",
    )


def worth_here(desk: Desk) -> Worth:
    """Return what a place is worth to this player, strokes to hole out."""
    golfer = bag_of(desk.player.profile).golfer
    table = table_of(desk, golfer)

    def lookup(ground: Ground, distance: Q) -> float:
        return expected_strokes(table=table, ground=ground, distance=distance)

    return worth_of(lookup)


def course_of(desk: Desk, played: Played) -> Course | None:
    """Return the notes of the course a round was played on."""
    if played.course is None:
        return None
    course = desk.get(Course, played.chat, course_key(played.course, played.tee or ""))
    return course if course.name else None


def sum_of(legs: Iterable[LegShown]) -> Sum:
    """Return what some legs lost together."""
    every = list(legs)
    return Sum(
        choice=sum(leg.choice for leg in every),
        execution=sum(leg.execution for leg in every),
        penalty=float(sum(leg.penalty for leg in every)),
        legs=len(every),
    )


def _logged(desk: Desk, played: Played) -> list[Entry]:
    """Return a round's entries of this player, in order of time, while it was on."""
    kinds: tuple[EntryKind, ...] = ("answer", "result", "withheld")
    name, end = played.ids[0], _end(played)
    kept = desk.shelf.entries(player=desk.who, kinds=kinds, round=name)
    fresh = (e for e in desk.entries if e.player == desk.who and e.round == name)
    return [e for e in (*kept, *fresh) if e.kind in kinds and (end is None or e.at <= end)]


def _end(played: Played) -> datetime | None:
    if played.ended_at is not None:
        return played.ended_at
    return None if played.started_at is None else played.started_at + card.LONGEST


def _day(desk: Desk, played: Played) -> object:
    """Return the day a round began, by the clock of whoever asks."""
    at = played.started_at
    return None if at is None else at.astimezone(desk.now.tzinfo).date()


def entry_hole(entry: Entry) -> int | None:
    """Return the hole an entry is of: the one told with it, else the one being played."""
    facts = entry.body.get("facts") or {}
    hole = facts.get("hole") or {}
    number: int | None = hole.get("number")
    return number or entry.hole


def _hole(course: Course | None, played: Played, number: int) -> Hole:
    told = played.told.get(number, Hole())
    noted = course.holes[number].hole if course and number in course.holes else Hole()
    return noted.model_copy(update=card.set_fields(told))


def _followed(legs: Sequence[LegShown]) -> Followed:
    judged = [leg for leg in legs if leg.taken is not None]
    apart = [leg for leg in judged if not leg.taken]
    return Followed(
        asked=len(judged),
        taken=len(judged) - len(apart),
        cost=sum(leg.choice for leg in apart if leg.choice > 0.0),
        gained=-sum(leg.choice for leg in apart if leg.choice < 0.0),
        departures=tuple(sorted(apart, key=lambda leg: -leg.choice)),
    )


def _troubles(holes: Sequence[HoleShown]) -> Iterable[Trouble]:
    """Name each double and the stroke of it that lost most."""
    for hole in holes:
        if hole.par is None or hole.score - hole.par < DOUBLE:
            continue
        legs = [leg for leg in hole.legs if not leg.untold]
        lost = [leg.choice + leg.execution + leg.penalty for leg in legs]
        began = legs[lost.index(max(lost))] if lost else None
        yield Trouble(hole=hole.hole, over=hole.score - hole.par, began=began)
