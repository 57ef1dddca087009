"""Are people told to be where a ball would come down?"""

import re

_WHO = (
    r"(?:people|persons?|players|folks?|groups?|(?:someone|somebody)(?:['’]s \w+)?|guys"
    r"|lads|ladies|kids?|children|child|toddler"
    r"|(?:two|three|four|some|couple|both) of (?:them|the group)"
    r"|four-?\s?balls?|a (?:man|woman|bloke|guy|couple|family|greenkeeper))"
)
_STANDS = (
    r"(?:still|are|is|stood|standing|walking|playing|putting|left|up|out|down|just|all|there|who"
    r"|hanging|about|around|over|walked|wandered|stepped|stopped)"
)
_WHERE = (
    r"(?:on|onto|into|by|near|around|at|in|crossing|across|within|beside|next to)\W+"
    r"(?:(?:the|my|our|his|that)\W+)?"
    r"(?:green|fairway|landing|way|line|range|path|flag|pin|distance)\b"
)
_AHEAD = re.compile(rf"\b{_WHO}\b(?:\W+{_STANDS})+\W+{_WHERE}", re.IGNORECASE)


def people_ahead(text: str) -> bool:
    """Whether somebody is said to be on the green, in the fairway or in the way.

    >>> people_ahead("there are people still up by the green")
    True
    >>> people_ahead("people say the green is fast")
    False
    """
    return _AHEAD.search(text) is not None
