"""Does a message of several parts, in any order, say just what each part says alone?"""

import random
from typing import Any

import pytest

from tests.support.messages import facts_of

# One part of each kind at most stands in a message; each is read alone in the corpus or below.
PARTS = {
    "distance": (
        "160", "155y", "147 yards", "172 to the pin", "133 out", "i'm at 141", "187 left",
        "pin's at 152", "one sixty two", "it's 168", "112 in", "95 to the front", "150ish",
    ),
    "wind": (
        "into 12", "12 into", "wind off the left 10", "10 mph left to right", "helping 8",
        "downwind 15", "wind in my face 14", "15 mph headwind", "no wind", "2 o'clock 11",
        "a club of wind against", "breeze in the face", "crosswind off the right 12",
        "10 behind", "12 from behind and left", "wind 12 helping off the right",
    ),
    "height": (
        "up 10", "uphill 8 ft", "downhill 20 feet", "green is below me", "12 ft up",
        "drops 15 feet", "elevated green 20 ft", "up 3 yards", "level",
    ),
    "lie": (
        "in the rough", "from the fairway", "in a fairway bunker", "first cut", "off a downslope",
        "ball above my feet", "in a divot", "off the left rough", "in the right rough", "wet lie",
    ),
    "trouble": (
        "water right", "bunker left", "ob left", "trees both sides", "bunker short right",
        "water short, carry 140", "pond long", "water left at 150", "ditch across at 120",
        "bunkers left and right", "bunker short takes 140 to carry", "nothing left",
        "safe right", "can't go left", "water all down the left",
    ),
    "pin": (
        "pin back", "pin front left", "back right pin", "pin on the right", "front pin",
        "pin tucked left", "pin is up front", "back left flag", "flag's at the back",
    ),
    "club": ("7 iron?", "8i?", "is it a 6", "5 or 6?", "thinking 7", "is 8 enough", "smooth 7?"),
    "air": ("50 degrees", "raining", "firm greens", "95 degrees"),
}  # fmt: skip
KIND_OF_ALL = frozenset({"kind", "ask", "intent"})
JOINED = (", ", ". ")
MESSAGES = 400


def facts(text: str) -> dict[str, Any]:
    return {name: told for name, told in facts_of(text).items() if name not in KIND_OF_ALL}


@pytest.mark.parametrize("join", JOINED)
def test_parts_say_together_what_each_says_alone(join: str) -> None:
    pick = random.Random(len(join) + ord(join[0]))
    wrong = []
    for _ in range(MESSAGES):
        others = pick.sample([kind for kind in PARTS if kind != "distance"], pick.randint(1, 3))
        parts = [pick.choice(PARTS[kind]) for kind in ("distance", *others)]
        pick.shuffle(parts)
        alone: dict[str, Any] = {}
        for part in parts:
            alone |= facts(part)
        text = join.join(parts)
        if facts(text) != alone:
            wrong.append(text)
    assert not wrong
