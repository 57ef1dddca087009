"""Two lines for a shot: the number and the club, then the aim and what it avoids."""

from __future__ import annotations

from bot.model.advice import NoBagYet, NotedTrouble, ShotAdvice
from bot.model.measure import Measure
from bot.wording.base import WIDTH, Lines, Style, capital, fitting, not_got, word
from bot.wording.clubs import club, played
from bot.wording.numbers import one_in, signed, whole
from bot.wording.places import on_fairway, on_green
from bot.wording.troubles import dear, shorter, trouble, what
from bot.wording.weighing import asked_lines, fresh_picks, other_leave, why_lines
from bot.wording.winds import by_line, named

_AT_BALL, _AT_PIN = 5, 10  # yards or metres: as good as from here, as far as the green
HOLDS = 0.5  # chance to get to the green below which what is left is said
WORTH_SAYING = 0.02  # a chance below this needs no words on the second line


@word.register
def _(answer: ShotAdvice, style: Style) -> Lines:
    if answer.explain:
        return Lines(why_lines(answer))
    if answer.ask:
        return Lines(asked_lines(answer, _aim(answer)))
    return Lines((_number(answer), _aim(answer)), buttons=("why", hit(answer.best.club)))


@word.register
def _(answer: NoBagYet, style: Style) -> Lines:
    number = f"{whole(answer.distance)} plays about {whole(answer.plays.total)}"
    return Lines(
        (
            f"{number} for most. I do not know your clubs yet.",
            "Send two carries: driver 230, 7 iron 150, about 18 handicap.",
        )
    )


def hit(name: str) -> str:
    """Return what a thumb sends once this club was hit."""
    return f"hit {club(name)}"


def _number(answer: ShotAdvice) -> str:
    """Return the first line: what it plays, why in short, and the club."""
    best = capital(played(answer.best.club, answer.best.swing))
    to_go = f"{whole(answer.distance)} to go"
    leaves = f"leaves {whole(answer.best.left)}" + (", your number" if answer.liked else "")
    if answer.shut:
        return f"{to_go}. Sideways, back to short grass: it leaves about as far."
    if answer.blocked:
        low = best.replace(",", "") if answer.best.swing == "knocked_down" else f"{best} low"
        return fitting(
            f"{to_go}. If the gap is clean: {low}, {leaves}.", f"{to_go}. {low}, {leaves}."
        )
    asked, wanted = fresh_picks(answer), other_leave(answer)
    if answer.plays is None or not answer.in_reach or answer.short_of:
        short = f"short of the {what(answer.short_of)}, " if answer.short_of else ""
        return fitting(
            *(f"{to_go}. {pick}" for pick in asked),
            *(f"{to_go}. {best}, {leaves}{more}." for more in wanted),
            f"{to_go}. {best}, {short}{leaves}.",
            f"{to_go}. {best}, {leaves}.",
            f"{to_go}. {best}.",
        )
    plays = answer.plays
    taken = f" if {_strength(answer)}" if _guessed(answer) else _in_unit(answer)
    parts = [
        f"{name} {signed(part)}{taken if name == 'wind' else ''}"
        for name, part in (
            ("wind", plays.wind), ("height", plays.height), ("air", plays.air), ("lie", plays.lie)
        )
        if whole(part)
    ]  # fmt: skip
    middle = " to the middle" if answer.reference in ("front", "back") else ""
    head = f"{whole(answer.distance)}{middle} plays {whole(plays.total)}"
    if answer.best.past_front < HOLDS:
        best = f"{best}, {leaves}"
    heads = (f"{head} ({', '.join(parts)})", head) if parts else (head,)
    picks = (*asked, *(f"{best}{more}." for more in wanted), f"{best}.")
    return fitting(*(f"{h}. {pick}" for pick in picks for h in heads))


