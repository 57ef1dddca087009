"""A newcomer is asked at most six things, keeps what is told, and can take it back."""

from __future__ import annotations

import pytest

from bot.model import reading as read
from bot.model.answer import Answer, CannotYet
from bot.model.golfer import BagShown, ProfileDoubt, ProfileKept, SetUp
from bot.model.measure import Measure
from bot.model.state import Player
from bot.wording import Style, reply
from tests.support.turns import Bench


def club(name: str, yards: float, unit: str = "yd", **more: object) -> read.Profile:
    carry = Measure(value=yards, unit=unit)  # type: ignore[arg-type]
    return read.Profile(intent="set_club", club=name, carry=carry, **more)  # type: ignore[arg-type]


MANY = ("D", "3w", "5w", "7w", "3h", "4h", "5i", "6i", "7i", "8i", "9i", "PW", "GW", "SW")
HCP = read.Profile(intent="set_handicap", handicap=18)
SHOT = read.Shot(facts=read.Facts(distance=Measure(value=160, unit="yd")))
YES, NO, SKIP = read.Answered(yes=True), read.Answered(yes=False), read.Answered(skip=True)


def one(bench: Bench, *acts: read.Act) -> Answer:
    return next(a for a in bench.take(*acts) if a.kind != "silence")


def said(answer: Answer) -> tuple[str, ...]:
    lines = reply((answer,), Style()).lines
    assert all(len(line) <= 64 for line in lines), lines
    return lines


def kept(bench: Bench, *acts: read.Act) -> ProfileKept:
    answer = one(bench, *acts)
    assert isinstance(answer, ProfileKept), answer
    said(answer)
    return answer


def profile(bench: Bench):  # type: ignore[no-untyped-def]
    return bench.get(Player, "me").profile


def test_six_questions_make_a_full_profile() -> None:
    b = Bench()
    hello = one(b, read.Talk(intent="greeting"))
    assert hello == SetUp(ask="start", hello=True)
    said(hello)
    assert kept(b, club("7i", 150)).ask == "handicap"
    assert kept(b, read.Answered(number=Measure(value=18))).ask == "hand"
    assert kept(b, read.Profile(intent="set_hand", hand="right")).ask == "shape"
    assert kept(b, read.Profile(intent="set_shape", shape="slice")).ask == "miss"
    assert kept(b, read.Answered(words="right")).ask == "usual"
    end = kept(b, NO)
    assert end.done
    assert end.ask is None
    p = profile(b)
    assert (p.handicap, p.hand, p.shape, p.miss, p.good_ones) == (
        18, "right", "slice", "right", True,
    )  # fmt: skip
    assert p.version == 6
    assert [e.profile_version for e in b.log if e.kind == "profile"] == [1, 2, 3, 4, 5, 6]
    # Told anew later: kept without a question.
    assert kept(b, club("8i", 138)).ask is None


def test_two_facts_at_once_skip_ahead() -> None:
    b = Bench()
    one(b, read.Talk(intent="start"))
    answer = kept(b, club("D", 230), club("7i", 150), HCP)
    assert answer.ask == "hand"
    assert len(answer.kept) == 3
    assert said(answer)[0] == "Driver 230, 7-iron 150, handicap 18."
    assert profile(b).version == 1


def test_every_question_can_be_skipped() -> None:
    b = Bench()
    one(b, read.Talk(intent="start"))
    asked = []
    for _ in range(6):
        answer = kept(b, SKIP)
        if answer.ask is None:
            break
        asked.append(answer.ask)
    assert asked == ["hand", "shape", "miss"]
    assert profile(b).version == 0


def test_a_newcomers_shot_waits_for_two_facts() -> None:
    b = Bench()
    assert one(b, SHOT) == SetUp(ask="start", hello=True)
    answer = one(b, club("7i", 150), HCP)
    assert not isinstance(answer, ProfileKept | SetUp)  # the shot that waited
    assert profile(b).version == 1


def test_a_number_over_54_is_a_score() -> None:
    b = Bench()
    one(b, read.Talk(intent="start"))
    kept(b, club("7i", 150))
    kept(b, read.Answered(number=Measure(value=92)))
    assert profile(b).usual_score == 92
    assert profile(b).handicap is None


def test_a_reply_that_is_none_repeats_the_question() -> None:
    b = Bench()
    one(b, read.Talk(intent="start"))
    kept(b, club("7i", 150), HCP)
    assert one(b, read.Answered(words="banana")) == SetUp(ask="hand", again=True)
    assert one(b) == SetUp(ask="hand", again=True)


