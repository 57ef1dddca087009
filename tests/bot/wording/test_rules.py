"""Rules help: two lines, the right section, and who has the last word."""

import re
from typing import get_args

import pytest

from bot.model.reading import RulesHelp
from bot.model.ruling import Ruling
from bot.wording import Style
from bot.wording.base import WIDTH, word
from bot.wording.rules import topics

ASKED = get_args(RulesHelp.model_fields["topic"].annotation)

# Sections of the Rules of Golf (The R&A and USGA, 2023); what each says, from a reading of the
# Rules: section, a fact that has to be in the two lines.
FACTS = {
    "yellow_penalty": ("17.1d", r"1 stroke.*back on the line"),
    "red_penalty": ("17.1d", r"1 stroke.*back on the line.*2 clubs"),
    "penalty_area": ("17.1d", r"1 stroke.*red.*2 clubs"),
    "unplayable": ("19.2", r"1 stroke.*back on the line.*2 clubs.*[Nn]ever in a penalty area"),
    "unplayable_bunker": ("19.3", r"1 stroke.*2 strokes: line outside"),
    "ob": ("18.2b", r"1 stroke.*again"),
    "lost": ("18.2", r"3 minutes.*1 stroke"),
    "bunker": ("12.2b", r"test"),
    "embedded": ("16.3", r"general area.*1 club"),
    "embedded_bunker": ("19.3", r"16\.3a.*1 stroke.*in the sand"),
    "free_relief": ("16.1", r"1 club-length.*no penalty"),
    "drop": ("14.3", r"knee height.*place"),
    "wrong_ball": ("6.3c", r"2 strokes"),
    "provisional": ("18.3", r"before you hit"),
    "ball_moved": ("9.4", r"1 stroke, put it back.*play on"),
    "search": ("18.2a", r"3 minutes"),
    "distance_device": ("4.3a", r"distance yes"),
    "advice": ("10.2", r"caddie or partner"),
    "clubs": ("4.1b", r"14.*at most 4"),
    "other": ("1.3", r"20\.1c"),
}


def test_every_topic_that_can_be_asked_has_words() -> None:
    assert set(ASKED) <= set(topics())
    assert set(FACTS) == set(topics())


@pytest.mark.parametrize("topic", sorted(FACTS))
def test_two_lines_with_the_section_and_the_committee(topic: str) -> None:
    section, fact = FACTS[topic]
    lines = word(Ruling(topic=topic), Style()).lines
    assert len(lines) == 2
    assert all(len(line) <= WIDTH for line in lines), lines
    text = " ".join(lines)
    assert topics()[topic]["rule"] == section
    assert topic == "other" or section in text
    assert re.search(fact, text), text
    assert re.search(r"[Cc]ommittee (decides|rules)\.$", text)


@pytest.mark.parametrize("topic", sorted(FACTS))
def test_more_ends_with_the_committee_too(topic: str) -> None:
    lines = word(Ruling(topic=topic, more=True), Style()).lines
    assert len(lines) > 2
    assert "committee" in lines[-1]
