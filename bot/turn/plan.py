"""A player's plan for a course: made the evening before, kept, and given back as it was."""

from __future__ import annotations

import hashlib
from dataclasses import replace
from datetime import timedelta
from typing import TYPE_CHECKING

from bot.courses.compass import bearing_of, point_of
from bot.courses.layout import course_key
from bot.model.answer import Answer, CannotYet
from bot.model.measure import Measure
from bot.model.plan import (
    ClubToday,
    Conditions,
    Dear,
    HolePlanned,
    Plan,
    PlannedHole,
    PlannedShot,
    RoundPlanned,
)
from bot.model.reading import Act, CourseNote, Facts, FollowUp, Hole, Shot
from bot.model.state import Course, HoleNote, Played, Units
from bot.turn.bag import bag_of, knows_bag
from bot.turn.card import binds, course_here
from bot.turn.desk import Desk
from bot.turn.holefacts import hole_facts
from bot.turn.measures import MODERATE_WIND, measured, to_quantity
from bot.turn.metar import read_metar
from bot.turn.question import air_facts
from bot.turn.refused import refused
from bot.turn.weigh import table_of
from engine import (
    ENGINE_VERSION,
    ConditionPlan,
    HolePlan,
    NoSolution,
    OutOfRange,
    PlanDay,
    PlanShot,
    clubs_today,
    course_handicap,
    plan_holes,
    quantity,
    si,
    strokes_received,
    suited_length,
)

if TYPE_CHECKING:
    from engine import Q

OVER_HANDICAP = 3  # D. Knuth: the average round is about three over the handicap
DAY_LASTS = timedelta(hours=36)  # a forecast told the evening before is for tomorrow


def take(desk: Desk, act: CourseNote) -> tuple[Desk, Answer]:
    """Plan a hole or the round, or give back the sheet."""
    course = course_here(desk)
    if course is None or not course.holes:
        return desk, CannotYet(reason="no_course")
    if not knows_bag(desk.player.profile):
        return desk, CannotYet(reason="plan_needs_bag")
    number = None if act.hole is None else act.hole.number
    if act.intent == "plan_hole":
        if number is None:
            number = desk.round.hole if desk.round else None
        if number is None:
            return desk, CannotYet(reason="which_hole")
        if number not in course.holes:
            return desk, CannotYet(reason="no_note", value=float(number))
        wanted: tuple[int, ...] = (number,)
    else:
        wanted = tuple(sorted(course.holes))
    try:
        desk, plan = planned(desk, course, wanted)
    except (OutOfRange, NoSolution) as error:
        return desk, refused(error)
    if act.intent == "plan_hole" and number is not None:
        if number not in plan.holes:
            return desk, CannotYet(reason="no_length", value=float(number))
        return desk, HolePlanned(planned=plan.holes[number], made_at=plan.made_at or desk.now)
    if not plan.holes:
        return desk, CannotYet(reason="no_length", value=float(wanted[0]))
    return desk, RoundPlanned(plan=plan, sheet=act.intent == "sheet")


def from_tee(desk: Desk, act: Act) -> CourseNote | None:
    """Return what "tee shot" asks for where it tells nothing else: the plan of a noted hole."""
    if not isinstance(act, Shot | FollowUp) or act.player is not None:
        return None
    facts = act.facts
    on_tee = facts.lie == ("tee",) or (isinstance(act, Shot) and act.kind == "tee")
    if not on_tee or facts.model_copy(update={"lie": ()}) != Facts():
        return None
    played, course = desk.round, course_here(desk)
    if played is None or played.ended_at is not None or played.hole is None or course is None:
        return None
    note = course.holes.get(played.hole)
    if note is None or note.hole.length is None or not knows_bag(desk.player.profile):
        return None
    return CourseNote(intent="plan_hole", hole=Hole(number=played.hole))


def kept(desk: Desk, act: CourseNote) -> Answer | None:
    """Return what was planned before the round and may be shown in one by the Rules."""
    plan = _kept(desk)
    if plan is None or not plan.holes:
        return None
    if act.intent == "sheet":
        return RoundPlanned(plan=plan, sheet=True)
    number = act.hole.number if act.hole else None
    if number is None:
        number = desk.round.hole if desk.round else None
    return None if number is None else of_hole(desk, number)


