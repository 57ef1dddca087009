"""Does the message ask about a Rule, and about which?"""

import re
from typing import Final, Literal

from bot.model.reading import Facts, Lie, RulesHelp
from bot.text.acts.bundle import Bundle, facts

Topic = Literal[
    "yellow_penalty", "red_penalty", "penalty_area", "unplayable", "ob", "lost", "bunker",
    "embedded", "free_relief", "drop", "wrong_ball", "provisional", "ball_moved", "search",
    "distance_device", "advice", "clubs", "other",
]  # fmt: skip

# The first that matches names the topic.
_TOPICS: Final[tuple[tuple[Topic, str], ...]] = (
    ("distance_device", r"distance (?:device|finder|measur)|range ?finder|can i use (?:you|this)"
                        r"|allowed to use you|is this legal"),
    ("clubs", r"how many clubs|too many clubs|\b(?:1[5-9]|fifteen|sixteen) clubs|extra club in"),
    ("wrong_ball", r"wrong ball"),
    ("search", r"how long (?:can|do|may) \w+ (?:look|search)|search time|how long to search"),
    ("provisional", r"provisional|\bprovo?\b"),
    ("embedded", r"embedded|plugged|own pitch ?mark"),
    ("unplayable", r"unplayable"),
    ("ball_moved", r"\bmoved\b"),
    ("red_penalty", r"\bred\b|\blateral\b"),
    ("yellow_penalty", r"\byellow\b"),
    ("ob", r"\bo\.?b\b|\boob\b|out of bounds|boundary|white stakes"),
    ("free_relief", r"\bpaths?\b|casual|temporary water|puddle|\bgur\b|ground under repair"
                    r"|sprinkler|drain|free (?:drop|relief)|burrow|rabbit|road"),
    ("penalty_area", r"penalty area|hazard|\bwater\b|pond|lake|creek|stream|burn\b|stakes"),
    ("lost", r"\blost\b"),
    ("advice", r"\badvice\b|\badvise\b|tell (?:him|her|them|my|your)|ask (?:my|him|her|your)"),
    ("bunker", r"bunker|\bsand\b|ground (?:my|the) club"),
    ("drop", r"\bdrop"),
)  # fmt: skip
_NAMED = re.compile("|".join(p for t, p in _TOPICS if t not in ("bunker", "drop", "advice")))
# Asked about a Rule in so many words, apart from what the vocabulary lists.
_ASKED = re.compile(
    r"^\W*(?:the )?rules?\W*$|^rules? help|^ruling|\brule (?:on|for|about)\b|\brules?:"
    r"|\bthe rules? (?:on|for|about|when|if)\b|drop from (?:the )?(?:knee|shoulder)"
    r"|(?:take|get|have) (?:a |free )*(?:drop|relief)|wrong ball"
    r"|how many clubs|too many clubs|\b(?:1[5-9]|fifteen) clubs in"
    r"|(?:can|may|am) i (?:\w+ )?(?:ask|tell|give) (?:\w+ )*(?:advice|club)"
    r"|(?:distance|measuring) devices?|(?:can|may|allowed|legal|rule)\b.*range ?finder"
    r"|range ?finders? (?:allowed|legal|ok\b)"
    r"|(?:do|should|can|may|must) (?:i|we) (?:\w+ )*provisional"
    r"|^\W*(?:(?:it'?s|ball(?:'?s| is)?) )?unplayable(?: lie| ball)?\W*$"
    r"|^\W*(?:an? |the )?(?:provisional|unplayable|embedded|plugged|lost ball|o\.?b|out of bounds"
    r"|drop zone)(?: ball)?\s*\?+\s*$"
)
_OPTIONS = re.compile(r"\brules?\b|\bruling\b|\boptions?\b|\bcosts? (?:me )?(?:the )?least\b")
_SAND: Final[tuple[Lie, ...]] = ("bunker", "fairway_bunker", "greenside_bunker")


def ruling(b: Bundle, text: str) -> RulesHelp | None:
    """A question about the Rules, or None."""
    said = text.casefold()
    if "by the rules" in said or "rules round" in said:
        return None
    named = _NAMED.search(said) is not None
    if not (b.has("rules") or _ASKED.search(said) or (named and _OPTIONS.search(said))):
        return None
    topic = next((t for t, pattern in _TOPICS if re.search(pattern, said)), "other")
    told = facts(b)
    lie = tuple(x for x in told.lie if x in _SAND)
    if not lie and topic != "bunker" and re.search(r"bunker|\bsand\b", said):
        lie = ("bunker",)
    return RulesHelp(topic=topic, facts=Facts(distance=told.distance, lie=lie))