def _aim(answer: ShotAdvice) -> str:
    """Return the second line: where to start it, where it ends, what it keeps out of."""
    if answer.blocked:
        return _out_of_trees(answer)
    notes = [
        note
        for note in (
            not_got(answer.unread), _left_out(answer), _day_was(answer), _way(answer),
            _assumed(answer),
        )
        if note
    ]  # fmt: skip
    said = [f"{aim}.{tail}" for aim in _lines(answer) for tail in _danger(answer)]
    # What was taken without being told is worth a shorter aim.
    noted = [f"{one} {note}." for note in notes[:1] for one in said]
    ends = [f"{_start(said)}.{tail}" for tail in _danger(answer)]
    ends += [f"{_last(said)}.{tail}" for tail in _danger(answer)]
    told = bool(notes) and notes[0].startswith(_LEFT_OUT)
    # What was told and not read, or not weighed, is never left out in silence.
    if answer.unread or answer.left_out or answer.day_was or told:
        noted += [f"{one} {notes[0]}." for one in (*ends, *(f"{a}." for a in _lines(answer)))]
        noted.append(f"{_last(said)}. {notes[0]}.")
    line = fitting(*noted, *said, *ends)
    more = _also_noted(answer)
    more = "" if not more or more.partition(" notes")[0] in line else more
    for note in [*notes[1:], *([more] if more else []), "Pick a small target"]:
        longer = f"{line} {note}."
        if len(longer) <= WIDTH:
            line = longer
    return line


def _lines(answer: ShotAdvice) -> tuple[str, ...]:
    """Return the aim in words, the fullest first."""
    best = answer.best
    if answer.in_reach:
        start, finish = on_green(best.start, answer), on_green(best.finish, answer)
    else:
        start = on_fairway(best.start_from_middle, best.half_width)
        finish = on_fairway(best.finish_from_middle, best.half_width)
    if start == finish or abs(best.finish.value - best.start.value) < 3.0:
        there = f"at the {finish}" if _plain(finish) else finish
        return (f"Start it {there}", f"Start {there}")
    where = f"at the {start}" if _plain(start) else start
    end = f"at the {finish}" if _plain(finish) else finish
    short = f"Start {start}, finish {finish}"
    shorter_still = short.replace(" of the ", " of ")
    bare = shorter_still.replace(" to the ", " to ")
    fullest = f"Start it {where}, let it finish {end}"
    return (fullest, short, shorter_still, bare)


def _last(said: list[str]) -> str:
    """Return the finish alone, where nothing longer fits."""
    return capital(said[-1].split(".")[0].rpartition(", ")[2])


def _start(said: list[str]) -> str:
    """Return the start line alone, where there is no room for where it should finish."""
    return said[-1].split(".")[0].partition(", ")[0]


def _plain(place: str) -> bool:
    """Whether a place takes an article: a thing, not so many yards of one."""
    return not place[0].isdigit() and not place.startswith("half-way")


def _danger(answer: ShotAdvice) -> tuple[str, ...]:
    """Return the trouble that weighs most and its chance, the fullest first; "" if it is small."""
    chances = answer.best.chances
    asked = [n for n in answer.troubles if answer.about and n.partition(" ")[0] == answer.about]
    worst = max(asked or answer.troubles, key=lambda n: dear(n) * chances.get(n, 0.0), default="")
    said = chances.get(worst, 0.0)
    if asked:
        return tuple(
            f" {capital(name)} {one_in(said)}." for name in (trouble(worst), shorter(worst))
        )
    noted = _noted(answer)
    if worst in noted:
        return _from_notes(answer, worst, said if said >= WORTH_SAYING else None)
    if said < WORTH_SAYING:
        return _from_notes(answer, next(iter(noted)), None) if noted else ("",)
    return tuple(f" {capital(name)} {one_in(said)}." for name in (trouble(worst), shorter(worst)))


def _noted(answer: ShotAdvice) -> dict[str, NotedTrouble]:
    """Return the noted trouble that mattered by name, what weighs most first."""
    if answer.notes is None:
        return {}
    chances = answer.best.chances
    ranked = sorted(answer.notes.trouble, key=lambda t: -dear(t.name) * chances.get(t.name, 0.0))
    return {t.name: t for t in ranked}


def _from_notes(answer: ShotAdvice, name: str, chance: float | None) -> tuple[str, ...]:
    """Return noted trouble with its hole, so that notes of a wrong hole are seen as such."""
    hole = answer.notes.hole if answer.notes else 0
    where = span(_noted(answer)[name], answer.distance)
    odds = "" if chance is None else f" {one_in(chance)}"
    comma = "," if where and odds else ""
    return (
        f" Hole {hole} notes: {trouble(name)}{where}{comma}{odds}.",
        f" Hole {hole} notes: {shorter(name)}{odds}.",
        f" Hole {hole}: {shorter(name)}{odds}.",
    )


