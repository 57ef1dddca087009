"""Does the message tell something about the player or the bag?"""

from bot.model.reading import Profile
from bot.text.acts.bundle import Bundle
from bot.text.patterns import Token
from bot.text.quantity import Num
from bot.text.rules.clubs import club_code

_GOES = frozenset({"wind.toward", "miss.lose", "carry.verb", "join.was"})
_IN_THE_BAG = frozenset({"profile.bag", "got.club", "join.now", "place.back", "punct.stop"})
# What may stand beside a club that the player says is not carried.
_ALONE = frozenset({"got.excluded", "join.now", "punct.stop", "side.left"})
_HIGHEST = 54.0  # handicap index: Rules of Handicapping, from memory
_I_AM_A = (["i'm", "a"], ["im", "a"], ["am", "a"])
_TODAY = ("today", "this round", "this trip", "this week")
_ME = frozenset({"i", "i'm", "im"})
_PLAYER = frozenset({"player", "hitter", "golfer", "guy", "man", "merchant", "person", "bloke"})
_THEIRS = frozenset({"his", "her", "their"})
_MISS_OF = {
    "hook": "left",
    "pull": "left",
    "draw": "left",
    "slice": "right",
    "push": "right",
    "fade": "right",
}


def profile(b: Bundle, player: str | None, text: str = "") -> Profile | None:
    """The fact about player or bag, or None."""
    left_out = b.value("got.excluded") if b.names <= _ALONE else None
    if left_out is not None and text.lower().rstrip(" .!").endswith(_TODAY):
        return Profile(intent="remove_club", club=left_out, player=player)  # "no driver today"
    others = {n for n in b.names if not (player and n.split(".")[0] in ("x", "join"))}
    looks = b.has("join.for") or any(t.text == "with" for t in b.every("join.and"))
    if b.has("profile.show") and looks and b.has("got.club"):
        return None  # "show me my numbers for the 7 iron" looks back
    if b.has("profile.bag") and others <= _IN_THE_BAG and b.tokens[0].name == "got.club":
        return Profile(intent="add_club", club=b.value("got.club"), player=player)
    if b.has("profile.show") or (b.has("profile.bag") and others <= {"profile.bag", "got.club"}):
        return Profile(intent="show", club=b.value("got.club"), player=player)
    if b.has("profile.setup"):
        return Profile(intent="start_setup", player=player)
    if b.has("profile.metric", "profile.imperial") and not b.has("got", "n"):
        units = "metric" if b.has("profile.metric") else "imperial"
        return Profile(intent="set_units", units=units, player=player)
    if b.has("profile.hand", "profile.rhand"):
        hand = "left" if b.has("profile.hand") else "right"
        return Profile(intent="set_hand", hand=hand, player=player)
    mine = any("my" in t.before.split() for t in b.every("got.index"))
    if (mine or b.has("profile.handicap", "hole.index")) and not b.has("got.hole", "hole.par"):
        number = _handicap(b) or b.first("n.bare", "n.det", "got.index")
        fell = b.value("got.wind") if b.has("profile.handicap") else None
        if number is None and fell is not None and fell.speed is not None:  # "down to 9.4 now"
            steps = fell.speed.value
            return Profile(intent="set_handicap", handicap=steps, player=player)
        if number is not None:
            value = number.value.value if isinstance(number.value, Num) else number.value
            return Profile(intent="set_handicap", handicap=float(value), player=player)
    scratch = {"scratch"} | {"golfer", "player", "handicapper"} & {t.text for t in b.tokens}
    if b.words() >= scratch and (b.has("profile.handicap") or len(scratch) > 1):
        return Profile(intent="set_handicap", handicap=0.0, player=player)
    if b.has("profile.speed"):
        number = b.first("n.speed", "n.bare")
        wind = b.value("got.wind")
        speed = number.value.measure() if number else wind.speed if wind else None
        if speed is not None:
            return Profile(intent="set_speed", speed=speed, player=player)
    if len(b.tokens) == 1 and b.tokens[0].before.split()[-2:] in _I_AM_A:
        alone = b.first("n.bare", "n.det")
        if alone is not None and alone.value.value <= _HIGHEST:  # "I'm a 15"
            return Profile(intent="set_handicap", handicap=alone.value.value, player=player)
    said = [t for t in b.tokens if t.name != "join.now"]
    heard = [t.name for t in said[:3]]
    told_more = b.has("got") or sum(isinstance(t.value, Num) for t in said) > 1
    if heard in (["join.off", "n.bare"], ["join.off", "n.bare", "punct.c"]) and not told_more:
        return Profile(intent="set_handicap", handicap=said[1].value.value, player=player)
    return _bag(b, player) or _habit(b, player)


def _handicap(b: Bundle) -> Token | None:
    """The number that stands next to the word."""
    for before, token, after in zip(b.tokens, b.tokens[1:], [*b.tokens[2:], None], strict=False):
        if token.name == "profile.handicap":
            beside = [
                t for t in (before, after) if t is not None and t.name in ("n.bare", "n.det")
            ]
            return beside[0] if beside else None
    return None


def _club(b: Bundle) -> str | None:
    found = b.value("got.club") or (b.value("got.swing_club") or (None, None))[1]
    if found is None:
        token = b.first("n.det", *(("n.bare",) if b.has("profile.lacks") else ()))
        found = club_code(token) if token else None
    return found or b.value("got.excluded")


def _carry(b: Bundle) -> Num | None:
    token = b.first("got.carry", "got.instead", "n.len", "n.bare", "got.distance")
    if token is None or not isinstance(token.value, Num) or token.value.unit == "deg":
        return None
    return token.value if 20 <= token.value.value <= 420 else None