def of_hole(desk: Desk, number: int) -> HolePlanned | None:
    """Return the kept plan of a hole where it may be shown here; it is never made anew."""
    plan = _kept(desk)
    hole = None if plan is None else plan.holes.get(number)
    if plan is None or hole is None or plan.made_at is None:
        return None
    return HolePlanned(planned=hole, made_at=plan.made_at)


def _kept(desk: Desk) -> Plan | None:
    """Return the kept plan of the course being played, where it may be shown here.

    In a round by the Rules the plan must be older than the round, and others must not read
    it: a plan for one player is advice to the rest (Rules of Golf 2023, 4.3a and 10.2a).
    """
    course = course_here(desk)
    if course is None:
        return None
    plan = desk.get(Plan, desk.message.chat, desk.who, course_key(course.name, course.tee))
    if plan.made_at is None:
        return None
    elsewhere = desk.get(Played, desk.player.playing) if desk.player.playing else None
    for one in (desk.round, elsewhere):
        if one is None or not binds(one, desk.now):
            continue
        begun = one.started_at
        if desk.message.kind == "group" or begun is None or plan.made_at > begun:
            return None
    return plan


def planned(desk: Desk, course: Course, wanted: tuple[int, ...]) -> tuple[Desk, Plan]:
    """Return the plan with these holes in it, worked out only where it is not up to date."""
    units = desk.units
    golfer = bag_of(desk.player.profile).golfer
    speed, from_deg, said = _wind(desk, units)
    ids = (desk.message.chat, desk.who, course_key(course.name, course.tee))
    settled = replace(golfer, swings=frozenset())  # a set has no order to rely on
    made_for = _digest(desk, course, f"{settled!r} {sorted(golfer.swings)}", said)
    plan = desk.get(Plan, *ids)
    if plan.made_for != made_for:
        plan = Plan(
            ids=ids, course=course.name, tee=course.tee, made_for=made_for, made_at=desk.now,
            profile_version=desk.player.profile.version, wind=said, wind_speed=speed,
        )  # fmt: skip
        plan = plan.model_copy(update=_round_facts(desk, course, speed, units))
    missing = [n for n in wanted if n not in plan.holes]
    wind = None if from_deg is None else (speed, from_deg)
    asked = {n: f for n in missing if (f := hole_facts(course.holes[n], units, wind=wind))}
    lacks = tuple(f"hole {n}: no length" for n in missing if n not in asked)
    if asked:
        found = plan_holes(
            golfer=golfer,
            table=table_of(desk, golfer),
            holes=tuple(asked.values()),
            day=PlanDay(
                wind_speed=to_quantity(speed, "wind", units),
                air=air_facts(Facts(), desk.trip.day, units),
                firmness=desk.trip.day.turf or "normal",
                liked=_liked(desk, units),
            ),
        )
        holes = {
            n: _hole(desk, course, n, course.holes[n], one, units)
            for n, one in zip(asked, found, strict=True)
        }
        news = {"holes": {**plan.holes, **holes}, "lacks": tuple({*plan.lacks, *lacks})}
        plan = plan.model_copy(update=news)
        strokes = {str(n): one.conditions[0].strokes for n, one in sorted(holes.items())}
        desk = desk.put(plan).log(
            "plan",
            {"course": course.name, "tee": course.tee, "holes": sorted(holes),
             "made_for": made_for, "strokes": strokes},
        )  # fmt: skip
    return desk, plan


def _digest(desk: Desk, course: Course, golfer: str, wind: str) -> str:
    """Return what a plan rests on, in short: another text is another plan."""
    day = desk.trip.day
    parts = (
        ENGINE_VERSION, golfer, wind, course.model_dump_json(), desk.player.units,
        desk.player.profile.leave, day.air, day.turf,
    )  # fmt: skip
    return hashlib.sha256(repr(parts).encode()).hexdigest()


