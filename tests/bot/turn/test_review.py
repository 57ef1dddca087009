"""Does a played round review to what a hand calculation says, and is it drawn and kept whole?"""

from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from bot import app
from bot.conversation import Conversation
from bot.model.review import ReviewShown
from bot.storage.memory import MemoryStore
from bot.storage.portable import BadExport, export_lines, import_lines
from bot.storage.sheets import SCORES, SHOTS, scores_sheet, shots_sheet
from tests.support.chats import DEMO, Speaker, play, say

ROUND = """# two holes, told in full
@ demo
> start round, Saltmarrow Links, white tees, practice
> hole 1 par 4 382, into 12, bunker left 225
> driver, fairway
@ +4m
> 148 left, into 12, pin front
> 7 iron, pin high right 18 feet
@ +3m
> two putts
> made 4
> hole 2 par 5 512, ob all down the right
> driver, right, ob
> 512, ob right
> driver, fairway
> 285 to go
> 5 iron, good, 118 left
> 9 iron, short
> 12 yards, fairway, pin middle
> to 5 feet
> one putt
> made 7
"""


@pytest.fixture(scope="module")
def played() -> MemoryStore:
    store = MemoryStore()
    play(ROUND, store)
    return store


def ask(store: MemoryStore, text: str, at: str = "2026-06-01T12:00:00+00:00") -> Any:
    speaker = Speaker(at=datetime.fromisoformat(at))
    return Conversation(store).process(say(speaker, text, f"ask-{text}-{at}"))


def shown(store: MemoryStore, text: str = "review") -> ReviewShown:
    return ReviewShown.model_validate(ask(store, text).answers[0])


def test_the_round_adds_up_as_by_hand(played: MemoryStore) -> None:
    """Each figure below is taken from the log's answers and added by hand, not by the review.

    Hole 1: on in two, two putts: 4 strokes. Hole 2: out of bounds, then six more and the penalty
    would be 8; the card says 7, so one stroke told is too many and that is said.
    """
    review = shown(played)
    answers = [e.body["advice"] for e in played.entries(player="me", kinds=("answer",), limit=20)]
    tee_1, approach_1, tee_2, *_ = answers
    first, second = review.rounds[0].holes
    assert first.expected == pytest.approx(tee_1["best"]["strokes"])
    assert second.expected == pytest.approx(tee_2["best"]["strokes"])
    assert review.total.total == pytest.approx(4 + 7 - first.expected - second.expected, abs=1e-9)

    seven = next(w for w in (approach_1["best"], *approach_1["others"]) if w["club"] == "7i")
    drive, approach, putts = first.legs
    assert 0.0 <= drive.choice < 0.05  # the driver for the 3-wood advised
    assert drive.choice + drive.execution == pytest.approx(
        1 + approach_1["best"]["strokes"] - tee_1["best"]["strokes"]
    )
    assert approach.choice == pytest.approx(seven["strokes"] - approach_1["best"]["strokes"])
    assert (approach.cause, approach.advised, approach.club) == ("club", "6i", "7i")
    assert putts.made == 2
    assert putts.execution == pytest.approx(2 - putts.before)

    out = second.legs[0]
    assert out.choice + out.execution + out.penalty == pytest.approx(2.0, abs=0.2)
    assert out.penalty == 1
    assert review.total.penalty == 1.0


def test_a_departure_is_judged_by_what_was_known(played: MemoryStore) -> None:
    review = shown(played)
    assert review.followed.asked == review.followed.taken + len(review.followed.departures)
    assert {leg.club for leg in review.followed.departures} >= {"7i", "5i", "9i"}


def test_three_sentences_each_with_a_number(played: MemoryStore) -> None:
    review = shown(played)
    assert [c.about for c in review.coach] == ["keep", "choices", "practise"]
    said = [
        line for line in ask(played, "review").reply.lines if line[:4] in ("Keep", "Chan", "Prac")
    ]
    assert len(said) == 3
    assert all(any(ch.isdigit() for ch in line) for line in said)


@pytest.mark.parametrize(
    "text", ["review holes", "review choices", "review clubs", "what cost me"]
)
def test_every_part_is_told(played: MemoryStore, text: str) -> None:
    assert ask(played, text).reply.lines


def test_a_review_of_nothing_says_what_to_send() -> None:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    assert ask(store, "review").reply.lines[0].startswith("There is no round")


