"""Words for the round: its kind, the card, the strokes a handicap gives."""

from __future__ import annotations

from bot.model.card import (
    Card,
    KindFixed,
    OnHole,
    RoundBegun,
    RoundOver,
    Row,
    ScoreKept,
    ScoresKept,
    Standings,
    Strokes,
)
from bot.wording.base import WIDTH, Lines, Style, word
from bot.wording.clubs import club

NINE = 9
NAME_ROOM = 14  # characters of a line kept for the name it is headed with


@word.register
def _(answer: RoundBegun, style: Style) -> Lines:
    if answer.kind_of_round == "practice":
        where = f" at {answer.course[:16]}" if answer.course else ""
        return Lines((f"Practice{where}: all help, no handicap score.",))
    who = ", all of you" if answer.others else ""
    if answer.late:
        return Lines(
            (f"By the Rules from here on{who}: no advice to the end.",
             "Advice had before counts: tell the committee.")
        )  # fmt: skip
    return Lines(
        (f"By the Rules{who}: distances, score, Rules, safety.",
         "Advice opens after the last hole. Local rules come first.")
    )  # fmt: skip


@word.register
def _(answer: KindFixed, style: Style) -> Lines:
    return Lines(
        ("This round stays by the Rules: a stroke is on the card.",
         "Advice opens when you say end round, after the last hole.")
    )  # fmt: skip


@word.register
def _(answer: OnHole, style: Style) -> Lines:
    par = f", par {answer.par}" if answer.par else ""
    if answer.noted_par is not None:
        par += f" as you say (noted: {answer.noted_par})"
    index = f", index {answer.stroke_index}" if answer.stroke_index else ""
    shots = "" if answer.received is None else f", {_strokes(answer.received)} for you"
    return Lines((f"Hole {answer.hole}{par}{index}{shots}.",))


@word.register
def _(answer: ScoreKept, style: Style) -> Lines:
    who = f"{answer.player[:16]}, hole" if answer.player else "Hole"
    made = "picked up" if answer.strokes is None else f"{answer.strokes}"
    named = _named(answer.strokes, answer.par)
    so_far = _so_far(answer.total, answer.to_par, answer.points, answer.played)
    first = f"{who} {answer.hole}: {made}{named}.{so_far}"
    if answer.calm:
        return Lines((first, "Hard stretch. Long breath, slow walk, only the next one counts."))
    if answer.missing:
        asked = f"How did the {club(answer.missing)} finish? A few words, or leave it."
        return Lines((first, asked))
    return Lines((first,))


@word.register
def _(answer: ScoresKept, style: Style) -> Lines:
    holes = list(dict.fromkeys(hole for _, hole, _ in answer.scores))
    made = ["-" if strokes is None else str(strokes) for _, _, strokes in answer.scores]
    players = list(dict.fromkeys(name for name, _, _ in answer.scores))
    in_a_row = holes == list(range(holes[0], holes[0] + len(holes)))
    if len(players) > 1:
        said = [
            f"{name[:12] or 'you'} {strokes}"
            for (name, _, _), strokes in zip(answer.scores, made, strict=True)
        ]
        first = f"Hole {holes[0]}: {', '.join(said)}."
        if len(first) > WIDTH - NAME_ROOM:
            first = f"Hole {holes[0]}: {made[0]} for all {len(players)} of you."
    elif in_a_row and len(holes) == len(made):
        first = f"Holes {holes[0]} to {holes[-1]}: {' '.join(made)}."
    else:
        said = [f"{h}: {s}" for (_, h, _), s in zip(answer.scores, made, strict=True)]
        first = f"Hole {', '.join(said)}."
    so_far = _so_far(answer.total, answer.to_par, answer.points, answer.played).strip()
    return Lines((first[:WIDTH], so_far) if so_far else (first[:WIDTH],))


