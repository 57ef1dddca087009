"""Which numbers does a message hold: digits, fractions, number words, signs and ranges?"""

from typing import Final

from bot.text.patterns import Token
from bot.text.quantity import Num

_ONES: Final = {
    "zero": 0, "nought": 0, "naught": 0,
    "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7,
    "eight": 8, "nine": 9, "won": 1, "wan": 1, "wun": 1, "wonn": 1,
    "ate": 8, "sicks": 6, "fiver": 5, "niner": 9, "foor": 4, "sevn": 7,
    "eigth": 8, "fve": 5, "tow": 2, "thre": 3, "sevven": 7, "eght": 8,
}  # fmt: skip
_TEENS: Final = {
    "ten": 10, "eleven": 11, "twelve": 12, "thirteen": 13, "fourteen": 14, "fifteen": 15,
    "dozen": 12,
    "sixteen": 16, "seventeen": 17, "eighteen": 18, "nineteen": 19, "twelv": 12, "elevn": 11,
    "fiften": 15, "forteen": 14, "ninteen": 19, "fifeteen": 15, "thriteen": 13, "elven": 11,
}  # fmt: skip
_TENS: Final = {
    "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70,
    "eighty": 80, "ninety": 90, "fourty": 40, "thrity": 30, "fity": 50, "sixy": 60, "ninty": 90,
    "twenny": 20, "twnety": 20, "fiffty": 50, "eigthy": 80, "sevnty": 70, "seventey": 70,
    "fifity": 50, "sixtey": 60, "thirdy": 30, "tweny": 20, "eighy": 80, "nintey": 90,
}  # fmt: skip
_LARGE: Final = {"thousand": 1e3, "million": 1e6, "billion": 1e9, "gazillion": 1e12, "grand": 1e3}
_LARGEST: Final = 1e12
# What a number of its own follows: "hole 1 45 left" is no 145.
_COUNTED: Final = frozenset({"hole.word", "hole.par", "hole.index", "score.made", "verb.hit"})
_MANY: Final = {"million": 1e6, "billion": 1e9, "zillion": 1e9, "gazillion": 1e12}
_ENDLESS: Final = frozenset({"infinity", "infinite", "∞"})
_HOMOPHONES: Final = frozenset({"won", "wan", "wun", "wonn", "ate", "tow", "sicks"})
_CLUB_NOUNS: Final = frozenset(
    {"iron", "irons", "wood", "hybrid", "irn", "metal", "clubs", "club"}
)
_MEASURED: Final = frozenset({"foot", "feet", "footer", "yards", "mph"})
_YARDS: Final = frozenset({"yards", "yds", "yard", "yrds", "yrads", "metres", "meters", "m", "y"})
_SUCH: Final = frozenset({"long", "short", "tough", "nasty", "tricky", "big", "little", "slick"})
_FEET: Final = frozenset({"foot", "feet", "footer", "ft"})
_ABOUT: Final = frozenset({"about", "around", "roughly", "~", "maybe", "approx", "approximately",
                           "say", "nearly", "almost", "probably"})  # fmt: skip
WORDS: Final = (
    frozenset(_ONES) | _TEENS.keys() | _TENS.keys() | _LARGE.keys() | {"hundred", "buck"}
)
SPELT: Final = (
    "three", "seven", "eight", "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen",
    "seventeen", "eighteen", "nineteen", "twenty", "thirty", "forty", "fifty", "sixty", "seventy",
    "eighty", "ninety", "hundred", "thousand",
)  # fmt: skip
"""Number words as they are written rightly: what a slip may be mended to."""
_STARTS: Final = WORDS - _LARGE.keys() - _HOMOPHONES


def is_number_word(text: str) -> bool:
    """Whether `text` can be part of a number told in words."""
    return text in WORDS


