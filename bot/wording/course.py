"""Notes of a course in words."""

from __future__ import annotations

from collections.abc import Iterator

from bot.model.measure import Measure
from bot.model.plan import CourseShown, HoleShown, NoteKept
from bot.model.reading import Hazard
from bot.model.state import HoleNote
from bot.wording.base import WIDTH, Lines, Style, capital, word
from bot.wording.numbers import length
from bot.wording.troubles import shorter

COSTLY = ("ob", "water", "penalty", "ditch")  # told first where room is short
ROOM = WIDTH - 9  # what is left beside the word before it
_POINTS = ("N", "NE", "E", "SE", "S", "SW", "W", "NW")


@word.register
def _(answer: NoteKept, style: Style) -> Lines:
    head = "Back to" if answer.undone else "Kept"
    second = _trouble_line(answer.note, style)
    if answer.problem:
        second = f"Look again: {answer.problem}"
    elif answer.was:
        second = f"Changed what {answer.was[:16]} wrote; undo takes it back."
    lines = [_cut(f"{head} {_facts(answer.hole, answer.note, style)}")]
    both = (*lines, _cut(second)) if second else tuple(lines)
    return Lines(both, buttons=("undo",), tail="Noted.")


@word.register
def _(answer: HoleShown, style: Style) -> Lines:
    first = _cut(f"Hole {_facts(answer.hole, answer.note, style)}")
    second = _trouble_line(answer.note, style)
    return Lines((first, _cut(second)) if second else (first,), buttons=("plan hole",))


@word.register
def _(answer: CourseShown, style: Style) -> Lines:
    tee = f", {answer.tee} tees" if answer.tee else ""
    if not answer.holes:
        return Lines(
            (_cut(f"{answer.course}{tee}: no holes noted yet. Send one like"),
             '"note hole 4 par 5 532 index 7, water right 210 to 260"')
        )  # fmt: skip
    count = len(answer.holes)
    par = f", par {answer.par}" if answer.par else ""
    first = f"{answer.course}{tee}: {count} hole{'s' if count > 1 else ''}{par}."
    if answer.problems:
        return Lines((_cut(first), _cut(f"{answer.problems[0].capitalize()}.")))
    return Lines((_cut(first), "Send: plan the round, or sheet."))


def _facts(number: int, note: HoleNote, style: Style) -> str:
    """Return par, length, index, bearing and bend in one breath."""
    line = ""
    for piece in _pieces(number, note, style):
        more = f"{line}, {piece}" if line else piece
        if len(more) > ROOM:
            break
        line = more
    return f"{line}."


def _pieces(number: int, note: HoleNote, style: Style) -> Iterator[str]:
    hole = note.hole
    yield str(number)
    if hole.par:
        yield f"par {hole.par}"
    if hole.length:
        yield length(hole.length, style)
    if hole.stroke_index:
        yield f"index {hole.stroke_index}"
    if hole.bearing_deg is not None:
        yield f"plays {_POINTS[round(hole.bearing_deg / 45.0) % 8]}"
    if hole.dogleg:
        at = f" at {length(hole.dogleg_at, style)}" if hole.dogleg_at else ""
        yield f"bends {hole.dogleg}{at}"
    if note.green and note.green.depth:
        yield f"green {length(note.green.depth, style)} deep"


def _trouble_line(note: HoleNote, style: Style) -> str:
    """Return the trouble, and what else was written."""
    mapped = note.map.hazards if note.map else ()
    listed = sorted((*note.hazards, *mapped), key=lambda h: h.kind not in COSTLY)
    said = list(dict.fromkeys(_hazard(h, style) for h in listed))
    if note.green and note.green.falls:
        said.append(f"green falls to the {note.green.falls}")
    line = ""
    for part in said:
        more = f"{line}, {part}" if line else part
        if len(more) >= WIDTH:
            break
        line = more
    if not line:
        return note.text
    return f"{capital(line)}."


def _hazard(hazard: Hazard, style: Style) -> str:
    side = "" if hazard.side in (None, "cross") else f" {hazard.side}"
    return f"{shorter(hazard.kind)}{side}{_span(hazard, style)}"


def _span(hazard: Hazard, style: Style) -> str:
    start: Measure | None = hazard.start or hazard.reach_or_carry
    if start and hazard.end:
        return f" {length(start, style)} to {length(hazard.end, style)}"
    if start:
        return f" {length(start, style)}"
    return f" to {length(hazard.end, style)}" if hazard.end else ""


def _cut(line: str) -> str:
    """Return a line that fits; a course's own text may be longer than the screen."""
    return line if len(line) <= WIDTH else f"{line[: WIDTH - 3].rstrip(' ,.')}..."
