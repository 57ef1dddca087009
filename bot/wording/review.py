"""Words for looking back: the summary first, each part on request."""

from __future__ import annotations

from collections.abc import Callable

from bot.model.golfer import Changed
from bot.model.review import (
    ClubMisses,
    Coaching,
    Differs,
    Exported,
    FoundShot,
    LegShown,
    LogFound,
    NothingToReview,
    Rechecked,
    ReviewShown,
    RoundShown,
    Trouble,
)
from bot.wording.base import Lines, Style, word
from bot.wording.clubs import club
from bot.wording.learning import suggestion
from bot.wording.numbers import length, lost, share, strokes
from bot.wording.result import aim

PART_NAMES = {
    "tee": "off the tee", "approach": "approaches", "short": "short game", "putting": "putting",
}  # fmt: skip
CAUSES = {"club": "club", "swing": "kind of swing", "side": "aim", "hero": "hero shots"}
_CHANGES = {
    "club": "another club than the best", "swing": "another swing than the best",
    "side": "your aim cost", "hero": "more club than the best out of trouble",
}  # fmt: skip
_MISSES = {"water": "in the water", "green": "on the green"}
_EIGHTY = 1.2816  # standard deviations either side that hold four fifths of a normal
# How sure that a stored number is wrong, by standard deviations: judgement.
_SURE = ((2.6, "very sure"), (1.6, "sure"), (0.0, "fairly sure"))
FEW = 10  # shots below which a share says little
_MORE = ("review holes", "review choices", "review clubs", "report")
_PICTURES = "Pictures: by part, hole by hole, and your shots by club."
_NOTHING = {
    "no_round": ("There is no round of yours to look back on.", "Send start round, and play."),
    "no_score": ("No score yet, so nothing adds up. Send one such as made 5.",),
    "no_shots": ("No shots and no scores were told in that round.", "Send results as you play."),
}


PICTURES = ("parts.png", "holes.png", "clubs.png")
REPORT = "report.html"
EXPORT = ("caddie.jsonl", "shots.csv", "scores.csv")


@word.register
def _(answer: NothingToReview, style: Style) -> Lines:
    if answer.when == "yesterday":
        return Lines(("No round of yours yesterday. Send review for the last one.",))
    if answer.why == "no_hole":
        return Lines((f"No earlier round of yours has shots told on hole {answer.hole}.",))
    return Lines(_NOTHING[answer.why])


@word.register
def _(answer: LogFound, style: Style) -> Lines:
    if answer.about == "hit":
        where = f" at {answer.course[:24]}" if answer.course else ""
        when = f"{answer.shots[0].at:%Y-%m-%d}"
        lines = [f"Hole {answer.hole}{where}, {when}:"]
        return Lines((*lines, *(_found_shot(s, style) for s in answer.shots)))
    name = club(answer.club or "")
    what = _MISSES.get(answer.about, answer.about)
    if not answer.of:
        return Lines((f"No {name} in the log of which that was told.",))
    few = " Few yet." if answer.of < FEW else ""
    line = f"{name.capitalize()}: {what} {answer.count} of {answer.of}"
    return Lines((f"{line}, {share(answer.count / answer.of)}.{few}",))


def _found_shot(found: FoundShot, style: Style) -> str:
    at = f" from {length(found.distance, style)}" if found.distance is not None else ""
    told = f": {found.told}" if found.told else ""
    return f"Stroke {found.stroke}, {club(found.club) if found.club else 'a shot'}{at}{told}."


@word.register
def _(answer: Rechecked, style: Style) -> Lines:
    if not answer.checked:
        return Lines(("No answer of that round can be worked out again.",))
    skipped = f" {answer.skipped} could not be." if answer.skipped else ""
    if not answer.differ:
        return Lines((f"{answer.checked} answers worked out again: all the same.{skipped}",))
    many = len(answer.differ)
    head = f"{answer.checked} worked out again, {many} differ{'s' if many == 1 else ''}.{skipped}"
    return Lines((head, *(_differs(d) for d in answer.differ[:12])))


def _differs(found: Differs) -> str:
    hole = f"Hole {found.hole}: " if found.hole else ""
    by = lost(found.now_strokes - found.was_strokes, fine=True)
    if found.was == found.now:
        return f"{hole}same {found.was.split(' ')[0] or found.of}, expectation {by}."
    return f"{hole}was {_swing(found.was)}, now {_swing(found.now)}, {by}."


