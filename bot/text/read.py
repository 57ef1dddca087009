"""What does a message mean?"""

import re
from collections.abc import Collection, Iterator, Sequence
from itertools import pairwise

from bot.model.reading import (
    Act,
    Answered,
    Choice,
    Expecting,
    Facts,
    FollowUp,
    Found,
    Profile,
    Reading,
    Result,
    Round,
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
from bot.text.acts.bag_row import bag_row
from bot.text.acts.bundle import Bundle, facts, rivals
from bot.text.acts.careful import Careful, careful
from bot.text.acts.carried import carried
from bot.text.acts.company import company
from bot.text.acts.in_units import either_unit, meant_unit, named_unit
from bot.text.acts.looking import looking_back
from bot.text.acts.named import named, of_player
from bot.text.acts.notes import notes
from bot.text.acts.ruling import ruling
from bot.text.acts.scored import placed
from bot.text.acts.tally import tally
from bot.text.lexicon import PARTS, WORDS
from bot.text.normalise import LIMIT, Folded
from bot.text.patterns import Token, apply
from bot.text.rules import CASCADE
from bot.text.rules.hit_with import hit_with
from bot.text.rules.signs import off_the_water, same_side
from bot.text.rules.wind import wind_number
from bot.text.tokens import tokens

_WHERE = ("side", "lie", "hazard", "got.hazard", "contact", "place")  # where a ball went
_NEXT = ("got.wind", "got.distance", "got.ref", "got.hole", "n.bare", "n.len", "punct.q")  # more
_NUMERIC = frozenset({
    "distance", "confirm_distance", "confirm_wind", "handicap", "club_carry", "clubs",
    "swing_speed", "score", "slope", "units", "height_or_wind", "reach_or_carry", "wind_speed",
})  # fmt: skip
_TOLD = Expecting(about="result")  # a message that tells an aim tells a result
_AROUND_A_SIDE = frozenset({"side", "punct", "talk", "join"})
_BLOWS = {
    "side.left": 270.0, "side.right": 90.0, "height.down": 180.0, "wind.behind": 180.0,
}  # fmt: skip
# Tokens that change the advice wherever they stand; left over, they were not understood.
_NUMBERS = frozenset({
    "n.bare", "n.len", "n.ft", "n.speed", "n.pct", "n.clubs", "n.clock", "n.junk", "n.det",
    "got.either",
})  # fmt: skip
_LIES_IN = frozenset(
    {"join.in", "join.from", "join.on", "join.off", "punct.c", "n.bare", "n.len", "got.distance"}
)
_TURF = frozenset({"lie.rough", "lie.deep_rough", "lie.first_cut", "lie.fairway"})
_SIDES = frozenset({"side.left", "side.right", "side.short", "side.long"})
_HEARD = (Shot, FollowUp, Result, Score, Profile)
_OF_ME = ("set_hand", "set_handicap")
_OF_WIND = frozenset({"mph", "breeze", "knots", "windspeed"})
_OF_A_WAY = frozenset({"yards", "metres", "meters", "yds", "distance", "yardage", "left", "go"})
_BARE = frozenset({"n.bare", "join.now", "join.at", "join.was", "got.wind"})
_BLOWS_AT_MOST = 45.0  # a larger number without a unit is no wind's
_LEFT = 40.0  # yards: what is left to go behind a result is another shot from here on
_OVERLAP = 20  # characters before the limit in which a word of danger may begin
_FOR = re.compile(
    r"^\W*(?:(?:[Nn]ow|[Oo]k|[Aa]nd|[Ss]o) )?(?:[Ff]or|ask for)\s+(?P<a>[A-Z][a-z]+)\b"
    r"|^\W*(?:(?:[Aa]nd|[Bb]ut|[Tt]hen) )?"
    r"(?:(?:[Oo]ur|[Mm][yae] (?:mate|pal|friend|pupil|partner|son|daughter|wife|husband)),? )?"
    r"(?P<b>[A-Z][a-z]+)(?:['’]s (?:got|at|up|on|in|away|next|turn|go|ball|facing|\d)"
    r"|\s+(?:has|needs|is|wants|faces|plays next))\b"
    r"|^\W*(?:(?:[Aa]nd|[Tt]hen|[Nn]ow|[Ss]o|[Oo]k) )?(?P<d>[A-Z][a-z]+)"
    r"(?: from|,? (?:now|next),?) \d"
    r"|\d for (?P<f>[A-Z][a-z]+)\W*$"
    r"|[,;.] (?P<e>[A-Z][a-z]+)['’]s (?:got |at )?\d"
    r"|^\W*[Mm]y (?:mate|pal|friend|pupil|partner|son|daughter|wife|husband) (?P<c>[A-Z][a-z]+),"
)
# Words that open a sentence with a capital where a name could stand.
_NO_NAME = frozenset({
    "wind", "what", "it", "he", "she", "that", "this", "who", "green", "pin", "breeze", "anyone",
    "how", "where", "when", "why", "there", "everyone", "everybody", "nobody", "somebody",
    "someone", "which", "here", "ball", "flag", "water", "they", "hole", "distance", "stick",
})  # fmt: skip


def read(
    text: str, expecting: Expecting | None = None, names: Collection[str] = ()
) -> Reading:  # fmt: skip
    """The one reading of `text`; `expecting` says what the last question asked for.

    `names` are those of the other players known here: what is told of one of them is theirs.
    Never raises, whatever the text. Only the first characters are read for meaning; the rest
    is searched for danger words alone.

    >>> read("160 into 18").acts[0].facts.distance.value
    160.0
    """
    of = named(text[:LIMIT], names) if names else None
    if of is not None:
        theirs = read(of.rest + text[LIMIT:])
        acts = tuple(of_player(act, of.player) for act in theirs.acts)
        return theirs.model_copy(update={"text": text, "acts": acts})
    told = aimed(text[:LIMIT])
    if told is not None:
        return _with_aim(text, told, read(told.rest + text[LIMIT:], expecting or _TOLD))
    guarded = careful(text[:LIMIT])
    if guarded is not None:
        return _with_care(text, guarded, read(guarded.rest + text[LIMIT:], expecting))
    folded, found = tokens(text)
    raw = tuple(found)
    trace: list[tuple[str, Token]] = []
    same_side(found)
    off_the_water(found)
    if expecting is None or expecting.about in ("result", "score"):
        hit_with(found)
    for rules in CASCADE:
        apply(rules, found, trace)
    wind_number(found)
    player = _player(text)
    acts = _acts(found, raw, text[:LIMIT], player, expecting, text[LIMIT - _OVERLAP :])
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
    return _beside(rest, text, told, acts, "aim.told", told.aim.at)


def _with_care(text: str, said: Careful, rest: Reading) -> Reading:
    """The reading of a message that tells a shot to be played with the card in mind, or all."""
    acts: tuple[Act, ...] = tuple(
        a.model_copy(update={"facts": a.facts.model_copy(update={"protect": said.on})})
        if isinstance(a, Shot | FollowUp) else a for a in rest.acts
    )  # fmt: skip
    if not acts:
        acts = (Profile(intent="set_card", choice="on" if said.on else "off"),)
    return _beside(rest, text, said, acts, "card.protect", str(said.on))


def _beside(
    rest: Reading, text: str, told: Aimed | Careful, acts: tuple[Act, ...], rule: str, value: str
) -> Reading:  # fmt: skip
    """The reading of the rest of a message, with the clause that was read apart from it."""
    where = Span(start=told.start, end=told.end, text=text[told.start : told.end])
    found = Found(rule=rule, span=where, value=value)
    return rest.model_copy(update={"text": text, "acts": acts, "trace": (found, *rest.trace)})


def _span(token: Token, folded: Folded, text: str) -> Span:
    start, end = folded.start(token.start), folded.end(token.end)
    end = max(start, end)
    return Span(start=start, end=end, text=text[start:end])


def _player(text: str) -> str | None:
    found = _FOR.search(text[:60])
    name = (
        (found["a"] or found["b"] or found["c"] or found["d"] or found["e"] or found["f"])
        if found
        else None
    )
    if name is None or name.casefold() in _NO_NAME:
        return None
    if (
        found
        and not (found["a"] or found["c"])
        and (name.casefold() in WORDS or name.casefold() in PARTS)
    ):
        return None
    return name


def _acts(
    found: list[Token],
    raw: Sequence[Token],
    text: str,
    player: str | None,
    expecting: Expecting | None,
    rest: str,
) -> tuple[Act, ...]:
    whole = Bundle(found, raw)
    danger = talk.safety(whole, text)
    if danger is None and len(rest) > _OVERLAP:
        danger = talk.far_danger(rest)
    if danger is not None:
        shot = shots.shot(whole, player, text) if talk.is_weather(danger) else None
        return (danger, shot) if isinstance(shot, Shot) and _asked(whole) else (danger,)
    alone = carried(text) or bag_row(raw)
    listed = tuple(p.model_copy(update={"player": player}) for p in alone)
    listed = listed or about_me(whole, text, expecting, player)
    if len(listed) > 1:
        return listed
    if expecting is not None:
        answer = _answer(whole, expecting, text)
        if answer is not None:
            return (answer,)
    if listed:
        return listed
    if expecting is None or expecting.about in ("score", "result"):
        on_card = tally(text)
        if on_card:
            return on_card
    noise = talk.gibberish(raw, text) if expecting is None else None
    if noise is not None:
        return (noise,)
    parts = _parts(found)
    if len(parts) > 1:
        made = [_act(Bundle(part, raw), text, player) for part in parts]
        kinds = [a for a in made if a is not None]
        if _both(kinds) and not whole.has("punct.q"):
            return _with_more(kinds)
    walked = _next_and_shot(found, raw, text, player)
    if walked:
        return walked
    act = _act(whole, text, player)
    if isinstance(act, Round) and act.intent == "competition_on" and _asked(whole):
        shot = shots.shot(whole, player, text)
        return (act,) if shot is None else (act, shot)
    told_next = _then_next(found, raw, text, player) if isinstance(act, Result) else ()
    if told_next:
        return told_next
    one_by_one = _one_by_one(found, raw, text, player) if isinstance(act, Result) else ()
    if one_by_one:
        last = results.closing_score(whole, player)
        return one_by_one if last is None else (*one_by_one, placed(last, text))
    if isinstance(act, Result) and (putt := shots.putt_left(whole, act)) is not None:
        return act, putt
    if isinstance(act, Result):
        last = results.closing_score(whole, player)
        return (act,) if last is None else (act, placed(last, text))
    if isinstance(act, Score):
        shots_told = _one_by_one(found, raw, text, player)
        if shots_told:
            return (*shots_told, act)
        story = results.before_score(whole, player)
        return (act,) if story is None else (story, act)
    if isinstance(act, Profile) and act.intent in _OF_ME and _asked(whole):
        shot = shots.shot(whole, player, text)
        return (act,) if shot is None else (act, shot)
    return (act,) if act is not None else ()


def _then_next(
    found: list[Token], raw: Sequence[Token], text: str, player: str | None
) -> tuple[Act, ...]:
    """A result and, behind a comma, what is left: "drove it in the rough, 165 left"."""
    least = 0.0 if any(t.name == "dist.out" for t in raw) else _LEFT
    for at, token in enumerate(found):
        far = token.name == "got.distance" and getattr(token.value, "value", 0.0) >= least
        comma = found[at - 1].name in ("punct.c", "join.and")
        driven = [t.name for t in found[:at]] == ["got.club", "lie.fairway"]
        driven = driven and found[0].value == "D"  # "driver fairway 160 left"
        begun = comma or driven or "got" in token.before.split()  # "hit it short got 45 left"
        left = token.name == "n.bare" and token.value.value >= _LEFT and comma
        left = left and [t.name for t in found[at + 1 :]] == ["join.now"]  # "dropped, 118 now"
        if not (far or left or token.name == "got.ref") or at < 2 or not begun:
            continue
        before, after = found[: at - comma], found[at:]
        first, then = (
            _act(Bundle(before, raw), text, player),
            _act(Bundle(after, raw), text, player),
        )
        if isinstance(first, Result) and isinstance(then, Shot):
            return first, then
    return ()


def _one_by_one(
    found: list[Token], raw: Sequence[Token], text: str, player: str | None
) -> tuple[Act, ...]:
    """Several shots in one breath: "7 iron short, chipped to 6 feet, one putt"."""
    starts = [
        at for at, (before, token) in enumerate(pairwise(found), 1)
        if results.begins_another(before, token)
    ]  # fmt: skip
    if not starts or any(t.name in ("punct.q", "got.wind") for t in found):
        return ()
    pieces = [found[a:b] for a, b in pairwise([0, *starts, len(found) + 1])]
    made = [_act(Bundle(p[:-1] if p is not pieces[-1] else p, raw), text, player) for p in pieces]
    if isinstance(made[-1], Score):  # "..., chipped to 6 feet, missed the putt, bogey"
        made[-1] = results.result(Bundle(pieces[-1], raw), player)
    told = tuple(a for a in made if isinstance(a, Result))
    return told if len(told) == len(pieces) else ()


def _asked(b: Bundle) -> bool:
    """Whether a distance is told, and to what or in which wind."""
    told = facts(b)
    return told.distance is not None and (told.reference is not None or told.wind is not None)


def _next_and_shot(
    found: list[Token], raw: Sequence[Token], text: str, player: str | None
) -> tuple[Act, ...]:
    """The next hole and its shot: "on to the next, 155, into us"."""
    at = next((i for i, t in enumerate(found) if t.name == "round.next"), None)
    if at is None or any(t.name == "got.hole" for t in found):
        return ()
    weather = any(t.name in ("got.wind", "got.hazard") for t in found)
    if not weather and any(t.name == "got.par" for t in found):
        return ()
    rest = Bundle(found[at + 1 :], raw)
    then = (
        _act(rest, text, player)
        if rest.has("n.bare", "n.len", "got.distance", "got.ref")
        else None
    )
    return (Round(intent="next_hole"), then) if isinstance(then, Shot) else ()


def _with_more(acts: list[Act]) -> tuple[Act, ...]:
    """The acts with what is told of a shot behind it joined to it: "88 out now, same wind"."""
    out: list[Act] = []
    for act in acts:
        last = out[-1] if out else None
        if isinstance(last, Shot) and isinstance(act, FollowUp) and act.ask == "change":
            told = {n: v for n, v in act.facts if v not in (None, ())}
            out[-1] = last.model_copy(update={"facts": last.facts.model_copy(update=told)})
        else:
            out.append(act)
    return tuple(out)


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
    parts = [p for p in parts if p]
    for at in range(len(parts) - 1, 0, -1):  # "hit 7. 10 yards long"
        if [t.name.partition(".")[0] for t in parts[at]] in (["n", "side"], ["n", "result"]):
            parts[at - 1 : at + 1] = [[*parts[at - 1], *parts[at]]]
    return parts


def _act(b: Bundle, text: str, player: str | None) -> Act | None:
    if (word := talk.alone(text)) is not None or not b.tokens:
        return word
    first = talk.hostile(b, facts(b), text) or talk.early(b)
    if first is not None:
        return first
    if talk.story(text) and not b.has("got.ref", "got.hazard"):
        return Talk(intent="chatter")
    of_course = notes(b, text)
    if of_course is not None:
        return of_course
    who_plays = company(text)
    if who_plays is not None:
        return who_plays
    of_a_putt = b.has("putt.noun") and b.has("n.ft", "n.len")
    back = looking_back(text)
    if back is not None:
        return back
    about_me = None if of_a_putt else profiles.profile(b, player, text)
    if about_me is not None:
        return about_me
    unit = meant_unit(text)
    if unit is not None and not b.has("n", "got"):
        return FollowUp(ask="correct", facts=Facts(unit=unit), player=player)
    over = shots.asks_carry(b, player)
    if over is not None:
        return over
    steer = ruling(b, text) or rounds.rounds(b, text) or rounds.reviews(b)
    if steer is not None:
        return steer
    if results.is_result(b) and (told := results.result(b, player)) != Result(player=player):
        return told
    scored = results.score(b, player)
    if scored is not None and not b.has("got.wind", "got.hazard", "ask.which"):
        return placed(scored, text)
    asked = shots.shot(b, player, text)
    if asked is not None and not (asked.act == "followup" and b.has("talk.thanks")):
        return asked
    return talk.late(b)


def _answer(b: Bundle, expecting: Expecting, text: str) -> Act | None:
    if expecting.about in ("slope", "break_side"):
        told = shots.putt_facts(b, shots.raw_of(b))
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
        if _small(b):  # how strong, asked from where
            return Answered(facts=Facts(wind=Wind(speed=b.tokens[0].value.measure())))
    if expecting.about == "units" and (unit := named_unit(text)) is not None:
        return Answered(words=unit)
    if expecting.about == "wind_or_distance" and (which := _wind_or_way(b, text)) is not None:
        return Answered(words=which)
    if expecting.about == "reach_or_carry" and (end := _which_end(b)) is not None:
        return Answered(words=end)
    number = b.first("n")
    numeric = expecting.about in _NUMERIC and len(b.tokens) == 1
    if number is not None and numeric and hasattr(number.value, "measure"):
        return Answered(number=number.value.measure(), facts=told)
    side = b.first("side")
    if side is not None and all(t.name.split(".")[0] in _AROUND_A_SIDE for t in b.tokens):
        return Answered(words=side.name.split(".")[1], facts=told)
    return None


def _small(b: Bundle) -> bool:
    """Whether a lone number without a unit can be a wind's."""
    alone = [t.name for t in b.tokens] == ["n.bare"]
    return alone and 0 < b.tokens[0].value.value <= _BLOWS_AT_MOST


def _wind_or_way(b: Bundle, text: str) -> str | None:
    """Whether a number is said to be the wind or the distance, asked for that."""
    if any(t.name.startswith("n.") for t in b.raw):
        return None  # told anew, and with what it is
    wind = b.has("wind.noun", "got.wind") or bool(_OF_WIND & b.words())
    way = b.has("place.pin", "place.green", "dist.number") or bool(_OF_A_WAY & b.words())
    return None if wind == way else "wind" if wind else "distance"


def _which_end(b: Bundle) -> str | None:
    """Whether a number is where trouble starts or what carries it, asked for that."""
    carries = b.has("carry.verb", "carry.end", "got.carry", "join.over")
    starts = b.has("join.from", "carry.reach", "layup.go") or any(
        t.text in ("start", "the start", "begins") for t in b.tokens
    )
    return None if carries == starts else "end" if carries else "start"


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
    said = [t for t in found if not t.name.startswith("punct")]
    if not acts and len(said) == 1 and said[0].name in ("n.bare", "n.det"):
        out.append(Choice(span=_span(said[0], folded, text), about="clarify"))
    for act in acts:
        told = getattr(act, "facts", None)
        if not isinstance(told, Facts):
            continue
        if isinstance(act, Shot) and _wind_too(act.facts, said):
            options = ("wind", "distance")
            out.append(
                Choice(
                    span=Span(start=0, end=0, text=""), about="wind_or_distance", options=options
                )
            )
        wind = told.wind
        if wind is not None:
            span = _first_span("got.wind", found, folded, text)
            blows = wind.speed is None or wind.speed.value > 0
            if wind.across:
                out.append(Choice(span=span, about="wind_side", options=("left", "right")))
            elif wind.from_deg is None and wind.change is None and blows and not _calm(wind.speed):
                out.append(Choice(span=span, about="wind_dir"))
        if told.distance is not None and either_unit(text):
            span = Span(start=0, end=0, text="")
            out.append(Choice(span=span, about="units", options=("yd", "m")))
        if told.distance is not None and rivals(Bundle(found)):
            out.append(Choice(span=Span(start=0, end=0, text=""), about="distance"))
        for hazard in told.hazards:
            if hazard.reach_or_carry is not None:
                span = _first_span("got.hazard", found, folded, text)
                out.append(Choice(span=span, about="reach_or_carry", options=("start", "end")))
    return tuple(out)


def _wind_too(told: Facts, said: list[Token]) -> bool:
    """Whether a bare number, told with "now" or "about", may be a wind: "now 15"."""
    number, wind = told.distance, told.wind
    if number is None or told != Facts(distance=number, wind=wind) or number.unit:
        return False
    changed = wind is not None and wind == Wind(change=wind.change)  # "20 stronger"
    hedged = changed or number.about or any(t.name == "join.now" for t in said)
    return hedged and number.value <= _BLOWS_AT_MOST and {t.name for t in said} <= _BARE


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
    heard = [act for act in acts if isinstance(act, _HEARD)]
    used = {n for act in acts for n in _numbers_in(act.model_dump())}
    shot = [a for a in heard if isinstance(a, Shot | FollowUp) and a.facts.putt is None]
    told_side = any(isinstance(a, FollowUp) and a.not_side for a in heard)
    sides = len(shot) == len(acts) == 1 and not told_side
    of_a_putt = any(isinstance(a, Shot | FollowUp) and a.facts.putt is not None for a in heard)
    out_of_bag = all(isinstance(a, Profile) and a.intent == "remove_club" for a in heard)
    out: list[Span] = []
    for at, token in enumerate(found if heard and not of_a_putt else ()):
        if _of_lie(found, at):
            continue
        number = getattr(token.value, "value", None)
        left = token.name in _NUMBERS and number not in used
        left = left and not (out_of_bag and token.name == "got.either")  # "no 56 or 60"
        left = left and getattr(token.value, "high", None) not in used  # "52-105", a wedge's
        left = left or (sides and (_open_side(token, shot[0]) or _of_club(token, shot[0])))
        if left:
            out.append(_span(token, folded, text))
    if len(text) > LIMIT:
        out.append(Span(start=LIMIT, end=len(text), text=text[LIMIT:]))
    return tuple(out)


def _of_lie(found: list[Token], at: int) -> bool:
    """Whether a side only says in which rough, or where on the fairway, the ball lies."""
    if found[at].name not in ("side.left", "side.right"):
        return False
    before = found[at - 1].name if at else ""
    rest = (t.name for t in found[at + 1 :] if t.name not in ("join.side", "join.along"))
    return before in _LIES_IN and next(rest, "") in _TURF


def _open_side(token: Token, act: Shot | FollowUp) -> bool:
    """Whether a side is left over, and is none that was told to be safe."""
    if token.name == "x.side":  # "water on the leii side"
        return True
    family, _, side = token.name.partition(".")
    told = {*act.facts.safe, *(h.side for h in act.facts.hazards)}
    return family == "side" and token.name in _SIDES and side not in told


def _of_club(token: Token, act: Shot | FollowUp) -> bool:
    """Whether "a club" is left over: so much more or less, and no wind."""
    return token.name == "wind.club" and "a" in token.before.split() and act.facts.wind is None


def _numbers_in(value: object) -> Iterator[float]:
    """Every number that an act holds."""
    if isinstance(value, dict):
        for inner in value.values():
            yield from _numbers_in(inner)
    elif isinstance(value, list | tuple):
        for inner in value:
            yield from _numbers_in(inner)
    elif isinstance(value, int | float):
        yield value
    elif isinstance(value, str) and value[:1].isdigit():  # a club
        yield float(re.match(r"\d+", value)[0])  # type: ignore[index]
