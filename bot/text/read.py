"""What does a message mean?"""

import re

from bot.model.reading import (
    Act,
    Answered,
    Choice,
    Expecting,
    Facts,
    FollowUp,
    Found,
    Reading,
    Result,
    Score,
    Shot,
    Span,
    Talk,
    Wind,
)
from bot.text.acts import profile as profiles
from bot.text.acts import result as results
from bot.text.acts import round as rounds
from bot.text.acts import shot as shots
from bot.text.acts import talk
from bot.text.acts.about_me import about_me
from bot.text.acts.aimed import Aimed, aimed
from bot.text.acts.bundle import Bundle, facts, rivals
from bot.text.acts.company import company
from bot.text.acts.looking import looking_back
from bot.text.acts.notes import notes
from bot.text.acts.ruling import ruling
from bot.text.acts.scored import placed
from bot.text.normalise import LIMIT, Folded
from bot.text.patterns import Token, apply
from bot.text.rules import CASCADE
from bot.text.rules.spots import par_of_the_hole
from bot.text.rules.wind import wind_number
from bot.text.tokens import tokens

_WHERE = ("side", "lie", "hazard", "got.hazard", "contact", "place")  # where a ball went
_NEXT = ("got.wind", "got.distance", "got.ref", "got.hole", "n.bare", "n.len", "punct.q")  # more
_NUMERIC = frozenset({
    "distance", "confirm_distance", "confirm_wind", "handicap", "club_carry", "clubs",
    "swing_speed", "score", "slope", "units", "height_or_wind", "reach_or_carry",
})  # fmt: skip
_TOLD = Expecting(about="result")  # a message that tells an aim tells a result
_AROUND_A_SIDE = frozenset({"side", "punct", "talk", "join"})
_BLOWS = {
    "side.left": 270.0, "side.right": 90.0, "height.down": 180.0, "wind.behind": 180.0,
}  # fmt: skip
# Tokens that change the advice wherever they stand; left over, they were not understood.
_MATTERS = frozenset({
    "n.bare", "n.len", "n.ft", "n.speed", "n.pct", "n.clubs", "n.clock", "n.junk", "side.left",
    "side.right", "side.short", "side.long",
})  # fmt: skip
_OVERLAP = 20  # characters before the limit in which a word of danger may begin
_FOR = re.compile(
    r"^\W*(?:for|ask for)\s+([A-Z][a-z]+)\b"
    r"|^\W*([A-Z][a-z]+)(?:'s got|'s at|\s+(?:has|needs|is at|wants|is facing|faces))\b"
)


def read(text: str, expecting: Expecting | None = None) -> Reading:
    """The one reading of `text`; `expecting` says what the last question asked for.

    Never raises, whatever the text. Only the first characters are read for meaning; the rest
    is searched for danger words alone.

    >>> read("160 into 18").acts[0].facts.distance.value
    160.0
    """
    told = aimed(text[:LIMIT])
    if told is not None:
        return _with_aim(text, told, read(told.rest + text[LIMIT:], expecting or _TOLD))
    folded, found = tokens(text)
    par_of_the_hole(found)
    trace: list[tuple[str, Token]] = []
    for rules in CASCADE:
        apply(rules, found, trace)
    wind_number(found)
    player = _player(text)
    acts = _acts(found, text[:LIMIT], player, expecting, text[LIMIT - _OVERLAP :])
    return Reading(
        text=text, acts=acts, open=_open(acts, found, folded, text),
        unread=_unread(found, folded, text, acts),
        trace=tuple(
            Found(rule=name, span=_span(token, folded, text), value=token.name)
            for name, token in trace
        ),
    )  # fmt: skip


