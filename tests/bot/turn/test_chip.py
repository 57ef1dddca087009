"""A short shot told in words: lies, trouble before the green, comparisons, what cannot be."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.model import reading as read
from bot.model.answer import Ask
from bot.model.green import ChipAdvice, ChipRefused
from bot.model.measure import Measure
from bot.model.state import ClubFact, Player, Profile
from tests.support.chats import play, said
from tests.support.turns import Bench

CLUBS = ("7i", "8i", "9i", "PW", "52", "56", "60")
PROFILE = Profile(handicap=14, hand="right", clubs=tuple(ClubFact(name=c) for c in CLUBS))


def bench(**player: object) -> Bench:
    made = Bench()
    made.put(Player(ids=("me",), units="imperial", profile=PROFILE).model_copy(update=player))
    return made


def yd(value: float) -> Measure:
    return Measure(value=value, unit="yd")


def shot(*lie: str, kind: str = "chip", **facts: object) -> read.Shot:
    return read.Shot(kind=kind, facts=read.Facts(lie=lie, **facts))


def advice(bench: Bench, *acts: read.Act) -> ChipAdvice:
    (answer,) = bench.take(*acts)
    assert isinstance(answer, ChipAdvice), answer
    return answer


def bunker(**where: object) -> read.Hazard:
    return read.Hazard(kind="bunker", side="short", **where)


def test_the_putter_is_weighed_from_the_fringe() -> None:
    found = advice(bench(), shot("fringe", distance=yd(10)))
    assert found.best.how == "putter"
    assert found.other is not None
    assert found.other.how != "putter"
    assert found.best.carry.unit == "ft"


def test_a_putt_told_from_the_fringe_is_a_choice_too() -> None:
    putt = read.Putt(length=yd(10))
    assert advice(bench(), shot("fringe", kind="putt", putt=putt)).best.how == "putter"


def test_trouble_before_the_green_rules_the_putter_out_and_moves_the_landing() -> None:
    over = advice(bench(), shot("fairway", distance=yd(20), hazards=(bunker(end=yd(12)),)))
    assert over.over
    assert over.best.how != "putter"
    assert over.green_from.value > 12
    assert over.best.carry.value > 12


def test_how_far_off_the_green_alone_asks_for_the_pin_and_is_kept() -> None:
    b = bench()
    (asked,) = b.take(shot(distance=yd(3), reference="front"))
    assert isinstance(asked, Ask)
    found = advice(b, read.Answered(number=Measure(value=18)))
    assert found.green_from == yd(3)
    assert found.distance.value == pytest.approx(18)
    assert "edge" not in found.assumed


def test_a_number_that_was_not_read_is_said_beside_a_short_shot() -> None:
    played, _ = play("# a chip\n@ demo\n> 20 out, 8 to carry\n")
    assert 'Did not get "8".' in played


@pytest.mark.parametrize(
    ("asked", "line"),
    [
        ("bump and run?", "No bump from there."), ("8 iron?", "No 8-iron from there."),
        ("putt it?", "No putter from there."), ("flop it?", "A flop costs"),
        ("wind helping", "Not weighed: wind."),
    ],
)  # fmt: skip
def test_what_is_asked_about_is_answered(asked: str, line: str) -> None:
    assert line in said("20 yards from the rough, 5 to the edge", asked)[1]


def test_a_told_calm_leaves_nothing_out() -> None:
    assert "Not weighed" not in said("20 yards from the rough, 5 to the edge", "no wind")[1]


def test_a_distance_put_right_to_a_full_shot_is_one() -> None:
    assert said("15", "make it 145") == said("145")


def test_a_ball_plugged_in_sand_is_dug_out_to_a_safe_place() -> None:
    plugged = advice(bench(), shot("greenside_bunker", "buried", distance=yd(16)))
    clean = advice(bench(), shot("greenside_bunker", distance=yd(16)))
    assert (plugged.best.how, clean.best.how) == ("blast", "splash")
    assert plugged.best.past.value > clean.best.past.value
    assert plugged.best.saves < clean.best.saves


def test_sand_named_beside_a_plugged_ball_is_where_it_lies() -> None:
    sand = read.Hazard(kind="bunker")
    found = advice(bench(), shot("buried", distance=yd(18), hazards=(sand,)))
    assert found.lie == "buried"


def test_a_club_asked_about_is_weighed_against_the_best() -> None:
    found = advice(bench(), shot("rough", distance=yd(15), club="9i", swing="chip"))
    assert found.asked is None or found.asked.club == "9i"
    lob = advice(bench(), shot("fairway", distance=yd(20), front=yd(3), swing="flop"))
    assert lob.asked is not None
    assert lob.asked.how == "flop"
    assert lob.asked.expected > lob.best.expected


def test_a_green_that_breaks_moves_the_start_to_the_high_side() -> None:
    def told(side):
        slope = Measure(value=2, unit="%")
        putt = read.Putt(break_to=side, break_size=slope)
        return advice(bench(), shot("fairway", distance=yd(20), front=yd(8), putt=putt))

    left, right = told("left"), told("right")
    assert left.aim is not None
    assert right.aim is not None
    assert left.aim.value > 0
    assert left.aim.value == -right.aim.value
    assert left.best == right.best


def test_a_told_slope_of_the_green_changes_landing() -> None:
    level = advice(bench(), shot("fairway", distance=yd(25), front=yd(5), swing="chip"))
    rise = read.Elevation(size=Measure(value=2, unit="%"), direction=-1)
    down = advice(bench(), shot("fairway", distance=yd(25), front=yd(5), elevation=rise))
    assert down.grade.value == pytest.approx(-2, abs=0.01)
    assert down.best.carry.value < level.best.carry.value + 0.5


def test_what_was_not_told_is_said() -> None:
    b = bench()
    found = advice(b, shot(distance=yd(18)))
    assert {"lie", "edge"} <= set(found.assumed)
    assert "Taking short grass" in " ".join(b.say(shot(distance=yd(18))))


def test_the_distance_is_asked_for() -> None:
    b = bench()
    (asked,) = b.take(shot("rough"))
    assert isinstance(asked, Ask)
    assert asked.about.about == "distance"
    assert advice(b, read.Answered(number=Measure(value=18))).lie == "rough"


def test_a_change_keeps_the_rest() -> None:
    b = bench()
    advice(b, shot("fairway", distance=yd(18)))
    worse = advice(b, read.FollowUp(facts=read.Facts(lie=("rough",))))
    assert worse.lie == "rough"
    assert worse.distance.value == pytest.approx(18)


def test_metres_for_a_metric_player() -> None:
    found = advice(bench(units="metric"), shot("rough", distance=Measure(value=15)))
    assert found.distance == Measure(value=found.distance.value, unit="m")
    assert found.distance.value == pytest.approx(15)
    assert found.best.carry.unit == "m"


@pytest.mark.parametrize(
    ("facts", "why"),
    [
        ({"distance": yd(0.3)}, "distance"),
        ({"distance": yd(20), "front": yd(30)}, "edge"),
        ({"distance": yd(20), "lie": ("water",)}, "no_shot"),
        ({"distance": yd(20), "putt": read.Putt(slope="down", slope_size=yd(0))}, None),
        (
            {
                "distance": yd(20),
                "putt": read.Putt(slope="down", slope_size=Measure(value=12, unit="%")),
            },
            "steep",
        ),
        ({"distance": yd(20), "green": read.Green(stimp=45)}, "speed"),
        (
            {
                "distance": yd(20),
                "elevation": read.Elevation(size=Measure(value=400, unit="ft"), direction=1),
            },
            "height",
        ),
    ],
)
def test_what_cannot_be_gets_a_short_answer(facts, why) -> None:
    lie = facts.pop("lie", ("fairway",))
    (answer,) = bench().take(shot(*lie, **facts))
    if why is None:
        assert isinstance(answer, ChipAdvice)
    else:
        assert isinstance(answer, ChipRefused)
        assert answer.why == why


def test_a_longer_one_goes_to_the_whole_bag() -> None:
    (answer,) = bench().take(shot("fairway", distance=yd(95)))
    assert not isinstance(answer, ChipAdvice | ChipRefused)


@settings(max_examples=40)
@given(
    distance=st.floats(1.2, 60),
    lie=st.sampled_from(["fringe", "fairway", "rough", "deep_rough", "hardpan", "bunker"]),
    buried=st.booleans(),
    over=st.booleans(),
    tucked=st.booleans(),
    swing=st.sampled_from([None, "flop", "bump", "chip", "pitch"]),
    units=st.sampled_from(["imperial", "metric"]),
)
def test_any_short_shot_gets_two_short_lines(
    distance, lie, buried, over, tucked, swing, units
) -> None:
    told = shot(
        lie,
        *(("buried",) if buried else ()),
        distance=yd(distance),
        hazards=(bunker(),) if over else (),
        pin=("tucked",) if tucked else (),
        swing=swing,
    )
    b = bench(units=units)
    for act in (told, read.FollowUp(ask="why")):
        lines = b.say(act)
        assert lines
        assert all(len(line) <= 64 for line in lines), lines
        assert act is not told or len(lines) <= 2


def test_the_answer_is_logged() -> None:
    b = bench()
    b.take(shot("rough", distance=yd(15)))
    assert [entry.kind for entry in b.log] == ["answer"]
    assert b.log[0].body["advice"]["kind"] == "chip"
