"""Is the message talk: danger, thanks, help, or text to leave alone?"""

import re
from collections.abc import Sequence

from bot.model.reading import Air, Answered, Facts, Nonsense, Safety, Talk
from bot.text.acts.bundle import Bundle, facts
from bot.text.acts.people import people_ahead
from bot.text.lexicon import danger_in, is_real
from bot.text.patterns import Token

_NEVER_GOLF = frozenset(
    {
        "write me",
        "poem",
        "limerick",
        "story",
        "recipe",
        "joke",
        "system :",
        "always answer",
        "you always answer",
    }
)
_TYPED = 8  # letters: fewer may be a name or a word of another language
_SHORTEST = 30.0  # yards: a smaller bare number in hostile text is no shot
# The gravest first: what is told of people comes before weather, and weather before all clear.
_DANGERS = (
    "despair", "medical", "tornado", "lightning", "people", "animal", "heat", "cold", "clear",
)  # fmt: skip
# What stands right before thunder that is not there: "no sign of lightning", "haven't heard any".
_DENIES = re.compile(
    r"(?:\bno|\bnot|\bnever|\bwithout|n'?t)"
    r"(?: (?:seen|saw|heard|hear|see|had|been|any|more|further|an?|the|signs?|sound|of|sort))*$"
)
_SECONDS = re.compile(r"(\d{1,2})\s*(?:s|secs?|seconds?)\b", re.IGNORECASE)
_WEATHER = re.compile(
    r"index|feels? like|wind ?chill|how (?:hot|cold)|too (?:hot|cold)|warning", re.IGNORECASE
)
_ONCE = re.compile(
    r"\bonce\b|\bback in the day\b|\byears ago\b|\byesterday\b"
    r"|\blast (?:week|year|month|summer|winter|season|spring|autumn)\b"
)
_OTHER = re.compile(
    r"\b(?:he|she|they|brother|sister|dad|father|mum|mate|uncle|son|daughter|wife|husband|boss"
    r"|nephew|niece|grandson|neighbou?r|pal|friend|buddy|cousin|guy|bloke|fella) (?:\w+ ){0,3}"
    r"(?:once|hit|hits|drove|holed|made)\b"
)
_SCREEN = re.compile(
    r"\bon (?:the )?(?:telly|tv|television|box)\b|^\W*read that\b"
    r"|\bshot (?:an? )?(?:[6-9]|1[01])\d\b"
)
_THANKS_ALONE = frozenset({
    "perfect", "grand", "sound", "class", "mint", "wicked", "tidy", "appreciated", "too good",
    "ace, thanks", "ace thanks", "ace cheers", "ace, cheers", "ideal", "quality", "deadly",
    "got it",
})  # fmt: skip
_HELLO_ALONE = frozenset({"hey", "yo", "oi oi", "how do", "aye aye", "hey hey", "hey mate"})
_THANKED = frozenset({"talk", "punct", "join", "x", "wind", "ask"})
_GOLF = ("got.distance", "got.ref", "got.wind", "got.hazard", "n.len", "lie")
_NAMES = {"people": "people_in_range", "clear": "all_clear"}


def safety(b: Bundle, text: str) -> Safety | None:
    """The danger told, or None."""
    told_of = {n.partition(".")[2] for n in b.names if n.startswith("danger.")}
    denied = "lightning" in told_of and _denied(b)
    if denied:
        told_of -= {"lightning"}
    found = next((name for name in _DANGERS if name in told_of), None)
    if found is None and people_ahead(text):
        found = "people"
    if found is None and denied and not b.has(*_GOLF):
        found = "clear"
    if found is None and _all_clear(b):
        found = "clear"
    if found is None:
        return None
    told = facts(b)
    air = told.air
    damp = next((t.value.measure() for t in b.every("n") if _is_share(t)), None)
    if found == "heat" and damp is not None and (air is None or air.humidity is None):
        air = (air or Air()).model_copy(update={"humidity": damp})
    seconds = _SECONDS.search(text) if found == "lightning" else None
    return Safety.model_validate(
        {
            "danger": _NAMES.get(found, found),
            "facts": Facts(air=air, wind=told.wind),
            "asked": air is not None or _WEATHER.search(text) is not None,
            "flash_to_bang": None if seconds is None else float(seconds[1]),
        }
    )


def is_weather(danger: Safety) -> bool:
    """Whether heat or cold is told with its number: golf may go on beside it."""
    return danger.danger in ("heat", "cold") and danger.facts.air is not None


