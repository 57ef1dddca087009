"""Words for what the log says of the stored numbers."""

from __future__ import annotations

from bot.model.golfer import Changed, ClubLearned, LessonShown, PuttingShown
from bot.wording.base import WIDTH, Lines, Style, word
from bot.wording.clubs import club
from bot.wording.numbers import degrees, factor, fine_degrees, length, roll, share


@word.register
def _(answer: LessonShown, style: Style) -> Lines:
    if answer.by_itself is not None:
        if answer.by_itself:
            return Lines(("From now on I take learned numbers over by myself.",))
        return Lines(("From now on I ask before I change a number.",))
    picked = ("Only good shots in the log? Send the bad ones too: they count.",)
    if answer.ask is not None:
        first = suggestion(answer.ask, style)
        if answer.taken:
            first, second = f"{_taken(answer.taken, style)}", first
            return Lines((first, second), ("yes", "no"))
        return Lines((first, *_small(answer, picked)), ("yes", "no"))
    if answer.taken:
        return Lines((_taken(answer.taken, style), *(picked if answer.picked else ())))
    if not answer.shots:
        return Lines(
            ("No shots logged yet, so nothing is learned.", 'Send results: "7 iron 148, 5 right".')
        )
    first = f"{answer.shots} shots logged: no stored number is surely wrong."
    return Lines((first, *(picked if answer.picked else ())))


@word.register
def _(answer: ClubLearned, style: Style) -> Lines:
    name = club(answer.stored.name).capitalize()
    stored = length(answer.stored.carry, style)
    if not answer.shots:
        return Lines((f"{name}: no shots logged. Stored {stored}.",))
    first = (
        f"{name}: {answer.solid} solid, {answer.bad} not. "
        f"{length(answer.learned, style)} +-{length(answer.half, style)}, stored {stored}."
    )
    if answer.few:
        return Lines((first, "Few yet: ten solid shots say the carry, thirty the spread."))
    return Lines((first,))


@word.register
def _(answer: PuttingShown, style: Style) -> Lines:
    if not answer.putts:
        return Lines(
            (
                "No putts logged yet. Ask for a putt, then send what came of it:",
                "holed, or 2 ft short.",
            )
        )
    lines = [
        f"{roll(r.low)} to {roll(r.high)}: {r.holed} of {r.tried} holed, "
        f"{r.expected:.0f} expected."
        for r in answer.rates
    ]
    if answer.few:
        lines.append("Few yet: thirty putts say something of line and pace.")
    return Lines(tuple(lines))


def suggestion(change: Changed, style: Style) -> str:
    """Return the question whether to take a learned value over, with how sure it is."""
    name = club(change.club).capitalize() if change.club else ""
    new = change.learned
    match change.value:
        case "carry_m":
            carry = length(new, style)
            return (
                f"{name}: {change.solid} solid shots, {carry} +-{length(change.half, style)}, "
                f"stored {length(change.stored, style)}. Use {carry}?"
            )
        case "spread_long" | "mishit":
            what = "long and short" if change.value == "spread_long" else "not solid"
            return (
                f"{name}: {share(new.value)} {what}, stored {share(change.stored.value)}. "
                f"Use {share(new.value)}?"
            )
        case "spread_side_rad":
            return (
                f"{name}: {degrees(new.value)} side, not {degrees(change.stored.value)}. Use it?"
            )
        case "lean_rad":
            side = "right" if new.value > 0 else "left"
            return f"{name}: finishes {degrees(abs(new.value))} {side} of your line. Count on it?"
        case "putt_line_deg":
            return (
                f"Putts start within {fine_degrees(new.value)}, not "
                f"{fine_degrees(change.stored.value)}. Use it?"
            )
        case "putt_pace":
            return (
                f"Your pace is within {share(new.value)}, not {share(change.stored.value)}. "
                "Use it?"
            )
        case "miss":
            side = "right" if new.value > 0 else "left"
            return f"Your wild ones go {side}. Store that as your big miss?"
        case "wind_feel" | "height_feel":
            what = "Winds" if change.value == "wind_feel" else "Heights"
            return (
                f"{what} play {factor(new.value)} of what you call "
                f"(+-{factor(change.half.value)}). Count so?"
            )


def _small(answer: LessonShown, picked: tuple[str, ...]) -> tuple[str, ...]:
    """Return the second line: what limits the suggestion, or how many wait behind it."""
    ask = answer.ask
    if answer.picked:
        return picked
    if ask is not None and ask.value == "carry_m" and ask.solid < 10:
        return ("Few shots: it leans on what you told and on your other clubs.",)
    if answer.more:
        return (f"{answer.more} more after this one.",)
    return ()


def _taken(taken: tuple[Changed, ...], style: Style) -> str:
    """Return what was taken over, as many as fit the line."""
    parts = [_short(c, style) for c in taken]
    for n in range(len(parts), 0, -1):
        rest = len(parts) - n
        line = "Now " + ", ".join(parts[:n]) + (f" and {rest} more" if rest else "") + "."
        if len(line) <= WIDTH:
            break
    return line


def _short(change: Changed, style: Style) -> str:
    name = club(change.club) if change.club else ""
    new = change.learned
    match change.value:
        case "carry_m":
            return f"{name} {length(new, style)}"
        case "spread_long":
            return f"{name} spread {share(new.value)}"
        case "mishit":
            return f"{name} {share(new.value)} not solid"
        case "putt_line_deg":
            return f"putting line {fine_degrees(new.value)}"
        case "putt_pace":
            return f"putting pace {share(new.value)}"
        case "spread_side_rad":
            return f"{name} {degrees(new.value)} side"
        case "lean_rad":
            return f"{name} {degrees(abs(new.value))} {'right' if new.value > 0 else 'left'}"
        case "miss":
            return f"big miss {'right' if new.value > 0 else 'left'}"
        case "wind_feel":
            return f"winds times {factor(new.value)}"
        case "height_feel":
            return f"heights times {factor(new.value)}"
