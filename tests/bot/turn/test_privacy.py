"""What a round by the Rules leaves unsaid (Rules of Golf 2023, 4.3a and 10.2a)."""

from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from bot.model import reading as read
from bot.model.answer import Answer, Ask, CannotYet
from bot.model.card import KindFixed, RoundBegun, RoundOver
from bot.model.measure import Measure
from bot.model.ruling import Kept, Ruling, Withheld
from bot.model.state import Course, HoleNote, Memory, Played, Player, Profile, Trip
from bot.turn import dispatch
from bot.turn.card import course_here
from bot.turn.desk import Desk
from tests.support.turns import Bench

YD160 = Measure(value=160)
SHOT = read.Shot(facts=read.Facts(distance=YD160, reference="pin"))
RULES = read.Round(intent="start_round", competition=True)
PRACTICE = read.Round(intent="start_round", competition=False)


class Secret(Answer):
    """Something a turn would say to a player in practice."""

    kind: str = "secret"


@pytest.fixture
def leaky(monkeypatch: pytest.MonkeyPatch) -> list[read.Act]:
    """Make every turn answer with advice, and record which acts reached one."""
    reached: list[read.Act] = []

    def take(desk: Desk, act: read.Act, _: read.Reading) -> tuple[Desk, Answer]:
        reached.append(act)
        return desk, Secret()

    monkeypatch.setattr(dispatch, "_take", take)
    return reached


def in_round() -> Bench:
    bench = Bench()
    bench.take(RULES)
    return bench


def every_act() -> list[read.Act]:
    """One act of each class and intent, so that a new one is tested without being listed."""
    acts: list[read.Act] = []
    for cls in get_args(get_args(read.Act)[0]):
        choices = {
            name: get_args(cls.model_fields[name].annotation)
            for name in ("kind", "ask", "intent", "topic", "danger", "why")
            if name in cls.model_fields and name != "act"
        }
        name, values = next(iter(choices.items())) if choices else ("", ())
        extra = {"said": "x"} if cls is read.Nonsense else {}
        if name and any(isinstance(v, str) for v in values):
            acts.extend(cls(**{name: v}, **extra) for v in values if isinstance(v, str))
        else:
            acts.append(cls(**extra))
    return acts


@pytest.mark.parametrize("act", every_act(), ids=lambda a: repr(a)[:60])
def test_no_act_can_bring_advice_in_a_round_by_the_rules(
    act: read.Act, monkeypatch: pytest.MonkeyPatch
) -> None:
    bench = in_round()
    monkeypatch.setattr(dispatch, "_take", lambda desk, _act, _reading: (desk, Secret()))
    assert all(not answer.advice for answer in bench.take(act))


@pytest.mark.parametrize(
    "act",
    [
        SHOT,
        read.FollowUp(ask="why"),
        read.FollowUp(ask="compare", facts=read.Facts(clubs_compare=("7i", "6i"))),
        read.Review(intent="picture"),
        read.Review(intent="export"),
        read.Review(intent="club_stats", club="7i"),
        read.CourseNote(intent="plan_hole"),
        read.Answered(number=YD160),
    ],
)
def test_what_asks_for_advice_never_reaches_its_turn(act: read.Act, leaky: list[read.Act]) -> None:
    bench = Bench()
    bench.put(Trip(ids=("me",), round="r"))
    bench.put(Played(ids=("r",), chat="me", kind="rules", players=("me",), started_at=bench.now))
    answers = bench.take(act)
    assert leaky == []
    assert [a.kind for a in answers] == ["withheld"]


def test_practice_takes_the_same_act_to_its_turn(leaky: list[read.Act]) -> None:
    assert [a.kind for a in Bench().take(SHOT)] == ["secret"]
    assert leaky == [SHOT]


