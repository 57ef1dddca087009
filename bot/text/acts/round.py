"""Does the message start, steer, end or review a round?"""

import re
from typing import Any

from bot.model.reading import CourseNote, Review, Round
from bot.text.acts.bundle import Bundle, hole
from bot.text.patterns import Token

_NAME = r"[A-Z][\w'’.-]*(?: (?:[A-Z][\w'’.-]*|of|the|and|de|on|at|St\.?))*"
_START = re.compile(r"\b(?:start|starting|begin|beginning|new)\b", re.IGNORECASE)
_WITH = re.compile(rf"\bwith ({_NAME}(?:, {_NAME})*(?:,? (?:and|&) {_NAME})?)")
_LEAD = re.compile(
    r"^(?:(?:ok(?:ay)?|right|so|let'?s go|here we go|morning|hi|hey|hello)\b[,.! ]*)+",
    re.IGNORECASE,
)
_STARTS = re.compile(
    r"^(?:about to |just |we're |now )?(?:starting|start|off|we're off|away) (?:out )?at [A-Z]"
    r"|^(?:[Ww]e )?[Tt]ee(?:ing)? off (?:now |soon |next |shortly )?at [A-Z]"
    r"|^[Nn]ew card\b"
    r"|^(?:18|9|[Nn]ine|[Ee]ighteen|[Aa] quick (?:9|nine))(?: holes?)? (?:out )?at [A-Z]"
    r"|^(?:(?:we're|we are|i'm|i am) )?[Pp]layin[g'’]? [A-Z]\w+.* "
    r"(?:today|this (?:morning|afternoon))\b"
    r"|^(?:just )?(?:the )?(?:back|front) (?:nine|9)\b.* at [A-Z]"
    r"|^(?:an? |just (?:an? )?)?"
    r"(?:[Pp]ractice|[Cc]asual|[Ff]riendly|[Cc]omp(?:etition)?|[Mm]edal|[Ss]ocial)"
    r"(?: round| knock| nine| 9| 18)? (?:out )?at [A-Z]"
)
_COUNT = re.compile(
    r",\s*(?:all |full |just |only )?(18|9|eighteen|nine)(?: holes)?\s*(?:[,.!]|$)"
)
_ENDED_UP = frozenset({"finished up", "we're in", "walking in", "that's the last"})
_TAIL = re.compile(r"(?: (?:of|the|and|de|on|at))+$")
_AT = re.compile(rf"(?:\bat|\bon|,|:|!|-|\bround[.:]?|^[Pp]layin[g'’]?)\s+(?:the )?({_NAME})")


def _players(text: str) -> tuple[str, ...]:
    found = _WITH.search(text)
    if not found:
        return ()
    return tuple(p.strip() for p in re.split(r",| and | & ", found[1]) if p.strip())


def _course(text: str) -> str | None:
    head = text.split(" with ")[0]
    found = _AT.search(head)
    if found:
        return _TAIL.sub("", found[1]).strip(" .,-")
    return None


def _competition(text: str) -> bool | None:
    said = text.casefold()
    if re.search(r"\bpractice|\bcasual|\bfriendly|\bfor fun\b", said):
        return False
    if re.search(
        r"\b(?:comp(?:etition)?|medal|tournament|by the rules|stableford|rules of golf)\b", said
    ):
        return True
    return None


def _begins(text: str) -> bool:
    """Whether a message begins a round, whatever it is greeted with."""
    return bool(_STARTS.search(text) or _STARTS.search(_LEAD.sub("", text)))


