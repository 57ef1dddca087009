"""Words for answers without numbers: help, thanks, refusals, questions, trouble of ours."""

from __future__ import annotations

from bot.model.answer import Ask, Broken, CannotYet, Noted, NotGot, Say, Silence
from bot.wording import numbers
from bot.wording.base import WIDTH, Lines, Style, word

EXAMPLE = "160, into 18, up 8 ft, water right"

_SAY: dict[str, tuple[str, ...]] = {
    "thanks": ("Good swing. Next number when you have it.",),
    "greeting": ("Ready. Send the number, the wind and the trouble:", f'"{EXAMPLE}"'),
    "start": ("I talk you round in two lines. Send a shot, such as", f'"{EXAMPLE}"'),
    "help": (
        "Shot: number, wind, height, lie, trouble. Then: why, 7 or 6?",
        "Also: putt 20 ft, bag, par 4 400, made 5, undo, review, rules",
    ),
    "help_rules": (
        "By the Rules: distances, scores, results, rules help, strokes,",
        "card, the whole bag, dangers. Shots wait for the review.",
    ),
    "mood_low": ("Long breath, slow walk. Only the next one counts.",),
    "chatter": ("I am best at golf. Send a number and the wind.",),
    "other_language": ("I read English so far. Numbers and short words do:", f'"{EXAMPLE}"'),
    "privacy": (
        "I keep your bag, shots, scores and messages, to review them.",
        "Only you see them; scores, your group. To delete: forget me.",
    ),
    "forget_me": (
        "That deletes your bag, log and messages, and cannot be undone.",
        "To do it, send forget me once more within 5 minutes.",
    ),
    "forgotten": (
        "Done: nothing of yours is left here. Scores in a group's card",
        "stay without your name. Backups are gone within 30 days.",
    ),
    "invite": ("Others here come in by sending join to me.",),
    "point": (
        "I have no map to place you on here.",
        "Send the number to the pin, and what lies in the way.",
    ),
    "stop": ("Stopped. Send anything when you want me again.",),
}

_CANNOT: dict[str, tuple[str, ...]] = {
    "empty": ("Nothing to read there. Send the shot in words, such as", f'"{EXAMPLE}"'),
    "not_read": ("I could not read a shot in that. Send it like", f'"{EXAMPLE}"'),
    "nonsense_distance": (
        "That is no distance I can work with. Send yards to the pin,",
        "such as 160.",
    ),
    "nonsense_wind": ("That wind cannot be right. Send mph and where it comes from,", "into 18."),
    "nonsense_height": ("That height cannot be right. Send feet up or down,", "such as up 8 ft."),
    "nonsense_temperature": ("That temperature cannot be right. Send it like", "52F or 11C."),
    "nonsense_number": ("That number cannot be right. Send the shot again like", f'"{EXAMPLE}"'),
    "nonsense_hostile": ("I only read golf shots. Send one like", f'"{EXAMPLE}"'),
    "too_long": ("That is too long to read between shots. Send just", f'"{EXAMPLE}"'),
    "out_of_range": (
        "That is outside what I can work out. Check the number and",
        "send it again.",
    ),
    "no_metar": (
        "That weather report cannot be read. Send it whole, or in words:",
        '"wind SW 12 mph, 14C"',
    ),
    "no_course": (
        "Which course? Send: course NAME, white tees. Then notes, such as",
        '"note hole 4 par 5 532 index 7, water right 210 to 260"',
    ),
    "which_hole": ("Which hole? Send its number first, such as", '"note hole 4 par 5 532"'),
    "no_note": (
        "No notes of that hole yet. Send them like",
        '"note hole 4 par 5 532 index 7, water right 210 to 260"',
    ),
    "no_length": (
        "No length of that hole yet, so no plan. Send it like",
        '"note hole 4 par 5 532"',
    ),
    "plan_needs_bag": (
        "A plan needs your game. Send your handicap and a few carries,",
        '"handicap 14, driver 230, 7i 150, PW 115"',
    ),
    "note_changed_since": (
        "Somebody changed those notes after you did; they stay.",
        "Send what should be different.",
    ),
    "act": ("I understood you but cannot do that yet.", "Send a shot, or help."),
    "who": ("I do not know that name in this group. Who is it?",),
    "in_private": ("Ask me that in private: it is for you alone.",),
    "not_allowed": ("Only that player, or a helper they named, may do that.",),
    "no_note_rules": ("There are no notes of that hole.",),
    "not_read_rules": (
        "I could not read that. By the Rules send scores, results,",
        "Rules questions or a danger; or help.",
    ),
    "chart_closed": ("Not kept: under the Rules your chart must stay. Send it after.",),
    "no_round": ("No round is on. Send start round, practice or competition.",),
    "no_trip": ("Join from the group of the trip, or by its invitation link.",),
    "no_handicap": ("I do not know your handicap. Send it like: handicap 14.",),
    "no_such_hole": ("There is no such hole in this round. Send it like: hole 7.",),
    "par_unknown": ("I do not know the par there. Send the strokes, like made 5.",),
    "score_absurd": ("That is no score I can keep. Send the strokes, like made 5.",),
    "club_unknown": ("That club is not in your bag.", "Send bag to see what is."),
    "nothing_to_undo": ("Nothing of yours to take back.",),
    "nothing_to_explain": ("No shot of yours to explain yet. Send one like", f'"{EXAMPLE}"'),
    "no_longer_club": ("That is the longest club in your bag.",),
    "no_shorter_club": ("That is the shortest club in your bag.",),
    "nothing_to_follow": ("Which shot? Send its number first, such as", f'"{EXAMPLE}"'),
}

