"""Two lines for a shot: the number and the club, then the aim and what it avoids."""

from __future__ import annotations

from bot.model.advice import NoBagYet, ShotAdvice, Weighed
from bot.wording.base import WIDTH, Lines, Style, word
from bot.wording.clubs import club, played
from bot.wording.numbers import one_in, signed, strokes, whole

_SAID = {
    "water": "water", "bunker": "bunker", "ob": "out of bounds", "trees": "trees",
    "penalty": "penalty area", "ditch": "ditch", "gorse": "gorse", "long_grass": "long grass",
    "trouble": "trouble", "drop": "drop-off", "building": "building",
}  # fmt: skip
WORTH_SAYING = 0.02  # a chance below this needs no words on the second line


@word.register
def _(answer: ShotAdvice, style: Style) -> Lines:
    if answer.explain:
        return Lines(_why(answer))
    return Lines((_number(answer), _aim(answer)))


@word.register
def _(answer: NoBagYet, style: Style) -> Lines:
    return Lines(
        (
            f"{whole(answer.distance)} plays about {whole(answer.plays.total)} "
            "for most. I do not know your clubs yet.",
            "Send two carries: driver 230, 7 iron 150, about 18 handicap.",
        )
    )


def _number(answer: ShotAdvice) -> str:
    """Return the first line: what it plays, why in short, and the club."""
    best = played(answer.best.club, answer.best.swing)
    if answer.plays is None or not answer.in_reach:
        return f"{whole(answer.distance)} to go. {_cap(best)}, leaves {whole(answer.best.left)}."
    plays = answer.plays
    parts = [
        f"{name} {signed(part)}"
        for name, part in (
            ("wind", plays.wind), ("height", plays.height), ("air", plays.air), ("lie", plays.lie)
        )
        if whole(part)
    ]  # fmt: skip
    head = f"{whole(answer.distance)} plays {whole(plays.total)}"
    full = f"{head} ({', '.join(parts)}). {_cap(best)}." if parts else f"{head}. {_cap(best)}."
    return full if len(full) <= WIDTH else f"{head}. {_cap(best)}."


def _aim(answer: ShotAdvice) -> str:
    """Return the second line: where to start it, where it ends, what it keeps out of."""
    aim = _line(answer, answer.best)
    danger = _danger(answer)
    notes = [n for n in (danger, _assumed(answer)) if n]
    line = f"{aim}."
    for note in notes:
        longer = f"{line} {note}."
        if len(longer) <= WIDTH:
            line = longer
    return line


def _line(answer: ShotAdvice, best: Weighed) -> str:
    start, finish = whole(best.start), whole(best.finish)
    mark = "the flag" if answer.in_reach else "the middle"
    where = "Start at " + mark if abs(start) < 2 else f"Start {_side(start)} of {mark}"
    if abs(finish - start) < 4:
        return where
    end = f"at {mark}" if abs(finish) < 3 else _side(finish)
    return f"{where}, finish {end}"


def _side(offset: int) -> str:
    return f"{abs(offset)} {'right' if offset > 0 else 'left'}"


def _danger(answer: ShotAdvice) -> str:
    worst = sorted(
        ((answer.best.chances.get(name, 0.0), name) for name in answer.troubles), reverse=True
    )
    if not worst or worst[0][0] < WORTH_SAYING:
        return ""
    chance, name = worst[0]
    return f"{_cap(_trouble(name))} {one_in(chance)}"


def _trouble(name: str) -> str:
    kind, _, side = name.partition(" ")
    return f"{_SAID[kind]} {side}".strip()


def _assumed(answer: ShotAdvice) -> str:
    if "calm" in answer.assumed:
        return "Taking calm"
    if "wind" in answer.carried:
        return "Same wind"
    return ""


def _why(answer: ShotAdvice) -> tuple[str, ...]:
    lines = []
    plays = answer.plays
    if plays is not None:
        lines.append(
            f"{whole(answer.distance)} plays {whole(plays.total)}: wind {signed(plays.wind)}, "
            f"height {signed(plays.height)}, air {signed(plays.air)}, lie {signed(plays.lie)}."
        )
        lines.append(f"A rule of thumb says {whole(plays.thumb)}; this is your own flight.")
    for weighed in (answer.best, *answer.others):
        cost = weighed.strokes - answer.best.strokes
        tail = "best" if weighed is answer.best else f"costs {cost:.2f} more"
        lines.append(
            f"{_cap(played(weighed.club, weighed.swing))}: {strokes(weighed.strokes)} strokes "
            f"to hole out, {tail}."
        )
    return tuple(lines)


def _cap(text: str) -> str:
    return text[:1].upper() + text[1:]


__all__ = ["club"]