def _swing(said: str) -> str:
    name, _, how = said.partition(" ")
    return club(name) if how in ("", "full") else f"{club(name)} {how.replace('_', ' ')}"


@word.register
def _(answer: Exported, style: Style) -> Lines:
    said = "All I keep of you: the whole log, your shots and your scores."
    return Lines((said, "Tables for a spreadsheet; forget me deletes it here."), attached=EXPORT)


@word.register
def _(answer: ReviewShown, style: Style) -> Lines:
    parts: dict[str, Callable[[ReviewShown, Style], list[str]]] = {
        "holes": _holes, "choices": _choices, "clubs": _clubs, "cost": _cost, "advice": _choices,
    }  # fmt: skip
    attached = attached_to(answer)
    if attached:
        said = "The report of it is attached." if answer.part == "report" else _PICTURES
        return Lines((_head(answer), said), attached=attached)
    shown = parts.get(answer.part)
    if shown is not None:
        return Lines(tuple(shown(answer, style)), buttons=_others(answer.part))
    return Lines(tuple(summary(answer, style)), buttons=_MORE)


def _others(part: str) -> tuple[str, ...]:
    return tuple(m for m in ("review", *_MORE) if m != f"review {part}")


def summary(answer: ReviewShown, style: Style) -> list[str]:
    """Return the review in short, at least two lines."""
    lines = [_head(answer), _split(answer)]
    lines.append("By part: " + ", ".join(_parts(answer)) + ".")
    if answer.followed.asked:
        lines.append(_advice(answer))
    lines += [_trouble(t) for t in answer.troubles[:4]]
    lines += [coach(c) for c in answer.coach]
    lines += [drift(change, style) for change in answer.drifted[:1]]
    left = left_out(answer)
    return [*lines, left] if left else lines


def _head(answer: ReviewShown) -> str:
    holes = [h for r in answer.rounds for h in r.holes]
    if not holes:
        return "No hole of it has a score that counts."
    score, expected = sum(h.score for h in holes), sum(h.expected for h in holes)
    pars = [h.par for h in holes]
    over = "" if None in pars else f" ({_over(score - sum(p for p in pars if p))})"
    many = f"{len(answer.rounds)} rounds, " if len(answer.rounds) > 1 else ""
    where = f" at {answer.rounds[0].course[:24]}" if answer.rounds[0].course else ""
    played = f"{len(holes)} hole{'' if len(holes) == 1 else 's'}{where}"
    plan = against_plan(answer)
    held = f"your game expects {strokes(expected)}" if plan is None else plan
    return f"{many}{played}: {score}{over}; {held}."


def against_plan(answer: ReviewShown) -> str | None:
    """Return the score against the plan made before the rounds; None where there was none."""
    planned = [h for r in answer.rounds for h in r.holes if h.planned is not None]
    if not planned:
        return None
    said = sum(h.planned or 0.0 for h in planned)
    by = lost(sum(h.score for h in planned) - said)
    every = len(planned) == sum(len(r.holes) for r in answer.rounds)
    some = "" if every else f" for {len(planned)} of them"
    return f"your plan said {strokes(said)}{some}, {by}"


def _over(value: int) -> str:
    return "level" if value == 0 else f"{value:+d}"


def _split(answer: ReviewShown) -> str:
    total = answer.total
    expected = strokes(sum(h.expected for r in answer.rounds for h in r.holes))
    that = "that" if against_plan(answer) is None else f"your own game, {expected}"
    return (
        f"{lost(total.total)} against {that}: choices {lost(total.choice)}, "
        f"swings {lost(total.execution)}, penalties {lost(total.penalty)}."
    )


def _parts(answer: ReviewShown) -> list[str]:
    return [f"{PART_NAMES[p]} {lost(s.total)}" for p, s in answer.by_part.items() if s.legs]


def _advice(answer: ReviewShown) -> str:
    found = answer.followed
    told = "Best on offer played" if _under_rules(answer) else "Advice taken"
    line = f"{told} {found.taken} of {found.asked} times"
    if found.taken == found.asked:
        return f"{line}."
    more = f", and gained {strokes(found.gained)}" if found.gained >= 0.05 else ""
    return f"{line}; going your own way cost {strokes(found.cost)}{more}."


