"""Words for putts: aim in balls and cups, pace as a level putt, one honest chance."""

from __future__ import annotations

from bot.model.green import PuttAdvice, PuttRefused, PuttWhy, Refusal
from bot.model.measure import Measure
from bot.wording import numbers
from bot.wording.base import WIDTH, Lines, Style, word

HOLE_IN, BALL_IN = 4.25, 1.68  # Rules of Golf; Equipment Rules
_RADIUS_IN = HOLE_IN / 2.0
_MIDDLE, _EDGE = 0.2, 1.25  # of the hole's radius
_BALLS, _CUPS = 2.75, 5.25  # up to so many it is said in balls, then in cups
_REFUSED: dict[Refusal, str] = {
    "length": "Putts go from half a foot to 200 ft. Send the length again.",
    "slope": "No green slopes like that. Send per cent, such as down 2%.",
    "speed": "Green speeds run from 4 to 18 ft. Send it like stimp 10.",
    "break": "No green breaks that much. Send the break again, in cups.",
    "wind": "No putting in that wind. Send its mph and where it comes from.",
    "no_line": "Nothing stays near the hole down that: plan for the putt back.",
}
_RARE = 0.02  # a smaller chance of three putts goes unsaid
_WIND_IN, _WIND_FT, _WIND_M = 2, 1.0, 0.3  # a wind that does less goes unsaid
_FAR_FT, _FAR_M = 5.0, 1.5  # a firm one stopping further off than this is warned of


@word.register
def _(answer: PuttAdvice, style: Style) -> Lines:
    if answer.asks:
        return Lines(
            (f"If level: straight, hit it like {numbers.roll(answer.pace)}. How does it fall?",
             "Send it like: down 2%, breaks left a cup"),
            buttons=("level", "uphill", "downhill", "left to right", "right to left"),
        )  # fmt: skip
    first = f"{aim(answer.aim, answer.aim_far)}. Hit it like {numbers.roll(answer.pace)}."
    return Lines((first, _second(answer)), buttons=("why", "holed", "missed"))


@word.register
def _(answer: PuttRefused, style: Style) -> Lines:
    if answer.why == "steep":
        given, most = (numbers.grade(Measure(value=v)) for v in (answer.given, answer.most))
        return Lines(
            (f"No ball stops on {given} here, {most} is the most it holds.",
             "Check the slope; if it is so, plan for a putt back up.")
        )  # fmt: skip
    return Lines((_REFUSED[answer.why],))


@word.register
def _(answer: PuttWhy, style: Style) -> Lines:
    putt = answer.putt
    lines = [f"Putt {numbers.roll(putt.length)}, green {numbers.green_speed(putt.stimp)}."]
    if abs(putt.grade.value) >= 0.25:
        way = "Up" if putt.grade.value > 0 else "Down"
        adds = "adds" if answer.climb.value > 0 else "takes"
        size = answer.climb.model_copy(update={"value": abs(answer.climb.value)})
        lines.append(f"{way} {numbers.grade(putt.grade)} {adds} {numbers.roll(size)} of pace.")
    if putt.breaks:
        lines.append(f"Breaks {_breaks(putt)} on {numbers.grade(putt.side)} of side slope.")
    dying = numbers.roll(putt.past).startswith("0 ")
    where = "die at the hole" if dying else f"run {numbers.roll(putt.past)} past if it misses"
    lines.append(f"Meant to {where}.")
    if abs(putt.wind_aim.value) >= 0.5 or abs(putt.wind_pace.value) >= 0.3:
        lines.append(_wind(putt))
    lines.append(f"Holed {numbers.chance(putt.one)}, three putts {numbers.chance(putt.three)}.")
    lines.append("Grain is left out. Aim and pace are for your own spread.")
    return Lines(tuple(lines))


def _in_wind(putt: PuttAdvice) -> str:
    """Return what a told wind does, where it is worth a word."""
    size = abs(numbers.whole(putt.wind_aim))
    if size >= _WIND_IN:
        return f"Wind moves it {size} in {'right' if putt.wind_aim.value < 0 else 'left'}."
    pace = putt.wind_pace
    more = pace.model_copy(update={"value": abs(pace.value)})
    if more.value < (_WIND_M if pace.unit == "m" else _WIND_FT):
        return ""
    return f"Wind {'adds' if pace.value > 0 else 'takes'} {numbers.roll(more)}."


