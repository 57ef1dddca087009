"""Notes of a course, kept hole by hole and shared by everybody in a chat.

What somebody writes in private during the round of a group belongs to the notes of that group.
"""

from __future__ import annotations

from typing import Any, TypeVar

from bot.courses.check import check, check_hole, yards
from bot.courses.layout import course_key
from bot.model.answer import Answer, CannotYet, Noted
from bot.model.measure import Measure
from bot.model.plan import CourseShown, HoleShown, NoteKept
from bot.model.reading import CourseNote, Green, Hazard, Hole, Round
from bot.model.state import Course, HoleNote, Trip, Units
from bot.turn.card import company, course_here, course_named
from bot.turn.desk import Desk
from bot.turn.measures import settle

T = TypeVar("T", Hole, Green)
UNNAMED = "our course"  # notes told before a course was named
LAST = 18
SAME_YD = 25.0  # trouble told this near to where it was is the same: judgement
LOOK_BACK = 60  # entries of this chat looked through for the last note


def take(desk: Desk, act: CourseNote) -> tuple[Desk, Answer]:
    """Keep, show or delete notes."""
    number = None if act.hole is None else act.hole.number
    course = course_here(desk)
    if act.intent == "show":
        return desk, _shown(course)
    if number is None:
        return desk, CannotYet(reason="which_hole")
    if not 1 <= number <= LAST:
        return desk, CannotYet(reason="no_such_hole", value=number, low=1, high=LAST)
    if act.intent == "note":
        return _keep(desk, act, number)
    note = None if course is None else course.holes.get(number)
    if course is None or note is None:
        return desk, CannotYet(reason="no_note", value=number)
    if act.intent == "delete":
        left = {n: h for n, h in course.holes.items() if n != number}
        desk = _changed(desk, course, number, note, None)
        desk = desk.put(course.model_copy(update={"holes": left}))
        return desk, Noted(what="deleted", detail=f"hole {number}")
    return desk, HoleShown(hole=number, note=note)


def take_name(desk: Desk, act: Round) -> tuple[Desk, Answer]:
    """Set the course and tees played here; notes told before they had a name come along."""
    trip = company(desk)
    name, tee = trip.course, act.tee or trip.tee
    if act.course is not None:
        name, tee = course_named(trip, act.course, act.tee)
    if name is None:
        return desk, CannotYet(reason="no_course")
    before = course_here(desk)
    desk = desk.put(trip.model_copy(update={"course": name, "tee": tee}))
    course = course_here(desk)
    if before is not None and before.name == UNNAMED and course is None:
        course = before.model_copy(
            update={"ids": _ids(trip, name, tee), "name": name, "tee": tee or ""}
        )
        desk = _listed(desk.put(course), course)
    played = desk.round
    if played is not None and played.ended_at is None:
        desk = desk.put(played.model_copy(update={"course": name, "tee": tee}))
    shown = course or Course(ids=_ids(trip, name, tee), name=name, tee=tee or "")
    return desk, _shown(shown)


def undo(desk: Desk) -> tuple[Desk, Answer] | None:
    """Take back the last change of notes that the sender made in this chat."""
    for entry in desk.shelf.entries(
        player=desk.who, chat=desk.message.chat, kinds=("note",), newest_first=True,
        limit=LOOK_BACK,
    ):  # fmt: skip
        body = entry.body
        course = desk.get(Course, body.get("owner", desk.message.chat), body["course"])
        now = course.holes.get(body["hole"])
        after = _note(body["after"])
        if now != after:
            return desk, CannotYet(reason="note_changed_since", value=body["hole"])
        holes = {n: h for n, h in course.holes.items() if n != body["hole"]}
        before = _note(body["before"])
        if before is not None:
            holes[body["hole"]] = before
        desk = desk.log("undo", {"why": "asked"}, undoes=entry.id)
        desk = desk.put(course.model_copy(update={"holes": dict(sorted(holes.items()))}))
        if before is None:
            return desk, Noted(what="undone", detail=f"the notes of hole {body['hole']}")
        return desk, NoteKept(hole=body["hole"], note=before, undone=True)
    return None