def _with_aim(text: str, told: Aimed, rest: Reading) -> Reading:
    """The reading of a message whose clause of the aim was read apart from the rest of it."""
    acts: tuple[Act, ...] = rest.acts
    at = next((i for i, a in enumerate(acts) if isinstance(a, Result) and not a.putt), None)
    if at is not None:
        acts = (*acts[:at], acts[at].model_copy(update={"aim": told.aim}), *acts[at + 1 :])
    else:
        first = acts[0] if acts else None
        named = first.facts.club if isinstance(first, FollowUp) else None
        follows = acts[1:] if isinstance(first, FollowUp | Answered | Talk) else acts
        acts = (Result(club=named, aim=told.aim), *follows)
    where = Span(start=told.start, end=told.end, text=text[told.start : told.end])
    found = Found(rule="aim.told", span=where, value=told.aim.at)
    return rest.model_copy(update={"text": text, "acts": acts, "trace": (found, *rest.trace)})


def _span(token: Token, folded: Folded, text: str) -> Span:
    start, end = folded.start(token.start), folded.end(token.end)
    end = max(start, end)
    return Span(start=start, end=end, text=text[start:end])


def _player(text: str) -> str | None:
    found = _FOR.search(text[:60])
    if not found:
        return None
    name = found[1] or found[2]
    return (
        None
        if name
        in (
            "Wind",
            "What",
            "It",
            "He",
            "She",
            "That",
            "This",
            "Who",
            "Green",
            "Pin",
            "Breeze",
            "Anyone",
        )
        else name
    )


def _acts(
    found: list[Token], text: str, player: str | None, expecting: Expecting | None, rest: str
) -> tuple[Act, ...]:
    whole = Bundle(found)
    danger = talk.safety(whole, text)
    if danger is None and len(rest) > _OVERLAP:
        danger = talk.far_danger(rest)
    if danger is not None:
        return (danger,)
    listed = about_me(whole, text, expecting, player)
    if len(listed) > 1:
        return listed
    if expecting is not None:
        answer = _answer(whole, expecting, text)
        if answer is not None:
            return (answer,)
    if listed:
        return listed
    parts = _parts(found)
    if len(parts) > 1:
        made = [_act(Bundle(part), text, player) for part in parts]
        kinds = [a for a in made if a is not None]
        if _both(kinds) and not whole.has("punct.q"):
            return tuple(kinds)
    act = _act(whole, text, player)
    if isinstance(act, Result):
        last = results.closing_score(whole, player)
        return (act,) if last is None else (act, last)
    return (act,) if act is not None else ()


def _both(acts: list[Act]) -> bool:
    """Whether a result is told and a new shot asked for."""
    told = any(isinstance(a, Result | Score) for a in acts)
    return told and any(isinstance(a, Shot) for a in acts)


def _parts(found: list[Token]) -> list[list[Token]]:
    parts: list[list[Token]] = [[]]
    for token in found:
        if token.name == "punct.stop" or token.name == "join.now":
            parts.append([])
        else:
            parts[-1].append(token)
    return [p for p in parts if p]


def _act(b: Bundle, text: str, player: str | None) -> Act | None:
    if not b.tokens:
        return None
    first = talk.hostile(b, facts(b), text) or talk.early(b)
    if first is not None:
        return first
    of_course = notes(b, text)
    if of_course is not None:
        return of_course
    who_plays = company(text)
    if who_plays is not None:
        return who_plays
    of_a_putt = b.has("putt.noun") and b.has("n.ft")
    back = looking_back(text)
    if back is not None:
        return back
    about_me = None if of_a_putt else profiles.profile(b, player)
    if about_me is not None:
        return about_me
    steer = ruling(b, text) or rounds.rounds(b, text) or rounds.reviews(b)
    if steer is not None:
        return steer
    if results.is_result(b):
        return results.result(b, player)
    scored = results.score(b, player)
    if scored is not None and not b.has("got.wind", "got.hazard", "ask.which"):
        return placed(scored, text)
    asked = shots.shot(b, player, text)
    if asked is not None and not (asked.act == "followup" and b.has("talk.thanks")):
        return asked
    return talk.late(b)