def _under_rules(answer: ReviewShown) -> bool:
    """Whether no advice was given: what was best was worked out after the round."""
    return all(r.under_rules for r in answer.rounds)


def _trouble(found: Trouble) -> str:
    name = {2: "double", 3: "triple"}.get(found.over, f"{found.over} over")
    if found.began is None:
        return f"Hole {found.hole}, {name}: no stroke of it was told."
    return f"Hole {found.hole}, {name}: began {_where(found.began)}."


def _where(leg: LegShown) -> str:
    what = club(leg.club) if leg.club else PART_NAMES[leg.part]
    told = f" {leg.told}" if leg.told else ""
    penalty = f", penalty {leg.penalty}" if leg.penalty else ""
    return f"with stroke {leg.first}, {what}{told}{penalty}"


def coach(found: Coaching) -> str:
    """Return one sentence a coach would say, with its number."""
    part, value = PART_NAMES.get(found.part, ""), strokes(abs(found.value))
    name = club(found.club) if found.club else ""
    match found.about, found.what:
        case "keep", "part":
            return f"Keep: {part}, {value} better than your own level."
        case "keep", "advice":
            return f"Keep: your choices; {found.count} of {found.of} were the best on offer."
        case "keep", _:
            return f"Keep: {part} held up best, {value} lost."
        case "choices", "sound":
            return f"Choices: nothing to change; they cost {value} in all."
        case "choices", "club" if found.way:
            times = _times(found.count, found.of)
            return f"Change: {part}, {found.way} club than the best {times}, {value} lost."
        case "choices", cause:
            return f"Change: {part}, {_CHANGES[cause]} {_times(found.count)}, {value} lost."
        case _, "nothing":
            return "Practise: nothing stands out; no part lost more than 0.3 by its swings."
        case _, "three_putts":
            return f"Practise: putting; three putts or more {_times(found.count)}, {value} lost."
        case _, "part":
            return f"Practise: {part}; {value} lost by swings{_of_it(found)}."
        case _, miss:
            misses = f"{name} {miss} {found.count} of {found.of}"
            return f"Practise: {part}, {misses}; {value} lost{_of_it(found)}."


def _times(count: int, of: int = 0) -> str:
    if of > 1:
        return f"{count} of {of} times"
    return "once" if count == 1 else f"{count} times"


def _of_it(found: Coaching) -> str:
    return f", {strokes(found.penalty)} of it penalties" if found.penalty else ""


def left_out(answer: ReviewShown) -> str:
    """Return what the review could not use, empty where there is nothing."""
    found = [
        (tuple(n for r in answer.rounds for n in _of(r, what)), text)
        for what, text in (
            ("unscored", "no score on {}"), ("picked_up", "picked up on {}"),
            ("blank", "no strokes told on {}"), ("doubt", "strokes and score differ on {}"),
        )
    ]  # fmt: skip
    told = [text.format(_numbers(holes)) for holes, text in found if holes]
    return f"Left open: {'; '.join(told)}." if told else ""


def _of(one: RoundShown, what: str) -> tuple[int, ...]:
    if what == "doubt":
        return tuple(h.hole for h in one.holes if h.doubt)
    found: tuple[int, ...] = getattr(one, what)
    return found


def _numbers(holes: tuple[int, ...]) -> str:
    if len(holes) > 6:
        return f"{len(holes)} holes"
    return ", ".join(str(n) for n in holes)


def _holes(answer: ReviewShown, style: Style) -> list[str]:
    lines = []
    for one in answer.rounds:
        for hole in one.holes:
            choice = sum(leg.choice for leg in hole.legs)
            par = f" par {hole.par}" if hole.par else ""
            worst = max(hole.legs, key=lambda leg: leg.choice + leg.execution + leg.penalty)
            plan = "" if hole.planned is None else f", plan {strokes(hole.planned)}"
            said = f"; most: {_brief(worst)}" if hole.lost > 0.3 and not worst.untold else ""
            own = f"{lost(hole.lost)} (choice {lost(choice)}){plan}"
            lines.append(f"{hole.hole}{par}: {hole.score}, {own}{said}")
    return lines


