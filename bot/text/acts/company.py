"""Does the message say who plays along, or who may ask for whom?"""

import re

from bot.model.reading import Profile, Round

_JOIN = re.compile(
    r"join(?: (?:in|us|the (?:trip|group|round)|this (?:trip|round)))?"
    r"|i'?m in|i am in|count me in|put me (?:down|on the trip)",
    re.IGNORECASE,
)
_LEAVE = re.compile(
    r"leave(?: (?:the|this) (?:trip|group))?|count me out|take me off(?: the trip)?", re.IGNORECASE
)
_INVITE = re.compile(
    r"invite|invitation|(?:an? )?invit(?:e|ation) link|invite (?:a |an |another )?"
    r"(?:player|friend|somebody|someone)",
    re.IGNORECASE,
)
_NAME = r"(?P<name>[^\W\d_][\w'’.-]*(?: [^\W\d_][\w'’.-]*)?)"
_HELP = r"(?:coach|caddie|partner|helper)"
_ALLOW = re.compile(
    rf"(?:let|allow) {_NAME} (?:to )?(?:ask|play|answer|speak|caddie) for me"
    rf"|{_NAME.replace('name', 'other')} is my {_HELP}"
    rf"|my {_HELP} is {_NAME.replace('name', 'third')}",
    re.IGNORECASE,
)
_DISALLOW = re.compile(
    rf"(?:don'?t|do not) (?:let|allow) {_NAME} (?:to )?(?:ask|play|answer|speak|caddie) for me"
    rf"|{_NAME.replace('name', 'other')} is (?:no longer|not) my {_HELP}(?: any ?more)?",
    re.IGNORECASE,
)

_WORDS: dict[str, Round | Profile] = {  # whole messages
    "card": Round(intent="card"),
    "my card": Round(intent="card"),
    "bag": Profile(intent="show"),
    "my bag": Profile(intent="show"),
}


def company(text: str) -> Round | Profile | None:
    """A word that is the whole message, who plays along, or who may ask for the player; or None.

    >>> company("let Dana ask for me").name
    'Dana'
    """
    said = text.strip(" .!\n").replace("’", "'")
    if len(said) > 80:
        return None
    if (meant := _WORDS.get(said.casefold())) is not None:
        return meant
    if _JOIN.fullmatch(said):
        return Round(intent="join")
    if _LEAVE.fullmatch(said):
        return Round(intent="leave")
    if _INVITE.fullmatch(said):
        return Round(intent="invite")
    refused, allowed = _DISALLOW.fullmatch(said), _ALLOW.fullmatch(said)
    found = refused or allowed
    if found is None:
        return None
    name = next(value for value in found.groupdict().values() if value)
    return Profile(intent="disallow" if refused else "allow", name=name)
