"""Which clubs, swings and shapes were named?"""

from typing import Any

from bot.text.patterns import Match, Rule, Token, rule

_IRONS = 9
LOFTED = range(44, 65)  # degrees a bare number may name a wedge by
_LOFTS = (48.0, 50.0, 52.0, 54.0, 56.0, 58.0, 60.0, 62.0, 64.0)
_CODES = {"D": "D", "PW": "PW", "GW": "GW", "SW": "SW", "LW": "LW", "H": "H", "P": "P", "FW": "3w"}


def club_code(token: Token) -> str | None:
    """The code of a club token or of a small number that stands for an iron."""
    if token.name in ("club.iron", "club.wood", "club.hybrid", "club.loft"):
        return str(token.value)
    if token.name == "got.club":
        return str(token.value)
    if token.name == "club.DI":
        return "2i"
    if token.name.startswith("club."):
        return _CODES.get(token.name.split(".")[1])
    if token.name == "swing.pitch" and token.text == "pitching":
        return "PW"
    if token.name == "swing.flop" and token.text == "lob":
        return "LW"
    if token.name in ("n.bare", "n.det"):
        value = token.value.value
        if value == int(value) and 2 <= value <= 9 and token.value.low is None:
            return f"{int(value)}i"
    return None


def _suffix(code_: str) -> str:
    return code_[1:] if code_[:1].isdigit() and code_[1:] in ("i", "w", "h") else ""


def _one(match: Match) -> tuple[str, Any] | None:
    token = match.one("c")
    found = club_code(token) if token else None
    if token is not None and token.text == "gap" and "a" in token.before.split():
        return None  # a gap in the trees
    return ("got.club", found) if found else None


def _swing_club(match: Match) -> tuple[str, Any] | None:
    token, swing = match.one("c"), match.one("s")
    found = club_code(token) if token else None
    if found is None or swing is None:
        return None
    return "got.swing_club", (swing.name.split(".")[1], found)


def _small(match: Match) -> tuple[str, Any] | None:
    """A bare number where only a club's can be."""
    return _one(match) if match.value("c").value <= _IRONS else None


def _hard(match: Match) -> tuple[str, Any] | None:
    """A hard or soft swing, not a hard or soft green."""
    token, word = match.one("c"), match.tokens[0].text
    found = club_code(token) if token else None
    if found is None or word not in ("hard", "soft"):
        return None
    return "got.swing_club", ("hard" if word == "hard" else "smooth", found)


def _compare(match: Match) -> tuple[str, Any] | None:
    first, second = match.one("a"), match.one("b")
    if first is None or second is None:
        return None
    a, b = club_code(first), club_code(second)
    if a is None or b is None:
        return None
    if first.name.startswith("n.") and _suffix(b) and second.name.startswith("club"):
        a = a[0] + _suffix(b)
    return "got.compare", (a, b)


def _excluded(match: Match) -> tuple[str, Any] | None:
    token = match.one("c")
    found = club_code(token) if token else None
    return ("got.excluded", found) if found else None


CLUB = "club.iron|club.wood|club.hybrid|club.loft|club.D|club.PW|club.GW|club.SW|club.LW|club.H|club.P|club.DI|club.FW"
_ANY = f"{CLUB}|got.club|n.det|n.bare"


def _loft(match: Match) -> tuple[str, Any] | None:
    token = match.tokens[0]
    told = set(token.before.split()) & {"my", "the", "a", "his", "her"}
    if not LOFTED[0] <= token.value.value <= LOFTED[-1] or (token.name == "n.bare" and not told):
        return None
    if not told and len(match.tokens) < 2 and "v" not in match.groups:
        return None
    return "got.club", f"{token.value.value:g}"


def _lofted(match: Match) -> tuple[str, Any] | None:
    """A wedge by a loft that wedges are made in, between how it was hit and how it ended."""
    value = match.tokens[0].value.value
    return ("got.club", f"{value:g}") if value in _LOFTS else None


LOFTS: tuple[Rule, ...] = (
    rule("club.loft_goes", "(n.bare|n.deg) (?=(miss.lose|carry.verb|miss.tend))", lambda m: _loft(m._replace(groups={"v": m.tokens}))),
    rule("club.loft_from", "n.bare (?=join.from (n.bare|n.len))", lambda m: ("got.club", f"{m.tokens[0].value.value:g}") if m.tokens[0].value.value in _LOFTS else None),
    rule("club.with_loft", "(?<=(n.ft join.and)) n.bare (?=(join.and|punct|$))", _loft),
    rule("club.loft_to", "^n.bare (?=join.to n.ft)", lambda m: ("got.club", f"{m.tokens[0].value.value:g}") if m.tokens[0].value.value in _LOFTS else None),
    rule("club.or_loft", "(?<=(swing join.or)) n.bare (?!(dist|place|join.to))", lambda m: ("got.club", f"{m.tokens[0].value.value:g}") if m.tokens[0].value.value in _LOFTS else None),
    rule("club.one_degree", "n.deg", lambda m: _loft(m._replace(groups={"v": m.tokens})) if m.tokens[0].text.endswith("degree") else None),
    rule("club.loft_asked", "n.deg (?=punct.q)", lambda m: _loft(m._replace(groups={"v": m.tokens}))),
    rule("club.my_loft", "n.bare (?=punct.q)", _loft),
    rule("club.loft_or", "n.deg (?=join.or (club|swing|n.deg))", lambda m: _loft(m._replace(groups={"v": m.tokens}))),
    rule("club.new_number", "(?<=profile.add) n.bare (?=(profile|punct|$))|(?<=(club join.or)) n.bare", lambda m: ("got.club", f"{m.tokens[0].value.value:g}") if m.tokens[0].value.value in _LOFTS else None),
    rule("club.new_loft", "(?<=profile.add) n.deg", lambda m: _loft(m._replace(groups={"v": m.tokens}))),
    rule("club.hit_loft", "(?<=(verb.hit|score.made)) n.bare (?=(punct.c? (contact|result.pin_high)|punct.c side))|^n.bare (?=result.pin_high)", _lofted),
    rule("club.the_loft", "n.deg", _loft),
)  # fmt: skip