def numbers(tokens: list[Token]) -> list[Token]:
    """`tokens` with every run of digits or number words made one ``n.bare`` token."""
    out: list[Token] = []
    at = 0
    while at < len(tokens):
        token = tokens[at]
        made: tuple[float, int, bool] | None = None
        if token.name == "d":
            made = _digits(tokens, at)
        elif _a_long_one(out, tokens, at):
            made = None
        elif token.text in _ENDLESS or _so_many(tokens, at):
            made = _MANY.get(token.text, _LARGEST), 1, True
        elif token.name == "x.word" or token.text in _STARTS or token.text in ("too", "to"):
            made = _words(tokens, at) or _heard(tokens, at)
        else:
            made = _heard(tokens, at)
        if made is None:
            out.append(token)
            at += 1
            continue
        value, used, _ = made
        about = bool(out) and out[-1].text in _ABOUT
        sign, drop = _sign(out, tokens, at)
        if drop:
            out.pop()
        start = token.start
        text = " ".join(t.text for t in tokens[at : at + used])
        num = Num(value * (sign or 1), about=about, signed=sign is not None)
        out.append(Token("n.bare", start, tokens[at + used - 1].end, text, num))
        at += used
    return out


def _so_many(tokens: list[Token], at: int) -> bool:
    """Whether "a million" is a number of yards."""
    follow = tokens[at + 1].text if at + 1 < len(tokens) else ""
    return tokens[at].text in _MANY and follow in _YARDS


def _a_long_one(out: list[Token], tokens: list[Token], at: int) -> bool:
    """Whether "one" stands for a putt or a shot: "long one thirty feet"."""
    told = out[-1].text if out else ""
    follow, unit = ([t.text for t in tokens[at + 1 : at + 3]] + ["", ""])[:2]
    long = follow in _TENS or follow in _TEENS
    return tokens[at].text == "one" and told in _SUCH and long and unit in _FEET


def _sign(out: list[Token], tokens: list[Token], at: int) -> tuple[int | None, bool]:
    """The sign told before a number, and whether the last token was that sign."""
    if not out:
        return None, False
    last = out[-1]
    touching = last.end == tokens[at].start
    free = len(out) == 1 or out[-2].end < last.start or not out[-2].name.startswith("n.")
    if last.text in {"minus", "negative"}:
        return -1, True
    if last.text == "plus" and len(out) > 1 and out[-2].text in {"elevation", "height"}:
        return 1, True
    if last.text == "-" and touching and free and (len(out) == 1 or out[-2].end < last.start):
        return -1, True
    if last.text == "+" and touching and free:
        return 1, True
    return None, False


def _thousands(tokens: list[Token], at: int) -> tuple[float, int] | None:
    """A number of three groups or more, such as 1,500,000."""
    run = tokens[at : at + 9]
    size = 1
    while size + 1 < len(run) and run[size].text == "," and len(run[size + 1].text) == 3:
        touching = run[size].start == run[size - 1].end and run[size + 1].start == run[size].end
        if run[size + 1].name != "d" or not touching:
            break
        size += 2
    if size < 5 or len(run[0].text) > 3:
        return None
    return float("".join(t.text for t in run[:size:2])), size


def _spaced(tokens: list[Token], at: int) -> tuple[float, int] | None:
    """A distance whose figures stand apart: "1 45", "1 6 0", or "1 1" behind a wind."""
    first, rest = tokens[at], tokens[at + 1 : at + 3]
    run = [first]
    for token in rest:
        if token.name != "d" or token.start != run[-1].end + 1 or not token.text.isdigit():
            break
        run.append(token)
    figures = [t.text for t in run]
    before = tokens[at - 1] if at else None
    follow = tokens[at + 2].text if len(run) > 1 and at + 2 < len(tokens) else ""
    if (
        len(first.text) == 2
        and first.text[0] in "12"
        and follow in _YARDS
        and len(figures[1]) == 1
        and not any(t.name == "d" for t in tokens[:at])
    ):
        return float(figures[0] + figures[1]), 2  # "15 7 yds", but not "152, into 12 4 m up"
    if first.text not in ("1", "2") or (before is not None and before.name in _COUNTED):
        return None
    if len(run) > 1 and len(figures[1]) == 2:
        return float(figures[0] + figures[1]), 2
    if len(run) == 3 and all(len(f) == 1 for f in figures):
        return float("".join(figures)), 3
    blown = before is not None and before.name.split(".")[0] in ("wind", "side")
    if blown and len(run) == 2 and len(figures[1]) == 1:
        return float("".join(figures)), 2
    return None