def test_the_distance_comes_back_as_told_and_nothing_else() -> None:
    bench = in_round()
    water = read.Hazard(kind="water", side="right")
    wind = read.Wind(speed=Measure(value=18), from_deg=0)
    full = read.Shot(
        facts=read.Facts(distance=YD160, reference="pin", hazards=(water,), wind=wind)
    )
    plain = bench.say(SHOT)
    assert plain == (
        "160 to the pin, as told.",
        "Kept. By the Rules no advice until the round is over.",
    )
    assert bench.say(full) == plain


def test_a_question_left_open_before_the_round_carries_nothing_into_it() -> None:
    bench = in_round()
    memory = bench.get(Memory, "me", "me")
    bench.put(memory.model_copy(update={"expecting": read.Expecting(about="wind_side")}))
    (answer,) = bench.take(read.Answered(words="left"))
    assert isinstance(answer, Withheld)


def test_results_are_kept_with_a_bare_word(leaky: list[read.Act]) -> None:
    bench = Bench()
    bench.put(Trip(ids=("me",), round="r"))
    bench.put(Played(ids=("r",), chat="me", kind="rules", players=("me",), started_at=bench.now))
    assert bench.take(read.Result(club="7i", carry=YD160)) == (Kept(),)
    assert len(leaky) == 1


def test_rules_help_stays_open_and_unranked() -> None:
    facts = read.Facts(distance=YD160, lie=("bunker",))
    (answer,) = in_round().take(read.RulesHelp(topic="unplayable", facts=facts))
    assert answer == Ruling(topic="unplayable_bunker")


def test_the_rules_bind_the_player_in_other_chats_too() -> None:
    bench = Bench(chat="trip", kind="group")
    bench.put(Trip(ids=("trip",), members=("me", "oona")))
    bench.take(RULES)
    assert isinstance(bench.take(SHOT, sender="oona", chat="oona")[0], Withheld)
    assert isinstance(bench.take(SHOT, sender="spectator")[0], Withheld)
    assert not isinstance(bench.take(SHOT, sender="spectator", chat="s")[0], Withheld)


def test_nobody_gets_advice_for_a_player_in_a_round_by_the_rules() -> None:
    bench = Bench(chat="trip", kind="group")
    names = {"me": "Tavi", "oona": "Oona", "coach": "Ferre"}
    bench.put(Trip(ids=("trip",), members=("me", "oona"), names=names))
    bench.put(Player(ids=("oona",), helpers=("coach",)))
    bench.put(Trip(ids=("home",), names=names))
    bench.take(RULES)
    for_oona = SHOT.model_copy(update={"player": "Oona"})
    assert isinstance(bench.take(for_oona, sender="coach", chat="home")[0], Withheld)
    assert isinstance(bench.take(for_oona)[0], Withheld)


def test_in_practice_only_a_named_helper_asks_for_another(leaky: list[read.Act]) -> None:
    bench = Bench(chat="trip", kind="group")
    names = {"me": "Tavi", "oona": "Oona", "coach": "Ferre"}
    bench.put(Trip(ids=("trip",), names=names))
    bench.put(Player(ids=("oona",), helpers=("coach",)))
    for_oona = SHOT.model_copy(update={"player": "oona"})
    assert [a.kind for a in bench.take(for_oona, sender="coach")] == ["secret"]
    (answer,) = bench.take(for_oona)
    assert isinstance(answer, CannotYet)
    assert answer.reason == "not_allowed"
    (answer,) = bench.take(SHOT.model_copy(update={"player": "Nobody"}))
    assert isinstance(answer, CannotYet)
    assert answer.reason == "who"