_HOW = "(swing|ground.firm|ground.soft)?"
CLUBS: tuple[Rule, ...] = (
    rule("club.should_have", f"noise.hindsight (swing|shape|club.irons)? ({_ANY})?", lambda m: ("got.match", None)),
    rule("club.took_then", "score.made {c:n.bare|n.det} punct.c (?=((n.bare|n.len) (side|result)|contact|side|result.pin_high|result.flew|result.past|result.short_of))", lambda m: _small(m) if m.tokens[0].text == "took" else None),
    rule("club.went_with", "join.was join.and {c:n.bare|n.det} (?=punct.c)", lambda m: _small(m) if m.tokens[0].text == "went" and m.tokens[1].text == "with" else None),
    rule("club.i_hit", "profile.shape_word (?=((n.bare|n.det) (punct|$)))", lambda m: ("verb.hit", None) if m.tokens[0].text in ("i hit", "i hit a", "hit a") else None),
    rule("club.iron_n", "(club.irons) {c:n.bare|n.det}", _one),
    rule("club.wood_n", "(club.woods) {c:n.bare|n.det}", lambda m: ("got.club", f"{int(m.value('c').value)}w") if 1 < m.value("c").value <= 9 else None),
    rule("club.compare", f"{_HOW} {{a:{_ANY}}} punct.c? (join.or) {_HOW} {{b:{_ANY}|swing.flop|swing.pitch}}", _compare),
    rule("club.compare_pitching", f"{{a:swing.pitch|swing.flop}} join.or {{b:{_ANY}}}", _compare),
    rule("club.compare_and", f"(x.word) {{a:{_ANY}}} (join.and) {{b:{_ANY}}}", lambda m: _compare(m) if m.tokens[0].text in ("between", "btwn") else None),
    rule("club.rather", f"(?<=ask.why) {{c:{_ANY}}} (join.and|punct.c)* join.not {{d:{_ANY}}}", lambda m: ("got.excluded", club_code(m.tokens[-1])) if club_code(m.tokens[-1]) else None),
    rule("club.lacks_after", f"{{c:{CLUB}|n.det}} profile.lacks (?=(punct|join.now|$))", _excluded),
    rule("club.of_stats", "(?<=review.stats) {c:n.bare|n.det} (?!(n|dist))", _small),
    rule("club.excluded", f"(join.not|safe.must_not|profile.lacks) x.word? join.to? (verb.hit|profile|dist.play)? {{c:{CLUB}|n.det}}", _excluded),
    rule("club.not_loft", "join.not {c:n.bare}", lambda m: ("got.excluded", f"{m.value('c').value:g}") if m.value("c").value in _LOFTS and "the" in m.tokens[-1].before.split() else None),
    rule("club.shape_then", "(?<=shape) {c:n.bare|n.det} (?=(punct.c|punct.q|$))", _small),
    rule("club.any_but", f"wind.club (join.and|join.except) {{c:{CLUB}|n.det}}", lambda m: _excluded(m) if "any" in m.tokens[0].before.split() else None),
    rule("club.is_out", f"{{c:{CLUB}}} (join.from|dist.out) (?=(punct|$))", lambda m: _excluded(m) if "is" in m.tokens[-1].before.split() else None),
    rule("club.hard_or_soft", f"{{s:ground.firm|ground.soft}} {{c:{CLUB}|n.det|n.bare}}", _hard),
    rule("club.swing", f"{{s:swing}} (join.on)? {{c:{_ANY}}}", _swing_club),
    rule("club.after_swing", f"{{c:{CLUB}}} {{s:swing}}", _swing_club),
    rule("club.go_and_swing", "(?<=(miss.lose|verb.hit|ask.what_if)) {c:n.bare|n.det} join.and? {s:swing}", _swing_club),
    rule("club.named", f"{{c:{CLUB}}}", _one),
    rule("club.that_goes", "^{c:n.bare} (?=(miss.lose|carry.verb|profile.total) (n.bare|n.len))", _small),
    rule("club.struck", "(?<=contact) {c:n.bare|n.det}", lambda m: _one(m) if m.value("c").value <= 9 else None),
    rule("club.reach_with", "(?<=(layup.go join.and)) {c:n.bare|n.det} (?!(n|dist))", _small),
    rule("club.not_gone", "(?<=(ask.why_not (miss.lose|dist.play|verb.pick|profile.add|score.made|x.word))) {c:n.bare|n.det}", _small),
    rule("club.asked_number", "(?<=(ask.what_if|ask.why_not|ask.why|verb.pick|ask.same|verb.hit)) {c:n.bare|n.det}", _small),
    rule("club.number_asked", "{c:n.bare|n.det} (ask.what_if|punct.q)", lambda m: _one(m) if m.value("c").value <= 9 else None),
    rule("club.with_number", "join.and {c:n.bare|n.det} (?=(punct.q|$))", lambda m: _small(m) if m.tokens[0].text == "with" else None),
    rule("club.from_here", "^{c:n.bare|n.det} (?=join.from x.word punct.q)", _small),
    rule("club.the_number", "{c:n.det} (?! profile.handicap)", _one),
)  # fmt: skip