_ASK: dict[str, tuple[str, ...]] = {
    "distance": ("How far to the pin?",),
    "distance_putt": ("How long is the putt? Feet, paces or metres.",),
    "confirm_distance": ("That distance cannot be right. How far to the pin?",),
    "confirm_wind": ("That wind cannot be right. How strong, and from where?",),
    "wind_dir": ("Where is the wind from: into, helping, off the left or right?",),
    "wind_side": ("Is that wind off the left or off the right?",),
    "wind_speed": ("How strong is that wind?",),
    "units": ("Yards or metres?",),
    "height_or_wind": ("Is that height or wind?",),
    "wind_or_distance": ("Is that the wind now, or the distance to the pin?",),
    "reach_or_carry": ("Is that where the trouble starts, or what carries it?",),
    "break_side": ("Which way does it break, left or right?",),
    "side": ("Which side is that trouble, left or right?",),
    "slope": ("How does it fall? Send it like: down 2%, breaks left a cup",),
    "round_kind": (
        "First: a practice round, or a competition by the Rules?",
        "Send practice round or by the Rules.",
    ),
    "round_end": ("Your card is not full. Is your round over, yes or no?",),
    "clarify": ("Say that once more, shorter?",),
}

_SIDES = ("left", "right")
QUICK: dict[str, tuple[str, ...]] = {  # answers a thumb may send
    "wind_dir": ("into", "helping", "off the left", "off the right"),
    "wind_side": _SIDES,
    "wind_speed": ("5", "10", "20"),
    "wind_or_distance": ("wind", "distance"),
    "break_side": _SIDES,
    "side": _SIDES,
    "round_kind": ("practice round", "by the Rules"),
    "round_end": ("yes", "no"),
}


@word.register
def _(answer: Say, style: Style) -> Lines:
    return Lines(_SAY[answer.topic])


@word.register
def _(answer: CannotYet, style: Style) -> Lines:
    if answer.reason == "no_flight":
        what = f"The {answer.said} as kept cannot be flown."
        return Lines((what, "Send that club again, such as 7 iron 150."))
    if answer.reason == "bad_note":
        what = f"Hole {answer.value:.0f}: {answer.said}."
        return Lines((what[:WIDTH], "Nothing was changed. Send it again."))
    if answer.reason == "out_of_range" and answer.low is not None and answer.high is not None:
        what = answer.said.replace("_", " ")
        limits = f"{numbers.rough(answer.low)} to {numbers.rough(answer.high)} {answer.unit}"
        return Lines((f"I can work out a {what} of {limits}.", "Check it and send that again."))
    return Lines(_CANNOT[answer.reason])


@word.register
def _(answer: Ask, style: Style) -> Lines:
    about = answer.about.about
    lines = _ASK.get(f"{about}_{answer.detail}", _ASK[about])
    return Lines(lines, buttons=QUICK.get(about, ()))


_DONE = {"undone": "Taken back", "goes_on": "Play on", "deleted": "Deleted"}


@word.register
def _(answer: Noted, style: Style) -> Lines:
    done = {"undone": "Taken back", "goes_on": "Play on", "deleted": "Deleted"}.get(
        answer.what, "Noted"
    )
    return Lines((f"{done}{': ' + answer.detail if answer.detail else ''}.",))


@word.register
def _(answer: NotGot, style: Style) -> Lines:
    said = f'Did not get "{answer.piece}".'
    return Lines((said,), tail=said)


@word.register
def _(answer: Silence, style: Style) -> Lines:
    return Lines(())


@word.register
def _(answer: Broken, style: Style) -> Lines:
    return Lines(
        ("That one broke on my side; nothing was changed or lost.", f"Ref {answer.reference}.")
    )