def test_the_chart_is_whole_and_as_before_the_first_stroke(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    seen: list[tuple[read.Act, Profile]] = []

    def take(desk: Desk, act: read.Act, _: read.Reading) -> tuple[Desk, Answer]:
        seen.append((act, desk.player.profile))
        return desk, Kept()

    bench = in_round()
    bench.put(Player(ids=("me",), playing=bench.get(Trip, "me").round, profile=Profile(version=1)))
    bench.take(SHOT)
    player = bench.get(Player, "me")
    bench.put(player.model_copy(update={"profile": Profile(version=2)}))
    monkeypatch.setattr(dispatch, "_take", take)
    bench.take(read.Profile(intent="show", club="7i"))
    assert seen == [(read.Profile(intent="show"), Profile(version=1))]


def test_the_kind_is_asked_and_then_said() -> None:
    bench = Bench()
    (answer,) = bench.take(read.Round(intent="start_round"))
    assert isinstance(answer, Ask)
    assert answer.about.about == "round_kind"
    (answer,) = bench.take(read.Answered(words="competition"))
    assert answer == RoundBegun(kind_of_round="rules")


def test_no_advice_before_the_kind_is_known() -> None:
    bench = Bench()
    bench.take(read.Round(intent="start_round"))
    (answer,) = bench.take(SHOT)
    assert isinstance(answer, Ask)
    assert answer.about.about == "round_kind"


def test_the_kind_is_fixed_by_the_first_stroke() -> None:
    bench = in_round()
    off = read.Round(intent="competition_off")
    assert bench.take(off) == (RoundBegun(kind_of_round="practice"),)
    bench.take(read.Round(intent="competition_on"))
    bench.take(read.Score(strokes=5))
    assert bench.take(off) == (KindFixed(),)
    assert isinstance(bench.take(PRACTICE)[0], KindFixed)
    assert isinstance(bench.take(SHOT)[0], Withheld)


def test_practice_may_always_turn_into_a_round_by_the_rules() -> None:
    bench = Bench()
    bench.take(PRACTICE)
    bench.take(read.Score(strokes=5))
    (answer,) = bench.take(read.Round(intent="competition_on"))
    assert answer == RoundBegun(kind_of_round="rules", late=True)
    assert isinstance(bench.take(SHOT)[0], Withheld)


def test_advice_opens_after_the_last_hole() -> None:
    bench = in_round()
    for _ in range(17):
        bench.take(read.Score(strokes=5))
    assert isinstance(bench.take(SHOT)[0], Withheld)
    (answer,) = bench.take(read.Score(strokes=5))
    assert isinstance(answer, RoundOver)
    assert answer.for_all
    assert not isinstance(bench.take(read.Review(intent="review"))[0], Withheld)


def test_an_early_end_is_asked_about() -> None:
    bench = in_round()
    bench.take(read.Score(strokes=5))
    (answer,) = bench.take(read.Round(intent="end_round"))
    assert isinstance(answer, Ask)
    assert isinstance(bench.take(read.Answered(yes=False))[0], Answer)
    assert isinstance(bench.take(SHOT)[0], Withheld)
    bench.take(read.Round(intent="end_round"))
    (answer,) = bench.take(read.Answered(yes=True))
    assert isinstance(answer, RoundOver)


def test_in_a_group_the_chat_opens_when_all_are_in() -> None:
    bench = Bench(chat="trip", kind="group")
    bench.put(Trip(ids=("trip",), members=("me", "oona")))
    bench.take(RULES.model_copy(update={"holes": 9}))
    for _ in range(9):
        bench.take(read.Score(strokes=5))
    review = read.Review(intent="review")
    assert isinstance(bench.take(review)[0], Withheld)
    assert not isinstance(bench.take(review, chat="me")[0], Withheld)
    assert isinstance(bench.take(review, sender="oona", chat="oona")[0], Withheld)
    for hole in range(1, 10):
        bench.take(read.Score(hole=hole, strokes=5), sender="oona")
    assert not isinstance(bench.take(review)[0], Withheld)


def test_the_shot_that_waited_for_the_kind_is_answered_then(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    asked: list[read.Act] = []

    def take(desk: Desk, act: read.Shot, _: read.Reading) -> tuple[Desk, Answer]:
        asked.append(act)
        return desk, Secret()

    monkeypatch.setattr(dispatch.shot, "take", take)
    bench = Bench()
    bench.take(read.Round(intent="start_round"))
    bench.take(SHOT)
    assert asked == []
    assert bench.take(read.Answered(words="practice")) == (Secret(),)
    assert asked == [SHOT]


def test_hole_notes_stay_as_before_the_first_stroke(monkeypatch: pytest.MonkeyPatch) -> None:
    seen: list[str] = []

    def take(desk: Desk, act: read.Act, _: read.Reading) -> tuple[Desk, Answer]:
        course = course_here(desk)
        seen.append(course.holes[7].text if course else "")
        return desk, Kept()

    def course(text: str) -> Course:
        notes = {7: HoleNote(hole=read.Hole(number=7), text=text)}
        return Course(ids=("me", "saltmarrow/"), name="Saltmarrow", holes=notes)

    bench = Bench()
    bench.put(Trip(ids=("me",), course="Saltmarrow"))
    bench.put(course("before"))
    bench.take(RULES)
    bench.take(SHOT)
    bench.put(course("after"))
    monkeypatch.setattr(dispatch, "_take", take)
    bench.take(read.CourseNote(intent="show_hole", hole=read.Hole(number=7)))
    assert seen == ["before"]


def test_the_chart_is_closed_until_the_round_is_over() -> None:
    bench = in_round()
    act = read.Profile(intent="set_club", club="7i", carry=YD160)
    assert bench.take(act) == (CannotYet(reason="chart_closed"),)
    assert bench.get(Player, "me").profile == Profile()


def test_a_practice_round_in_another_chat_does_not_release_a_player() -> None:
    bench = Bench(chat="trip", kind="group")
    bench.put(Trip(ids=("trip",), members=("me", "oona")))
    bench.take(RULES)
    assert bench.take(PRACTICE, sender="oona", chat="oona") == (KindFixed(),)
    bench.take(read.Score(strokes=5), sender="oona", chat="oona")
    assert isinstance(bench.take(SHOT, sender="oona", chat="oona")[0], Withheld)


_SIDES = st.sampled_from(["left", "right", "short", "long", "cross"])
_HAZARDS = st.lists(
    st.builds(read.Hazard, kind=st.sampled_from(["water", "ob", "bunker", "trees"]), side=_SIDES),
    max_size=3,
).map(tuple)
_WINDS = st.builds(
    read.Wind,
    speed=st.floats(0, 40).map(lambda v: Measure(value=v, unit="mph")),
    from_deg=st.one_of(st.none(), st.floats(0, 359)),
    across=st.booleans(),
)
_HEIGHTS = st.builds(
    read.Elevation,
    size=st.floats(0, 60).map(lambda v: Measure(value=v, unit="ft")),
    direction=st.sampled_from([-1, 0, 1]),
)
_FACTS = st.builds(
    read.Facts,
    distance=st.just(YD160),
    wind=st.one_of(st.none(), _WINDS),
    elevation=st.one_of(st.none(), _HEIGHTS),
    hazards=_HAZARDS,
    club=st.sampled_from([None, "7i", "D"]),
    clubs_compare=st.sampled_from([(), ("7i", "6i")]),
)


@given(
    facts=_FACTS,
    kind=st.sampled_from(["shot", "tee", "layup", "recovery", "chip", "putt"]),
    handicap=st.floats(0, 40),
    shape=st.sampled_from(["draw", "fade", "slice"]),
)
@settings(max_examples=60, deadline=None)
def test_the_reply_depends_on_the_distance_told_and_on_nothing_else(
    facts: read.Facts, kind: str, handicap: float, shape: str
) -> None:
    bench = in_round()
    profile = Profile(handicap=handicap, shape=shape)
    bench.put(bench.get(Player, "me").model_copy(update={"profile": profile}))
    told = bench.say(read.Shot.model_validate({"kind": kind, "facts": facts}))
    assert told == ("160, as told.", "Kept. By the Rules no advice until the round is over.")
    assert bench.say(read.FollowUp(ask="why", facts=facts)) == told
