"""The sheet: one page that needs nothing else, with everything typed escaped."""

from html.parser import HTMLParser

import pytest

from bot.courses import read_course
from bot.model.plan import Plan
from bot.model.reading import CourseNote
from bot.model.state import Player, Profile, Trip
from bot.wording.base import Style
from bot.wording.plan import sheet_lines
from bot.wording.sheet import sheet_html
from tests.support.turns import Bench

NASTY = """
name = "Marram <Point> & Links"
tee = "white"
[[hole]]
number = 1
par = 4
length = 380
text = "<script>alert(1)</script>"
[[hole]]
number = 2
par = 5
length = 500
trouble = [{ kind = "water", side = "right", gap = 20 }]
"""


class Page(HTMLParser):
    def __init__(self) -> None:
        super().__init__()
        self.open: list[str] = []
        self.tags: list[str] = []
        self.links: list[str] = []

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        self.tags.append(tag)
        self.links += [v or "" for k, v in attrs if k in ("src", "href")]
        if tag not in ("meta",):
            self.open.append(tag)

    def handle_endtag(self, tag: str) -> None:
        assert self.open.pop() == tag


@pytest.fixture(scope="module")
def plan() -> Plan:
    bench = Bench()
    course, _ = read_course(NASTY, owner="me")
    bench.put(course)
    bench.put(Trip(ids=("me",), course=course.name, tee="white"))
    bench.put(Player(ids=("me",), units="imperial", profile=Profile(version=1, handicap=18.0)))
    (answer,) = bench.take(CourseNote(intent="plan_round"))
    return answer.plan


def test_the_page_is_whole_and_reaches_for_nothing(plan: Plan) -> None:
    page = Page()
    page.feed(sheet_html(plan, Style()))
    assert page.open == []
    assert page.links == []
    assert "script" not in page.tags
    assert page.tags.count("tr") == 1 + len(plan.holes) + 4  # head, holes; clubs side by side


def test_what_was_typed_is_escaped(plan: Plan) -> None:
    text = sheet_html(plan, Style())
    assert "Marram &lt;Point&gt; &amp; Links" in text
    assert "<script" not in text


def test_the_stamp_is_on_both(plan: Plan) -> None:
    assert "01 Jun 2026 09:00" in sheet_html(plan, Style())
    assert "01 Jun 2026 09:00" in sheet_lines(plan, Style())[0]
