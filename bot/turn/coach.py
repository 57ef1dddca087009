"""Three things a coach would say of what was played, each tied to its numbers."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from bot.model.review import ClubMisses, Coaching, Followed, LegShown, Sum

_LITTLE = 0.3  # strokes below which a loss is not worth a lesson: judgement
_MANY = 4  # shots of a club from which its misses are named
_MOSTLY = 0.6  # share that makes a miss a habit: judgement


def coaching(
    legs: Sequence[LegShown],
    total: Sum,
    by_part: Mapping[str, Sum],
    followed: Followed,
    clubs: Sequence[ClubMisses],
) -> tuple[Coaching, ...]:
    """Return what to keep, what to change in choices, and what to practise."""
    if not legs:
        return ()
    found = (_keep(by_part, followed), _choices(legs, total, followed), _practise(by_part, clubs))
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


def _choices(legs: Sequence[LegShown], total: Sum, followed: Followed) -> Coaching:
    """The kind of choice that cost most, or that there is nothing to change."""
    costs: dict[tuple[str, str], list[float]] = {}
    for leg in legs:
        for cause, cost in leg.causes:
            if cost > 0.0:
                costs.setdefault((cause, leg.part), []).append(cost)
    if not costs or sum(map(sum, costs.values())) < 0.05:
        return Coaching(
            about="choices", what="sound", value=total.choice, count=followed.taken,
            of=followed.asked,
        )  # fmt: skip
    (found, part), lost = max(costs.items(), key=lambda item: sum(item[1]))
    return Coaching(about="choices", what=found, part=part, value=sum(lost), count=len(lost))


def _practise(by_part: Mapping[str, Sum], clubs: Sequence[ClubMisses]) -> Coaching | None:
    """The part that lost most by its swings, with the club and miss it shows in."""
    told = {p: s for p, s in by_part.items() if s.legs}
    part = max(told, key=lambda p: told[p].execution + told[p].penalty)
    lost = told[part].execution + told[part].penalty
    if lost < _LITTLE:
        return Coaching(about="practise", what="nothing", value=lost)
    for club in sorted(clubs, key=lambda c: -c.shots):
        on_tee = club.club in ("D", "3w")
        if club.shots < _MANY or part not in ("tee", "approach") or on_tee != (part == "tee"):
            continue
        for what, count in (("short", club.short), ("right", club.right), ("left", club.left)):
            if count >= _MOSTLY * club.shots:
                return Coaching(
                    about="practise", what=what, part=part, club=club.club, value=lost,
                    count=count, of=club.shots,
                )  # fmt: skip
    return Coaching(about="practise", what="part", part=part, value=lost, count=told[part].legs)