def _digits(tokens: list[Token], at: int) -> tuple[float, int, bool]:
    """A number that begins with digits, and how many tokens it takes."""
    text = tokens[at].text
    apart = _spaced(tokens, at)
    if apart is not None:
        return apart[0], apart[1], False
    value = min(float(text), _LARGEST) if len(text) < 40 else _LARGEST
    used = 1

    def peek(step: int) -> Token | None:
        return tokens[at + step] if at + step < len(tokens) else None

    groups = _thousands(tokens, at)
    if groups is not None:
        return groups[0], groups[1], False
    # 2,600 and 1,5
    comma, more = peek(1), peek(2)
    if (
        comma is not None and more is not None and comma.text == "," and more.name == "d"
        and comma.start == tokens[at].end and more.start == comma.end and "." not in text
    ):  # fmt: skip
        after = peek(3)
        alone = after is None or after.start > more.end or after.text != ","
        whole = len(text) == 1 or (len(text) < 4 and more.text[0] == "0")
        if len(more.text) == 3 and whole and text != "0" and alone:
            value, used = value * 1000 + float(more.text), 3
        elif len(more.text) <= 2 and len(text) <= 2 and alone and "." not in more.text:
            value, used = value + float(more.text) / 10 ** len(more.text), 3
    # 3/4, 10 1/2, 10 and a half
    slash, below = peek(used), peek(used + 1)
    if (
        slash is not None and below is not None and slash.text == "/" and below.name == "d"
        and slash.start == tokens[at].end and below.start == slash.end and used == 1
        and (text, below.text) in {("1", "2"), ("1", "4"), ("3", "4"), ("1", "3"), ("2", "3")}
    ):  # fmt: skip
        return value / float(below.text), 3, False
    first, slash, below = peek(used), peek(used + 1), peek(used + 2)
    if (
        first is not None and slash is not None and below is not None
        and first.name == "d" and slash.text == "/" and below.name == "d"
        and slash.start == first.end and below.start == slash.end
        and (first.text, below.text) in {("1", "2"), ("1", "4"), ("3", "4")}
    ):  # fmt: skip
        return value + float(first.text) / float(below.text), used + 3, False
    scale = peek(used)
    tens = None if scale is None else _TENS.get(scale.text, _TEENS.get(scale.text))
    if tens is not None and scale is not None and scale.start == tokens[at].end and value < 10:
        return value * 100 + tens, used + 1, False  # "2ten"
    if scale is not None and scale.text in _LARGE:
        return value * _LARGE[scale.text], used + 1, False
    if scale is not None and scale.text == "hundred" and value < 10:
        tail = at + used + 1
        if peek(used + 1) is not None and tokens[tail].text == "and":
            tail += 1
        if tail < len(tokens) and tokens[tail].name == "d" and tokens[tail].text.isdigit():
            ones = float(tokens[tail].text[:3])
            if ones < 100 and tail > at + used + 1:
                return value * 100 + ones, tail + 1 - at, False
        rest = _words(tokens, at + used + 1, small=True)
        extra = rest[0] if rest and rest[0] < 100 else 0
        return value * 100 + extra, used + 1 + (rest[1] if rest and rest[0] < 100 else 0), False
    half = _half(tokens, at + used)
    return value + (0.5 if half else 0), used + half, False


def _after_wind(text: str, tokens: list[Token], at: int) -> bool:
    """Whether "ate" stands where only a wind's number can."""
    if text != "ate":
        return False
    before = next((t for t in reversed(tokens[:at]) if t.name != "filler.skip"), None)
    return before is not None and (
        before.name.startswith(("wind.", "side.")) or before.text == "at"
    )


# What follows a number, so that "forty for yards" ends in a figure.
_AFTER_FIGURE: Final = frozenset({"to", "with", "yards", "yds", "yard", "metres", "meters", "feet",
                                  "foot", "out"})  # fmt: skip
