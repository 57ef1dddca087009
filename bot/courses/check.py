"""What is wrong with these notes? Every finding names its hole."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass

from bot.model.measure import Measure
from bot.model.state import Course, HoleNote

MOST_HOLES = 18
# Outside these a length is a slip of the unit or of the thumb: common practice, no source.
SHORTEST_YD, LONGEST_YD = 50.0, 800.0
_USUAL_YD = {3: (60.0, 300.0), 4: (200.0, 560.0), 5: (400.0, 720.0), 6: (600.0, 800.0)}
_PAST_GREEN_YD = 80.0  # trouble farther past the middle of the green is another hole's
_YD = {"yd": 1.0, "pace": 1.0, "m": 1.0 / 0.9144, "ft": 1.0 / 3.0}  # 1 yd = 0.9144 m exactly


@dataclass(frozen=True, slots=True)
class Problem:
    """One finding; a grave one keeps the hole from being used."""

    text: str
    hole: int | None = None
    line: int | None = None
    grave: bool = False
    field: str = ""

    def __str__(self) -> str:
        """Return the finding with its place, such as ``line 12, hole 7: ...``."""
        place = [f"line {self.line}"] if self.line else []
        place += [f"hole {self.hole}"] if self.hole is not None else []
        return f"{', '.join(place)}: {self.text}" if place else self.text


def yards(measure: Measure, bare: str = "yd") -> float:
    """Return a length in yards; a bare number is in `bare`."""
    return measure.value * _YD[measure.unit or bare]


def check(course: Course) -> tuple[Problem, ...]:
    """Return every finding on a course, hole by hole."""
    found = list(_whole(course))
    for number in sorted(course.holes):
        found += check_hole(number, course.holes[number])
    return tuple(found)


def check_hole(number: int, note: HoleNote) -> tuple[Problem, ...]:
    """Return every finding on one hole."""
    return tuple(
        Problem(text, hole=number, grave=grave, field=field)
        for field, grave, text in (*_basics(note), *_trouble(note))
    )


def _whole(course: Course) -> Iterator[Problem]:
    numbers = sorted(course.holes)
    if not numbers:
        yield Problem("there are no holes", grave=True)
        return
    wrong = [n for n in numbers if not 1 <= n <= MOST_HOLES]
    if wrong:
        yield Problem(
            f"holes are numbered 1 to 18, and there is a hole {wrong[0]}",
            grave=True,
            hole=wrong[0],
        )
    last = max(numbers)
    gaps = [n for n in range(1, last + 1) if n not in course.holes]
    if gaps:
        yield Problem(f"no notes for {_list(gaps)}")
    if len(numbers) not in (9, 18) and not gaps:
        yield Problem(f"{len(numbers)} holes: the plan covers those")
    units = Counter(
        note.hole.length.unit for note in course.holes.values() if note.hole.length is not None
    )
    if len(units) > 1:
        rare = units.most_common()[-1][0]
        which = [n for n in numbers if (size := course.holes[n].hole.length) and size.unit == rare]
        yield Problem(f"{_list(which)} in {rare or 'no unit'}, the others not: kept as said")
    indexes = Counter(
        note.hole.stroke_index for note in course.holes.values() if note.hole.stroke_index
    )
    for index, count in sorted(indexes.items()):
        if count > 1:
            yield Problem(f"stroke index {index} is given to {count} holes")
    if course.slope is not None and not 55 <= course.slope <= 155:  # Rules of Handicapping
        yield Problem(f"slope {course.slope} is outside 55 to 155", grave=True, field="slope")


def _basics(note: HoleNote) -> Iterator[tuple[str, bool, str]]:
    hole = note.hole
    if hole.par is None:
        yield "par", False, "no par given: it is taken from the length"
    elif not 3 <= hole.par <= 6:
        yield "par", True, f"par {hole.par} is none; send 3, 4, 5 or 6"
    if hole.stroke_index is not None and not 1 <= hole.stroke_index <= MOST_HOLES:
        yield "stroke_index", True, f"stroke index {hole.stroke_index} is outside 1 to 18"
    if hole.bearing_deg is not None and not 0 <= hole.bearing_deg <= 360:
        yield "bearing", True, f"bearing {hole.bearing_deg:g} is outside 0 to 360"
    if hole.length is None:
        yield "length", False, "no length given: it cannot be planned"
        return
    length = yards(hole.length)
    said = f"{hole.length.value:g} {hole.length.unit or 'yd'}"
    if not SHORTEST_YD <= length <= LONGEST_YD:
        yield "length", True, f"{said} cannot be; send 50 to 800 yards, or metres with an m"
        return
    if hole.par in _USUAL_YD:
        low, high = _USUAL_YD[hole.par]
        if not low <= length <= high:
            yield "length", False, f"{said} is unusual for a par {hole.par}: check the unit"
    if hole.dogleg_at is not None and yards(hole.dogleg_at) >= length:
        yield "dogleg", True, f"the bend at {hole.dogleg_at.value:g} is past the green"
    if hole.dogleg_at is not None and hole.dogleg is None:
        yield "dogleg", False, "which way does it bend, left or right?"
    green = note.green
    if green is not None and green.depth is not None and green.depth.value <= 0:
        yield "green", True, "the green's front is past its back"
    elif green is not None and green.depth is not None and not 5 <= yards(green.depth) <= 80:
        yield "green", True, f"a green {green.depth.value:g} deep cannot be"


def _trouble(note: HoleNote) -> Iterator[tuple[str, bool, str]]:
    length = note.hole.length
    for hazard in note.hazards:
        start, end = hazard.start, hazard.end
        if start and end and yards(start) > yards(end):
            yield (
                "trouble",
                True,
                f"{hazard.kind} starts at {start.value:g}, past its end {end.value:g}",
            )
        near = start or hazard.reach_or_carry
        if hazard.side is None:
            taken = "right across is taken" if near or end else "it is left out of plans"
            yield "trouble", False, f"which side is the {hazard.kind}? {taken}"
        if length and near and yards(near) > yards(length) + _PAST_GREEN_YD:
            yield "trouble", True, f"{hazard.kind} at {near.value:g} is far past the green"


def _list(numbers: list[int]) -> str:
    """Return holes as words: ``hole 3`` or ``holes 3, 4, 9``."""
    word = "hole" if len(numbers) == 1 else "holes"
    return f"{word} {', '.join(str(n) for n in numbers)}"
