"""Does the message look back: a review and which one, a search of the log, a recheck?"""

from __future__ import annotations

import re
from typing import Any, Literal

from bot.model.reading import Review

_WHOLE = re.compile(
    r"(?:(?:my|the|a|please|caddie)\s+)*"
    r"(?P<what>review|report|pictures?|charts?|recheck|check again|export)\b"
)
_LAST = re.compile(r"\b(?:last|past)\s+(?P<n>\d{1,3}|two|three|four|five|six|seven|ten)\b")
_PARTS = (
    ("holes", re.compile(r"\bholes?\b|hole by hole")),
    ("choices", re.compile(r"\bchoices?\b|\bdecisions?\b|\badvice\b")),
    ("clubs", re.compile(r"\bclubs?\b|\bmiss(?:es)?\b|\bpatterns?\b")),
    ("cost", re.compile(r"\bparts?\b|\bstrokes\b|\bputting\b|\bshort game\b|\bapproach")),
)
_WORDS = {"two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "ten": 10}
_REST = re.compile(
    r"(?:of|for|the|my|last|rounds?|and|from|coach|an?|by|in|'?s|holes?|choices?|advice|clubs?"
    r"|miss|misses|parts?|strokes|decisions?|patterns?|putting|short|game|approach|approaches)$"
)
_INTENTS: dict[str, Literal["review", "report", "picture", "recheck", "export"]] = {
    "review": "review", "report": "report", "picture": "picture", "pictures": "picture",
    "chart": "picture", "charts": "picture", "recheck": "recheck", "check again": "recheck",
    "export": "export",
}  # fmt: skip
_HIT_ON = re.compile(
    r"\bwhat\s+(?:club\s+)?(?:did|have)\s+(?:i|we)\s+(?:hit|play|played|use|used|take|taken)\b"
    r".*?\b(?:on|at)\s+(?:the\s+)?(?:hole\s+)?#?(?P<hole>\d{1,2})(?:st|nd|rd|th)?\b"
)
_HOW_OFTEN = re.compile(
    r"\b(?:how\s+(?:often|many\s+times|much)|what\s+share)\b.*?"
    r"\b(?P<miss>short|long|left|right|in (?:the )?water|fat|thin|on the green)\b"
)
_CLUB = re.compile(r"\bwith\s+(?:the|my|a)?\s*(?P<club>[a-z0-9 ]+?)\s*\??$")
_NAMES = {"driver": "D", "pw": "PW", "wedge": "PW", "pitching wedge": "PW"}
_KINDS = {"iron": "i", "i": "i", "wood": "w", "w": "w", "hybrid": "h", "h": "h", "hy": "h"}


def looking_back(text: str) -> Review | None:
    """Return the look back a message asks for, None if it asks for none.

    >>> looking_back("review last 5 clubs").last
    5
    >>> looking_back("How often am I short with the 8?").club
    '8i'
    """
    said = " ".join(text.casefold().replace("\N{RIGHT SINGLE QUOTATION MARK}", "'").split())
    return _search(said) or _review(said)


def _review(said: str) -> Review | None:
    found = _WHOLE.match(said)
    if found is None:
        return None
    rest = said[found.end() :].strip(" ,.:-!?")
    fields: dict[str, Any] = {"intent": _INTENTS[found["what"]]}
    many = _LAST.search(rest)
    if many is not None:
        fields["last"] = _WORDS.get(many["n"]) or int(many["n"])
        rest = rest[: many.start()] + rest[many.end() :]
    elif "yesterday" in rest:
        fields["when"], rest = "yesterday", rest.replace("yesterday", "")
    elif "today" in rest:
        fields["when"], rest = "today", rest.replace("today", "")
    part = next((name for name, words in _PARTS if words.search(rest)), None)
    if part is not None:
        fields["part"] = part
    if not all(_REST.match(word) for word in re.findall(r"[a-z']+", rest)):
        return None
    return Review(**fields)


def _search(said: str) -> Review | None:
    found = _HIT_ON.search(said)
    if found is not None and 1 <= int(found["hole"]) <= 36:
        return Review(intent="search", about="hit", hole=int(found["hole"]))
    often = _HOW_OFTEN.search(said)
    if often is None:
        return None
    club = _CLUB.search(said)
    if club is None:
        return None
    miss = "water" if "water" in often["miss"] else often["miss"].removeprefix("on the ")
    return Review(intent="search", about=miss, club=_name(club["club"].strip()))


def _name(said: str) -> str | None:
    """Return the short name of a club said in words."""
    if said in _NAMES:
        return _NAMES[said]
    number = re.match(r"(\d{1,2})\s*(?:-|\s)?\s*([a-z]*)", said)
    if number is None:
        return None
    count, kind = int(number[1]), number[2]
    if count > 20:
        return str(count)
    return f"{count}{_KINDS.get(kind, 'i')}"
