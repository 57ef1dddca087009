"""What the cards say: totals, points, strokes received, who leads."""

from __future__ import annotations

from datetime import datetime, timedelta

from bot.courses.layout import course_key
from bot.model.card import Card, Row, Standings, Strokes
from bot.model.reading import Hole
from bot.model.state import Course, HoleScore, Played, Trip
from bot.turn.desk import Desk
from engine import (
    course_handicap,
    stableford_points,
    strokes_received,
)

# A round that nobody ended is over by then: common practice, no source.
LONGEST = timedelta(hours=16)
CLOSE = 85.0  # likeness in per cent from which a misspelt name is taken: judgement
BIG = 2  # strokes over par that make a hole a big number: double bogey, common practice
BIG_IN_A_ROW = 3


def binds(played: Played | None, now: datetime, who: str | None = None) -> bool:
    """Say whether a round by the Rules is still on, for `who` or for anybody in it."""
    if played is None or played.kind != "rules" or who in played.done:
        return False
    if played.ended_at is not None and now >= played.ended_at:
        return False
    return played.started_at is None or now < played.started_at + LONGEST


def running(desk: Desk) -> Played | None:
    """Return the round being played in this chat; one left open for too long is over."""
    played = desk.round
    if played is None or played.ended_at is not None:
        return None
    fresh = played.started_at is None or desk.now < played.started_at + LONGEST
    return played if fresh else None


def company(desk: Desk) -> Trip:
    """Return what those who play the round share: in private, what their group shares."""
    played = running(desk)
    if played is None or not played.chat or played.ids[0] == desk.trip.round:
        return desk.trip
    return desk.get(Trip, played.chat)


def course_here(desk: Desk) -> Course | None:
    """Return the notes of the course being played here."""
    trip = company(desk)
    if trip.course is None:
        return None
    course = desk.get(Course, trip.ids[0], course_key(trip.course, trip.tee or ""))
    return course if course.name else None


def course_named(trip: Trip, said: str, tee: str | None) -> tuple[str, str | None]:
    """Return name and tees of the course with notes here that this may be short for.

    Tees that were not told are the ones with notes; a course without notes is as it was said.
    """
    from rapidfuzz import fuzz, process  # only a course that is named needs it

    folded = said.casefold().strip()
    names = {name: name.casefold() for name, _ in trip.courses}
    found = next((n for n, f in names.items() if f"{f} ".startswith(f"{folded} ")), None)
    if found is None:
        close = process.extractOne(folded, names, scorer=fuzz.ratio, score_cutoff=CLOSE)
        found = None if close is None else str(close[2])
    if found is None:
        return said, tee
    return found, tee or next(t for n, t in trip.courses if n == found) or None


def hole_facts(desk: Desk, played: Played, number: int) -> Hole:
    """Return what is known of a hole: told in this round first, then the course's notes."""
    told = played.told.get(number, Hole())
    course = course_here(desk)
    noted = course.holes[number].hole if course and number in course.holes else Hole()
    return noted.model_copy(update=set_fields(told))


def set_fields(hole: Hole) -> dict[str, object]:
    """Return the fields of a hole that are known."""
    fields = {name: getattr(hole, name) for name in Hole.model_fields}
    return {name: value for name, value in fields.items() if value is not None}


def handicap_of(desk: Desk, player: str, played: Played) -> tuple[int, bool] | None:
    """Return the strokes a player has for the round, and whether the tees' rating was known."""
    index = desk.get(type(desk.player), player).profile.handicap
    if index is None:
        return None
    course = course_here(desk)
    pars = [hole_facts(desk, played, n).par for n in range(1, played.holes + 1)]
    if course and course.rating and course.slope and all(pars) and played.holes in (9, 18):
        total = sum(p for p in pars if p)
        return course_handicap(
            index=index, slope=course.slope, course_rating=course.rating, par=total,
            holes=played.holes,
        ), True  # fmt: skip
    return round(index if played.holes == 18 else index / 2), False


