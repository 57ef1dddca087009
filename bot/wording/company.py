"""Words for a trip: who is on it, who may ask for whom, what the day is like."""

from __future__ import annotations

from bot.model.company import DayKept, HelperKept, Joined, Left
from bot.wording.base import WIDTH, Lines, Style, word
from bot.wording.numbers import level, temperature
from bot.wording.winds import by_compass, strength


@word.register
def _(answer: Joined, style: Style) -> Lines:
    start = "You are on the trip already" if answer.again else "You are on the trip"
    line = f"{start}{_with(answer.others, WIDTH - len(style.name) - len(start) - 3)}."
    if answer.newcomer:
        return Lines((line, "Tell me your bag in private: it stays out of the group."))
    return Lines((line,))


def _with(names: tuple[str, ...], room: int) -> str:
    """Name the others, as many as fit."""
    if not names:
        return ""
    everybody = f" with {_and(names)}"
    return everybody if len(everybody) <= room else f" with {len(names)} others"


def _and(names: tuple[str, ...]) -> str:
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


@word.register
def _(answer: Left, style: Style) -> Lines:
    return Lines(("You are off the trip. Your bag, log and card stay.",))


@word.register
def _(answer: HelperKept, style: Style) -> Lines:
    name = answer.name[:20]
    if not answer.allowed:
        return Lines((f"{name} may no longer ask for you.",))
    return Lines((f"{name} may ask and set up for you now.",))


@word.register
def _(answer: DayKept, style: Style) -> Lines:
    told: list[str] = []
    if answer.wind is not None:
        blows = " ".join(p for p in (strength(answer.wind), by_compass(answer.wind)) if p)
        told += [f"wind {blows}" if answer.wind.speed is not None else blows] if blows else []
    air, green = answer.air, answer.green
    if air is not None and air.temperature is not None:
        told.append(temperature(air.temperature, style))
    if air is not None and air.word is not None:
        told.append(f"{air.word} air")
    if air is not None and air.rain:
        told.append("rain")
    if green is not None and green.stimp is not None:
        told.append(f"greens {level(green.stimp)}")
    elif green is not None:
        words = (green.speed_word, green.firmness)
        told += [f"{word.replace('_', ' ')} greens" for word in words if word is not None]
    if answer.turf is not None:
        told.append(f"turf {answer.turf}")
    for_whom = " for all" if answer.shared else ""
    what = ", ".join(told) or "that"
    return Lines((f"Noted{for_whom} today: {what}.",))
