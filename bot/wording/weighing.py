"""Words for why, for comparing clubs, and for whether a target can be reached."""

from __future__ import annotations

from textwrap import wrap

from bot.model.advice import Change, ShotAdvice, Weighed
from bot.wording.base import WIDTH, capital, fitting
from bot.wording.clubs import club, played
from bot.wording.numbers import one_in, share, signed, strokes, whole
from bot.wording.troubles import shorter, trouble
from bot.wording.winds import by_compass, by_line, named, strength

_REFUSED = {
    "loft": "Not {club} from this lie: too little loft.",
    "lip": "Not {club} from here: it does not clear the lip.",
    "long": "Not {club}: it flies far past the flag from here.",
    "high": "Not {club} from here: it does not stay under the branches.",
    "unknown": "No {club} in your bag. Send its carry: {club} 150.",
}
_CHANGE = {
    "wind_less": "{by} less wind", "wind_more": "{by} more wind", "shorter": "{by} shorter",
    "longer": "{by} longer",
}  # fmt: skip
SAME = 0.03  # strokes that nobody can feel: judgement
CLEAR = 0.12
LEFT = 6.0  # yards or metres from the yardage asked for that still leave it: judgement


def asked_lines(answer: ShotAdvice, aim: str) -> tuple[str, ...]:
    """Return two lines for a comparison, a doubt about a club, or whether it reaches."""
    if answer.ask == "reach":
        return _reach(answer), aim
    if answer.missed:
        return _where_to_miss(answer.missed, aim)
    if answer.refused and not answer.compared:
        name, reason = next(iter(answer.refused.items()))
        still = f"{_still(answer)} {aim}"
        return _REFUSED[reason].format(club=club(name)), still if len(still) <= WIDTH else aim
    if len(answer.compared) >= 2:
        better, worse = sorted(answer.compared, key=lambda p: p.strokes)[:2]
        best = answer.best
        if worse.club == best.club and worse.strokes < better.strokes + SAME:
            better, worse = worse, better  # a near tie goes to the one advised
        if best.strokes < better.strokes - SAME and best.club not in (better.club, worse.club):
            return _verdict(better, worse), _first(_cost(better, best), f"{_still(answer)}")
        return _verdict(better, worse), _numbers(answer, better, worse)
    if answer.compared:
        other = answer.compared[0]
        second = _pair(answer, other)
        for unusable, reason in answer.refused.items():
            second = _REFUSED[reason].format(club=club(unusable))
        if (other.club, other.swing) == (answer.best.club, answer.best.swing):
            return f"{capital(_named(other))} is the one I like here.", aim
        if other.strokes <= answer.best.strokes + SAME:
            return f"Nothing against it: {_named(other)} is as good.", second
        return _cost(other, answer.best), second
    return _still(answer), aim


def _where_to_miss(missed: dict[str, float], aim: str) -> tuple[str, str]:
    """Return the sides where a miss is cheapest, and what the others cost."""
    rounded = {side: f"{strokes:.1f}" for side, strokes in missed.items()}
    sides = sorted(missed, key=lambda side: missed[side])
    best = [side for side in sides if rounded[side] == rounded[sides[0]]]
    rest = [f"{side} {rounded[side]}" for side in sides if side not in best]
    if not rest:
        return f"No side is better: {rounded[sides[0]]} to hole out from each.", aim
    named = " or ".join(", ".join(best).rsplit(", ", 1))
    first = f"Miss {named}: {rounded[sides[0]]} to hole out from there."
    return first, f"{capital(', '.join(rest))}."


_UNFIT = {
    "loft": "not {club}: too little loft", "lip": "not {club}: it meets the lip",
    "long": "not {club}: it flies too far", "high": "not {club}: it meets the branches",
    "unknown": "no {club} in your bag",
}  # fmt: skip


def fresh_picks(answer: ShotAdvice) -> tuple[str, ...]:
    """Return the club beside those named with a new shot, the fullest first; none if none was."""
    best, pick = answer.best, capital(_named(answer.best))
    named = sorted(answer.compared, key=lambda p: p.strokes)
    mine = [p for p in named if (p.club, p.swing) == (best.club, best.swing)]
    rest = [_against(p, best) for p in named if p not in mine]
    rest += [_UNFIT[reason].format(club=club(name)) for name, reason in answer.refused.items()]
    if mine and not rest:
        return (f"Yes, {_named(best)}.",)
    return tuple(f"{pick}; {', '.join(rest[:n])}." for n in range(len(rest), 0, -1))


