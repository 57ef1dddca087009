"""Three things a coach would say of what was played, each tied to its numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Literal

from bot.model.review import ClubMisses, Coaching, Followed, LegShown, Sum

_LITTLE = 0.3  # strokes below which a loss is not worth a lesson: judgement
_MANY = 4  # misses of a club to one side from which they are named: judgement
_TWICE = 2  # and so many times those to the other side
_MOSTLY = 0.6  # share that makes a habit: judgement
_THREE = 3  # putts on a green that are one too many


def coaching(
    legs: Sequence[LegShown],
    by_part: Mapping[str, Sum],
    followed: Followed,
    clubs: Sequence[ClubMisses],
    carries: Mapping[str, float],
) -> tuple[Coaching, ...]:
    """Return what to keep, what to change in choices, and what to practise.

    `carries` tells more club from less.
    """
    if not legs:
        return ()
    found = (
        _keep(by_part, followed), _choices(legs, followed, carries),
        _practise(legs, by_part, clubs),
    )  # fmt: skip
    return tuple(c for c in found if c is not None)


def _keep(by_part: Mapping[str, Sum], followed: Followed) -> Coaching | None:
    """The part that gained most by its swings, else sound choices."""
    told = {p: s for p, s in by_part.items() if s.legs}
    part = min(told, key=lambda p: told[p].execution + told[p].penalty)
    gained = -(told[part].execution + told[part].penalty)
    if gained > 0.0:
        return Coaching(about="keep", what="part", part=part, value=gained)
    if followed.asked and followed.taken >= _MOSTLY * followed.asked:
        return Coaching(
            about="keep", what="advice", count=followed.taken, of=followed.asked,
            value=followed.cost,
        )  # fmt: skip
    return Coaching(about="keep", what="least", part=part, value=-gained)


def _choices(
    legs: Sequence[LegShown], followed: Followed, carries: Mapping[str, float]
) -> Coaching:
    """The kind of choice that cost most, or that there is nothing to change."""
    costs: dict[tuple[str, str], list[tuple[LegShown, float]]] = {}
    for leg in legs:
        for cause, cost in leg.causes:
            if cost > 0.0:
                costs.setdefault((cause, leg.part), []).append((leg, cost))
    sums = {kind: sum(cost for _, cost in found) for kind, found in costs.items()}
    if not sums or sum(sums.values()) < 0.05:
        return Coaching(
            about="choices", what="sound", value=sum(leg.choice for leg in legs),
            count=followed.taken, of=followed.asked,
        )  # fmt: skip
    worst = max(sums, key=lambda kind: sums[kind])
    found = costs[worst]
    more = [carries.get(leg.club, 0.0) > carries.get(leg.advised, 0.0) for leg, _ in found]
    way: Literal["", "less", "more"] = ""
    if worst[0] == "club" and max(sum(more), len(more) - sum(more)) >= _MOSTLY * len(more):
        way = "more" if 2 * sum(more) > len(more) else "less"
    count = sum(more) if way == "more" else len(more) - sum(more) if way else len(more)
    return Coaching(
        about="choices", what=worst[0], part=worst[1], way=way, value=sums[worst], count=count,
        of=len(more),
    )  # fmt: skip


def _practise(
    legs: Sequence[LegShown], by_part: Mapping[str, Sum], clubs: Sequence[ClubMisses]
) -> Coaching | None:
    """The part that lost most by its swings, with the club and miss it shows in."""
    told = {p: s for p, s in by_part.items() if s.legs}
    part = max(told, key=lambda p: told[p].execution + told[p].penalty)
    lost = told[part].execution + told[part].penalty
    if lost < _LITTLE:
        return Coaching(about="practise", what="nothing", value=lost)
    these = [leg for leg in legs if leg.part == part]
    three = sum(leg.made >= _THREE for leg in these)
    if part == "putting" and three:
        return Coaching(
            about="practise", what="three_putts", part=part, value=lost, count=three,
            of=len(these),
        )  # fmt: skip
    penalty = told[part].penalty
    played = {leg.club for leg in these}
    for club in sorted(clubs, key=lambda c: -c.shots):
        if club.club not in played or part not in ("tee", "approach"):
            continue
        kinds = (("short", club.short, club.long), ("right", club.right, club.left),
                 ("left", club.left, club.right))  # fmt: skip
        for what, count, other in kinds:
            if count >= _MANY and count >= _TWICE * other:
                return Coaching(
                    about="practise", what=what, part=part, club=club.club, value=lost,
                    penalty=penalty, count=count, of=club.shots,
                )  # fmt: skip
    return Coaching(
        about="practise", what="part", part=part, value=lost, penalty=penalty, count=len(these)
    )