@word.register
def _(answer: Card, style: Style) -> Lines:
    row = answer.row
    if answer.hole is not None:
        if answer.hole not in dict(row.scores):
            return Lines((f"No score of yours on {answer.hole} yet.",))
        strokes = dict(row.scores)[answer.hole]
        made = "picked up" if strokes is None else f"{strokes}"
        named = _named(strokes, answer.par)
        so_far = _so_far(row.total, row.to_par, row.points, row.played)
        return Lines((f"Hole {answer.hole}: {made}{named}.{so_far}",))
    if not row.scores:
        return Lines(("The card is empty. Send a score such as made 5.",))
    scores = dict(row.scores)
    last = max(scores)
    lines = [
        " ".join(_cell(scores, n) for n in range(start, min(start + NINE, last + 1)))
        for start in (1, 1 + NINE)
    ]
    names = ("Out", "In")
    body = [f"{name}: {line}" for name, line in zip(names, lines, strict=True) if line]
    return Lines((*body, _so_far(row.total, row.to_par, row.points, row.played).strip()))


@word.register
def _(answer: Standings, style: Style) -> Lines:
    if not answer.rows:
        return Lines(("No scores yet. Send one such as made 5.",))
    head = {"points": "Points", "net": "Net", "to_par": "To par", "strokes": "Strokes"}
    return Lines((f"{head[answer.by]}:", *(_place(row, answer.by) for row in answer.rows)))


@word.register
def _(answer: Strokes, style: Style) -> Lines:
    unsure = "" if answer.rated else " (tees not rated here: index taken)"
    total = f"{_strokes(answer.handicap)} in the round{unsure}."
    if answer.hole is None or answer.received is None:
        return Lines((total,))
    return Lines((f"Hole {answer.hole}: {_strokes(answer.received)}.", total))


@word.register
def _(answer: RoundOver, style: Style) -> Lines:
    so_far = ""
    if answer.row is not None and answer.row.scores:
        row = answer.row
        so_far = _so_far(row.total, row.to_par, row.points, row.played)
    if answer.for_all:
        return Lines((f"Round over.{so_far}", _after(answer)))
    return Lines(
        (f"Your round is over.{so_far}",
         "Review in private; end round again once everybody is in.")
    )  # fmt: skip


def _after(answer: RoundOver) -> str:
    """What to do next: the review, and the numbers learned."""
    many = f"{answer.doubted} number{'' if answer.doubted == 1 else 's'}"
    if not answer.doubted:
        return "The review is open: send review."
    if answer.taken:
        return f"Took over {many} from your shots. Send review, or bag."
    verb = "looks" if answer.doubted == 1 else "look"
    return f"Send review, or learn: {many} of yours {verb} wrong."


def _so_far(total: int | None, to_par: int | None, points: int | None, played: int) -> str:
    parts = []
    if total is not None:
        parts.append(f"{total}" if to_par is None else f"{total} ({_relative(to_par)})")
    if points is not None:
        parts.append(f"{points} point{'' if points == 1 else 's'}")
    return f" {', '.join(parts)} after {played}." if parts else ""


def _relative(to_par: int) -> str:
    return "level" if to_par == 0 else f"{to_par:+d}"


def _strokes(number: int) -> str:
    if number < 0:
        return f"{-number} stroke{'' if number == -1 else 's'} given back"
    return f"{number or 'no'} stroke{'' if number == 1 else 's'}"


_NAMES = {
    -3: "albatross",
    -2: "eagle",
    -1: "birdie",
    0: "par",
    1: "bogey",
    2: "double",
    3: "triple",
}


def _named(strokes: int | None, par: int | None) -> str:
    if strokes is None or par is None or strokes - par not in _NAMES:
        return ""
    return f", {_NAMES[strokes - par]}"


def _cell(scores: dict[int, int | None], hole: int) -> str:
    if hole not in scores:
        return "."
    score = scores[hole]
    return "-" if score is None else str(score)


def _place(row: Row, by: str) -> str:
    value = {
        "points": lambda: str(row.points),
        "net": lambda: _relative(row.net_to_par or 0),
        "to_par": lambda: _relative(row.to_par or 0),
        "strokes": lambda: str(row.total) if row.total is not None else "no total",
    }[by]()
    return f"{row.player[:30] or 'You'} {value}, after {row.played}"