def _answer(b: Bundle, expecting: Expecting, text: str) -> Act | None:
    if expecting.about in ("slope", "break_side"):
        told = shots.putt_facts(b, shots.raw_of(b, text))
        if (told.putt is not None and told.putt.length is None) or told.shape is not None:
            side = b.first("side")
            words = None if side is None or len(b.tokens) > 3 else side.name.split(".")[1]
            return Answered(facts=told, words=words)
    if expecting.about == "result" and b.has(*_WHERE) and not b.has(*_NEXT):
        return results.result(b, None)
    if len(b.tokens) > 6:
        return None
    if b.has("talk.skip"):
        return Answered(unknown=True)
    if b.has("talk.yes"):
        return Answered(yes=True, facts=facts(b))
    if b.has("talk.nope", "join.not") and len(b.tokens) == 1:
        return Answered(yes=False)
    if expecting.about == "round_kind":
        return talk.kind_of_round(b)
    told = facts(b)
    if expecting.about in ("wind_dir", "wind_side"):
        from_deg = _blows_from(b)
        if from_deg is not None:
            return Answered(facts=Facts(wind=Wind(from_deg=from_deg)))
    number = b.first("n")
    numeric = expecting.about in _NUMERIC and len(b.tokens) == 1
    if number is not None and numeric and hasattr(number.value, "measure"):
        return Answered(number=number.value.measure(), facts=told)
    side = b.first("side")
    if side is not None and all(t.name.split(".")[0] in _AROUND_A_SIDE for t in b.tokens):
        return Answered(words=side.name.split(".")[1], facts=told)
    return None


def _blows_from(b: Bundle) -> float | None:
    """Where a word or two say the wind comes from, asked for that."""
    found = [_BLOWS[t.name] for t in b.tokens if t.name in _BLOWS]
    rest = [
        t for t in b.tokens if t.name not in _BLOWS and not t.name.startswith(("punct", "join"))
    ]
    return found[0] if len(found) == 1 and not rest else None


def _open(
    acts: tuple[Act, ...], found: list[Token], folded: Folded, text: str
) -> tuple[Choice, ...]:
    out: list[Choice] = []
    for act in acts:
        told = getattr(act, "facts", None)
        if not isinstance(told, Facts):
            continue
        wind = told.wind
        if wind is not None:
            span = _first_span("got.wind", found, folded, text)
            blows = wind.speed is None or wind.speed.value > 0
            if wind.across:
                out.append(Choice(span=span, about="wind_side", options=("left", "right")))
            elif wind.from_deg is None and wind.change is None and blows and not _calm(wind.speed):
                out.append(Choice(span=span, about="wind_dir"))
        if told.distance is not None and rivals(Bundle(found)):
            out.append(Choice(span=Span(start=0, end=0, text=""), about="distance"))
        for hazard in told.hazards:
            if hazard.reach_or_carry is not None:
                span = _first_span("got.hazard", found, folded, text)
                out.append(Choice(span=span, about="reach_or_carry", options=("start", "end")))
    return tuple(out)


def _calm(speed: object) -> bool:
    high = getattr(speed, "high", None)
    return high is not None and high <= 4


def _first_span(name: str, found: list[Token], folded: Folded, text: str) -> Span:
    for token in found:
        if token.name == name:
            return _span(token, folded, text)
    return Span(start=0, end=0, text="")


def _unread(
    found: list[Token], folded: Folded, text: str, acts: tuple[Act, ...]
) -> tuple[Span, ...]:
    """Numbers and sides that no rule took, in a message about a shot, and what was too long."""
    out: list[Span] = []
    for act in acts:
        if isinstance(act, Shot | FollowUp) and len(acts) == 1 and act.facts.putt is None:
            used = _numbers_used(act.facts)
            out += [
                _span(t, folded, text) for t in found
                if t.name in _MATTERS and getattr(t.value, "value", None) not in used
            ]  # fmt: skip
    if len(text) > LIMIT:
        out.append(Span(start=LIMIT, end=len(text), text=text[LIMIT:]))
    return tuple(out)


def _numbers_used(facts: Facts) -> set[float]:
    told = (facts.distance, facts.hole.length if facts.hole else None)
    putt = facts.putt
    more = (putt.length, putt.slope_size, putt.break_size) if putt else ()
    return {m.value for m in (*told, *more) if m is not None}
