"""A putt told in words: sides, slopes, questions, mirror images and what cannot be."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.model import reading as read
from bot.model.answer import Ask
from bot.model.green import PuttAdvice, PuttRefused
from bot.model.measure import Measure
from bot.model.state import DayFacts, Player, Profile, Trip
from tests.support.turns import Bench

PLAYER = Player(ids=("me",), units="imperial", profile=Profile(handicap=14))


def bench(**player: object) -> Bench:
    made = Bench()
    made.put(PLAYER.model_copy(update=player))
    return made


def ft(value: float) -> Measure:
    return Measure(value=value, unit="ft")


def per_cent(value: float) -> Measure:
    return Measure(value=value, unit="%")


def shot(stimp: float | None = None, **putt: object) -> read.Shot:
    green = None if stimp is None else read.Green(stimp=stimp)
    return read.Shot(kind="putt", facts=read.Facts(putt=read.Putt(**putt), green=green))


def advice(bench: Bench, *acts: read.Act) -> PuttAdvice:
    (answer,) = bench.take(*acts)
    assert isinstance(answer, PuttAdvice), answer
    return answer


def test_a_ball_that_breaks_left_starts_right() -> None:
    left = advice(bench(), shot(length=ft(15), break_to="left", break_size=per_cent(2)))
    right = advice(bench(), shot(length=ft(15), break_to="right", break_size=per_cent(2)))
    assert left.aim.value > 0 > right.aim.value
    assert left.aim.value == -right.aim.value
    assert (left.one, left.pace) == (right.one, right.pace)


@settings(max_examples=15)
@given(
    length=st.floats(3, 60),
    up=st.floats(0, 2.5),
    side=st.floats(0.3, 2.5),
    slope=st.sampled_from(["up", "down"]),
)
def test_mirrored_words_change_only_the_side(length, up, side, slope) -> None:
    def lines(to):
        told = shot(
            length=ft(length), slope=slope, slope_size=per_cent(up),
            break_to=to, break_size=per_cent(side), stimp=10,
        )  # fmt: skip
        return " ".join(bench().say(told))

    swapped = lines("left").replace("left", "#").replace("right", "left").replace("#", "right")
    assert swapped == lines("right")


def test_up_and_down_change_the_pace() -> None:
    up = advice(bench(), shot(length=ft(20), slope="up", slope_size=per_cent(2)))
    down = advice(bench(), shot(length=ft(20), slope="down", slope_size=per_cent(2)))
    assert up.pace.value > 23 > 17 > down.pace.value


def test_a_height_told_is_a_rise_over_the_putt() -> None:
    by_height = advice(bench(), shot(length=ft(40), slope="up", slope_size=ft(0.8)))
    by_grade = advice(bench(), shot(length=ft(40), slope="up", slope_size=per_cent(2)))
    assert by_height.pace.value == pytest.approx(by_grade.pace.value)


def test_a_putt_of_no_length_is_refused_for_its_length_whatever_its_height() -> None:
    rise = Measure(value=5, unit="yd")
    (answer,) = bench().take(shot(length=ft(0), slope="up", slope_size=rise))
    assert isinstance(answer, PuttRefused)
    assert answer.why == "length"


def test_a_height_no_slope_can_hold_is_taken_for_a_tier() -> None:
    found = advice(bench(), shot(length=ft(20), slope="up", slope_size=ft(2)))
    assert "tier" in found.assumed
    # Energy: climbing 2 ft costs (5/7) g h / a = 23 ft of level roll at 9.5.
    assert found.pace.value == pytest.approx(20 + 23, abs=2.5)
    (down,) = bench().take(shot(length=ft(20), slope="down", slope_size=ft(2)))
    assert isinstance(down, PuttRefused)


def test_a_slope_told_as_height_of_the_target_is_the_putts() -> None:
    b = bench()
    b.take(shot(length=ft(12)))
    rise = read.Elevation(size=per_cent(2), direction=-1)
    found = advice(b, read.FollowUp(facts=read.Facts(elevation=rise)))
    assert found.grade.value == pytest.approx(-2)


def test_slope_is_asked_for_once_and_only_where_it_matters() -> None:
    b = bench()
    level = advice(b, shot(length=ft(12)))
    assert level.asks
    assert "If level" in b.say(shot(length=ft(12)))[0]
    unknown = advice(b, read.Answered(unknown=True))
    assert "level" in unknown.assumed
    assert not unknown.asks
    assert not advice(bench(), shot(length=ft(1))).asks


def test_the_answer_to_the_question_joins_the_putt() -> None:
    b = bench()
    b.take(shot(length=ft(12)))
    putt = read.Putt(slope="down", slope_size=per_cent(1), break_to="left", break_size=per_cent(2))
    found = advice(b, read.Answered(facts=read.Facts(putt=putt)))
    assert found.length.value == pytest.approx(12)
    assert found.aim.value > 0
    assert found.assumed == ("stimp",)


def test_a_break_without_a_side_is_never_guessed() -> None:
    b = bench()
    (asked,) = b.take(shot(length=ft(15), break_size=Measure(value=1, unit="cup")))
    assert isinstance(asked, Ask)
    assert asked.about.about == "break_side"
    found = advice(b, read.Answered(facts=read.Facts(putt=read.Putt(break_to="right"))))
    assert found.aim.value < 0


def test_a_side_that_stays_open_is_taken_for_none_and_said() -> None:
    b = bench()
    b.take(shot(length=ft(15), break_word="some"))
    found = advice(b, read.Answered(unknown=True))
    assert found.breaks is None
    assert "level" in found.assumed


def test_a_putt_said_to_be_straight_is_not_asked_about() -> None:
    facts = read.Facts(putt=read.Putt(length=ft(12)), shape="straight")
    found = advice(bench(), read.Shot(kind="putt", facts=facts))
    assert found.assumed == ("stimp", "along")


def test_a_wind_told_with_the_putt_moves_aim_and_pace() -> None:
    def told(from_deg):
        wind = read.Wind(speed=Measure(value=25, unit="mph"), from_deg=from_deg)
        putt = read.Putt(length=ft(20), slope="flat")
        facts = read.Facts(putt=putt, wind=wind)
        return read.Shot(kind="putt", facts=facts)

    from_left, from_right = advice(bench(), told(270.0)), advice(bench(), told(90.0))
    assert from_left.aim.value < 0 < from_right.aim.value
    assert from_left.aim.value == pytest.approx(-from_right.aim.value)
    into, down = advice(bench(), told(0.0)), advice(bench(), told(180.0))
    assert into.pace.value > 22 > down.pace.value
    assert "Wind moves it" in bench().say(told(270.0))[1]
    assert "right" in bench().say(told(270.0))[1]


def test_the_wind_of_the_approach_is_not_the_putts() -> None:
    b = bench()
    wind = read.Wind(speed=Measure(value=25, unit="mph"), from_deg=270.0)
    facts = read.Facts(distance=Measure(value=40, unit="yd"), wind=wind)
    b.take(read.Shot(kind="chip", facts=facts))
    found = b.take(shot(length=ft(20), slope="flat"))[-1]
    assert isinstance(found, PuttAdvice)
    assert found.aim.value == pytest.approx(0, abs=0.01)


def test_a_length_is_asked_for_and_taken_in_feet() -> None:
    b = bench()
    (asked,) = b.take(shot(slope="flat"))
    assert isinstance(asked, Ask)
    found = advice(b, read.Answered(number=Measure(value=22)))
    assert found.length == ft(found.length.value)
    assert found.length.value == pytest.approx(22)


def test_metres_for_a_metric_player() -> None:
    found = advice(bench(units="metric"), shot(length=Measure(value=6), slope="flat"))
    assert found.length.unit == found.pace.unit == "m"
    assert found.length.value == pytest.approx(6)


def test_a_change_keeps_the_rest_of_the_putt() -> None:
    b = bench()
    first = advice(b, shot(length=ft(15), slope="down", slope_size=per_cent(1), break_to="left"))
    change = read.FollowUp(facts=read.Facts(putt=read.Putt(break_to="right")))
    second = advice(b, change)
    assert second.aim.value == -first.aim.value
    assert second.pace == first.pace


def test_the_days_green_speed_is_kept() -> None:
    b = bench()
    b.put(Trip(ids=("me",), day=DayFacts(stimp=12)))
    found = advice(b, shot(length=ft(10), slope="flat"))
    assert found.stimp == 12
    assert "stimp" not in found.assumed


@pytest.mark.parametrize(
    ("told", "why"),
    [
        ({"length": Measure(value=200, unit="pace"), "slope": "flat"}, "length"),
        ({"length": ft(20), "slope": "down", "slope_size": per_cent(10)}, "steep"),
        ({"length": ft(20), "slope": "down", "slope_size": per_cent(60)}, "slope"),
        ({"length": ft(20), "slope": "flat", "stimp": 40.0}, "speed"),
        ({"length": ft(20), "break_to": "left", "break_size": ft(40)}, "break"),
    ],
)
def test_what_cannot_be_gets_a_short_answer(told, why) -> None:
    b = bench()
    (answer,) = b.take(shot(**told))
    assert isinstance(answer, PuttRefused)
    assert answer.why == why
    assert not b.log


def test_why_gives_the_parts() -> None:
    b = bench()
    b.take(shot(length=ft(20), slope="up", slope_size=per_cent(2), break_to="left"))
    lines = b.say(read.FollowUp(ask="why"))
    assert any("Up 2%" in line for line in lines)
    assert any("Grain" in line for line in lines)


@settings(max_examples=40)
@given(
    length=st.floats(0.5, 200),
    slope=st.sampled_from(["up", "down", "flat", None]),
    size=st.one_of(st.none(), st.floats(0, 12)),
    to=st.sampled_from(["left", "right", None]),
    second=st.sampled_from(["left", "right", None]),
    side=st.one_of(st.none(), st.floats(0, 40)),
    unit=st.sampled_from(["in", "cup", "ball", "%"]),
    units=st.sampled_from(["imperial", "metric"]),
)
def test_any_putt_gets_two_short_lines(length, slope, size, to, second, side, unit, units) -> None:
    told = shot(
        length=ft(length), slope=slope, slope_size=None if size is None else per_cent(size),
        break_to=to, second_break_to=second,
        break_size=None if side is None else Measure(value=side, unit=unit),
    )  # fmt: skip
    lines = bench(units=units).say(told)
    assert 1 <= len(lines) <= 2
    assert all(len(line) <= 64 for line in lines), lines


def test_every_message_about_a_putt_is_logged_with_its_answer() -> None:
    b = bench()
    b.take(shot(length=ft(20), slope="flat"))
    assert [entry.kind for entry in b.log] == ["answer"]
    assert b.log[0].body["advice"]["kind"] == "putt"


def test_why_after_a_putt_that_cannot_be_says_so() -> None:
    b = bench()
    b.take(shot(length=ft(15), break_size=Measure(value=1, unit="cup")))  # side still open
    b.take(read.FollowUp(facts=read.Facts(putt=read.Putt(length=ft(900)))))
    (answer,) = b.take(read.FollowUp(ask="why"))
    assert isinstance(answer, PuttAdvice | PuttRefused) or answer.kind in ("putt_why", "cannot")