def received_on(desk: Desk, player: str, played: Played, number: int) -> int | None:
    """Return the strokes a player receives on a hole; None where something is not known."""
    has = handicap_of(desk, player, played)
    stroke_index = hole_facts(desk, played, number).stroke_index
    if has is None or stroke_index is None or played.holes not in (9, 18):
        return None
    if not 1 <= stroke_index <= played.holes:
        return None
    return strokes_received(handicap=has[0], stroke_index=stroke_index, holes=played.holes)


def row_of(desk: Desk, player: str, played: Played) -> Row:
    """Return a player's line: a sum is None where one of its parts is not known."""
    scores = played.scores.get(player, {})
    numbers = sorted(scores)
    pars = [hole_facts(desk, played, n).par for n in numbers]
    received = [received_on(desk, player, played, n) for n in numbers]
    gross = [None if scores[n].picked_up else scores[n].strokes for n in numbers]
    total = _sum(gross)
    to_par = None if total is None else _over(total, _sum(pars))
    given = _sum(received)
    points = [
        None if p is None or r is None else stableford_points(par=p, received=r, strokes=g)
        for p, r, g in zip(pars, received, gross, strict=True)
    ]
    return Row(
        player=company(desk).names.get(player, ""),
        scores=tuple(zip(numbers, gross, strict=True)),
        played=len(numbers),
        total=total,
        to_par=to_par,
        net_to_par=None if to_par is None or given is None else to_par - given,
        points=_sum(points),
    )


def card(desk: Desk, player: str, played: Played, number: int | None = None) -> Card:
    """Return a player's scores, hole by hole; `number` is the hole asked for."""
    par = None if number is None else hole_facts(desk, played, number).par
    return Card(row=row_of(desk, player, played), hole=number, par=par)


def standings(desk: Desk, played: Played) -> Standings:
    """Rank everybody with a score by the best measure that is known for all of them."""
    rows = [row_of(desk, p, played) for p in played.players if played.scores.get(p)]
    if all(r.points is not None for r in rows):
        return Standings(by="points", rows=tuple(sorted(rows, key=lambda r: -(r.points or 0))))
    if all(r.net_to_par is not None for r in rows):
        return Standings(by="net", rows=tuple(sorted(rows, key=lambda r: r.net_to_par or 0)))
    if all(r.to_par is not None for r in rows):
        return Standings(by="to_par", rows=tuple(sorted(rows, key=lambda r: r.to_par or 0)))
    return Standings(by="strokes", rows=tuple(sorted(rows, key=_strokes_a_hole)))


def strokes(desk: Desk, player: str, played: Played, number: int | None) -> Strokes | None:
    """Return the strokes a player receives; None where no handicap was told."""
    has = handicap_of(desk, player, played)
    if has is None:
        return None
    received = None if number is None else received_on(desk, player, played, number)
    return Strokes(handicap=has[0], rated=has[1], hole=number, received=received)


def third_big(desk: Desk, player: str, played: Played, number: int) -> bool:
    """Say whether this hole is the third big number in a row, and not the fourth."""
    scores = played.scores.get(player, {})
    run = 0
    while _is_big(scores.get(number - run), hole_facts(desk, played, number - run).par):
        run += 1
    return run == BIG_IN_A_ROW


def _is_big(score: HoleScore | None, par: int | None) -> bool:
    if score is None:
        return False
    if score.picked_up:
        return True
    return score.strokes is not None and par is not None and score.strokes - par >= BIG


def _strokes_a_hole(row: Row) -> tuple[bool, float]:
    return row.total is None, (row.total or 0) / max(row.played, 1)


def _over(total: int, par: int | None) -> int | None:
    return None if par is None else total - par


def _sum(values: list[int | None]) -> int | None:
    return None if any(v is None for v in values) else sum(v for v in values if v is not None)
