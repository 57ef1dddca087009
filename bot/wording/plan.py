"""A plan in words: a hole in two lines, the round in two lines, the sheet line by line."""

from __future__ import annotations

from collections.abc import Sequence

from bot.model.measure import Measure
from bot.model.plan import Conditions, HolePlanned, Plan, PlannedHole, PlannedShot, RoundPlanned
from bot.wording.base import WIDTH, Lines, Style, word
from bot.wording.clubs import played
from bot.wording.numbers import hundreds, length, one_in, strokes, whole
from bot.wording.places import on_fairway
from bot.wording.troubles import shorter

BOGEY_FINE = 0.30  # chance of par below which a bogey is a good score: judgement
DOUBLE_FINE = 1.5  # strokes over par from which two over is as good as expected
MANY_FINE, MANY_ATTACK = 4, 2
TELL_CHANCE = 0.08  # a trouble likelier than this is named
FIVE = 5
FROM_TEE = 0.5  # a shot expected to save this much on the hole is not the one from its tee
LITTLE = 0.1  # strokes: a cost below it is called nothing
LONG_YD = 150  # a course this much over what suits the player is told
MIDDLE_YD = 3.0  # an aim this close to the pin is the middle of the green
_IN_YD = {"yd": 1.0, "m": 1.0 / 0.9144}


@word.register
def _(answer: HolePlanned, style: Style) -> Lines:
    hole = answer.planned
    return Lines((tee_line(hole, style), expect_line(hole)), buttons=("sheet",))


@word.register
def _(answer: RoundPlanned, style: Style) -> Lines:
    if answer.sheet:
        return Lines(tuple(sheet_lines(answer.plan, style)))
    return Lines((_score_line(answer.plan), _where_line(answer.plan)), buttons=("sheet",))


def tee_line(hole: PlannedHole, style: Style) -> str:
    """Return what to hit from the tee, where, and what that leaves."""
    first = hole.conditions[0]
    head = f"{hole.number}, par {hole.par}, {length(hole.length, style)}:"
    club = played(first.tee.club, first.tee.swing)
    shot = f"{club}{',' if ',' in club else ''} to {_aim(first.tee, hole)}"
    tails = [f"; leaves {length(first.tee.left, style)}"] if hole.par > 3 else [""]
    if first.next is not None and hole.par > 3:
        follow = played(first.next.club, first.next.swing)
        tails.insert(0, f"{tails[0]}, {follow}")
    return _fitting(f"{head} {shot}", [*tails, ""]) + "."


def expect_line(hole: PlannedHole) -> str:
    """Return what a sober score is, where not to miss, and what to do at a fork."""
    first = hole.conditions[0]
    parts = []
    parts.append(f"{_sober(hole)} {strokes(first.strokes)}, par {one_in(first.par_or_better)}")
    parts += [f"Not {side}" for side in _sides(first)]
    parts += _fork(first, hole.par)
    parts += [f"{shorter(name).capitalize()} {one_in(share)}" for name, share in _likely(first)]
    if hole.received:
        parts.append("A shot here" if hole.received == 1 else f"{hole.received} shots here")
    line = parts[0]
    for part in parts[1:]:
        if len(line) + len(part) + 3 <= WIDTH:
            line += f". {part}"
    return f"{line}."


def sheet_lines(plan: Plan, style: Style) -> list[str]:
    """Return the whole sheet for a chat, every line as narrow as any other."""
    made = "" if plan.made_at is None else f", made {plan.made_at:%d %b %Y %H:%M}"
    lines = [f"{plan.course} {plan.tee}{made}"[:WIDTH]]
    speed = plan.wind_speed
    blows = f"Wind {plan.wind}." if plan.wind else "Wind of the day unknown."
    if speed is not None:
        blows += f" Into and down: {whole(speed)} {speed.unit}."
    lines.append(blows)
    for number in sorted(plan.holes):
        hole = plan.holes[number]
        lines += [tee_line(hole, style), expect_line(hole), _columns(hole)]
    lines.append(_score_line(plan))
    if len(plan.holes) > MANY_FINE + MANY_ATTACK:
        lines.append(_where_line(plan))
    lines.append("Carries: club, calm, into, down")
    lines += [
        f"{row.club} {whole(row.calm)} {whole(row.into)} {whole(row.down)}" for row in plan.clubs
    ]
    return lines + [line[:WIDTH] for line in plan.lacks]


def bogey_is_fine(hole: PlannedHole) -> bool:
    """Say whether a bogey is a good score here for this player."""
    return hole.conditions[0].par_or_better < BOGEY_FINE


