"""What the log says of the stored numbers: suggested after a round, taken over on a yes."""

from __future__ import annotations

import math
from dataclasses import asdict, replace
from typing import Any

from bot.model.answer import Answer, CannotYet
from bot.model.card import RoundOver
from bot.model.entry import Entry
from bot.model.golfer import Changed, ClubLearned, LessonShown, ProfileDoubt
from bot.model.measure import Measure, Unit
from bot.model.reading import Answered, Expecting, Review
from bot.model.state import ClubFact, Player, Units
from bot.turn import putting
from bot.turn.bag import bag_of, told_only
from bot.turn.desk import Desk
from bot.turn.measures import measured
from bot.turn.profile import club_line
from bot.turn.versions import save
from engine import Lesson, Seen, Suggestion, lesson_of, quantity, si

_DAY = 86_400.0
_EIGHTY = 1.2816  # standard deviations either side that hold four fifths of a normal
_FEW = 10  # solid shots below which a club's carry is not well known
_ANGLES = ("spread_side_rad", "lean_rad")
_FIELDS = {
    "spread_long": "spread_long",
    "spread_side_rad": "spread_side_deg",
    "lean_rad": "lean_deg",
    "mishit": "mishit",
}
_OPEN_ENDED = ("low_m", "high_m", "left_rad", "right_rad")


def seen_body(seen: Seen) -> dict[str, Any]:
    """Return a reduced shot as JSON for a result's entry, under its key ``seen``."""
    body = asdict(seen)
    for name in _OPEN_ENDED:
        if math.isinf(body[name]):
            body[name] = None
    del body["age_days"]
    return body


def shots_of(desk: Desk) -> list[Seen]:
    """Return all reduced shots of this player that stand in the log, today's included."""
    logged = desk.shelf.entries(player=desk.who, kinds=("result",))
    today = (e for e in desk.entries if e.kind == "result" and e.player == desk.who)
    shots = []
    for entry in (*logged, *today):
        seen = seen_in(entry)
        if seen is None:
            continue
        age = (desk.now - entry.at).total_seconds() / _DAY
        shots.append(replace(seen, age_days=max(age, 0.0)))
    return shots


def seen_in(entry: Entry) -> Seen | None:
    """Return the reduced shot of a result's entry, of today; None where it teaches nothing."""
    body = entry.body.get("seen")
    if body is None:
        return None
    low, high, left, right = (body[name] for name in _OPEN_ENDED)
    ends = {
        "low_m": -math.inf if low is None else low,
        "high_m": math.inf if high is None else high,
        "left_rad": -math.inf if left is None else left,
        "right_rad": math.inf if right is None else right,
    }
    return Seen(**{**body, **ends})


def lesson(desk: Desk) -> tuple[Lesson, int]:
    """Refit from the whole log; return the lesson and the number of shots behind it."""
    profile = desk.player.profile
    shots = shots_of(desk)
    found = lesson_of(
        bag_of(told_only(profile)),
        bag_of(profile),
        shots,
        wind_feel=profile.wind_feel,
        height_feel=profile.height_feel,
    )
    return found, len(shots)


def take(desk: Desk, act: Review) -> tuple[Desk, Answer]:
    """Show what the log says, take it over, or let that happen by itself."""
    if act.intent == "club_stats" and act.club == "P":
        return desk, putting.shown(desk)
    if act.intent == "club_stats":
        return desk, _club(desk, act.club)
    if act.part in ("always", "never"):
        by_itself = act.part == "always"
        desk = desk.put(desk.player.model_copy(update={"learn_by_itself": by_itself}))
        return desk, LessonShown(shots=0, by_itself=by_itself)
    if act.intent == "apply_learning" or desk.player.learn_by_itself:
        return _take_all(desk)
    return _ask_next(desk, ())


def take_answered(desk: Desk, act: Answered) -> tuple[Desk, Answer]:
    """Take a yes or no to the suggestion that is open."""
    key = desk.memory.asked_what
    found, count = lesson(desk)
    wanted = next((c for c in suggested(desk, found) if c.key == key), None)
    if wanted is None:
        return _ask_next(desk, ())
    if act.yes:
        return _ask_next(_taken_over(desk, (wanted,)), (wanted,))
    if act.yes is False or act.skip or act.unknown:
        body = {"key": wanted.key, "taken": False, "learned": wanted.learned.value}
        return _ask_next(desk.log("learned", body), ())
    return desk, LessonShown(shots=count, ask=wanted)


def after_round(desk: Desk, answer: Answer) -> tuple[Desk, Answer]:
    """Say with the end of a round which numbers look wrong, or take them over if so set."""
    if not isinstance(answer, RoundOver) or not answer.for_all:
        return desk, answer
    found, _ = lesson(desk)
    changes = suggested(desk, found)
    by_itself = desk.player.learn_by_itself
    if changes and by_itself:
        desk = _taken_over(desk, changes)
    update = {"doubted": len(changes), "taken": by_itself and bool(changes)}
    return desk, answer.model_copy(update=update)