def rounds(b: Bundle, text: str) -> Round | None:
    """A round started, steered or ended, or None."""
    kind = b.has("round.comp_on", "round.comp_off")
    if b.has("round.start") or _begins(text) or (kind and _START.search(text)):
        count = None
        holes = b.first("round.holes")
        if holes is not None:
            count = 9 if {"9", "nine"} & set(holes.text.split()) else 18
        elif (listed := _COUNT.search(text)) is not None:
            count = 18 if listed[1] in ("18", "eighteen") else 9
        elif (begun := b.first("round.start")) is not None:
            said = set(begun.text.split())
            count = 18 if said & {"18", "eighteen"} else 9 if said & {"9", "nine"} else None
        return Round(
            intent="start_round", course=_course(text), holes=count, players=_players(text),
            competition=_competition(text),
        )  # fmt: skip
    if [t.text for t in b.tokens if not t.name.startswith("punct")] == ["next"]:
        return Round(intent="next_hole")
    for name, intent in (
        ("end", "end_round"), ("comp_off", "competition_off"), ("comp_on", "competition_on"),
        ("card", "card"), ("standings", "standings"), ("strokes", "strokes"),
        ("next", "next_hole"),
    ):  # fmt: skip
        going_on = name == "end" and b.has("got.wind", "got.distance", "got.ref", "wind.same")
        going_on = going_on or (name == "end" and _of_a_ball(b))
        if b.has(f"round.{name}") and not going_on:
            fields: dict[str, Any] = {"intent": intent}
            if intent.startswith("competition"):
                fields["competition"] = intent.endswith("on")
            told = hole(b)
            if intent == "next_hole" and told is not None:
                if told.par == 3 and b.has(
                    "n.bare", "n.len", "got.wind", "got.distance", "got.play", "got.ref"
                ):
                    return None
                return Round(intent="set_hole", hole=_with_length(b, told))
            return Round(**fields)
    told = hole(b)
    on_tee = {"got.hole", "got.par", "lie.tee", "punct.c", "join.on", "join.at"}
    if told is not None and told.number is not None and b.names <= on_tee:
        return Round(intent="set_hole", hole=told)  # "on the 7th tee, par 3"
    if told is None or b.has(
        "got.wind",
        "got.hazard",
        "ask",
        "lie.tee",
        "got.dogleg",
        "got.ref",
        "got.distance",
        "got.club",
        "got.compare",
        "got.swing_club",
        "got.excluded",
        "lie",
        "layup",
        "score.made",
        "score.birdie",
        "score.bogey",
        "score.double",
        "score.triple",
        "score.pickup",
    ):
        return None
    if told.number is not None or (told.par is not None and len(b.tokens) <= 5):
        full = _with_length(b, told)
        if full.par == 3 and full.length is not None and told.number is None:
            return None
        return Round(intent="set_hole", hole=full)
    return None


def _of_a_ball(b: Bundle) -> bool:
    """Whether a ball ended somewhere, and no round did: "7 iron finished up right"."""
    said = {t.text for t in b.every("round.end")}
    return said <= _ENDED_UP and b.has("got.club", "side", "lie", "hazard", "got.hazard", "result")


def _with_length(b: Bundle, told: Any) -> Any:
    number: Token | None = b.first("n.len", "n.bare")
    if number is not None and 60 <= number.value.value <= 700:
        return told.model_copy(update={"length": number.value.measure()})
    return told


def _of_my_club(b: Bundle) -> bool:
    """Whether the numbers of a club are asked for: "what's my 7 iron carry", "my 7 iron stats"."""
    token = b.first("got.club", "got.swing_club")
    if token is None or b.has("n", "got.wind", "got.distance", "got.ref", "contact", "verb.hit"):
        return False
    said, mine = b.words(), "my" in token.before.split()
    return mine and bool(said & {"what's", "whats", "what", "numbers", "averages", "distances"})


def reviews(b: Bundle) -> Review | CourseNote | None:
    """A question about what was played, or None."""
    club = b.value("got.club") or (b.value("got.swing_club") or (None, None))[1]
    how = b.has("review.gone_time") and any(t.text in ("how's", "how") for t in b.tokens)
    how = how or _of_my_club(b)
    if (
        b.has("review.stats")
        or (how and club)
        or (b.has("miss.tend") and club and not b.has("n", "got.carry", "side", "shape"))
    ):
        return Review(intent="club_stats" if club else "review", club=club)
    if b.has("review.learn_always", "review.learn_asking"):
        part = "always" if b.has("review.learn_always") else "never"
        return Review(intent="apply_learning", part=part)
    if b.has("profile.show") and club:
        return Review(intent="club_stats", club=club)
    for name, intent in (
        ("export", "export"), ("report", "report"), ("picture", "picture"), ("learn", "learn"),
        ("cost", "part"), ("review", "review"),
    ):  # fmt: skip
        if b.has(f"review.{name}"):
            return Review(intent=intent, club=club)
    return None