def _sober(hole: PlannedHole) -> str:
    """Return what to call a good score here: par is expected, or more is fine."""
    if not bogey_is_fine(hole):
        return "Expect"
    over = hole.conditions[0].strokes - hole.par
    return "Bogey is fine:" if over < DOUBLE_FINE else f"A {hole.par + 2} is fine:"


def hardest(plan: Plan) -> list[int]:
    """Return the holes where a bogey costs nothing against what is to be expected."""
    over = _over_par(plan)
    return sorted(sorted(over, key=lambda n: -over[n])[:MANY_FINE])


def easiest(plan: Plan) -> list[int]:
    """Return the holes to attack."""
    over = _over_par(plan)
    return sorted(sorted(over, key=lambda n: over[n])[:MANY_ATTACK])


def total(plan: Plan) -> float:
    """Return the expected score of all holes planned."""
    return sum(h.conditions[0].strokes for h in plan.holes.values())


def _over_par(plan: Plan) -> dict[int, float]:
    return {n: h.conditions[0].strokes - h.par for n, h in plan.holes.items()}


def _score_line(plan: Plan) -> str:
    many = len(plan.holes)
    said = f"Expect {total(plan):.0f} for {many} hole{'' if many == 1 else 's'}"
    if plan.target is not None and plan.usual is not None and len(plan.holes) == 18:
        said += f"; to your handicap {plan.target}, most days {plan.usual}"
    return f"{said}."


def _where_line(plan: Plan) -> str:
    if len(plan.holes) <= MANY_FINE + MANY_ATTACK:
        return "Send: sheet."
    fine = ", ".join(str(n) for n in hardest(plan))
    attack = " and ".join(str(n) for n in easiest(plan))
    line = f"Bogey is fine on {fine}. Attack {attack}."
    yards = sum(h.length.value * _IN_YD[h.length.unit or "yd"] for h in plan.holes.values())
    if plan.tees is not None and len(plan.holes) == 18 and yards > plan.tees[1] + LONG_YD:
        tail = f" Tees near {hundreds(plan.tees[1])} suit."
        line += tail if len(line) + len(tail) <= WIDTH else ""
    return line


def _columns(hole: PlannedHole) -> str:
    """Return what changes with the wind: score and tee club."""
    usual = hole.conditions[0].tee
    parts = []
    for one in hole.conditions:
        if one.condition == "today":
            continue
        same = (one.tee.club, one.tee.swing) == (usual.club, usual.swing)
        club = "" if same else f" {one.tee.club}"
        parts.append(f"{one.condition} {strokes(one.strokes)}{club}")
    return f"  {', '.join(parts)}; double {one_in(hole.conditions[0].double_or_worse)}"[:WIDTH]


def _aim(shot: PlannedShot, hole: PlannedHole) -> str:
    """Return where a solid tee shot ends: on the fairway, or against the flag on a short hole."""
    if hole.par == 3:
        off = shot.aside.value
        if abs(off) < MIDDLE_YD:
            return "the middle"
        size = whole(Measure(value=abs(off), unit=shot.aside.unit))
        return f"{size} {'right' if off > 0 else 'left'} of the middle"
    where = on_fairway(shot.aside, hole.fairway_half)
    return where if where[:1].isdigit() else f"the {where}"


def _sides(first: Conditions) -> list[str]:
    named = [d.side for d in (first.off_tee, first.at_green) if d is not None]
    return list(dict.fromkeys(named))


def _fork(first: Conditions, par: int) -> list[str]:
    """Return whether to go or lay up, and what the liked yardage costs.

    From the tee of a four or on a five: the second shot to a four is no choice of that kind.
    """
    if first.go is None or first.lay is None:
        return []
    if par < FIVE and min(first.go.strokes, first.lay.strokes) < first.strokes - FROM_TEE:
        return []
    gain = first.lay.strokes - first.go.strokes
    if gain > 0:
        worth = f"Go for the green: it saves {strokes(gain)}"
        said = [worth if gain >= LITTLE else "Go or lay up alike"]
    else:
        left = whole(first.lay.left)
        said = [
            f"Lay up to {left}" + (f": going costs {strokes(-gain)}" if -gain >= LITTLE else "")
        ]
    if first.liked is not None:
        cost = first.liked.strokes - min(first.go.strokes, first.lay.strokes)
        if cost >= LITTLE:
            said.append(f"Your {whole(first.liked.left)} costs {strokes(cost)}")
    return said


def _likely(first: Conditions) -> list[tuple[str, float]]:
    found = [(n, c) for n, c in first.chance.items() if c >= TELL_CHANCE]
    return sorted(found, key=lambda item: -item[1])[:1]


def _fitting(head: str, tails: Sequence[str]) -> str:
    """Return the head with the first tail that leaves room for a full stop."""
    for tail in tails:
        if len(head) + len(tail) < WIDTH:
            return head + tail
    return head[: WIDTH - 1]