def _bag(b: Bundle, player: str | None) -> Profile | None:
    club = _club(b)
    carry = _carry(b)
    if b.has("profile.remove") and club is not None and not b.has("punct.q", "got.distance"):
        return Profile(intent="remove_club", club=club, player=player)
    if b.has(
        "got.wind",
        "got.height",
        "got.hazard",
        "ask.what_if",
        "ask.which",
        "got.ref",
        "punct.q",
        "contact",
        "result",
        "lie",
    ) or (b.has("verb.hit") and b.has("side")):
        return None
    if (
        b.names <= _ALONE
        and any(t.name == "profile.lacks" or t.text == "broke my" for t in b.raw)
        and club is not None
    ):
        return Profile(intent="remove_club", club=club, player=player)
    if b.has("got.excluded") and b.has("profile.bag") and club is not None:
        return Profile(intent="remove_club", club=club, player=player)
    stuck = b.has("profile.bag") and b.tokens[0].text in ("stick", "in")
    if (b.has("profile.add") or stuck) and club is not None:
        return Profile(
            intent="add_club", club=club, carry=carry.measure() if carry else None, player=player
        )
    numbers = sum(1 for t in b.tokens if isinstance(t.value, Num))
    always = b.has("layup.verb") and any(t.text in ("when", "whenever") for t in b.tokens)
    if (always or b.has("profile.leave")) and numbers == 1 and b.has("got.leave"):
        return Profile(intent="set_leave", leave=b.measure("got.leave"), player=player)
    if b.has("profile.leave") and carry is not None and numbers == 1:
        return Profile(intent="set_leave", leave=carry.measure(), player=player)
    if club is None or carry is None:
        return None
    if b.club_asked():
        return None
    if _theirs(b.tokens) or b.has(
        "shape.straight", "side.short", "side.long"
    ):  # "6 iron 150 carry straight" was hit
        return None
    told = b.has(
        "got.carry", "miss.tend", "miss.lose", "profile.total", "profile.best", "carry",
        "profile.update",
    )  # fmt: skip
    mine = (
        _mine(b.tokens) or _is(b.tokens) or _now(b.tokens) or any(t.text == "=" for t in b.tokens)
    )
    if told or mine or b.tokens[0].text == "set":
        flown = b.value("got.carry") if b.has("profile.total") else None
        rolled = b.first("n.len", "n.bare") if flown is not None else None
        if flown is not None and rolled is not None:
            return Profile(
                intent="set_club", club=club, carry=flown.measure(), total=rolled.value.measure(),
                player=player,
            )  # fmt: skip
        total = b.has("profile.total")
        return Profile(
            intent="set_club", club=club, carry=None if total else carry.measure(),
            total=carry.measure() if total else None, best_ever=b.has("profile.best"),
            player=player,
        )  # fmt: skip
    return None


def _is(tokens: list[Token]) -> bool:
    """Whether the message is of the form "7 iron is 152"."""
    kinds = ("got.club", "got.swing_club", "n.len", "n.bare", "got.instead")
    head = [t for t in tokens[:2] if t.name in kinds]
    return len(head) == 2 and "is" in head[1].before.split()


def _now(tokens: list[Token]) -> bool:
    """Whether a club's number is told against the one it was: "gw 104 now not 100"."""
    names = [t.name for t in tokens if t.name not in _GOES and t.name != "punct.c"]
    numbers = ("n.len", "n.bare")
    head = names[:1] == ["got.club"] and names[1:2] and names[1] in numbers
    return bool(head) and names[2:] in (["join.now"], ["join.now", "join.not", names[1]])


def _theirs(tokens: list[Token]) -> bool:
    """Whether the club told of is another's: "he swears his 7 goes 190"."""
    said = {w for t in tokens for w in (t.text, *t.before.split())}
    return bool(_THEIRS & said) and not _mine(tokens)


def _mine(tokens: list[Token]) -> bool:
    """Whether a club is called the player's own."""
    return any(t.name in ("got.club", "n.det") and "my" in t.before.split() for t in tokens)


def _habit(b: Bundle, player: str | None) -> Profile | None:
    shape = b.first("shape")
    shape_name = shape.name.split(".")[1] if shape else None
    about_shot = b.has(
        "got.distance",
        "n.len",
        "got.ref",
        "got.wind",
        "ask.what_if",
        "ask.which",
        "n.bare",
        "n.ft",
        "got.height",
        "got.hazard",
        "punct.q",
    )
    if about_shot:
        return None
    if b.has("miss.both"):
        return Profile(intent="set_miss", miss="both", player=player)
    if b.has("miss"):
        side = b.first("side.left", "side.right") or b.first(
            "side.short", "side.long", "side.both"
        )
        if side is not None:
            return Profile(intent="set_miss", miss=side.name.split(".")[1], player=player)
        contact = b.first("contact.fat", "contact.thin")
        if contact is not None:
            return Profile(intent="set_miss", miss=contact.name.split(".")[1], player=player)
        if shape_name in _MISS_OF and b.has("miss.word"):
            return Profile(
                intent="set_miss", miss=_MISS_OF[shape_name], shape=shape_name, player=player
            )
    mine = shape is not None and bool(_ME & set(shape.before.split()))
    mine = mine and shape is not None and not shape.text.endswith("ed")
    told = [t for t in b.tokens if t.text not in _PLAYER]
    if shape is not None and mine and len(told) <= 2:
        return Profile(intent="set_shape", shape=shape_name, player=player)
    if shape_name and b.has("miss.tend", "profile.shape_word", "miss.lose"):
        return Profile(intent="set_shape", shape=shape_name, player=player)
    return None
