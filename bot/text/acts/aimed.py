"""Does the message tell where a shot that was played was aimed?

The clause is taken out before the rest is read: "aimed at the left bunker, pushed it" tells no
lie and no miss to the left.
"""

import re
from typing import Literal, NamedTuple, cast

from bot.model.measure import Measure, Unit
from bot.model.reading import Aim, Side

Of = Literal["start", "finish", "either"]
Mark = Literal["pin", "middle", "halfway", "advised", "other"]

_THE = r"(?:the |that |a |my )?"
_WAY = r"(?:straight |right |dead |directly )?"
# What was done, by whether the words are about where the ball starts or where it should finish.
# Only what is told of the past: "aim at" and "go at" ask.
_VERB = re.compile(
    rf"\b(?:(?P<start>started it {_WAY}(?:at |on |over |down )?)"
    r"|(?P<finish>(?:played|was playing|went|was going) (?:it )?for )"
    rf"|(?P<either>(?:aimed|aimd|was aiming) (?:it )?{_WAY}(?:at |on |over |towards? |down |for )?"
    rf"|(?:took|played) it {_WAY}(?:at |on |over |down )"
    rf"|(?<!it )(?<!ball )(?:went|fired|was going) {_WAY}at )"
    r"|(?P<whole>took dead aim\b(?: at (?:the )?(?:pin|flag|stick|it)\b)?"
    r"|(?:flag|pin)[ -]?(?:hunting|hunted|seeking)\b|took on (?:the )?(?:pin|flag|stick)\b)"
    r"|(?P<yours>(?:took|followed|went with|used) your (?:line|aim)\b))",
    re.IGNORECASE,
)
_GROUND = r"(?: of (?:the )?(?:green|fairway)\b)?(?! of\b)"
_THINGS = (
    r"(?:bunkers?|traps?|sand|trees?|pines?|oaks?|bush(?:es)?|water|lake|pond|stream|path|mounds?"
    r"|hill|tower|house|post|marker|sign|ridge|slope|shelf|tier|spot|gap|chimney|roof)\b"
)
_BY = (
    r"(?P<by>\d+(?:\.\d+)?|a|one|two|three|four|five|six|seven|eight|nine|ten|twelve|fifteen"
    r"|twenty) ?(?P<unit>yards?|yds?|y|feet|foot|ft|metres?|meters?|m|paces?)? "
)
_OFF = rf"(?:{_BY})?(?:to the |just |well |a bit |a little |a touch )*(?P<off>left|right)"
_FROM = (
    rf"(?: (?:of|from) {_THE}(?P<from>pin|flag|stick|hole|green|fairway|middle)\b"
    r"|(?= *(?:$|[,.;!\n]| and | but )))"
)
_MARKS: tuple[tuple[str, re.Pattern[str]], ...] = tuple(
    (name, re.compile(pattern, re.IGNORECASE))
    for name, pattern in (
        ("advised", r"(?:where|as|like|what) (?:you|u) (?:said|told me|suggested)\b|as told\b"
                    r"|your (?:line|target|spot)\b"),
        ("halfway", r"half[ -]?way (?:to|towards) the (?:middle|centre|center)\b"),
        ("off", _OFF + _FROM),
        ("edge", rf"{_THE}(?P<side>left|right)(?:[ -]hand)? edge\b{_GROUND}"),
        ("half", rf"{_THE}(?P<side>left|right)(?:[ -]hand)?[ -]"
                 rf"(?:half|side|centre|center|middle)\b{_GROUND}"),
        ("pin", rf"{_THE}(?:pin|flag ?stick|flag|stick|hole)\b(?![ -](?:side|high))"
                r"|(?<=at )it\b"),
        ("middle", rf"{_THE}(?:dead )?(?:middle|centre|center|fat(?: part)?|heart)\b{_GROUND}"
                   rf"(?! {_THINGS})"),
        ("other", rf"{_THE}(?:[a-z-]+ ){{0,4}}?{_THINGS}(?: (?:on|behind|at|in) the [a-z]+\b)?"),
    )
)  # fmt: skip
_ASKS = re.compile(
    r"\?|\b(?:what if|if (?:i|we)|should|shall|would|could|can i|why|supposed)\b", re.IGNORECASE
)
_SENTENCE = re.compile(r"[^.!?\n]*[.!?\n]?")
_NUMBERS = {
    "a": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "twelve": 12, "fifteen": 15, "twenty": 20,
}  # fmt: skip
_UNITS: dict[str, Unit] = {"y": "yd", "p": "pace", "f": "ft", "m": "m"}
_STOOD = ", hit it"  # stands where the clause stood, so that the rest reads as what became of it


class Aimed(NamedTuple):
    """An aim that was told, where it stands, and the message without it, as long as it was."""

    aim: Aim
    start: int
    end: int
    rest: str


def aimed(text: str) -> Aimed | None:
    """The aim told of a shot that was played, if one was.

    >>> aimed("7 iron, started it at the left edge, short").aim.at
    'left_edge'
    >>> aimed("should I have aimed at the flag?") is None
    True
    """
    for verb in _VERB.finditer(text):
        if _asks(text, verb.start()):
            continue
        end, aim = verb.end(), None
        if verb["whole"] or verb["yours"]:
            aim = Aim(at="pin" if verb["whole"] else "advised")
        else:
            of: Of = "start" if verb["start"] else "finish" if verb["finish"] else "either"
            for name, pattern in _MARKS:
                found = pattern.match(text, end)
                if found is not None:
                    aim, end = _aim(name, of, found), found.end()
                    break
        if aim is not None:
            hole = _STOOD.ljust(end - verb.start())
            return Aimed(aim, verb.start(), end, text[: verb.start()] + hole + text[end:])
    return None


def _asks(text: str, at: int) -> bool:
    """Whether the sentence at a place asks, or only supposes."""
    said = next(s for s in _SENTENCE.finditer(text) if s.end() > at)
    return _ASKS.search(said[0]) is not None


def _aim(name: str, of: Of, found: re.Match[str]) -> Aim:
    said = {k: (v or "").casefold() for k, v in found.groupdict().items()}
    left = "left" in (said.get("side"), said.get("off"))
    side: Side = "left" if left else "right"
    match name:
        case "edge":
            return Aim(at="left_edge" if left else "right_edge", of=of)
        case "half":
            return Aim(at="left_half" if left else "right_half", of=of)
        case "off" if not said["by"]:
            return Aim(at="other", side=side, of=of)  # to a side, nobody knows how far
        case "off":
            size = float(_NUMBERS.get(said["by"], 0.0) or said["by"])
            by = Measure(value=size, unit=_UNITS.get(said["unit"][:1], ""))
            if said["from"] in ("green", "fairway"):
                return Aim(at="left_edge" if left else "right_edge", side=side, by=by, of=of)
            at: Mark = "middle" if said["from"] == "middle" else "pin"
            return Aim(at=at, side=side, by=by, of=of)
        case _:
            return Aim(at=cast("Mark", name), of=of)
