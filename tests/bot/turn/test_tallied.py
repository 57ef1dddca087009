"""Do scores go to the hole and the player they are told of, one by one or several at once?"""

import pytest

from tests.support.chats import play, said

PRACTICE = "start round, practice"
GROUP = (
    "# t\n@ demo\n@ in trip group\n@ as me Mika\n> join\n@ as oona Oona\n> join\n@ as me Mika\n"
    "> start round, practice\n> made 5\n@ as oona Oona\n> made 6\n@ as me Mika\n"
)


def in_group(*messages: str) -> str:
    """Return the first line of the last reply in a group where Mika made 5 and Oona 6."""
    return play(GROUP + "".join(f"> {m}\n" for m in messages))[1][-1].lines[0]


def first(*messages: str) -> str:
    return said(PRACTICE, *messages)[0]


def test_a_score_put_right_for_another_is_that_of_the_hole_told_last() -> None:
    assert in_group("Oona made 7 not 6").startswith("Mika: Oona, hole 1: 7.")


def test_a_score_with_another_taken_back_that_was_never_told_is_of_this_hole() -> None:
    assert in_group("Oona made 7 not 5").startswith("Mika: Oona, hole 2: 7.")


@pytest.mark.parametrize("message", ["oona had a 7", "OONA made 7", "oona: made 7"])
def test_a_name_in_small_letters_is_still_that_player(message: str) -> None:
    assert in_group(message).startswith("Mika: Oona, hole 2: 7.")


def test_a_score_of_everyone_is_written_for_all() -> None:
    assert in_group("everyone made 5") == "Mika: Hole 2: you 5, Oona 5."


def test_strokes_told_with_their_hole_belong_to_it() -> None:
    line = first("hole 2 driver right, 3 wood to 120, wedge to 15 feet, two putts, par")
    assert line.startswith("Hole 2: 5, par.")


def test_scores_of_several_holes_are_all_kept() -> None:
    assert first("hole 1 4, hole 2 6, hole 3 3") == "Holes 1 to 3: 4 6 3."
    assert first("hole 1 4, hole 3 3", "card").startswith("Out: 4 . 3")


def test_words_of_score_in_a_row_are_a_hole_each() -> None:
    assert first("made 4", "made 4", "par par bogey") == "Holes 3 to 5: 3 5 5."


@pytest.mark.parametrize(
    ("message", "line"),
    [
        ("sorry it was 7", "Hole 1: 7, triple."),
        ("hole 1 was a 6", "Hole 1: 6, double."),
        ("change hole 1 to 4", "Hole 1: 4, par."),
        ("what did i have on hole 1", "Hole 1: 5, bogey."),
        ("what did i have on hole 4", "No score of yours on 4 yet."),
        ("what did i make", "Out: 5"),
        ("score", "Out: 5"),
        ("what hole are we on", "Hole 2, par 5"),
    ],
)
def test_the_card_is_put_right_and_asked_in_plain_words(message: str, line: str) -> None:
    assert first("made 5", message).startswith(line)


def test_a_number_put_right_after_a_shot_is_that_of_the_club() -> None:
    assert first("150", "7 iron left", "sorry it was 6") == "Corrected: 6-iron, left."


def test_a_number_put_right_after_advice_is_no_score() -> None:
    assert "7" not in first("made 5", "150 into 10", "sorry it was 7").split(".")[0]
