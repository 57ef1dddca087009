"""What unit does each number carry, and which numbers are clubs, ranges, ordinals or times?"""

from typing import Final

from bot.model.measure import Unit
from bot.text.lexicon import UNITS, longest
from bot.text.patterns import Token
from bot.text.quantity import Num

_UNIT: Final[dict[str, tuple[str, Unit]]] = {
    "yd": ("n.len", "yd"), "m": ("n.len", "m"), "pace": ("n.len", "pace"),
    "ft": ("n.ft", "ft"), "in": ("n.ft", "in"), "cm": ("n.ft", "cm"),
    "mph": ("n.speed", "mph"), "kmh": ("n.speed", "km/h"), "mps": ("n.speed", "m/s"),
    "kn": ("n.speed", "kn"), "degf": ("n.temp", "degF"), "degc": ("n.temp", "degC"),
    "deg": ("n.deg", "deg"), "pct": ("n.pct", "%"), "hpa": ("n.press", "hPa"),
    "inhg": ("n.press", "inHg"), "cup": ("n.cup", "cup"), "ball": ("n.cup", "ball"),
}  # fmt: skip
# Lengths that are speeds where they are told of a wind.
_OF_WIND: Final[dict[str, Unit]] = {"mi": "mph", "km": "km/h"}
_IRONS: Final = frozenset({"iron", "irons", "irn", "irno", "iorn", "iorns"})
_WOODS: Final = frozenset({"wood", "wd", "wud", "metal", "wod"})
_HYBRIDS: Final = frozenset({"hybrid", "hy", "hyb", "rescue", "hybird", "utility", "hybrd"})
_ISH: Final = frozenset({"ish"})
_MOST_CLUBS = 5.0  # "2c into" is a wind of two clubs
_BREAKS_IN = 72.0  # inches: no putt breaks by more in words like these
_DET: Final = frozenset({"a", "the", "my", "an", "your", "that", "his", "her"})
_ORDINALS: Final = {
    "first": 1, "third": 3, "fourth": 4, "fifth": 5, "sixth": 6, "seventh": 7, "eighth": 8,
    "ninth": 9, "tenth": 10, "eleventh": 11, "twelfth": 12, "thirteenth": 13, "fourteenth": 14,
    "fifteenth": 15, "sixteenth": 16, "seventeenth": 17, "eighteenth": 18,
}  # fmt: skip


def measures(tokens: list[Token]) -> list[Token]:
    """`tokens` with units, club numbers, times, ordinals and ranges taken into their numbers."""
    texts = [t.text for t in tokens]
    out: list[Token] = []
    at = 0
    while at < len(tokens):
        token = tokens[at]
        if token.name != "n.bare":
            if token.text in _ORDINALS and token.name == "x.word":
                token = token._replace(name="n.ord", value=_ORDINALS[token.text])
            out.append(token)
            at += 1
            continue
        made, used = _one(tokens, texts, at, out)
        out.append(made)
        at += used
    return _ranges(out)


