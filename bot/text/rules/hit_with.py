"""Which numbers at the head of a message are the club that was hit?"""

from bot.text.patterns import Token
from bot.text.quantity import Num
from bot.text.rules.clubs import LOFTED, club_code

_TOOK = frozenset({"i took", "took", "i hit", "i used", "i've hit", "i've taken"})
_SUPPOSED = frozenset({"say", "if", "suppose", "had"})
_IRONS = range(2, 10)
_APART = 3  # feet: a pair of numbers no farther apart is a range: "5 to 8 feet"
_MOST = 60  # feet: what ended farther from the hole is told in yards
_THREE = 3  # tokens
_BESIDE = ("lie.rough", "lie.deep_rough", "lie.first_cut", "lie.trees", "lie.fairway_bunker")
_IN = (["join.in"], ["wind.into"])
_ENDS = ("punct.c", "punct.stop", "join.and")


def hit_with(tokens: list[Token]) -> None:
    """Turn an iron told by its number, with what became of its ball, into a club, in place.

    "7 to 12 feet" is a 7-iron that finished 12 feet away, "i took 7 instead" a club that was hit,
    "hit driver 240 left rough" a drive into the rough on the left.
    """
    _to_feet(tokens)
    _went_in(tokens)
    _instead(tokens)
    _left_short(tokens)
    _side_of_lie(tokens)


def _to_feet(tokens: list[Token]) -> None:
    at = 1 if tokens and tokens[0].name == "verb.hit" else 0
    token = tokens[at] if at < len(tokens) else None
    if token is None or not isinstance(token.value, Num):
        return
    follow = tokens[at + 1].name if at + 1 < len(tokens) else ""
    by = at == 1 and token.name == "n.len" and follow in ("side.short", "side.long")
    if token.name != "n.ft" and not by:
        return
    low, high = token.value.low, token.value.high
    apart = 0 if at == 1 else _APART
    if low is None or high is None or low not in _IRONS or not low + apart < high <= _MOST:
        return
    if follow and follow not in _ENDS and not by:
        return
    club = Token("club.iron", token.start, token.start, f"{low:g}", f"{low:g}i", token.before)
    feet = token.value._replace(value=high, low=None, high=None)
    tokens[at : at + 1] = [
        club, Token("join.to", token.start, token.start, "to"), token._replace(value=feet),
    ]  # fmt: skip


def _went_in(tokens: list[Token]) -> None:
    """Take the number for the club in "hit 7 in the left rough", "hit 7 into the water"."""
    names = [t.name for t in tokens[:3]]
    if len(tokens) == _THREE or names[:1] != ["verb.hit"] or names[2:] not in _IN:
        return
    code = club_code(tokens[1]) if names[1] in ("n.bare", "n.det") else None
    if code is not None and tokens[3].name.startswith(("side", "lie", "hazard")):
        tokens[1] = tokens[1]._replace(name="got.club", value=code)


def _instead(tokens: list[Token]) -> None:
    if len(tokens) < _THREE or tokens[2].text != "instead":
        return
    if _SUPPOSED & set(tokens[0].before.split()):
        return
    told = tokens[0].text in _TOOK or (tokens[0].text == "hit" and len(tokens) > _THREE)
    code = club_code(tokens[1])
    if not told or code is None or (len(tokens) > _THREE and tokens[3].name not in _ENDS):
        return
    tokens[:3] = [_hit(tokens[0]), tokens[1]._replace(name="got.club", value=code)]


def _left_short(tokens: list[Token]) -> None:
    """Take "left" for what the player did, and for no side: "left my 56 short"."""
    if len(tokens) < _THREE or (tokens[0].name, tokens[2].name) != ("side.left", "side.short"):
        return
    mine = tokens[1]
    if not {"my", "the"} & set(mine.before.split()):
        return
    loft = mine.name == "n.bare" and mine.value.value in LOFTED
    code = f"{mine.value.value:g}" if loft else club_code(mine)
    if code is not None:
        tokens[:2] = [_hit(tokens[0]), mine._replace(name="got.club", value=code)]


def _side_of_lie(tokens: list[Token]) -> None:
    """Put a side behind the lie it is of, so that it is not taken for what is left to go."""
    for at in range(len(tokens) - 3):
        club, number, side, lie = tokens[at : at + 4]
        hit = at == 1 and tokens[0].name in ("verb.hit", "profile.shape_word")
        long = at == 0 and club.name in ("club.D", "club.wood")
        if (
            (hit or long) and club.name.startswith("club.") and number.name in ("n.bare", "n.len")
            and side.name == "side.left" and lie.name in _BESIDE and not lie.before
        ):  # fmt: skip
            tokens[at + 2 : at + 4] = [lie, side]
            return


def _hit(token: Token) -> Token:
    return token._replace(name="verb.hit", text="hit")