def _against(play: Weighed, best: Weighed) -> str:
    cost = play.strokes - best.strokes
    return f"{_named(play)} as good" if cost < SAME else f"{_named(play)} costs {cost:.2f}"


def other_leave(answer: ShotAdvice) -> tuple[str, ...]:
    """Return what leaving the yardage asked for would take, the fullest first; none if done."""
    want, there, best = answer.leave, answer.leaving, answer.best
    if want is None or there is None or abs(best.left.value - want.value) < LEFT:
        return ()
    if there.club == best.club and there.swing == best.swing:
        return (f", nearest to {whole(want)}",)
    cost = there.strokes - best.strokes
    costs = "as good" if cost < SAME else f"costs {cost:.2f}"
    return (
        f"; {_named(there)} to {whole(there.left)} {costs}",
        f"; {club(there.club)} to {whole(there.left)} {costs}",
    )


def _verdict(first: Weighed, second: Weighed) -> str:
    cost = second.strokes - first.strokes
    how = "clearly" if cost >= CLEAR else "a touch better"
    pairs = ((_named(first), _named(second)), (club(first.club), club(second.club)))
    if cost < SAME:
        return _first(
            *(f"Same either way: take the one you like, {a} by a hair." for a, _ in pairs)
        )
    return _first(*(f"{capital(a)}, {how}: {b} costs {cost:.2f} more." for a, b in pairs))


def _cost(other: Weighed, best: Weighed) -> str:
    cost = other.strokes - best.strokes
    return f"{capital(_named(other))} costs {cost:.2f} more than {_named(best)}."


def _numbers(answer: ShotAdvice, a: Weighed, b: Weighed) -> str:
    """Return what tells two swings apart: trouble, the green, or what they leave."""
    danger = max(answer.troubles, key=lambda n: abs(_risk(a, n) - _risk(b, n)), default="")
    if danger and abs(_risk(a, danger) - _risk(b, danger)) > 0.02:
        head, risks = capital(shorter(danger)), [one_in(_risk(p, danger)) for p in (a, b)]
    elif answer.in_reach:
        head, risks = "Green", [share(_risk(p, "green")) for p in (a, b)]
    else:
        head, risks = "Leaves", [str(whole(p.left)) for p in (a, b)]
    pairs = ((_named(a), _named(b)), (club(a.club), club(b.club)))
    return _first(*(f"{head}: {x} {risks[0]}, {y} {risks[1]}." for x, y in pairs))


def _pair(answer: ShotAdvice, other: Weighed) -> str:
    return _numbers(answer, answer.best, other)


def _reach(answer: ShotAdvice) -> str:
    """Return whether the green can be reached, and the club to play where that does not."""
    best = answer.best
    if answer.compared and answer.compared[0].club != best.club:
        asked = answer.compared[0]
        return _first(
            f"{capital(_named(asked))} gets there {_often(asked)}, {_named(best)} {_often(best)}.",
            f"{capital(club(asked.club))} gets there {_often(asked)}.",
        )
    if best.past_front >= 0.5:
        return _fit(f"Yes: {_named(best)} gets to the front {_often(best)}.")
    going = _going(answer)
    return _first(f"{going} {capital(_named(best))}, leaves {whole(best.left)}.", going)


def _going(answer: ShotAdvice) -> str:
    """Return how often the longest swing that is on gets there, and what it costs."""
    far, best = answer.farthest or answer.best, answer.best
    if far.past_front < 0.05:
        return _fit(f"No: {_named(far)} goes {whole(far.total)} here.")
    odds = share(far.past_front) if far.past_front >= 0.175 else one_in(far.past_front)
    cost = far.strokes - best.strokes
    if cost < SAME:
        return _fit(f"{capital(_named(far))} gets there {odds} and costs no more.")
    much = "a touch" if cost < CLEAR else f"{cost:.1f}"
    return _fit(f"{capital(_named(far))} gets there {odds} at {much} more.")


def _often(play: Weighed) -> str:
    return share(play.past_front) + " of the time"


def _still(answer: ShotAdvice) -> str:
    return f"Still {_named(answer.best)}."