def _one(tokens: list[Token], texts: list[str], at: int, out: list[Token]) -> tuple[Token, int]:
    """The token a number at `at` becomes with what follows it, and how many it takes."""
    token = tokens[at]
    num: Num = token.value
    follow = texts[at + 1] if at + 1 < len(texts) else ""
    glued = at + 1 < len(tokens) and tokens[at + 1].start == token.end
    whole = num.value == int(num.value) if abs(num.value) < 1e9 else False
    value = int(num.value) if whole else -1
    if token.text.isdigit() and (len(token.text) > 5 or token.text[:1] == "0" != token.text):
        if len(token.text) > 2 and out and out[-1].name == "n.bare" and out[-1].text.isdigit():
            out[-1] = out[-1]._replace(name="n.junk")  # a telephone number in two parts
        return token._replace(name="n.junk"), 1
    slip = out[-1] if out and out[-1].name == "x.word" and out[-1].end == token.start else None
    if slip is not None and len(slip.text) == 1 and slip.text.isalpha():
        return token._replace(name="got.either", value=None), 1  # "q65": a longer number
    if follow in (":", ".") and glued and at + 2 < len(tokens) and value in range(25):
        third = tokens[at + 2]
        if third.name == "n.bare" and third.start == tokens[at + 1].end and (
            len(third.text) == 2
        ):  # fmt: skip
            after = texts[at + 3] if at + 3 < len(tokens) else ""
            of_wind = texts[max(at - 1, 0)] == "from" or after in ("wind", "breeze")
            half = third.text == "30" and of_wind
            hour = 1 <= value <= 12 and (third.text == "00" or half)
            num = num._replace(value=num.value + 0.5) if hour and half else num
            name = "n.clock" if hour else "n.junk"
            return token._replace(name=name, end=third.end, value=num), 3
    if follow in ("am", "pm") and 1 <= value <= 12:
        return token._replace(name="n.junk", end=tokens[at + 1].end), 2
    if follow in ("o'clock", "oclock", "o'clck", "oclk", "o'c", "oc", "o clock"):
        return token._replace(name="n.clock", end=tokens[at + 1].end), 2
    if follow == "o" and texts[at + 2 : at + 3] in (["clock"],):
        return token._replace(name="n.clock", end=tokens[at + 2].end), 3
    if glued and follow in ("st", "nd", "rd", "th"):
        return Token("n.ord", token.start, tokens[at + 1].end, token.text, value, token.before), 2
    if glued and 2 <= value <= 9 and texts[at + 1 : at + 3] == ["'", "s"]:  # "my 7's 160"
        return token._replace(name="n.det", end=tokens[at + 2].end), 3
    club = _club(value, texts, at, glued)
    if club is not None:
        (kind, number), used = club
        made = Token(f"club.{kind}", token.start, tokens[at + used - 1].end, token.text, number)
        return made, used
    step = at + 1
    if step < len(texts) and texts[step] == "-" and step + 1 < len(texts):
        known = longest(UNITS, texts, step + 1)
        touching = tokens[step + 1].start == tokens[step].end and glued
        if known and touching and texts[step + 1] not in ("l", "r", "f", "c", "m"):
            step += 1
    if step < len(texts) and texts[step] in _ISH:
        num = num._replace(about=True)
        step += 1
    elif step + 1 < len(texts) and texts[step] == "-" and texts[step + 1] in _ISH:
        num = num._replace(about=True)
        step += 2
    if (step < len(texts) and texts[step] in ("club", "clubs")) or _of_clubs(texts, step):
        return _clubs(token, num, tokens, texts, step)
    known = longest(UNITS, texts, step) if step < len(texts) else None
    blown = step + 1 < len(tokens) and tokens[step + 1].name.startswith("wind.")
    if known is None and blown and texts[step] == "k":
        known = (1, "kmh")  # "fifteen k helping"
    if known is None and _glued_inches(num, tokens, step):
        known = (1, "in")
    if known is None:
        det = tokens[at - 1].text if at else ""
        name = "n.det" if det in _DET and whole and 1 <= value <= 9 else "n.bare"
        return token._replace(name=name, end=tokens[step - 1].end, value=num), step - at
    used, unit = known
    end = tokens[step + used - 1].end
    tight = tokens[step].start == tokens[step - 1].end
    if unit == "in" and texts[step] == "in" and num.value > _BREAKS_IN:  # "153 in."
        return token._replace(value=num), 1
    if unit == "degf" and texts[step] == "f" and not (tight and 20 <= num.value <= 125):
        return token._replace(value=num), 1
    if unit == "degc" and texts[step] == "c" and not tight and num.value > 45:
        return token._replace(value=num), 1
    follow = tokens[step + used].name if step + used < len(tokens) else ""
    if (
        unit == "degc"
        and texts[step] == "c"
        and num.value <= _MOST_CLUBS
        and follow[:5] == "wind."
    ):
        return token._replace(name="n.clubs", end=end, value=num._replace(unit="club")), 2
    if unit in _OF_WIND and follow == "wind.noun":
        num = num._replace(unit=_OF_WIND[unit])
        return token._replace(name="n.speed", end=end, value=num), step - at + used
    if unit == "mi":
        return _scaled(token, num, 1760.0, "yd", end), step - at + used
    if unit == "km":
        return _scaled(token, num, 1000.0, "m", end), step - at + used
    name, said = _UNIT[unit]
    num = num._replace(unit=said)
    stop = step + used
    if said == "ft":
        num, stop = _inches(num, tokens, texts, step, stop)
        end = tokens[stop - 1].end
    if stop < len(texts) and texts[stop] in _ISH:
        num = num._replace(about=True)
        stop += 1
    text = f"{token.text} {texts[step]}"
    return token._replace(name=name, end=end, text=text, value=num), stop - at


def wind_unit_named(words: list[str]) -> Unit | None:
    """The unit of a wind that words name, or None."""
    known = longest(UNITS, words, 0)
    if known is None:
        return None
    return _OF_WIND.get(known[1]) or _UNIT[known[1]][1]


def _glued_inches(num: Num, tokens: list[Token], step: int) -> bool:
    """Whether "8in" is a width: glued, small, and in a message that tells feet as well."""
    if step >= len(tokens) or tokens[step].text != "in" or num.value > _BREAKS_IN:
        return False
    glued = tokens[step].start == tokens[step - 1].end
    return glued and any(t.name == "n.ft" or t.text in ("ft", "feet", "foot") for t in tokens)


