"""Words for shots from beside the green: club, landing spot and run, and why."""

from __future__ import annotations

from bot.model.green import ChipAdvice, ChipPick, ChipRefusal, ChipRefused
from bot.wording import numbers
from bot.wording.base import WIDTH, Lines, Style, not_got, word
from bot.wording.clubs import club
from bot.wording.putt import aim
from bot.wording.troubles import shorter

_VERBS = {
    "bump": "Bump", "chip": "Chip", "pitch": "Pitch", "flop": "Flop", "splash": "Splash",
    "blast": "Dig down with",
}  # fmt: skip
_LIES = {
    "fringe": "fringe", "fairway": "short grass", "first_cut": "first cut", "tight": "tight lie",
    "rough": "rough", "deep_rough": "deep rough", "sand": "sand", "buried": "plugged",
}  # fmt: skip
_REFUSED: dict[ChipRefusal, str] = {
    "distance": "Short shots go from 1 to 60 yd here. Send the distance again.",
    "edge": "The green cannot begin beyond the hole. Send both numbers again.",
    "slope": "No green slopes like that. Send per cent, such as down 2%.",
    "steep": "No ball stops on that slope. Check it, or aim at a flatter part.",
    "speed": "Green speeds run from 4 to 18 ft. Send it like stimp 10.",
    "height": "No green is that far up or down from a chip. Send it in feet.",
    "no_club": "No club in your bag fits that lie. Add a wedge, or move it out.",
    "no_shot": "No shot from there. Send the lie after the drop, or ask: drop.",
}
_WORTH_SAYING = 0.03  # strokes; a smaller difference is none
_DEEP_FT, _DEEP_M = 5.0, 1.5  # a target this far past is a safe one, and said


@word.register
def _(answer: ChipAdvice, style: Style) -> Lines:
    if answer.explain:
        return Lines(_why(answer))
    return Lines((_how(answer.best), _second(answer)), buttons=("why", "holed", "short", "long"))


@word.register
def _(answer: ChipRefused, style: Style) -> Lines:
    return Lines((_REFUSED[answer.why],))


def _how(pick: ChipPick) -> str:
    if pick.how == "putter":
        return f"Putt it: hit it like {numbers.roll(pick.carry)}."
    return f"{_VERBS[pick.how]} the {club(pick.club)}: {_spot(pick)}."


def _spot(pick: ChipPick) -> str:
    on, run = numbers.whole(pick.on), numbers.whole(pick.run)
    land = f"{on} on" if on >= 1 else "just on"
    rolls = f"it runs {run}" if run >= 1 else "it stops"
    return f"carry {numbers.whole(pick.carry)} {pick.carry.unit}, {land}, {rolls}"


def _second(answer: ChipAdvice) -> str:
    """Join what fits: the safe target, the chance, what was taken, what else was weighed."""
    line = ""
    needful: tuple[str, ...] = (_chance(answer), _taken(answer))
    if answer.aim is not None:
        needful = (f"{_start(answer)} {_taken(answer)}".strip(), _chance(answer))
    if answer.left_out:  # what was told and not weighed is never left out in silence
        said = " and ".join(shorter(name) for name in answer.left_out[:2])
        needful = (needful[0], f"Not weighed: {said}.", *needful[1:])
    if answer.not_offered:
        no = " or ".join(club(name) for name in answer.not_offered[:2])
        needful = (f"No {no} from there.", *needful)
    if answer.unread:
        needful = (f"{not_got(answer.unread)}.", *needful)
    parts = (*needful, _deep(answer.best), _cost(answer))
    for part in parts:
        longer = f"{line} {part}".strip()
        if part and len(longer) <= WIDTH:
            line = longer
    return line


def _start(answer: ChipAdvice) -> str:
    if answer.aim is None or answer.aim_far is None:
        return ""
    return f"{aim(answer.aim, answer.aim_far)}."


def _deep(pick: ChipPick) -> str:
    far = _DEEP_M if pick.past.unit == "m" else _DEEP_FT
    return f"Safe is {numbers.roll(pick.past)} past." if pick.past.value > far else ""


def _chance(answer: ChipAdvice) -> str:
    return f"Up and down {numbers.chance(answer.best.saves)}."


def _cost(answer: ChipAdvice) -> str:
    """Return what the other way costs, where that is worth a word."""
    other = answer.asked or answer.other
    if other is None or other.expected - answer.best.expected < _WORTH_SAYING:
        return ""
    more = numbers.hundredths(other.expected - answer.best.expected)
    return f"{_named(other).capitalize()} costs {more} more."


def _named(pick: ChipPick) -> str:
    if pick.how in ("splash", "blast"):
        return club(pick.club)
    return "a putt" if pick.how == "putter" else f"a {pick.how}"


def _taken(answer: ChipAdvice) -> str:
    said = []
    if "lie" in answer.assumed:
        said.append(_LIES[answer.lie])
    if "edge" in answer.assumed:
        said.append(f"{numbers.whole(answer.green_from)} to the green")
    if "grade" in answer.assumed:
        said.append(f"{numbers.grade(answer.grade)} {'up' if answer.grade.value > 0 else 'down'}")
    if "side" in answer.assumed:
        said.append(f"{numbers.grade(answer.side)} side")
    return f"Taking {', '.join(said)}." if said else ""


def _why(answer: ChipAdvice) -> tuple[str, ...]:
    lines = [
        f"{numbers.whole(answer.distance)} {answer.distance.unit}, {_LIES[answer.lie]}, "
        f"{numbers.whole(answer.green_from)} to the green."
    ]
    lines.extend(_line(pick) for pick in answer.more)
    if answer.best.how == "putter" and answer.other is not None:
        lines.append("A putt cannot be fat or thin, and its misses are smaller.")
    lines.append("Calm air, no grain; your own touch, mishits counted.")
    return tuple(lines)


def _line(pick: ChipPick) -> str:
    worth = f"{numbers.hundredths(pick.expected)} strokes, saves {numbers.share(pick.saves)}"
    if pick.how == "putter":
        return f"Putter, like {numbers.roll(pick.carry)}: {worth}."
    on, run = numbers.whole(pick.on), numbers.whole(pick.run)
    return f"{pick.how.capitalize()} {club(pick.club)}, {on} on, runs {run}: {worth}."