def _keep(desk: Desk, act: CourseNote, number: int) -> tuple[Desk, Answer]:
    """Merge what was told into the notes of a hole: a field told anew replaces the old one."""
    course = course_here(desk)
    if course is None:
        trip = company(desk)
        name = trip.course or UNNAMED
        desk = desk.put(trip.model_copy(update={"course": name}))
        course = Course(ids=_ids(trip, name, trip.tee), name=name, tee=trip.tee or "")
    units = desk.units
    before = course.holes.get(number)
    old = before or HoleNote(hole=Hole(number=number))
    by = desk.message.name or desk.player.name
    note = old.model_copy(
        update={
            "hole": _told(old.hole, act.hole, units),
            "hazards": _hazards(old.hazards, act.hazards, units),
            "green": _told(old.green or Green(), act.green, units) if act.green else old.green,
            "text": act.text or old.text,
            "by": by,
        }
    )
    if note == old.model_copy(update={"by": by}) and before is not None:
        return desk, HoleShown(hole=number, note=note)
    grave = next((p for p in check_hole(number, note) if p.grave), None)
    if grave is not None:
        return desk, CannotYet(reason="bad_note", value=number, said=grave.text)
    desk = _listed(_changed(desk, course, number, before, note), course)
    holes = dict(sorted({**course.holes, number: note}.items()))
    desk = desk.put(course.model_copy(update={"holes": holes}))
    mild = [p.text for p in check_hole(number, note)]
    was = "" if before is None or before.by in ("", by) else before.by
    return desk, NoteKept(hole=number, note=note, was=was, problem=mild[0] if mild else "")


def _changed(
    desk: Desk, course: Course, number: int, before: HoleNote | None, after: HoleNote | None
) -> Desk:
    """Log a change with both states, so that it can be taken back and seen who made it."""
    return desk.log(
        "note",
        {
            "owner": course.ids[0],
            "course": course.ids[1],
            "hole": number,
            "before": None if before is None else before.model_dump(mode="json"),
            "after": None if after is None else after.model_dump(mode="json"),
        },
        hole=number,
    )


def _listed(desk: Desk, course: Course) -> Desk:
    """Return a desk on which a course is among those with notes here."""
    trip, entry = company(desk), (course.name, course.tee)
    if entry in trip.courses or course.name == UNNAMED:
        return desk
    return desk.put(trip.model_copy(update={"courses": (*trip.courses, entry)}))


def _note(body: dict[str, Any] | None) -> HoleNote | None:
    return None if body is None else HoleNote.model_validate(body)


def _ids(trip: Trip, name: str, tee: str | None) -> tuple[str, str]:
    return trip.ids[0], course_key(name, tee or "")


def _told(old: T, new: T | None, units: Units) -> T:
    """Return the old facts with those told now, every length with its unit."""
    if new is None:
        return old
    news: dict[str, object] = {}
    for name in new.model_fields_set:
        value = getattr(new, name)
        if value is not None:
            news[name] = settle(value, "distance", units) if isinstance(value, Measure) else value
    return old.model_copy(update=news)


def _hazards(old: tuple[Hazard, ...], new: tuple[Hazard, ...], units: Units) -> tuple[Hazard, ...]:
    """Return trouble with what was told now; the same piece told again is replaced."""
    told = tuple(
        h.model_copy(
            update={
                name: settle(value, "distance", units)
                for name in ("start", "end", "reach_or_carry", "gap")
                if (value := getattr(h, name)) is not None
            }
        )
        for h in new
    )
    return (*(h for h in old if not any(_same(h, n) for n in told)), *told)


def _same(old: Hazard, new: Hazard) -> bool:
    """Say whether two are one piece of trouble told twice, and not two of a kind."""
    if (old.kind, old.side) != (new.kind, new.side):
        return False
    a, b = old.start or old.reach_or_carry, new.start or new.reach_or_carry
    return a is None or b is None or abs(yards(a) - yards(b)) < SAME_YD


def _shown(course: Course | None) -> Answer:
    if course is None:
        return CannotYet(reason="no_course")
    pars = [n.hole.par for n in course.holes.values()]
    par = sum(p for p in pars if p) if pars and all(pars) else None
    problems = tuple(str(p) for p in check(course)) if course.holes else ()
    return CourseShown(
        course=course.name, tee=course.tee, holes=tuple(sorted(course.holes)), par=par,
        problems=problems,
    )  # fmt: skip