def _inches(
    num: Num, tokens: list[Token], texts: list[str], step: int, stop: int
) -> tuple[Num, int]:
    """Feet with the inches told behind them, and where both end."""
    at = stop + 1 if texts[stop : stop + 1] == ["and"] else stop
    if at >= len(tokens) or tokens[at].name != "n.bare" or tokens[at].value.value >= 12:
        return num, stop
    inches: Num = tokens[at].value
    more = longest(UNITS, texts, at + 1) if at + 1 < len(texts) else None
    if more is not None and more[1] == "in":
        return num._replace(value=num.value + inches.value / 12), at + 1 + more[0]
    if at + 1 < len(texts) and texts[at + 1] == "in" and at + 2 == len(texts):
        return num._replace(value=num.value + inches.value / 12), at + 2
    if texts[step] == "'" and tokens[at].start == tokens[stop - 1].end:
        return num._replace(value=num.value + inches.value / 12), at + 1
    return num, stop


def _scaled(token: Token, num: Num, factor: float, unit: Unit, end: int) -> Token:
    return token._replace(
        name="n.len", end=end, value=num._replace(value=num.value * factor, unit=unit)
    )


def _of_clubs(texts: list[str], step: int) -> bool:
    return texts[step : step + 2] in (["of", "club"], ["-", "club"])


def _clubs(
    token: Token, num: Num, tokens: list[Token], texts: list[str], step: int
) -> tuple[Token, int]:
    """A number of clubs: "2 clubs", "club and a half" is found by a rule."""
    used = 1 if texts[step] in ("club", "clubs") else 2
    end = tokens[step + used - 1].end
    at = tokens.index(token)
    stop = step + used
    if texts[stop : stop + 3] == ["and", "a", "half"]:
        num = num._replace(value=num.value + 0.5)
        stop += 3
        end = tokens[stop - 1].end
    return token._replace(name="n.clubs", end=end, value=num._replace(unit="club")), stop - at


def _club(
    value: int, texts: list[str], at: int, glued: bool
) -> tuple[tuple[str, str], int] | None:
    """A club told by its number: name of the token and code, and how many tokens it takes."""
    follow = texts[at + 1] if at + 1 < len(texts) else ""
    after = texts[at + 2] if at + 2 < len(texts) else ""
    used = 2
    if follow == "-" and after in _IRONS | _WOODS | _HYBRIDS | {"i", "w", "h"}:
        follow, used = after, 3
    if 1 <= value <= 9:
        if follow in _IRONS or (follow == "i" and (glued or at + 2 >= len(texts))):
            return ("iron", f"{value}i"), used
        if follow in _WOODS or (follow == "w" and glued):
            return ("wood", f"{value}w" if value > 1 else "D"), used
        if follow in _HYBRIDS or (follow in ("h", "hy") and glued):
            return ("hybrid", f"{value}h"), used
    if 44 <= value <= 64:
        if follow in ("wedge", "wdge"):
            return ("loft", str(value)), 2
        if follow in ("deg", "degree", "degrees", "°", "*") and after in ("wedge", "wdge"):
            return ("loft", str(value)), 3
    return None


def _ranges(tokens: list[Token]) -> list[Token]:
    """Join "150-165" and "160 to 172 yards" into one number with a low and a high end."""
    out: list[Token] = []
    at = 0
    while at < len(tokens):
        token = tokens[at]
        if token.name in ("n.bare", "n.len", "n.speed", "n.ft") and at + 2 < len(tokens):
            middle, last = tokens[at + 1], tokens[at + 2]
            joined = middle.text in ("-", "to", "til", "until") or (
                middle.text == "and" and at > 0 and tokens[at - 1].text in ("between", "btwn")
            )
            chained = at + 3 < len(tokens) and tokens[at + 3].text == "-" and middle.text == "-"
            chained = chained or (middle.text == "-" and at > 1 and tokens[at - 1].text == "-")
            if (
                joined
                and not chained
                and last.name.startswith("n.")
                and isinstance(last.value, Num)
            ):
                a: Num = token.value
                b: Num = last.value
                if b.value <= 9 and last.name == "n.bare":
                    out.append(token)
                    at += 1
                    continue
                same = token.name == last.name or token.name == "n.bare"
                tight = middle.text != "-" or last.start - token.end <= 3
                if (
                    same
                    and tight
                    and 0 < a.value < b.value
                    and a.low is None
                    and b.value < 10 * a.value
                ):
                    num = b._replace(value=(a.value + b.value) / 2, low=a.value, high=b.value)
                    out.append(Token(last.name, token.start, last.end, "", num, token.before))
                    at += 3
                    continue
        out.append(token)
        at += 1
    return out