def waiting(desk: Desk) -> bool:
    """Say whether a yes or no now is about a suggestion."""
    asked = desk.memory.expecting
    what = desk.memory.asked_what or ""
    return asked is not None and asked.about == "yes_no" and what.startswith("learn:")


def _ask_next(desk: Desk, taken: tuple[Changed, ...]) -> tuple[Desk, Answer]:
    found, count = lesson(desk)
    changes = suggested(desk, found)
    first = changes[0] if changes else None
    desk = desk.put(
        desk.memory.model_copy(
            update={
                "expecting": Expecting(about="yes_no") if first else None,
                "asked_what": first.key if first else None,
            }
        )
    )
    return desk, LessonShown(
        shots=count, ask=first, more=max(len(changes) - 1, 0), taken=taken, picked=found.picked
    )


def _take_all(desk: Desk) -> tuple[Desk, Answer]:
    found, count = lesson(desk)
    changes = suggested(desk, found)
    if changes:
        desk = _taken_over(desk, changes)
    return desk, LessonShown(shots=count, taken=changes, picked=found.picked)


def _taken_over(desk: Desk, changes: tuple[Changed, ...]) -> Desk:
    """Store learned values as the next version of the profile."""
    player = desk.player
    for change in changes:
        player = _stored(player, change)
        desk = desk.log(
            "learned", {"key": change.key, "taken": True, "learned": change.learned.value}
        )
    return save(desk, player, why="learned")


def _stored(player: Player, change: Changed) -> Player:
    profile = player.profile
    if not change.club:
        value: object = change.learned.value
        if change.value == "miss":
            value = "right" if change.learned.value > 0 else "left"
        learned = (*(n for n in profile.learned if n != change.value), change.value)
        update = {change.value: value, "learned": learned}
        return player.model_copy(update={"profile": profile.model_copy(update=update)})
    fact = next((c for c in profile.clubs if c.name == change.club), ClubFact(name=change.club))
    if change.value == "carry_m":
        told = fact.told_carry if fact.carry_source == "learned" else fact.carry
        fact = fact.model_copy(
            update={
                "carry": change.learned, "carry_source": "learned", "told_carry": told,
                "shots": change.solid,
            }
        )  # fmt: skip
    else:
        names = (*(n for n in fact.learned if n != change.value), change.value)
        fact = fact.model_copy(
            update={_FIELDS[change.value]: change.learned.value, "learned": names}
        )
    clubs = (*(c for c in profile.clubs if c.name != change.club), fact)
    return player.model_copy(update={"profile": profile.model_copy(update={"clubs": clubs})})


def suggested(desk: Desk, found: Lesson) -> tuple[Changed, ...]:
    """Suggestions in the player's units, less those refused that have hardly moved since."""
    units = desk.units
    refused = {
        e.body["key"]: e.body["learned"]
        for e in (*desk.shelf.entries(player=desk.who, kinds=("learned",)), *desk.entries)
        if e.kind == "learned" and not e.body["taken"]
    }
    changes = (*(_changed(s, units) for s in found.suggestions), *putting.changes(desk))
    return tuple(
        c
        for c in changes
        if c.key not in refused or abs(c.learned.value - refused[c.key]) > c.half.value
    )


def _changed(found: Suggestion, units: Units) -> Changed:
    def shown(value: float) -> Measure:
        if found.value == "carry_m":
            return measured(quantity(value, "m"), "distance", units)
        if found.value in _ANGLES:
            return Measure(value=si(quantity(value, "rad"), "deg"), unit="deg")
        unit: Unit = ""
        return Measure(value=value, unit=unit)

    return Changed(
        club=found.club,
        value=found.value,
        stored=shown(found.stored),
        learned=shown(found.learned),
        half=shown(found.half),
        solid=round(found.solid),
    )


def _club(desk: Desk, name: str | None) -> Answer:
    """What is known of one club, and whether that is enough."""
    if name is None:
        return ProfileDoubt(fault="which_club")
    found, _ = lesson(desk)
    learned = found.learned
    if name not in learned.names:
        return CannotYet(reason="club_unknown", said=name)
    i = learned.names.index(name)
    units = desk.units

    def shown(metres: float) -> Measure:
        return measured(quantity(float(metres), "m"), "distance", units)

    return ClubLearned(
        stored=club_line(desk.player, name),
        learned=shown(learned.carry_m[i]),
        half=shown(_EIGHTY * learned.carry_sd_m[i]),
        solid=round(float(learned.solid[i])),
        bad=round(float(learned.bad[i])),
        shots=int(learned.shots[i]),
        few=round(float(learned.solid[i])) < _FEW,
    )