def _wind(answer: ShotAdvice) -> tuple[str, ...]:
    """Return which wind was weighed, where one blows, and the day's where that is another."""
    wind = answer.wind
    was = f"The day's wind was {named(answer.day_was)}." if answer.day_was else ""
    if wind is None or not by_line(wind) or not strength(wind):
        return (was,) if was else ()
    whose = "The day's wind" if answer.of_day else "Wind"
    of_line = f", {by_line(wind)}" if by_compass(wind) else ""
    told = f"{whose}: {named(wind)}{of_line}."
    return (told, was) if was else (told,)


def why_lines(answer: ShotAdvice) -> tuple[str, ...]:
    """Return the parts behind the last answer, the next two choices and what would change it."""
    lines = []
    plays = answer.plays
    if plays is not None:
        lines.append(
            f"{whole(answer.distance)} plays {whole(plays.total)}: wind {signed(plays.wind)}, "
            f"height {signed(plays.height)}, air {signed(plays.air)}, lie {signed(plays.lie)}."
        )
        if answer.in_reach and whole(plays.thumb) != whole(plays.total):
            lines.append(f"A rule of thumb says {whole(plays.thumb)}; this is your own flight.")
    lines.extend(_wind(answer))
    best = answer.best
    tail = f"leaves {whole(best.left)}"
    if answer.in_reach:
        tail = f"green {share(_risk(best, 'green'))}, trouble {share(_trouble(answer, best))}"
    lines.append(f"{capital(_named(best))}: {strokes(best.strokes)} to hole out, {tail}.")
    if best.double_or_worse is not None and best.par_or_better is not None:
        lines.append(
            f"Par or better {share(best.par_or_better)}, "
            f"double or worse {share(best.double_or_worse)}."
        )
    lines.extend(_next(answer, other) for other in answer.others)
    if answer.changes:
        changes = "; ".join(_changed(c) for c in answer.changes)
        lines += wrap(f"It changes with {changes}.", WIDTH, break_on_hyphens=False)
    if answer.card:
        cost = best.strokes - min((o.strokes for o in answer.others), default=best.strokes)
        costs = f" It costs {cost:.2f}." if cost > 0.01 else ""
        lines.append(f"Doubles weigh more: you are protecting a card.{costs}")
    if answer.notes is not None:
        names = list(dict.fromkeys(trouble(t.name) for t in answer.notes.trouble))
        while len(names) > 1 and len(", ".join(names)) > WIDTH - 20:
            names.pop()
        lines.append(f"From the notes of hole {answer.notes.hole}: {', '.join(names)}.")
    gaps = (a.removeprefix("gap:") for a in answer.assumed if a.startswith("gap:"))
    told = list(dict.fromkeys(trouble(name) for name in gaps))
    if told:
        lines.append(f"Not told, so taken: how far off the {', '.join(told)} is.")
    return tuple(lines)


def _next(answer: ShotAdvice, other: Weighed) -> str:
    cost = other.strokes - answer.best.strokes
    costs = "as good" if abs(cost) < 0.01 else f"costs {cost:.2f} more"
    if cost < -0.01:
        costs = f"saves {-cost:.2f}" + ("" if other.swing == "full" else " if you own it")
    tails: tuple[str, ...] = (f"leaves {whole(other.left)}",)
    if answer.in_reach:
        green = f"green {share(_risk(other, 'green'))}"
        tails = (f"{green}, trouble {share(_trouble(answer, other))}", green)
    return _first(*(f"{capital(_named(other))} {costs}: {tail}." for tail in tails))


def _changed(change: Change) -> str:
    unit = change.by.unit if change.fact.startswith("wind") else ""
    by = f"{whole(change.by)} {unit}".strip()
    return f"{_CHANGE[change.fact].format(by=by)}: {played(change.club, change.swing)}"


def _risk(play: Weighed, name: str) -> float:
    return play.chances.get(name, 0.0)


def _trouble(answer: ShotAdvice, play: Weighed) -> float:
    return sum(_risk(play, name) for name in answer.troubles)


def _named(play: Weighed) -> str:
    return played(play.club, play.swing).replace(",", "")


def _first(*lines: str) -> str:
    return _fit(fitting(*lines))


def _fit(line: str) -> str:
    return line if len(line) <= WIDTH else line[: WIDTH - 1].rsplit(" ", 1)[0].rstrip(".,") + "."
