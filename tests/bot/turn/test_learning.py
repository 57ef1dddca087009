"""Learned numbers are suggested, taken over only on a yes, and undone with the log."""

from __future__ import annotations

from datetime import timedelta

from bot.model import reading as read
from bot.model.entry import Entry
from bot.model.golfer import BagShown, ClubLearned, LessonShown
from bot.model.measure import Measure
from bot.model.state import ClubFact, Player, Profile
from bot.turn.bag import bag_of, told_only
from bot.turn.learning import seen_body
from bot.wording import Style, reply
from engine import ShotResult, quantity, seen_of
from tests.support.turns import Bench

LEARN = read.Review(intent="learn")
YES, NO = read.Answered(yes=True), read.Answered(yes=False)
SCATTER = (-6, -4, -2, -1, 0, 1, 3, 4, 5)


def bench(seven: float = 152, shots: tuple[float, ...] = ()) -> Bench:
    b = Bench()
    facts = (
        ClubFact(name="D", carry=Measure(value=228, unit="yd")),
        ClubFact(name="7i", carry=Measure(value=seven, unit="yd")),
    )
    profile = Profile(
        version=1, hand="right", handicap=14, shape="fade", miss="right", clubs=facts
    )
    b.put(Player(ids=("me",), units="imperial", profile=profile, invited=True))
    for yards in shots:
        log(b, yards)
    return b


def log(b: Bench, yards: float, club: str = "7i") -> None:
    seen = seen_of(ShotResult(club=club, carry=quantity(yards, "yd")))
    b.log.append(
        Entry(
            id=len(b.log) + 1,
            kind="result",
            chat="me",
            message_id=f"r{len(b.log)}",
            player="me",
            at=b.now - timedelta(days=3),
            body={"seen": seen_body(seen)},
        )
    )


def lesson(b: Bench, *acts: read.Act) -> LessonShown:
    (answer,) = b.take(*acts)
    assert isinstance(answer, LessonShown), answer
    lines = reply((answer,), Style()).lines
    assert all(len(line) <= 64 for line in lines), lines
    return answer


def profile(b: Bench) -> Profile:
    return b.get(Player, "me").profile


def carry(b: Bench) -> float:
    fact = next(c for c in profile(b).clubs if c.name == "7i")
    assert fact.carry is not None
    return fact.carry.value


def test_nine_short_shots_suggest_a_shorter_club_and_yes_takes_it() -> None:
    b = bench(152, tuple(144 + d for d in SCATTER))
    found = lesson(b, LEARN)
    assert found.ask is not None
    assert (found.ask.club, found.ask.value, found.ask.solid) == ("7i", "carry_m", 9)
    assert reply((found,), Style()).lines == (
        "7-iron: 9 solid shots, 144 +-3, stored 152. Use 144?",
        "Few shots: it leans on what you told and on your other clubs.",
    )
    assert carry(b) == 152  # nothing changes before the yes
    after = lesson(b, YES)
    assert [c.key for c in after.taken] == ["learn:7i:carry_m"]
    assert abs(carry(b) - 144) < 1.5
    assert profile(b).version == 2
    (shown,) = b.take(read.Profile(intent="show"))
    assert isinstance(shown, BagShown)
    assert {c.name: c.source for c in shown.clubs}["7i"] == "learned"
    assert lesson(b, LEARN).ask is None
    # Learning goes on from what was told, not from what was learned.
    assert (
        bag_of(told_only(profile(b))).golfer == bag_of(bench(152).get(Player, "me").profile).golfer
    )


def test_no_keeps_the_number_and_is_remembered() -> None:
    b = bench(152, tuple(144 + d for d in SCATTER))
    lesson(b, LEARN)
    lesson(b, NO)
    assert carry(b) == 152
    assert lesson(b, LEARN).ask is None


def test_undo_takes_a_learned_number_back() -> None:
    b = bench(152, tuple(144 + d for d in SCATTER))
    lesson(b, LEARN)
    lesson(b, YES)
    b.take(read.Talk(intent="undo"))
    assert carry(b) == 152
    assert lesson(b, LEARN).ask is not None


def test_a_result_taken_back_teaches_nothing() -> None:
    b = bench(152, tuple(144 + d for d in SCATTER))
    before = lesson(b, LEARN)
    log(b, 118)
    assert lesson(b, LEARN) != before
    undone = b.log[-1].id
    b.log.append(
        Entry(
            id=99, kind="undo", chat="me", message_id="u", player="me", at=b.now, undoes=undone
        )
    )  # fmt: skip
    assert lesson(b, LEARN) == before


def test_by_itself_only_where_the_player_set_it() -> None:
    b = bench(152, tuple(144 + d for d in SCATTER))
    assert lesson(b, read.Review(intent="apply_learning", part="always")).by_itself
    assert lesson(b, LEARN).taken
    assert abs(carry(b) - 144) < 1.5
    assert lesson(b, read.Review(intent="apply_learning", part="never")).by_itself is False


def test_an_empty_log_says_so() -> None:
    answer = lesson(bench(), LEARN)
    assert (answer.shots, answer.ask) == (0, None)


def test_a_club_with_few_shots_says_what_is_known() -> None:
    b = bench(152, (148, 150, 143, 110))
    (answer,) = b.take(read.Review(intent="club_stats", club="7i"))
    assert isinstance(answer, ClubLearned)
    assert (answer.shots, answer.few) == (4, True)
    lines = reply((answer,), Style()).lines
    assert len(lines) == 2
    assert all(len(line) <= 64 for line in lines), lines


def test_metric_players_learn_in_metres() -> None:
    b = bench(152, tuple(144 + d for d in SCATTER))
    b.put(b.get(Player, "me").model_copy(update={"units": "metric"}))
    found = lesson(b, LEARN)
    assert found.ask is not None
    assert found.ask.learned.unit == "m"
    lesson(b, YES)
    assert abs(carry(b) - 144 * 0.9144) < 1.5


def test_the_end_of_a_round_points_at_numbers_that_look_wrong() -> None:
    b = bench(152, tuple(144 + d for d in SCATTER))
    b.take(read.Round(intent="start_round", competition=False))
    lines = b.say(read.Round(intent="end_round"))
    assert lines[-1] == "Send review, or learn: 1 number of yours looks wrong."
    assert carry(b) == 152


def test_the_end_of_a_round_takes_numbers_over_where_so_set() -> None:
    b = bench(152, tuple(144 + d for d in SCATTER))
    lesson(b, read.Review(intent="apply_learning", part="always"))
    b.take(read.Round(intent="start_round", competition=False))
    lines = b.say(read.Round(intent="end_round"))
    assert lines[-1] == "Took over 1 number from your shots. Send review, or bag."
    assert abs(carry(b) - 144) < 1.5
