"""Does the whole message say that a club is, or is not, in the bag?"""

import re
from typing import Final

from bot.model.reading import Profile
from bot.text.rules.clubs import LOFTED, club_code
from bot.text.tokens import tokens

_LEAD: Final = (
    r"(?:(?:no|nope|oh|ok|okay|hey|btw|by the way|sorry|wait|actually|um|uh|well|damn|fyi|note"
    r"|remember|today|but|also|and)[ ,.!:]+)*"
)
_MY: Final = r"(?:the |my |a |an |that |any )"
_CLUB: Final = rf"(?P<club>{_MY}?[\w°' &,-]{{1,40}}?)"
_OWN: Final = rf"(?P<club>{_MY}[\w°' &,-]{{1,40}}?)"
_MINE: Final = r"(?P<club>my [\w°' &,-]{1,40}?)"
_BAG: Final = r"(?:the|my) bag"
_STORE: Final = r"(?:the|my) (?:car|boot|trunk|garage|shed|locker)"
_WHEN: Final = (
    rf"(?:[ ,]+(?:today|any ?more|any longer|at the moment|right now|now|either|at all|for now"
    rf"|with me|on me|in {_BAG}|this (?:week|round|time)|for (?:today|this round)|yet|though"
    r"|please|thanks))*"
)
_NEVER: Final = (
    r"(?:do not|don'?t|have not|haven'?t|no longer|never|did not|didn'?t|am not|'?m not|not)"
)
_HAVE: Final = r"(?:even |actually )?(?:have|got|carry|carrying|own|bring|pack|bag)(?: got)?"
_SAYS: Final = tuple(
    re.compile(rf"{_LEAD}{said}{_WHEN}")
    for said in (
        rf"(?:i |we |i)?{_NEVER} {_HAVE} {_OWN}",
        rf"(?:i |we )?(?:do not|don'?t|no longer|never) use {_OWN}",
        r"(?:i |i've |we )?(?:have|got|have got|own|carry) no (?P<club>[\w°' -]{1,24}?)",
        rf"(?:i |i've |i have )?(?:just )?(?:lost|sold|forgot) {_MINE}",
        rf"(?:i |i've |i have )?(?:just )?(?:broke|broken|snapped|dropped|ditched|binned|removed"
        rf"|took out|left out|taken out|left behind|retired|benched|gave away) {_OWN}",
        rf"(?:drop|remove|ditch|bin|leave out|take out|taking out|dropping|delete|scrap|retire"
        rf"|get rid of) {_OWN}",
        rf"(?:i |i've |i'm |let's )?(?:just )?(?:leave|leaving|drop|dropping|take|taking|pull"
        rf"|pulling|took|taken|pulled) {_CLUB}"
        rf" (?:out(?: of {_BAG})?|from {_BAG}|at home|behind|in {_STORE})",
        rf"(?:i |i've )?(?:left|forgot) {_OWN}"
        rf" (?:out(?: of {_BAG})?|at home|behind|in {_STORE}|back home)",
        rf"{_OWN}(?: is|'s) (?:out|not in {_BAG}|not with me|no longer in {_BAG}|broken|missing"
        rf"|at home|in {_STORE}|out of {_BAG}|gone from {_BAG}|stolen|in for repair)",
        rf"{_OWN} (?:isn'?t|ain'?t) (?:in {_BAG}|with me)",
        rf"{_OWN} (?:stays|stayed|has stayed|left|is staying) (?:at )?home",
        rf"{_CLUB} (?:is )?(?:not in {_BAG}|out of {_BAG}|no longer in {_BAG})",
        r"no (?P<loft>\d\d ?(?:wedge|°|deg(?:ree)?s?(?: wedge)?))",
        rf"no (?P<loft>\d\d)[ ,]+(?:today|with me|on me|in {_BAG})",
    )
)
_BACK: Final = tuple(
    re.compile(rf"{_LEAD}{said}{_WHEN}")
    for said in (
        rf"(?:i |i've |i have )?(?:put|puts|putting|add|added|adding|stick) {_CLUB}"
        rf" back(?: in(?:to)?(?: {_BAG})?)?",
        rf"(?:i |i've |i have )?(?:got|have) {_OWN} back(?: in(?: {_BAG})?)?",
        rf"{_OWN}(?: is|'s) (?:back(?: in(?: {_BAG})?)?|in {_BAG})",
        r"add (?P<club>(?:the |my |a )?\d\d(?: ?(?:°|deg(?:ree)?s?))?(?: wedge)?)",
    )
)
_LONGEST: Final = 100  # characters
_JOINED: Final = re.compile(r" ?(?:,| and | or | nor | & )+ ?")
_ARTICLE: Final = re.compile(rf"^{_MY}")
_LOFT: Final = re.compile(r"(\d\d)(?: ?(?:°|deg(?:ree)?s?))?(?: wedge)?")


def carried(text: str) -> tuple[Profile, ...]:
    """The clubs told to be out of the bag or back in; empty where anything else is said.

    >>> [(p.intent, p.club) for p in carried("no, i don't have a 60 or a 5 wood")]
    [('remove_club', '60'), ('remove_club', '5w')]
    """
    said = " ".join(text.casefold().replace("’", "'").split()).strip(" .!")
    if not said or len(said) > _LONGEST:
        return ()
    out = _clubs(said, _SAYS)
    if out:
        return tuple(Profile(intent="remove_club", club=c) for c in out)
    return tuple(Profile(intent="add_club", club=c) for c in _clubs(said, _BACK))


def _clubs(said: str, patterns: tuple[re.Pattern[str], ...]) -> tuple[str, ...]:
    """The clubs that the first fitting pattern names, if all of them are clubs."""
    for pattern in patterns:
        found = pattern.fullmatch(said)
        if found is None:
            continue
        told = found.groupdict()
        clubs = [_club(n) for n in _JOINED.split(told.get("club") or told.get("loft") or "")]
        if all(clubs):
            return tuple(c for c in clubs if c is not None)
    return ()


def _club(name: str) -> str | None:
    """The code of a club by its name, or by its loft or number."""
    bare = _ARTICLE.sub("", name)
    loft = _LOFT.fullmatch(bare)
    if loft is not None:
        return loft[1] if int(loft[1]) in LOFTED else None
    _, found = tokens(bare)
    none = bare == "2" or (name.startswith("a ") and bare.isdigit())  # "I dropped a 5"
    return club_code(found[0]) if len(found) == 1 and not none else None