def _brief(leg: LegShown) -> str:
    name = club(leg.club) if leg.club else PART_NAMES[leg.part]
    return f"{name} {leg.told}".strip()


def _choices(answer: ReviewShown, style: Style) -> list[str]:
    lines = [_advice(answer) if answer.followed.asked else "No advice was asked."]
    causes = {c: v for c, v in answer.by_cause.items() if abs(v) >= 0.05}
    if causes:
        ranked = sorted(causes.items(), key=lambda item: -item[1])
        lines.append("By cause: " + ", ".join(f"{CAUSES[c]} {lost(v)}" for c, v in ranked) + ".")
    lines += [
        f"Hole {leg.hole}: {_departure(leg, style)}, {lost(leg.choice, fine=True)}."
        for leg in answer.followed.departures[:8]
    ]
    if not answer.followed.departures:
        lines.append("You took the best on offer every time you asked.")
    return lines


def _departure(leg: LegShown, style: Style) -> str:
    """Return what was played for what was advised."""
    took = club(leg.club) if leg.club else "another swing"
    said = [f"{took} for {club(leg.advised)}" if leg.club != leg.advised else took]
    if leg.aimed is not None and leg.aimed.at not in ("advised", "other"):
        said.append(aim(leg.aimed, style))
    elif leg.club == leg.advised:
        said.append("swung otherwise")
    return " ".join(said)


def _clubs(answer: ReviewShown, style: Style) -> list[str]:
    lines = [miss_line(c, style) for c in answer.clubs]
    lines += [drift(change, style) for change in answer.drifted[:3]]
    return lines or ["No club was named in what was told."]


def drift(change: Changed, style: Style) -> str:
    """Return what the log says against a stored number, and how sure that is, without asking."""
    sure = next(word for least, word in _SURE if _deviations(change) >= least)
    if change.value == "carry_m":
        name = club(change.club)
        stored, now = length(change.stored, style), length(change.learned, style)
        half = length(change.half, style)
        return (
            f"{name} stored {stored}, plays {now} +-{half} ({sure}, {change.solid} solid). "
            "Send learn."
        )
    return f"{suggestion(change, style).rpartition('. ')[0]}, {sure}. Send learn."


def _deviations(change: Changed) -> float:
    """Return how many standard deviations a learned value is from the stored one."""
    half = change.half.value
    return _EIGHTY * abs(change.learned.value - change.stored.value) / half if half else _EIGHTY


def miss_line(found: ClubMisses, style: Style) -> str:
    """Return a club's misses in one line."""
    counts = (("short", found.short), ("pin high", found.pin_high), ("long", found.long),
              ("left", found.left), ("right", found.right))  # fmt: skip
    told = ", ".join(f"{name} {count}" for name, count in counts if count)
    carry = ""
    if found.centre is not None and found.stored is not None:
        carry = f"; carried {length(found.centre, style)}, stored {length(found.stored, style)}"
    many = f"{found.shots} shot{'' if found.shots == 1 else 's'}"
    return f"{club(found.club)}, {many}: {told or 'no miss told'}{carry}."


def _cost(answer: ReviewShown, style: Style) -> list[str]:
    lines = [_split(answer)]
    for part, found in answer.by_part.items():
        if found.legs:
            lines.append(
                f"{PART_NAMES[part].capitalize()}: choices {lost(found.choice)}, "
                f"swings {lost(found.execution)}, penalties {lost(found.penalty)}."
            )
    legs = [leg for r in answer.rounds for h in r.holes for leg in h.legs if not leg.untold]
    worst = sorted(legs, key=lambda leg: -(leg.choice + leg.execution + leg.penalty))[:3]
    for leg in worst:
        value = leg.choice + leg.execution + leg.penalty
        if value > 0.3:
            lines.append(f"Hole {leg.hole}, {_where(leg).removeprefix('with ')}: {lost(value)}.")
    return lines


def attached_to(answer: ReviewShown) -> tuple[str, ...]:
    """Return the names of the files that go with a answer."""
    if answer.part == "report":
        return (REPORT,)
    if answer.part == "picture":
        return PICTURES if answer.patterns else PICTURES[:2]
    return ()