def _wind(putt: PuttAdvice) -> str:
    side = "right" if putt.wind_aim.value < 0 else "left"
    size = abs(numbers.whole(putt.wind_aim))
    push = f"pushes it {size} in {side}" if size else "hardly moves it"
    more = putt.wind_pace.model_copy(update={"value": abs(putt.wind_pace.value)})
    pace = f"{'adds' if putt.wind_pace.value > 0 else 'takes'} {numbers.roll(more)} of pace"
    return f"Wind {push}, {pace}; a rough figure."


def aim(inches: Measure, far: Measure) -> str:
    """Return a start line by what a player sees at the hole.

    >>> aim(Measure(value=-5.5, unit="in"), Measure(value=-0.46, unit="ft"))
    'Start two balls outside left'
    """
    size = abs(inches.value)
    side = "right" if inches.value > 0 else "left"
    if size < _MIDDLE * _RADIUS_IN:
        return "Straight at the middle"
    if size < 0.75 * _RADIUS_IN:
        return f"Start inside {side}"
    if size < _EDGE * _RADIUS_IN:
        return f"Start on the {side} edge"
    outside = size - _RADIUS_IN
    if outside / BALL_IN < _BALLS:
        return f"Start {numbers.halves(outside / BALL_IN, 'ball')} outside {side}"
    if outside / HOLE_IN < _CUPS:
        return f"Start {numbers.halves(outside / HOLE_IN, 'cup')} outside {side}"
    wide = far.model_copy(update={"value": abs(far.value)})
    return f"Start {numbers.roll(wide)} {side} of the hole"


def _breaks(answer: PuttAdvice) -> str:
    if answer.second_breaks and answer.second_breaks != answer.breaks:
        return f"{answer.breaks} then {answer.second_breaks}"
    return f"{answer.breaks}"


def _second(answer: PuttAdvice) -> str:
    """Return as much as a line holds: the break, the chances, a warning, what was filled in."""
    breaks = f"Breaks {_breaks(answer)}." if answer.breaks else ""
    slopes, stimp = _taken(answer)
    taken, wind = _taking(slopes + stimp), _in_wind(answer)
    tries = (
        (breaks, wind, _chances(answer), _warning(answer), taken),
        (breaks, wind, _chances(answer), taken),
        (breaks, wind, _chance(answer), _warning(answer), taken),
        (breaks, wind, _chance(answer), taken),
        (breaks, wind, _chance(answer), _taking(slopes)),
        (wind, _chance(answer), _taking(slopes)),
        (_chance(answer), _taking(slopes)),
    )
    lines = (" ".join(part for part in parts if part) for parts in tries)
    return next(line for line in lines if len(line) <= WIDTH)


def _chances(answer: PuttAdvice) -> str:
    if answer.three < _RARE:
        return f"{numbers.chance(answer.one).capitalize()} to hole."
    three = numbers.chance(answer.three)
    return f"{numbers.chance(answer.one).capitalize()} to hole, three putts {three}."


def _chance(answer: PuttAdvice) -> str:
    """Return the one chance that counts: to hole a short one, of three putts from afar."""
    if answer.three > answer.one:
        return f"Three putts {numbers.chance(answer.three)}."
    return f"{numbers.chance(answer.one).capitalize()} to hole."


def _warning(answer: PuttAdvice) -> str:
    far = _FAR_M if answer.firm.unit == "m" else _FAR_FT
    runs_away = answer.firm.value > far and answer.grade.value < 0
    return f"Firm runs {numbers.roll(answer.firm)} by." if runs_away else ""


def _taking(said: tuple[str, ...]) -> str:
    return f"Taking {', '.join(said)}." if said else ""


def _taken(answer: PuttAdvice) -> tuple[tuple[str, ...], tuple[str, ...]]:
    """Return which slopes were filled in, and which green speed."""
    said = {
        "level": "level",
        "along": "level",
        "tier": "one tier",
        "grade": f"{numbers.grade(answer.grade)} {'up' if answer.grade.value > 0 else 'down'}",
        "side": f"{numbers.grade(answer.side)} side",
        "straight": "no break",
    }
    stimp = (f"stimp {numbers.green_speed(answer.stimp)}",) if "stimp" in answer.assumed else ()
    return tuple(text for name, text in said.items() if name in answer.assumed), stimp
