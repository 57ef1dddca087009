"""Words for the bag, for what was kept of it, and for the questions of the setting-up."""

from __future__ import annotations

from bot.model.golfer import BagShown, ClubLine, Kept, ProfileDoubt, ProfileKept, Question, SetUp
from bot.model.measure import Measure
from bot.wording.base import WIDTH, Lines, Style, word
from bot.wording.clubs import club
from bot.wording.numbers import degrees, length, level, share

_ASKS: dict[Question, str] = {
    "start": 'Your 7-iron carry and handicap? As in "7 iron 150, handicap 18".',
    "carry": 'Which carries do you know? "driver 220, 7 iron 150" will do.',
    "handicap": "And your handicap, or your usual score for 18?",
    "hand": "Do you play right-handed or left-handed?",
    "shape": "Your usual shape: straight, draw, fade, hook or slice?",
    "miss": "And the big miss: left, right or both?",
    "usual": "Are those carries your average? No means your good ones.",
}
_BUTTONS: dict[Question, tuple[str, ...]] = {
    "hand": ("right-handed", "left-handed"),
    "shape": ("straight", "draw", "fade", "hook", "slice"),
    "miss": ("left", "right", "both"),
    "usual": ("yes", "no"),
}
_MARKS = {"told": "", "guessed": "~", "learned": "*"}
_WAYS = {"both": "both ways", "fat": "fat", "thin": "thin", "short": "short", "long": "long"}
_SWINGS = {
    "choked": "choked-down", "three_quarter": "three-quarter", "half": "half",
    "knocked_down": "knock-down", "high": "high",
}  # fmt: skip


@word.register
def _(answer: SetUp, style: Style) -> Lines:
    ask = _ASKS[answer.ask]
    if answer.hello:
        first = "I talk you round in two lines. First two things, or skip."
    elif answer.again:
        first = "I did not get that. Once more, or say skip."
    else:
        return Lines((ask,), _BUTTONS.get(answer.ask, ()))
    return Lines((first, ask), (*_BUTTONS.get(answer.ask, ()), "skip"))


@word.register
def _(answer: ProfileKept, style: Style) -> Lines:
    if answer.undone:
        return Lines(("Taken back. Send bag to see it as it was.",))
    lines = [_all(answer.kept, style, answer.who)] if answer.kept else []
    if answer.ask is not None:
        lines.append(_ASKS[answer.ask])
        return Lines(tuple(lines), (*_BUTTONS.get(answer.ask, ()), "skip"))
    if answer.done:
        lines.append("That is all I ask. Send a shot, or bag to check it.")
    return Lines(tuple(lines) or ("Nothing to change.",))


@word.register
def _(answer: ProfileDoubt, style: Style) -> Lines:
    name = club(answer.club) if answer.club else ""
    low, high = (_number(m, style) for m in (answer.low, answer.high))
    match answer.fault:
        case "unknown":
            first = f"I know no {name[:20]}."
            second = "Send clubs like driver, 3 wood, 4 hybrid, 7 iron, PW or 56."
        case "twice":
            first, second = f"Two numbers for the {name}: which one?", "Nothing kept so far."
        case "too_many":
            first = f"That makes {high_plus(answer)} clubs with the putter; 14 are allowed."
            second = "Which one stays home? Send no 3 iron, say."
        case "range":
            first = f"{_number(answer.value, style)} is no carry for a {name}: {low} to {high}."
            second = f"Nothing kept. How far does the {name} carry?"
        case "short_total":
            first = f"{_number(answer.value, style)} with roll, but a carry of {low}?"
            second = f"Nothing kept. How far does the {name} carry?"
        case "order":
            first = f"A {name} further than a {club(answer.other)}? Nothing kept."
            second = "Send both carries again."
        case "handicap":
            first, second = "A handicap runs from +10 to 54. Nothing kept.", "What is yours?"
        case "score":
            first, second = "That is no score for 18 holes. Nothing kept.", "What is usual?"
        case "speed":
            first = "That is no clubhead speed. Nothing kept."
            second = f"A driver's is {low} to {high}, such as 93 mph."
        case "which_club":
            first, second = "Which club is that?", "Send it like 7 iron 150."
        case "how_far":
            first, second = f"How far does the {name} carry?", f"Send it like {answer.club} 150."
        case _:
            first, second = "I could not tell what to keep.", "Send it like 7 iron 150, or fade."
    return Lines((first, second))


def high_plus(answer: ProfileDoubt) -> str:
    """Return how many clubs were told."""
    return "15" if answer.value is None else level(answer.value.value)


