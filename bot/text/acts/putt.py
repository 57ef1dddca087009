"""What was told of a putt: its length, its slope, and to which side it breaks by how much?

A side is taken for the break only where it was said of the ball ("breaks left", "left to
right"); where it was said of the aim ("two balls outside left") the ball breaks the other
way; a bare side, and one of an edge, which players say of either, is left open: the wrong one
is worse than a question.
"""

from collections.abc import Sequence
from typing import Literal, NamedTuple

from bot.model.measure import Measure
from bot.model.reading import Putt, Side
from bot.text.patterns import Token

Word = Literal["little", "some", "big"]
_THINGS = {"cup": "cup", "cups": "cup", "ball": "ball", "balls": "ball"}
_HALF_A_HOLE = {"cup": 0.5, "ball": 1.265}  # from the middle to the edge: 4.25 / 2 / 1.68 balls
_LITTLE = frozenset({"slight", "slightly", "little", "touch", "bit", "hair", "tad", "gently"})
_BIG = frozenset({"lot", "loads", "big", "massive", "tons", "steep", "steeply", "hard", "miles"})
_FALLS = frozenset({"falls", "falling", "fall", "drops"})
ROLLS = frozenset({"roll", "go", "turn", "move", "curve", "bend", "rolls", "moves", "curves"})
"""What a ball on the green does towards a side."""
_VERBS = ROLLS | frozenset({
    "goes", "going", "turns", "turning", "runs", "rolls", "comes",
    "takes", "cuts", "dives", "bends", "bending", "pulls", "tilting", "sloping", "banks",
})  # fmt: skip
_BREAKING = ("breaks", "l2r", "r2l", "left", "right")
_OTHER = {"left": "right", "right": "left"}
_EDGES = frozenset({"edge", "lip"})
_OUTSIDE = frozenset({"out", "outside", "aim", "aiming", "aimed"})
_SWINGS = "out to"  # "swings out to my right" is where the ball goes
_LENGTHS = frozenset({"n.ft", "n.len"})
_SMALL = frozenset({"in", "cm"})
_UP = frozenset({"putt.up", "height.up", "height.uphill"})
_DOWN = frozenset({"putt.down", "height.down", "height.downhill"})
_FLAT = frozenset({"height.flat", "height.level"})


class Told(NamedTuple):
    """A putt, and whether it was said to be straight."""

    putt: Putt
    straight: bool


class _Mark(NamedTuple):
    """A token of use: what it is, what it says, where its clause is."""

    kind: str
    value: object
    clause: int
    footer: bool = False


def putt(tokens: Sequence[Token]) -> Told:
    """Return the putt told by tokens on which no rule has worked yet."""
    marks = _marks(tokens)
    length = _length(marks)
    rest = [m for m in marks if m is not length]
    slope, slope_size, slope_word = _slope(rest, marks, length)
    first, second, size, word = _break(rest, taken=slope_size)
    made = Putt(
        length=None if length is None else _measure(length),
        slope=slope,
        slope_size=None if slope_size is None else _measure(slope_size),
        slope_word=slope_word,
        break_to=first,
        second_break_to=second,
        break_size=size,
        break_word=word,
    )
    return Told(made, any(m.kind == "straight" for m in marks))


def _marks(tokens: Sequence[Token]) -> list[_Mark]:
    marks: list[_Mark] = []
    clause = 0
    speed = False  # a number next to "stimp" is the green's
    for i, token in enumerate(tokens):
        after = tokens[i + 1].name if i + 1 < len(tokens) else ""
        beyond = next((t.name for t in tokens[i + 1 :] if not t.name.startswith("join")), "")
        words = set(f"{token.before} {token.text}".split())
        if words & _LITTLE:
            marks.append(_Mark("little", None, clause))
        if words & _BIG:
            marks.append(_Mark("big", None, clause))
        kind = _kind(token)
        if kind == "thing" and {"the", "ball"} <= words:
            kind = None  # "the ball will roll right" tells no width
        if kind in ("left", "right") and words & _VERBS:
            marks.append(_Mark("breaks", None, clause))
        if kind in _OTHER and _high_side(tokens[:i]):
            marks.append(_Mark("breaks", None, clause))
            kind = _OTHER[kind]
        if kind in ("up", "down") and i and tokens[i - 1].name == "join.not":
            continue
        if kind == "breaks" and _denied(tokens[:i]):
            continue  # no break
        if words & _FALLS and beyond in ("side.left", "side.right"):
            kind = "breaks"  # "falls left" tells where it breaks, "falls" alone that it is down
        if token.name == "punct.c":
            clause += 1
        elif token.name in ("n.bare", "n.det") and (speed or after == "ground.stimp"):
            pass
        elif kind is not None:
            value = token.value if token.name.startswith(("n.", "wind.")) else token.text
            marks.append(_Mark(kind, value, clause, token.text.endswith(("footer", "footers"))))
            if kind == "thing" and words & _OUTSIDE and token.text != _SWINGS:
                marks.append(_Mark("out", None, clause))
        speed = token.name == "ground.stimp"
    return marks