def _denied(b: Bundle) -> bool:
    """Whether every word of thunder is said not to be there: "no lightning here"."""
    said = ""
    for token in b.raw:
        said = f"{said} {token.before}".rstrip()
        if token.name == "danger.lightning" and not _DENIES.search(said):
            return False
        said = f"{said} {token.text}"
    return True


def _all_clear(b: Bundle) -> bool:
    """Whether "all clear" was said on its own: beside golf it means room to miss."""
    said = [t for t in b.tokens if not t.name.startswith(("punct.", "join.now"))]
    return len(said) == 1 and said[0].text == "all clear"


def _is_share(token: Token) -> bool:
    return hasattr(token.value, "measure") and token.value.measure().unit == "%"


def far_danger(rest: str) -> Safety | None:
    """The danger told in the part of a long text that no rule reads."""
    danger = danger_in(rest)
    return None if danger is None else Safety(danger=danger)


def hostile(b: Bundle, told: Facts, text: str) -> Nonsense | None:
    """Text that must not be taken for a shot, or None."""
    length = told.distance
    plain = told.wind is None and not told.hazards and (length is None or not length.unit)
    verse = b.has("hostile") and any(t.text in _NEVER_GOLF for t in b.tokens)
    if verse or (b.has("hostile") and plain and (length is None or length.value < _SHORTEST)):
        return Nonsense(why="hostile", said=text[:80])
    return None


def gibberish(tokens: Sequence[Token], text: str) -> Nonsense | None:
    """Text without one word of golf or of everyday English, or None.

    A capital may open a name, which is no such text.
    """
    words = [t for t in tokens if t.name == "x.word"]
    rest = {t.name for t in tokens if t.name != "x.word" and not t.name.startswith("punct")}
    plain = text.isascii() and text.casefold() == text and not any(t.before for t in tokens)
    if not plain or not rest <= {"n.bare", "dist.number"} or "'" in text:
        return None
    typed = sum(len(t.text) for t in words)
    if typed < _TYPED or len(words) < 2 or any(is_real(t.text) for t in words):
        return None
    return Nonsense(why="gibberish", said=text[:80])


def story(text: str) -> bool:
    """Whether somebody else's shot of another day is told: "my brother once hit a 7 iron 190"."""
    said = text.casefold()
    if _SCREEN.search(said) or (
        _ONCE.search(said) and re.search(r"\blost (?:\w+ )?balls\b", said)
    ):
        return True
    if re.match(r"\W*(?:i )?(?:watched|saw)\b", said) and _ONCE.search(said):
        return True
    return _ONCE.search(said) is not None and _OTHER.search(said) is not None


def alone(text: str) -> Talk | None:
    """Talk in a word that is the whole message, and that says something else beside others."""
    said = text.strip(" .,!\n").casefold()
    if said in ("never mind", "nevermind"):
        return Talk(intent="undo")
    if said in _THANKS_ALONE:
        return Talk(intent="thanks")
    return Talk(intent="greeting") if said in _HELLO_ALONE else None


def early(b: Bundle) -> Talk | None:
    """Talk that is never about a shot: forget, privacy, undo, help, a thank-you alone."""
    families = {t.name.split(".")[0] for t in b.tokens}
    praised = all(t.name == "wind.stiff" for t in b.every("wind"))
    asked = any(t.text != "advice" for t in b.every("ask"))
    if b.tokens[0].name == "talk.thanks" and praised and not asked and families <= _THANKED:
        return Talk(intent="thanks")
    for name, intent in (("forget", "forget_me"), ("privacy", "privacy"), ("undo", "undo")):
        if b.has(f"talk.{name}") and not b.has("n", "got"):
            return Talk(intent=intent)
    return None


def late(b: Bundle) -> Talk | None:
    """Talk where nothing of golf was told."""
    if b.tokens and b.tokens[0].name == "talk.greeting" and not b.has("talk.help", "talk.low"):
        return Talk(intent="greeting")
    for name, intent in (
        ("help", "help"), ("low", "mood_low"), ("thanks", "thanks"), ("greeting", "greeting"),
    ):  # fmt: skip
        if b.has(f"talk.{name}"):
            return Talk(intent=intent)
    return None


_KINDS = {
    "practice": ("practice", "casual", "friendly", "fun", "social", "bounce"),
    "competition": (
        "competition",
        "comp",
        "medal",
        "rules",
        "tournament",
        "counting",
        "stableford",
    ),
}


def kind_of_round(b: Bundle) -> Answered | None:
    """The answer to "practice or competition", or None."""
    said = {word for t in b.tokens for word in t.text.split()}
    for kind, words in _KINDS.items():
        if said & set(words):
            return Answered(words=kind)
    return None