def _wind(desk: Desk, units: Units) -> tuple[Measure, float | None, str]:
    """Return the wind's speed, the bearing it comes from, and how the sheet names it."""
    day = desk.trip.day
    usual = MODERATE_WIND[units]
    if day.at is None or desk.now - day.at > DAY_LASTS:
        return usual, None, ""
    if day.metar is not None:
        report = read_metar(day.metar, day.at)
        if report is not None and report.wind is not None and report.wind.speed is not None:
            speed, bearing = report.wind.speed, report.from_deg
            if bearing is None or speed.value == 0.0:
                return usual, None, ""
            return speed, bearing, f"{point_of(bearing)} {speed.value:.0f} {speed.unit}"
    wind = day.wind
    if wind is None or wind.speed is None or wind.compass is None or wind.speed.unit == "club":
        return usual, None, ""
    bearing = bearing_of(wind.compass)
    if bearing is None or wind.speed.value == 0.0:
        return usual, None, ""
    unit = wind.speed.unit or ("km/h" if units == "metric" else "mph")
    return wind.speed, bearing, f"{wind.compass} {wind.speed.value:.0f} {unit}"


def _round_facts(desk: Desk, course: Course, speed: Measure, units: Units) -> dict[str, object]:
    """Return what the sheet says of the whole round."""
    golfer = bag_of(desk.player.profile).golfer
    rows = clubs_today(
        golfer=golfer,
        wind_speed=to_quantity(speed, "wind", units),
        air=air_facts(Facts(), desk.trip.day, units),
        firmness=desk.trip.day.turf or "normal",
    )

    def m(q: Q) -> Measure:
        return measured(q, "distance", units)

    facts: dict[str, object] = {
        "clubs": tuple(
            ClubToday(club=r.club, calm=m(r.calm), into=m(r.into), down=m(r.down)) for r in rows
        ),
        "drive": m(rows[0].total),
    }
    low, high = suited_length(rows[0].total)
    facts["tees"] = (round(si(low, "yd")), round(si(high, "yd")))
    has = _handicap(desk, course)
    par = _par(course)
    if has is not None and par is not None:
        facts["target"] = par + has
        facts["usual"] = par + has + OVER_HANDICAP
    return facts


def _handicap(desk: Desk, course: Course) -> int | None:
    """Return the strokes the player has on this course from these tees."""
    index, par = desk.player.profile.handicap, _par(course)
    if index is None:
        return None
    if par is None or course.rating is None or course.slope is None or len(course.holes) != 18:
        return round(index)
    return course_handicap(
        index=index, slope=course.slope, course_rating=course.rating, par=par, holes=18
    )


def _par(course: Course) -> int | None:
    pars = [note.hole.par for note in course.holes.values()]
    known = [p for p in pars if p is not None]
    return sum(known) if len(known) == len(pars) and len(pars) in (9, 18) else None


def _liked(desk: Desk, units: Units) -> Q | None:
    leave = desk.player.profile.leave
    return None if leave is None else to_quantity(leave, "distance", units)


def _hole(
    desk: Desk, course: Course, number: int, note: HoleNote, found: HolePlan, units: Units
) -> PlannedHole:
    def m(q: Q) -> Measure:
        return measured(q, "distance", units)

    def shot(one: PlanShot | None) -> PlannedShot | None:
        if one is None:
            return None
        return PlannedShot(
            club=one.club, swing=one.kind, total=m(one.total), aside=m(one.aside),
            left=m(one.left), strokes=one.strokes,
        )  # fmt: skip

    def condition(one: ConditionPlan) -> Conditions:
        tee = shot(one.tee)
        if tee is None:
            msg = "a plan has a tee shot"
            raise ValueError(msg)
        return Conditions(
            condition=one.condition, strokes=one.strokes, par_or_better=one.par_or_better,
            double_or_worse=one.double_or_worse, tee=tee, other=shot(one.other),
            next=shot(one.next), go=shot(one.go), lay=shot(one.lay), liked=shot(one.liked),
            chance=dict(one.chance),
            off_tee=one.off_tee and Dear(side=one.off_tee.side, strokes=one.off_tee.strokes),
            at_green=one.at_green and Dear(side=one.at_green.side, strokes=one.at_green.strokes),
        )  # fmt: skip

    index, has = note.hole.stroke_index, _handicap(desk, course)
    received = None
    if index is not None and has is not None and len(course.holes) == 18:
        received = strokes_received(handicap=has, stroke_index=index, holes=18)
    said = note.hole.length
    length = quantity(0.0, "m") if said is None else to_quantity(said, "distance", units)
    return PlannedHole(
        number=number, par=found.par, length=m(length), stroke_index=index, received=received,
        fairway_half=m(found.fairway_half),
        conditions=tuple(condition(c) for c in found.conditions), assumed=found.assumed,
        text=note.text,
    )  # fmt: skip