@pytest.mark.parametrize(
    ("acts", "fault"),
    [
        ((club("7i", 150), club("9i", 165)), "order"),
        ((club("PW", 400),), "range"),
        ((club("7i", 150), club("7i", 160)), "twice"),
        ((read.Profile(intent="set_handicap", handicap=90.0),), "handicap"),
        ((read.Profile(intent="set_club", club="7i"),), "how_far"),
        ((read.Profile(intent="set_club", carry=Measure(value=150)),), "which_club"),
        ((club("77i", 150),), "unknown"),
        (
            tuple(read.Profile(intent="add_club", club=n) for n in MANY),
            "too_many",
        ),
    ],
)
def test_what_cannot_be_is_asked_and_not_kept(acts: tuple[read.Act, ...], fault: str) -> None:
    b = Bench()
    answer = one(b, *acts)
    assert isinstance(answer, ProfileDoubt)
    assert answer.fault == fault
    assert len(said(answer)) == 2
    assert profile(b).version == 0


def test_undo_takes_the_last_changes_back_one_by_one() -> None:
    b = Bench()
    kept(b, club("7i", 150), HCP)
    kept(b, club("7i", 155))
    kept(b, read.Profile(intent="set_hand", hand="left"))
    undo = read.Talk(intent="undo")
    assert kept(b, undo).undone
    assert profile(b).hand is None
    assert kept(b, undo).undone
    assert profile(b).clubs[0].carry == Measure(value=150, unit="yd")
    assert profile(b).version == 5
    kept(b, undo)
    assert profile(b).clubs == ()
    assert isinstance(one(b, undo), CannotYet)


def test_bare_numbers_take_the_unit_once_it_is_known() -> None:
    b = Bench()
    kept(b, club("7i", 140, ""))
    assert profile(b).clubs[0].carry == Measure(value=140)
    kept(b, read.Profile(intent="set_units", units="metric"))
    assert profile(b).clubs[0].carry == Measure(value=140, unit="m")
    c = Bench()
    kept(c, club("7i", 140, "m"))
    assert c.get(Player, "me").units == "metric"


def test_the_bag_never_shows_a_guess_as_known() -> None:
    b = Bench()
    kept(b, club("7i", 150), HCP)
    shown = one(b, read.Profile(intent="show"))
    assert isinstance(shown, BagShown)
    sources = {c.name: c.source for c in shown.clubs}
    assert sources.pop("7i") == "told"
    assert set(sources.values()) == {"guessed"}
    lines = said(shown)
    for name in sources:
        assert f"{name} ~" in "\n".join(lines)
    assert "7i 150" in "\n".join(lines)
    assert any("~ guessed" in line for line in lines)
    seven = one(b, read.Profile(intent="show", club="7i"))
    assert said(seven)[0] == "7-iron 150: as you told it."
    assert "a guess" in said(one(b, read.Profile(intent="show", club="D")))[0]
    assert isinstance(one(b, read.Profile(intent="show", club="2i")), ProfileDoubt)
    # The best one ever is a guess of the usual one.
    kept(b, club("6i", 200, best_ever=True))
    shown = one(b, read.Profile(intent="show"))
    assert {c.name: c.source for c in shown.clubs}["6i"] == "guessed"


def test_a_club_left_at_home_leaves_the_bag() -> None:
    b = Bench()
    kept(b, club("7i", 150), HCP)
    kept(b, read.Profile(intent="remove_club", club="LW"))
    shown = one(b, read.Profile(intent="show"))
    assert "LW" not in {c.name for c in shown.clubs}


def test_a_total_leaves_a_known_carry_as_it_was() -> None:
    b = Bench()
    kept(b, club("7i", 150), HCP)
    with_roll = Measure(value=158)
    answer = one(b, read.Profile(intent="set_club", club="7i", total=with_roll))
    assert said(answer)[0] == "7-iron 158 with roll (carry stays 150)."
    shown = one(b, read.Profile(intent="show", club="7i"))
    assert said(shown)[0] == "7-iron 150: as you told it."
    # Less with its roll than through the air is asked about, and nothing is kept.
    short = one(b, read.Profile(intent="set_club", club="7i", total=Measure(value=140)))
    assert isinstance(short, ProfileDoubt)
    assert said(short)[0] == "140 with roll, but a carry of 150?"
