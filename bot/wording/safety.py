"""Words for a danger: what to do now, in two lines that can be read at a run."""

from __future__ import annotations

from math import ceil

from bot.model.danger import Danger, StormHold, StormOver
from bot.wording.base import Lines, Style, word
from bot.wording.numbers import temperature, way

_HEAT = {
    "none": "no heat warning; keep drinking.",
    "caution": "caution. Shade, water, slow down.",
    "extreme caution": "extreme caution. Shade, water, rest.",
    "danger": "danger. Shade now; think of stopping.",
    "extreme danger": "extreme danger. Stop and get inside.",
}
_COLD = {
    "none": "no cold warning; stay dry.",
    "cold": "cold. Dry hands, hat, keep moving.",
    "very cold": "very cold. Cover up, cut it short.",
    "frostbite": "frostbite in half an hour. Get in.",
}


@word.register
def _(answer: Danger, style: Style) -> Lines:
    call = " or ".join(answer.emergency)
    felt = None if answer.felt is None else f"Feels like {temperature(answer.felt, style)}"
    match answer.peril:
        case "despair":
            first = "I am sorry it is so hard. Stop, and talk to somebody now:"
            second = f"one you trust, or call {call}. Do not stay alone with it."
        case "tornado":
            first = "Stop now. Into a solid building: lowest floor, inside room."
            second = "No cart, no trees. Caught out: lie in a low spot, cover head."
        case "animal":
            first = "Keep well away and leave the ball; the course can tell you more."
            second = f"Bitten or stung: sit still, call {call}."
        case "lightning":
            first = "Stop now. Get into a building or hard-top car; not under trees,"
            second = "no cart, no hut. 30 min from the last thunder; I keep the clock."
            if answer.strike is not None:
                off = way(answer.strike)
                first = f"That flash was about {off} off: in reach. Stop, get in now:"
                second = "building or hard-top car, no trees, cart, hut. 30 min; I count."
        case "medical":
            first = f"Stop playing. Tell your group, call {call} for help."
            second = "Sit in the shade, not alone. The clubhouse can send somebody."
        case "people_in_range":
            first = "Wait. Play only when they are beyond your longest shot."
            second = "If a ball heads for anyone, shout FORE at once, and loud."
        case "heat" if answer.ill:
            first = "Stop playing. Shade, water, cool the skin; do not stay alone."
            second = f"Worse, or no better in minutes: call {call}."
        case "cold" if answer.ill:
            first = "Stop playing. Get in, dry clothes, warm up; do not stay alone."
            second = f"Worse, or no better in minutes: call {call}."
        case "heat":
            first = f"{felt}: {_HEAT[answer.band]}" if felt else _HOT
            second = f"Water every 15 min. Dizzy, sick, dazed: stop, call {call}."
        case "cold":
            first = f"{felt}: {_COLD[answer.band]}" if felt else _CHILLED
            second = f"Shivering, slurring or numb: stop, get in, call {call}."
    return Lines((first,) if answer.brief else (first, second))


_HOT = "Shade, hat, water before thirst. Send temperature and humidity."
_CHILLED = "Dry layers, hat, keep moving. Send temperature and wind."


@word.register
def _(answer: StormHold, style: Style) -> Lines:
    left = ceil(answer.minutes_left)
    return Lines(
        (
            f"Stay in: {left} min left since the last thunder told here.",
            "Each new thunder or flash starts 30 again. The course decides.",
        )
    )


@word.register
def _(answer: StormOver, style: Style) -> Lines:
    if not answer.known:
        return Lines(
            ("No thunder was told here. Unsure? Stay in 30 min from the last.",
             "Go out only when the course says so.")
        )  # fmt: skip
    return Lines(
        ("30 min without thunder. The course says when to go out.",
         "New thunder or a flash: tell me, and back inside.")
    )  # fmt: skip