def _high_side(before: Sequence[Token]) -> bool:
    """Whether what follows is the side from which a putt breaks: "high side is left"."""
    return [t.text for t in before[-2:]] == ["high", "side"]


def _denied(before: Sequence[Token]) -> bool:
    """Whether what follows is denied: "no break", "not much break"."""
    told = [t for t in before[-2:] if t.text not in ("much", "lot", "real")]
    return bool(told) and told[-1].name == "join.not"


def _kind(token: Token) -> str | None:
    """What a token is to a putt, or None."""
    name, words = token.name, set(token.text.split())
    if words & set(_THINGS) and not name.startswith("wind."):
        return "thing"
    if name in _LENGTHS:
        return "len"
    named = {
        "n.pct": "pct", "n.deg": "pct", "n.bare": "bare", "n.det": "bare", "swing.half": "half",
        "side.left": "left", "side.right": "right", "wind.l2r": "l2r", "wind.r2l": "r2l",
        "putt.breaks": "breaks", "putt.noun": "noun", "dist.out": "out",
        "shape.straight": "straight",
    }.get(name)  # fmt: skip
    if named is not None:
        return named
    if name in _UP:
        return "up"
    if name in _DOWN:
        return "down"
    if name in _FLAT:
        return "flat"
    if words & _VERBS:
        return "breaks"
    if words & _EDGES:
        return "edge"
    if words & _OUTSIDE and token.text != _SWINGS:
        return "out"
    return "then" if name == "join.and" or token.text == "then" else None


def _length(marks: list[_Mark]) -> _Mark | None:
    """The length of the putt among all lengths told."""
    lengths = [m for m in marks if m.kind == "len"]
    for found in lengths:
        near = _beside(marks, found)
        if found.footer or "noun" in near:
            return found
    for found in lengths:
        before = _before(marks, found)
        if _unit(found) not in _SMALL and before not in ("breaks", "up", "down"):
            return found
    if lengths:
        return next((m for m in lengths if _unit(m) not in _SMALL), None)
    if any(m.kind == "noun" for m in marks):
        for i, found in enumerate(marks):
            follows = marks[i + 1].kind if i + 1 < len(marks) else ""
            if found.kind == "bare" and follows != "thing":
                return found
    return None


def _slope(
    rest: list[_Mark], marks: list[_Mark], length: _Mark | None
) -> tuple[Literal["up", "down", "flat"] | None, _Mark | None, Word | None]:
    """Up or down, its size, and a word for it."""
    said = next((m for m in rest if m.kind in ("up", "down", "flat")), None)
    if said is None:
        return None, None, None
    slope: Literal["up", "down", "flat"] = said.kind  # type: ignore[assignment]
    if slope == "flat":
        return slope, None, None
    size = next((m for m in rest if m.kind == "pct" and _nearest(rest, m) in ("up", "down")), None)
    if size is None:
        for found in (m for m in rest if m.kind == "len" and _unit(m) not in ("cm",)):
            if found is not length and {"up", "down"} & set(_beside(marks, found)):
                size = found
    return slope, size, _strength(rest, said.clause, of=("up", "down"))


