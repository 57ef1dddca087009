from itertools import pairwise

import pytest

from bot.courses import BadCourse, read_course
from bot.model.measure import Measure
from tests.support.chats import ROOT

DEMO = (ROOT / "fixtures" / "courses" / "saltmarrow.toml").read_text("utf-8")
HEAD = 'name = "Test Green"\ntee = "blue"\n'


def course(holes: str):
    return read_course(HEAD + holes, owner="me")


def refused(holes: str) -> list[str]:
    with pytest.raises(BadCourse) as caught:
        course(holes)
    return [str(p) for p in caught.value.problems]


def test_the_demo_course_has_nothing_wrong_with_it() -> None:
    read, problems = read_course(DEMO, owner="me")
    assert problems == ()
    assert sorted(read.holes) == list(range(1, 19))
    assert sum(note.hole.par for note in read.holes.values()) == 72
    assert sorted(note.hole.stroke_index for note in read.holes.values()) == list(range(1, 19))


def test_what_is_written_is_what_is_kept() -> None:
    read, _ = course(
        "[[hole]]\nnumber = 4\npar = 5\nlength = '486 m'\nbearing = 'NE'\nrise = '24 ft'\n"
        "dogleg = { side = 'right', at = 240, turn = 30 }\n"
        "trouble = [{ kind = 'water', side = 'right', from = 210, to = 260, gap = 24 }]\n"
    )
    note = read.holes[4]
    assert note.hole.length == Measure(value=486, unit="m")
    assert note.hole.bearing_deg == 45.0
    assert note.hole.dogleg == "right"
    assert note.turn_deg == 30
    assert note.climb == Measure(value=24, unit="ft")
    assert note.hazards[0].gap == Measure(value=24, unit="yd")


@pytest.mark.parametrize(
    ("holes", "told"),
    [
        (
            "[[hole]]\nnumber = 7\npar = 4\nlength = 402\ngreen = { front = 410, back = 395 }\n",
            "line 7, hole 7: green front 410 is past its back 395",
        ),
        (
            "[[hole]]\nnumber = 1\npar = 4\nlength = 5000\n",
            "line 6, hole 1: 5000 yd cannot be; send 50 to 800 yards, or metres with an m",
        ),
        ("[[hole]]\nnumber = 19\npar = 4\nlength = 400\n", "holes are numbered 1 to 18"),
        ("[[hole]]\nnumber = 1\npar = 9\nlength = 400\n", "par 9 is none; send 3, 4, 5 or 6"),
        (
            "[[hole]]\nnumber = 2\nlength = 400\n[[hole]]\nnumber = 2\nlength = 300\n",
            "hole 2 is there twice",
        ),
        (
            "[[hole]]\nnumber = 3\npar = 3\nlength = 160\ntrouble = [\n"
            "  { kind = 'bunker', side = 'left', from = 150 },\n"
            "  { kind = 'lava', side = 'right' },\n]\n",
            "line 9, hole 3: trouble kind: Input should be",
        ),
        (
            "[[hole]]\nnumber = 3\npar = 3\nlength = 160\n"
            "trouble = [{ kind = 'water', side = 'left', from = 150, to = 120 }]\n",
            "line 7, hole 3: water starts at 150, past its end 120",
        ),
        (
            "[[hole]]\nnumber = 5\npar = 4\nlength = 'long'\n",
            "line 6, hole 5: length: 'long' is no length",
        ),
        (
            "[[hole]]\nnumber = 5\npar = 4\nlength = 400\nbearing = 'up'\n",
            "line 7, hole 5: bearing: 'up' is no bearing",
        ),
        (
            "[[hole]]\nnumber = 5\npar = 4\nlength = 400\ngreen = { colour = 'green' }\n",
            "line 7, hole 5: green colour: Extra inputs are not permitted",
        ),
        (
            "[[hole]]\nnumber = 5\npar = 4\nlength = 400\n[[hole.area]]\nkind = 'water'\n"
            "corners = [[0, 0], [10, 10], [10, 0], [0, 10]]\n",
            "line 7, hole 5: the edge of the water crosses itself",
        ),
        (
            "[[hole]]\nnumber = 5\npar = 4\nlength = 400\n"
            "dogleg = { side = 'left', at = 420 }\n",
            "line 7, hole 5: the bend at 420 is past the green",
        ),
        ("[[hole]\n", "not TOML"),
    ],
)  # fmt: skip
def test_a_fault_names_its_line_and_hole(holes: str, told: str) -> None:
    assert any(told in line for line in refused(holes)), refused(holes)


@pytest.mark.parametrize(
    ("holes", "told"),
    [
        ("[[hole]]\nnumber = 1\nlength = 400\n", "hole 1: no par given"),
        ("[[hole]]\nnumber = 1\npar = 4\n", "hole 1: no length given: it cannot be planned"),
        (
            "[[hole]]\nnumber = 1\npar = 4\nlength = 400\n"
            "[[hole]]\nnumber = 3\npar = 4\nlength = 400\n",
            "no notes for hole 2",
        ),
        (
            "".join(f"[[hole]]\nnumber = {n}\npar = 4\nlength = 400\n" for n in range(1, 13)),
            "12 holes",
        ),
        (
            "[[hole]]\nnumber = 1\npar = 4\nlength = 400\n"
            "[[hole]]\nnumber = 2\npar = 4\nlength = '370 m'\n",
            "in m, the others not: kept as said",
        ),
        ("[[hole]]\nnumber = 1\npar = 3\nlength = 532\n", "532 yd is unusual for a par 3"),
    ],
)
def test_what_a_course_lacks_is_told_and_nothing_is_lost(holes: str, told: str) -> None:
    read, problems = course(holes)
    assert any(told in str(p) for p in problems), problems
    assert len(read.holes) == holes.count("[[hole]]")


def test_findings_come_hole_by_hole() -> None:
    _, problems = course("".join(f"[[hole]]\nnumber = {n}\n" for n in (1, 2, 3)))
    holes = [p.hole for p in problems if p.hole is not None]
    assert all(a <= b for a, b in pairwise(holes))
