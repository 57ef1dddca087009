"""A short word that a result was kept, or what was taken for one."""

from __future__ import annotations

from bot.model.reading import Aim
from bot.model.result import ResultDoubted, ResultKept
from bot.wording.base import WIDTH, Lines, Style, word
from bot.wording.clubs import club
from bot.wording.numbers import length, roll

_LIES = {
    "ob": "out of bounds", "deep_rough": "deep rough", "fairway_bunker": "fairway bunker",
    "greenside_bunker": "bunker", "first_cut": "first cut", "pine_straw": "pine straw",
    "penalty": "penalty area", "long_grass": "long grass",
}  # fmt: skip
# Where a ball mostly ends, as a thumb sends it.
FINISHES = ("on the green", "ended in the fairway", "ended in the rough", "ended in the bunker")
_MARKS = {
    "pin": "the flag", "middle": "the middle", "left_edge": "the left edge",
    "right_edge": "the right edge", "left_half": "the left half", "right_half": "the right half",
    "halfway": "half-way to the middle",
}  # fmt: skip
_DEPTHS = {"pin_high": "pin high"}
_CONTACTS = {"whiff": "a miss, one stroke", "top": "topped", "sky": "skied"}


@word.register
def _(answer: ResultKept, style: Style) -> Lines:
    told = _told(answer, style)
    if answer.again:
        return Lines(("I have that one already.",))
    verb = "Corrected" if answer.corrected else "Kept"
    room = WIDTH - len("Taking the last as ." if answer.implied else "Corrected: .")
    while len(told) > room and (answer.aim or answer.lie):
        less = {"aim": None} if answer.aim else {"lie": answer.lie[:-1]}
        answer = answer.model_copy(update=less)  # all of it is kept, not said
        told = _told(answer, style)
    if answer.implied:
        return Lines((f"Taking the last as {told}.",), tail=f"Last: {told}.")
    open_end = not (answer.lie or answer.holed or answer.putts) and answer.proximity is None
    buttons = FINISHES if answer.club and open_end else ()
    return Lines((f"{verb}: {told}." if told else f"{verb}.",), buttons=buttons)


def aim(told: Aim, style: Style) -> str:
    """Return where a shot was aimed; "not weighed" where nobody can say what that cost."""
    if told.at in ("advised", "other"):
        off = f"aimed {told.side}" if told.side else "own aim"
        return "on my line" if told.at == "advised" else f"{off} (not weighed)"
    verb = {"start": "started", "finish": "meant", "either": "aimed"}[told.of]
    by = "" if told.by is None else f"{length(told.by, style)} {told.side} of "
    at = by or ("" if told.at == "halfway" else "at ")
    return f"{verb} {at}{_MARKS[told.at]}"


def _told(answer: ResultKept, style: Style) -> str:
    """Return the result in the words of a card: club, how far, where, lie, putts, penalty."""
    depth = _DEPTHS.get(answer.depth or "", answer.depth)
    where = " ".join(p for p in (depth, answer.side) if p)
    lie = ", ".join(_LIES.get(lie, lie.replace("_", " ")) for lie in answer.lie)
    told = [club(answer.club) if answer.club else ""]
    if answer.aim is not None:
        told.append(aim(answer.aim, style))
    if answer.contact is not None and answer.contact != "solid":
        told.append(_CONTACTS.get(answer.contact, answer.contact))
    if answer.total is not None:
        told.append(length(answer.total, style))
    told += [where, lie]
    if answer.proximity is not None and not answer.holed:
        told.append(f"to {roll(answer.proximity)}")
    if answer.putts is not None:
        told.append("1 putt" if answer.putts == 1 else f"{answer.putts} putts")
    elif answer.holed:
        told.append("holed")
    if answer.provisional:
        told.append("provisional")
    if answer.penalty:
        told.append(f"penalty {answer.penalty}")
    return ", ".join(t for t in told if t)


@word.register
def _(answer: ResultDoubted, style: Style) -> Lines:
    return Lines(
        (
            f"That is further than your {club(answer.club)} goes; I did not keep it.",
            "Which club was it, or how far short or long?",
        )
    )