_FEET_OR_MILES: Final = frozenset({"feet", "foot", "ft", "mph", "mile", "miles"})
# What dictation hears for the last figure of a number, and for the strength of a wind.
_AFTER_TENS: Final = {"for": 4, "fore": 4, "to": 2, "too": 2}
_ODD: Final = {"tin": 10, "sicks": 6}
_AFTER_WIND: Final = _AFTER_TENS | _ODD


def _heard(tokens: list[Token], at: int) -> tuple[float, int, bool] | None:
    """A number that dictation wrote as a small word right behind a wind word."""
    value = _AFTER_WIND.get(tokens[at].text)
    follow = tokens[at + 1].text if at + 1 < len(tokens) else ""
    if tokens[at].text in ("for", "fore") and follow in _FEET_OR_MILES:
        return 4.0, 1, True
    before = tokens[at - 1].name if at else ""
    odd = tokens[at].text in _ODD and before.startswith(("side.", "wind."))
    if value is None or not (odd or before in ("wind.into", "wind.help")):
        return None
    after = tokens[at + 1] if at + 1 < len(tokens) else None
    if after is not None and (after.text in WORDS or after.name in ("d", "filler.skip")):
        return None
    if after is not None and after.name == "x.word" and not odd:
        return None  # "not into it for once"
    return float(value), 1, True


def _compose(left: str, right: str) -> bool:
    """Whether two number words with a hyphen are one number, and not a range."""
    if left in _TENS:
        return right in _ONES
    if left in ("oh", "o"):
        return right in _ONES
    return left in _ONES and (right in _TENS or right in _TEENS or right in ("hundred", "oh", "o"))


def hyphens(tokens: list[Token]) -> list[Token]:
    """`tokens` without the hyphens that join number words, as in "fifty-two"."""
    out: list[Token] = []
    for at, token in enumerate(tokens):
        if (
            token.text == "-" and out and at + 1 < len(tokens)
            and _compose(out[-1].text, tokens[at + 1].text)
            and out[-1].end == token.start and token.end == tokens[at + 1].start
        ):  # fmt: skip
            continue
        out.append(token)
    return out


def _point(tokens: list[Token], at: int) -> tuple[float, int]:
    """The decimals told after "point" at `at`, and how many tokens they take."""
    if at >= len(tokens) or tokens[at].text != "point":
        return 0.0, 0
    figures = ""
    used = 1
    while at + used < len(tokens) and len(figures) < 4:
        token = tokens[at + used]
        digit = _ONES.get(token.text, _TEENS.get(token.text))
        if token.name == "d" and token.text.isdigit():
            figures += token.text
        elif digit is not None and token.text not in _HOMOPHONES:
            figures += str(digit)
        else:
            break
        used += 1
    return (float(f"0.{figures}"), used) if figures else (0.0, 0)


def _half(tokens: list[Token], at: int) -> int:
    """How many tokens "and a half" takes at `at`, or 0."""
    texts = [t.text for t in tokens[at : at + 3]]
    if texts[:3] == ["and", "a", "half"]:
        return 3
    if texts[:2] == ["and", "half"]:
        return 2
    return 0