@word.register
def _(answer: BagShown, style: Style) -> Lines:
    if answer.only is not None:
        return Lines(_one(answer.clubs[0], style))
    metric = any(c.carry.unit == "m" for c in answer.clubs)
    plain = style._replace(units="metric" if metric else "imperial")
    cells = [f"{c.name} {_MARKS[c.source]}{length(c.carry, plain)}" for c in answer.clubs]
    lines = [f"{answer.who}'s bag:"] if answer.who else []
    lines += [", ".join(cells[i : i + 4]) for i in range(0, len(cells), 4)]
    marks = {c.source for c in answer.clubs}
    legend = [t for s, t in (("guessed", "~ guessed"), ("learned", "* learned")) if s in marks]
    units = "metres" if metric else "yards"
    lines.append(f"Carries in {units}{''.join(f', {t}' for t in legend)}.")
    lines.append(_player(answer, style))
    return Lines(tuple(lines))


def _player(answer: BagShown, style: Style) -> str:
    hand = "hand not told" if answer.hand is None else f"{answer.hand.capitalize()}-handed"
    rough = "~" if answer.handicap_source == "guessed" else ""
    parts = [
        hand,
        f"handicap {rough}{_handicap(answer.handicap)}",
        answer.shape or "shape not told",
        f"misses {_WAYS.get(answer.miss, answer.miss)}" if answer.miss else "miss not told",
    ]
    if answer.leave is not None:
        parts.append(f"likes {length(answer.leave, style)}")
    line = ", ".join(parts) + "."
    return line[0].upper() + line[1:]


def _one(line: ClubLine, style: Style) -> tuple[str, str]:
    name = club(line.name)
    known = {
        "told": "as you told it",
        "guessed": "a guess",
        "learned": f"learned from {line.solid} solid shots",
    }[line.source]
    band = "" if line.half is None else f" +-{length(line.half, style)}"
    first = f"{name.capitalize()} {length(line.carry, style)}{band}: {known}."
    spread = share(line.spread_long or 0.0)
    guess = "~" if line.spread_source == "guessed" else ""
    side, bad = degrees(line.side_deg or 0.0), share(line.mishit or 0.0)
    return first, f"Spread {guess}{spread} long, {guess}{side} side; not solid {guess}{bad}."


def _all(kept: tuple[Kept, ...], style: Style, who: str) -> str:
    """Join what was kept, as many as fit the line."""
    for_whom = f"For {who[:20]}: " if who else ""
    parts = [_kept(k, style) for k in kept]
    for n in range(len(parts), 0, -1):
        rest = len(parts) - n
        line = for_whom + ", ".join(parts[:n]) + (f" and {rest} more" if rest else "") + "."
        if len(line) <= WIDTH:
            break
    return line[0].upper() + line[1:]


def _kept(kept: Kept, style: Style) -> str:
    name = club(kept.club) if kept.club else ""
    value = _number(kept.value, style)
    was = f" (was {_number(kept.before, style)})" if kept.before is not None else ""
    texts = {
        "carry": f"{name} {value}{was}",
        "total": f"{name} {value} with roll",
        "total_beside": f"{name} {value} with roll (carry stays {_number(kept.before, style)})",
        "best": f"{name} {value} at best",
        "loft": f"{name} {value}",
        "club_in": f"{name} in",
        "club_out": f"{name} out",
        "hand": f"{kept.word}-handed",
        "handicap": "" if kept.value is None else f"handicap {_handicap(kept.value.value)}",
        "score": "" if kept.value is None else f"usual score {level(kept.value.value)}",
        "shape": kept.word,
        "miss": f"misses {_WAYS.get(kept.word, kept.word)}",
        "leave": f"likes to leave {value}",
        "units": "metres" if kept.word == "metric" else "yards",
        "speed": f"driver speed {value}",
        "swing_in": f"{_SWINGS.get(kept.word, kept.word)} swing in",
        "swing_out": f"{_SWINGS.get(kept.word, kept.word)} swing out",
        "name": f"name {kept.word}",
        "card": "doubles weigh more from now" if kept.word == "on" else "doubles weigh as any",
        "tempo": f"{kept.word} replies",
        "usual": "average carries",
        "good": "your good ones, so I count less",
    }
    return texts[kept.what]


def _number(measure: Measure | None, style: Style) -> str:
    if measure is None:
        return ""
    return length(measure, style)


def _handicap(value: float) -> str:
    return level(value) if value >= 0 else f"+{level(-value)}"
