"""Does the message write, show or plan a course, or paste a weather report?"""

import re

from bot.courses.compass import bearing_of
from bot.model.reading import CourseNote, Day, Hole, Round
from bot.text.acts.bundle import Bundle, facts, hole

_METAR = re.compile(
    r"^\s*(?:(?:METAR|SPECI)\s+)?[A-Z]{4}\s+\d{6}Z\b.*\d{2,3}(?:G\d{2,3})?(?:KT|MPS)\b"
)
_N = r"(?:(?:hole|no\.?|number)\s*)?#?(?P<n>\d{1,2})"
_PLAN_HOLE = re.compile(
    rf"^(?:(?:what(?:'s| is)|show(?: me)?|give me) )?(?:the )?plan (?:for |on |of )?{_N}\W*$"
)
_PLAN_ROUND = re.compile(
    r"^(?:make (?:me )?(?:a|the) plan|plan)(?: (?:for )?(?:the |my )?"
    r"(?:round|course|day|whole course|all holes|all|18|today|tomorrow))?\W*$"
)
_PLAN_THIS = re.compile(r"^(?:plan (?:the |this )?hole|plan it|what(?:'s| is) the plan)\W*$")
_SHEET = re.compile(r"^(?:(?:show|send)(?: me)? )?(?:the |my )?(?:plan |hole )?sheet\W*$")
_DELETE = re.compile(
    rf"^(?:delete|remove|clear) (?:the )?(?:notes? )?(?:of |for |on )?{_N}(?: notes?)?\W*$"
)
_SHOW = re.compile(
    rf"^(?:show(?: me)?|notes?)(?: the)?(?: notes?)?(?: of| for| on)? {_N}(?: notes?)?\W*$"
)
_COURSE = re.compile(r"^(?:show (?:the )?)?course(?: notes?)?\W*$|^notes?\W*$")
_NAMED = re.compile(
    r"^\W*(?:[Cc]ourse)\W+(?P<name>[A-Z][\w'’. -]*?)"
    r"(?:\s*,?\s*(?:off )?(?:the )?(?P<tee>\w+) tees?)?\W*$"
)
_TEES = re.compile(
    r"^(?:off |from )?(?:the )?(?P<tee>white|yellow|red|blue|black|gold|green|silver|back|middle|"
    r"forward|front|club|medal)s?(?: tees?)\W*$"
)
_MARK = re.compile(r"^(?:course )?notes?\b\W*(?!\s*$)")
_HOLE = re.compile(r"\bhole (?P<n>\d{1,3})\b")
_PAR = re.compile(r"\bpar (?P<par>\d{1,2})\b")
_PLAYS = re.compile(
    r"\b(?:playing|plays|runs|running|heads|heading)(?: (?:due|to the|towards))? "
    r"(?P<p>(?:north|south)(?:[- ]?(?:east|west))?|east|west|[ns][ns]?[ew]|[ew][ns][ew]|[nsew])\b"
)
_FALLS = re.compile(
    r"\b(?:falls|slopes|runs)(?: off)?(?: to| towards)?(?: the)? (?P<f>front|back|left|right)\b"
)
_BEND_AT = re.compile(r"\bdog ?-?leg(?:s)? (?:left|right) at (?P<at>\d{2,3})\b")


def notes(b: Bundle, text: str) -> CourseNote | Day | Round | None:
    """Notes of a course, a plan asked for, a course named, a pasted report; or None."""
    if _METAR.search(text):
        return Day(metar=text.strip())
    said = text.casefold().strip()
    for rule, intent in (
        (_PLAN_HOLE, "plan_hole"), (_DELETE, "delete"), (_SHOW, "show_hole"),
    ):  # fmt: skip
        found = rule.match(said)
        if found:
            return CourseNote.model_validate(
                {"intent": intent, "hole": {"number": int(found["n"])}}
            )
    for rule, intent in (
        (_PLAN_THIS, "plan_hole"), (_PLAN_ROUND, "plan_round"), (_SHEET, "sheet"),
        (_COURSE, "show"),
    ):  # fmt: skip
        if rule.match(said):
            return CourseNote.model_validate({"intent": intent})
    named = _NAMED.match(text)
    if named:
        return Round(intent="set_course", course=named["name"].strip(" .,-"), tee=named["tee"])
    tees = _TEES.match(said)
    if tees:
        return Round(intent="set_tee", tee=tees["tee"])
    return _note(b, said)


def _note(b: Bundle, said: str) -> CourseNote | None:
    """A hole described: marked as a note, or with what is only told of a course."""
    told, plays = hole(b), _PLAYS.search(said)
    marked = _MARK.match(said) is not None
    named = _HOLE.search(said) if marked else None
    if named is not None:  # a par or a number that cannot be is told by whoever keeps the notes
        told = (told or Hole()).model_copy(update={"number": int(named["n"])})
    of_course = told is not None and (plays is not None or told.stroke_index is not None)
    if told is None or told.number is None:
        return CourseNote(intent="note") if marked and b.has("got.par", "got.hazard") else None
    if not marked and not (of_course and b.has("got.hazard", "got.dogleg", "got.depth")):
        return None
    rest = facts(b)
    full = rest.hole or told
    full = full.model_copy(update={"number": told.number})
    length = full.length or rest.distance
    news: dict[str, object] = {}
    if length is not None and 50 <= length.value <= 5000:
        news["length"] = length
    if plays is not None:
        news["bearing_deg"] = bearing_of(_short(plays["p"]))
    par = _PAR.search(said) if marked else None
    if par is not None:
        news["par"] = int(par["par"])
    at = _BEND_AT.search(said)
    if at is not None:
        news["dogleg_at"] = {"value": float(at["at"])}
    falls = _FALLS.search(said)
    green = rest.green
    green_told = None if green is None else green.model_dump(exclude_none=True)
    if rest.front is not None and rest.back is not None:
        deep = rest.back.value - rest.front.value  # below nought is told by who keeps the notes
        depth = rest.back.model_copy(update={"value": deep}).model_dump(exclude_none=True)
        green_told = {**(green_told or {}), "depth": depth}
    if falls is not None:
        green_told = {**(green_told or {}), "falls": falls["f"]}
    return CourseNote.model_validate(
        {
            "intent": "note",
            "hole": {**Hole.model_dump(full, exclude_none=True), **_plain(news)},
            "hazards": [h.model_dump(exclude_none=True) for h in rest.hazards],
            "green": green_told,
        }
    )


def _plain(news: dict[str, object]) -> dict[str, object]:
    return {k: v.model_dump() if hasattr(v, "model_dump") else v for k, v in news.items()}


def _short(point: str) -> str:
    """Return a point of the compass by its letters."""
    parts = re.findall(r"north|south|east|west", point)
    return "".join(p[0] for p in parts) or point