def _words(tokens: list[Token], at: int, small: bool = False) -> tuple[float, int, bool] | None:
    """A number told in words from `at`, and how many tokens it takes.

    Two readings of dictation are joined: sums ("one hundred and sixty two") and figures said
    one after the other ("one sixty two", "two eleven", "one oh five", "one five five").
    """
    texts = [t.text for t in tokens[at : at + 12]]
    tens = len(texts) > 1 and (texts[1] in _TENS or texts[1] in _TEENS)
    if texts[:1] == ["too"] and (tens or texts[1:2] in (["hundred"], ["oh"])):
        texts[0] = "two"
    if texts[:2] == ["to", "hundred"] and at == 0:
        texts[0] = "two"
    if texts[:1] == ["to"] and tens and at == 0 and {"left", "out", "to"} & set(texts[2:4]):
        texts[0] = "two"  # "to thirty eight left" opens with a number
    if not texts or texts[0] not in (WORDS if small else _STARTS | _HOMOPHONES):
        return None
    if texts[0] in _HOMOPHONES and not small:
        follow = texts[1] if len(texts) > 1 else ""
        told = follow in _TENS or follow in _TEENS or follow == "hundred"
        told = told or follow in _MEASURED
        told = told or _after_wind(texts[0], tokens, at)
        if not (told or (follow in _CLUB_NOUNS)):
            return None
    if texts[0] == "buck" and (len(texts) < 2 or texts[1] not in _TENS | _TEENS):
        return 100.0, 1, False
    total = 0.0
    group = 0.0  # below the last thousand
    used = 0
    last = 0  # size of the last part: 100, 10, 1; 0 at the start
    parts: list[tuple[int, int]] = []  # tokens used and value before each part
    while used < len(texts):
        text = texts[used]
        nxt = texts[used + 1] if used + 1 < len(texts) else ""
        if last == 100 and tokens[at + used].name == "d" and len(text) <= 2:
            unit = tokens[at + used + 1].text if at + used + 1 < len(tokens) else ""
            if unit in _YARDS:  # "onehundred 12 yards"
                total, used = total + float(text), used + 1
                parts.append((used, int(group)))
            break
        if text in ("and", "an", "n") and last in (100, 1000) and nxt not in _LARGE:
            ones = tokens[at + used + 1] if at + used + 1 < len(tokens) else None
            if nxt in WORDS:
                used += 1
                continue
            if last == 100 and ones is not None and ones.name == "d" and len(nxt) <= 2:
                total, used = total + float(nxt), used + 2
                parts.append((used, int(group)))
            break
        figure = nxt in _ONES or nxt in _AFTER_TENS
        if text in ("oh", "o", "zero") and parts and last in (1, 100) and figure:
            if last == 1 and group < 10:
                group *= 10
                if len(parts) == 1:
                    group *= 10
                used += 1
                last = 10
                continue
            break
        if text in ("hundred", "buck"):
            if last == 0:
                group = 100.0
            elif last in (1, 10, 11) and group < 100:
                group *= 100.0
            else:
                break
            last = 100
        elif text in _AFTER_TENS and last == 10 and group % 10 == 0:
            after = tokens[at + used + 1] if at + used + 1 < len(tokens) else None
            blown = after is not None and after.name in ("wind.into", "wind.help", "wind.noun")
            if not (
                blown or text == "too" or nxt in _AFTER_FIGURE or (nxt == "," and text[0] == "f")
            ):
                break
            group, last = group + _AFTER_TENS[text], 1
        elif text in _LARGE:
            if last == 0:
                break
            total += max(group, 1.0) * _LARGE[text]
            group, last = 0.0, 1000
        elif text in _TENS or text in _TEENS:
            size = _TENS.get(text, _TEENS.get(text, 0))
            if last in (0, 100, 1000):
                group += size
            elif last == 1 and group < 10:
                group = group * 100 + size
            else:
                break
            last = 10 if text in _TENS else 11
        elif text in _ONES:
            size = _ONES[text]
            if (
                text in _HOMOPHONES
                and last == 0
                and nxt not in _TENS | _TEENS
                and nxt != "hundred"
            ) and not (nxt in _CLUB_NOUNS | _MEASURED or _after_wind(text, tokens, at)):
                break
            if last in (0, 100, 1000) or (last == 10 and group % 10 == 0):
                if parts and last == 10 and nxt in _CLUB_NOUNS:
                    break
                group += size
            elif last == 1 and group < 10 and len(parts) == 1:
                third = nxt in _ONES or nxt in ("oh", "zero")
                if not third:
                    break
                group = group * 10 + size
                used += 1
                group = group * 10 + (_ONES.get(nxt, 0))
                last = 99
            else:
                break
            last = 1 if last != 99 else 99
        else:
            break
        used += 1
        parts.append((used, int(group)))
    if not parts:
        return None
    half = _half(tokens, at + used)
    decimals, more = _point(tokens, at + used)
    value = total + group + (0.5 if half else 0) + decimals
    return value, used + half + more, True