def _break(
    rest: list[_Mark], taken: _Mark | None
) -> tuple[Side | None, Side | None, Measure | None, Word | None]:
    """The side it breaks to, a second side, by how much, and a word for that."""
    sides = [m for m in rest if m.kind in ("left", "right")]
    cross = next((m.kind for m in rest if m.kind in ("l2r", "r2l")), None)
    ball = "right" if cross == "l2r" else "left" if cross == "r2l" else None
    aims = [m for m in rest if m.kind == "out"]
    aimed = next((s for s in sides for a in aims if a.clause == s.clause), None)
    broken = [s for s in sides if s is not aimed and _verb(rest, s)]
    first: Side | None = ball  # type: ignore[assignment]
    second: Side | None = None
    if first is None and broken:
        first = broken[0].kind  # type: ignore[assignment]
    then = any(m.kind == "then" for m in rest)
    if first is None and aimed is None and then and len(sides) == 2:
        first = sides[0].kind  # type: ignore[assignment]
    if first is not None and then and len(sides) == 2 and aimed is None:
        second = sides[1].kind  # type: ignore[assignment]
    if aimed is not None:
        other: Side = "right" if aimed.kind == "left" else "left"
        first = other if first in (None, other) else None
    size = _width(rest, outside=aimed is not None) or _told_size(rest, taken)
    clauses = {m.clause for m in rest if m.kind in ("breaks", "left", "right", "l2r", "r2l")}
    word = next((w for c in clauses if (w := _strength(rest, c, of=_BREAKING))), None)
    if (sides or clauses) and first is None and size is None:
        word = word or "some"  # it breaks, but which way is open
    return first, second, size, word


def _verb(rest: list[_Mark], side: _Mark) -> bool:
    """Whether a verb of breaking goes with this side."""
    return any(m.kind == "breaks" and abs(m.clause - side.clause) <= 1 for m in rest)


def _width(rest: list[_Mark], *, outside: bool) -> Measure | None:
    """A width told in cups or balls, from the middle of the hole; an edge is half a hole."""
    for i, mark in enumerate(rest):
        if mark.kind != "thing":
            continue
        text = str(getattr(mark.value, "unit", None) or mark.value)
        thing = next(_THINGS[w] for w in text.split() if w in _THINGS)
        told = getattr(mark.value, "value", None)
        number = float(told) if told is not None else _number_before(rest, i)
        if [m.kind for m in rest[i + 1 : i + 3]] == ["then", "half"]:
            number += 0.5
        number += _HALF_A_HOLE[thing] if outside else 0.0
        return Measure(value=number, unit="cup" if thing == "cup" else "ball")
    if any(m.kind == "edge" for m in rest):
        return Measure(value=0.5, unit="cup", about=True)
    return None


def _number_before(rest: list[_Mark], i: int) -> float:
    before = [m for m in rest[:i] if m.kind not in ("little", "big")]
    if before and before[-1].kind == "half":
        return 0.5
    if before and before[-1].kind == "bare":
        return float(before[-1].value.value)  # type: ignore[attr-defined]
    return 1.0


def _told_size(rest: list[_Mark], taken: _Mark | None) -> Measure | None:
    for mark in rest:
        if mark is taken or mark.kind not in ("len", "pct"):
            continue
        if mark.kind == "len" or _nearest(rest, mark) not in ("up", "down"):
            return _measure(mark)
    return None


def _strength(rest: list[_Mark], clause: int, of: tuple[str, ...]) -> Word | None:
    for i, mark in enumerate(rest):
        if mark.kind not in ("little", "big") or mark.clause != clause:
            continue
        near = [m.kind for m in rest[max(i - 2, 0) : i + 3] if m.clause == clause]
        if set(of) & set(near):
            return "little" if mark.kind == "little" else "big"
    return None


def _nearest(rest: list[_Mark], mark: _Mark) -> str:
    """The nearest word of slope or break, in the same clause if there is one."""
    at = rest.index(mark)
    words = [
        (m.clause != mark.clause, abs(i - at), i > at, m.kind)
        for i, m in enumerate(rest)
        if m.kind in ("up", "down", "left", "right", "l2r", "r2l", "breaks")
    ]
    return min(words)[3] if words else ""


def _beside(marks: list[_Mark], mark: _Mark) -> list[str]:
    marks = [m for m in marks if m is mark or m.kind not in ("little", "big")]
    at = next(i for i, m in enumerate(marks) if m is mark)
    return [
        m.kind for m in marks[max(at - 1, 0) : at + 2] if m is not mark and m.clause == mark.clause
    ]


def _before(marks: list[_Mark], mark: _Mark) -> str:
    at = next(i for i, m in enumerate(marks) if m is mark)
    return marks[at - 1].kind if at else ""


def _unit(mark: _Mark) -> str:
    return str(getattr(mark.value, "unit", ""))


def _measure(mark: _Mark) -> Measure:
    found: Measure = mark.value.measure()  # type: ignore[attr-defined]
    return found.model_copy(update={"unit": "ft"}) if mark.kind == "bare" else found