def test_yesterday_is_the_day_before_by_the_askers_clock(played: MemoryStore) -> None:
    assert "11" in ask(played, "review yesterday", "2026-06-02T08:00:00+00:00").reply.lines[0]
    nothing = ask(played, "review yesterday", "2026-06-03T08:00:00+00:00").reply.lines[0]
    assert nothing.startswith("No round of yours yesterday")


def test_the_log_is_searched(played: MemoryStore) -> None:
    later = "2026-06-05T08:00:00+00:00"
    hole = ask(played, "what did I hit on 1 last time", later).reply.lines
    assert hole[0] == "Hole 1 at Saltmarrow Links, 2026-06-01:"
    assert hole[2].startswith("Stroke 2, 7-iron from 148: pin high right")
    (often,) = ask(played, "how often am I short with the 9", later).reply.lines
    assert often == "9-iron: short 1 of 1, 100%. Few yet."


def test_every_answer_comes_out_the_same_again(played: MemoryStore) -> None:
    (line,) = ask(played, "recheck").reply.lines
    assert line.endswith("all the same.")


def test_an_export_taken_in_exports_the_same_bytes(played: MemoryStore) -> None:
    first = list(export_lines(played, "me"))
    copy = MemoryStore()
    assert import_lines(copy, first) == "me"
    assert list(export_lines(copy, "me")) == first
    assert shots_sheet(copy, "me") == shots_sheet(played, "me")
    assert shown(copy).total == shown(played).total


@pytest.mark.parametrize(
    ("lines", "why"),
    [
        ([], "not an export"),
        (["{"], "not JSON"),
        (['{"is":"something"}'], "not an export"),
        (['{"is":"two-line-caddie player","version":9,"player":"me"}'], "version 9"),
    ],
)
def test_what_is_no_export_is_refused(lines: list[str], why: str) -> None:
    with pytest.raises(BadExport, match=why):
        import_lines(MemoryStore(), lines)


def test_an_export_is_not_put_over_a_player(played: MemoryStore) -> None:
    with pytest.raises(BadExport, match="already"):
        import_lines(played, list(export_lines(played, "me")))


def test_every_column_is_described(played: MemoryStore) -> None:
    for sheet, columns in ((shots_sheet, SHOTS), (scores_sheet, SCORES)):
        head = sheet(played, "me").split("\r\n")[0]
        assert head.split(",") == list(columns)
        assert all(columns.values())


def test_the_pictures_are_images_and_the_same_twice(played: MemoryStore) -> None:
    handled = ask(played, "picture")
    talk = Conversation(played)
    message_id = "ask-picture-2026-06-01T12:00:00+00:00"
    drawn = talk.attached("me", message_id)
    assert [d.name for d in drawn] == list(handled.reply.attached)
    assert all(d.body.startswith(b"\x89PNG") for d in drawn)
    assert talk.attached("me", message_id) == drawn


def test_the_files_are_written_from_the_terminal(tmp_path: Path) -> None:
    store = app.open_store(str(tmp_path / "a.sqlite"), None)
    play(ROUND, store)
    assert app.report_to(store, tmp_path / "report.html")
    written = app.export_to(store, tmp_path / "out")
    assert {p.name for p in written} == {"caddie.jsonl", "shots.csv", "scores.csv", "columns.txt"}
    other = app.open_store(str(tmp_path / "b.sqlite"), None)
    before = (tmp_path / "out" / "caddie.jsonl").read_bytes()
    app.import_from(other, tmp_path / "out" / "caddie.jsonl")
    app.export_to(other, tmp_path / "again")
    assert (tmp_path / "again" / "caddie.jsonl").read_bytes() == before
    store.close()
    other.close()


def test_a_round_by_the_rules_is_weighed_once_it_is_over() -> None:
    store = MemoryStore()
    said = ("start round", "by the rules", "hole 1 par 4 382", "382, into 12", "driver, fairway",
            "148, into 12", "7 iron, pin high right 18 feet", "two putts, 4")  # fmt: skip
    play("# by the Rules\n@ demo\n" + "".join(f"> {text}\n" for text in said), store)
    assert ask(store, "review").reply.lines[-1].startswith("Kept")
    for text in ("end round", "yes"):
        ask(store, text)
    review = shown(store, "review choices")
    approach = review.rounds[0].holes[0].legs[1]
    assert (approach.club, approach.advised, approach.cause) == ("7i", "6i", "club")
    assert 0.0 < approach.choice < 0.5
    assert not list(store.entries(player="me", kinds=("answer",))), "nothing is put into the log"