def _also_noted(answer: ShotAdvice) -> str:
    """Return the noted trouble that mattered, where told trouble came first."""
    if answer.notes is None:
        return ""
    return f"Hole {answer.notes.hole} notes: {trouble(next(iter(_noted(answer))))}"


def span(one: NotedTrouble, pin: Measure) -> str:
    """Return from where to where trouble lies, from the ball; nothing where that is all the way.

    >>> start, end = (Measure(value=v, unit="yd") for v in (40, 90))
    >>> water = NotedTrouble(name="water right", kind="water", start=start, end=end)
    >>> span(water, Measure(value=250, unit="yd"))
    ' 40-90'
    """
    start = 0 if one.start is None else whole(one.start)
    end = None if one.end is None or one.end.value >= pin.value - _AT_PIN else whole(one.end)
    if start <= _AT_BALL:
        return "" if end is None else f" to {end}"
    return f" from {start}" if end is None else f" {start}-{end}"


def _way(answer: ShotAdvice) -> str:
    """Return what the other way costs, where going or laying up was the question."""
    if answer.other_way is None or answer.ask == "reach" or answer.leave is not None:
        return ""
    going = answer.other_way.past_front > answer.best.past_front
    cost = answer.other_way.strokes - answer.best.strokes
    return f"{'Going' if going else 'Laying up'} costs {_about(cost)}"


def _about(cost: float) -> str:
    return "about the same" if cost < 0.05 else f"about {cost:.1f}"


def _out_of_trees(answer: ShotAdvice) -> str:
    if answer.shut and answer.sideways is not None:
        return f"{answer.sideways:.1f} to hole out from here. Take the gap that costs least."
    if answer.sideways is None:
        return "If there is no gap, come out sideways."
    cost = answer.sideways - answer.best.strokes
    if cost <= 0.0:
        return "Sideways first: it costs nothing here."
    return f"No clean gap, sideways: it costs {_about(cost)} of a shot."


def _left_out(answer: ShotAdvice) -> str:
    return f"Not weighed: {answer.left_out[0]}" if answer.left_out else ""


def _day_was(answer: ShotAdvice) -> str:
    return f"Day's wind was {named(answer.day_was)}" if answer.day_was else ""


_LEFT_OUT = "Wind left out"
_STILL = 1.0  # a told calm is read as 0 to 2 of any unit


def _guessed(answer: ShotAdvice) -> bool:
    """Whether the strength of the wind was taken without being told."""
    told = answer.wind is not None and answer.wind.speed is not None
    return "strength" in answer.assumed and told


def _strength(answer: ShotAdvice) -> str:
    speed = None if answer.wind is None else answer.wind.speed
    usual = "km/h" if answer.distance.unit == "m" else "mph"  # what a bare number is
    return "" if speed is None else f"{whole(speed)} {speed.unit or usual}"


def _in_unit(answer: ShotAdvice) -> str:
    """Return in which unit a wind was taken that was told without one, where there are two."""
    return f" at {_strength(answer)}" if "wind_unit" in answer.assumed else ""


def _assumed(answer: ShotAdvice) -> str:
    wind = answer.wind
    open_way = wind is not None and wind.from_deg is None and wind.change is None
    if wind is not None and open_way and (wind.speed is not None or not wind.unsteady):
        if wind.speed is not None and not wind.speed.low and wind.speed.value <= _STILL:
            return ""  # calm as told
        return f"{_LEFT_OUT}, no {'side' if wind.across else 'direction'} told"
    if _guessed(answer) and not (answer.plays and whole(answer.plays.wind)):
        return f"Taking {_strength(answer)} of wind"
    if _in_unit(answer) and not (answer.plays and whole(answer.plays.wind)):
        return f"Taking {_strength(answer)} of wind"
    if "way" in answer.assumed and wind is not None:
        return f"Wind still {by_line(wind)}"
    if answer.rise is not None:
        way = "up" if answer.rise.value > 0 else "down"
        return f"Taking {abs(whole(answer.rise))} {answer.rise.unit} {way}"
    if "calm" in answer.assumed:
        return "Taking calm"
    if answer.day_now:
        return "Day's wind"
    if "wind" in answer.carried:
        return "Same wind"
    return ""
