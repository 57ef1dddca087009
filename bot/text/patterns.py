"""How is a rule over named tokens written, compiled and applied?

A pattern is a regular expression whose letters are token names: ``wind.noun num? wind.dir``.
A bare family name such as ``wind`` stands for any of its members. ``{d:side}`` names a group.
Each token name has one private character, so a message of n tokens is a string of n characters
and a rule costs one pass of the standard library's matcher over it.
"""

import re
from collections.abc import Callable
from typing import Any, NamedTuple

_FIRST = 0xE000
_codes: dict[str, str] = {}


class Token(NamedTuple):
    """A piece of the message: its name, where it stands in the message, and what it says.

    `before` holds the small words skipped in front of it, such as "the" or "about".
    """

    name: str
    start: int
    end: int
    text: str = ""
    value: Any = None
    before: str = ""


class Match(NamedTuple):
    """What a rule sees: the tokens of the match and of its named groups."""

    tokens: list[Token]
    groups: dict[str, list[Token]]

    def one(self, group: str) -> Token | None:
        """The first token of a group, or None."""
        found = self.groups.get(group)
        return found[0] if found else None

    def value(self, group: str) -> Any:
        """The value of the first token of a group, or None."""
        token = self.one(group)
        return token.value if token else None


Build = Callable[[Match], tuple[str, Any] | None]


class Rule(NamedTuple):
    """A named pattern and what it makes of a match: a token name and value, or None."""

    name: str
    pattern: re.Pattern[str]
    build: Build


def code(name: str) -> str:
    """The private character of a token name."""
    found = _codes.get(name)
    if found is None:
        found = _codes[name] = chr(_FIRST + len(_codes))
    return found


def _group(name: str) -> str:
    if "." in name:
        return code(name)
    members = [c for n, c in _codes.items() if n == name or n.startswith(name + ".")]
    if not members:
        raise ValueError(name)
    return f"[{''.join(members)}]"


def rule(name: str, pattern: str, build: Build) -> Rule:
    """Compile a pattern; families must have been registered before."""

    def named(match: re.Match[str]) -> str:
        return f"(?P<{match[1]}>" if match[1] else _group(match[2])

    source = re.sub(r"\{([a-z_]+):|([a-z_]+(?:\.[A-Za-z0-9_]+)?)", named, pattern)
    source = source.replace("}", ")").replace(" ", "")
    source = re.sub(r"\((?!\?)", "(?:", source)
    return Rule(name, re.compile(source), build)


def apply(rules: tuple[Rule, ...], tokens: list[Token], trace: list[tuple[str, Token]]) -> None:
    """Run `rules` in order over `tokens`, replacing each match by the token it makes."""
    line = "".join([_codes[t.name] for t in tokens])
    for item in rules:
        at = 0
        while True:
            found = item.pattern.search(line, at)
            if found is None:
                break
            first, last = found.span()
            if first == last:
                at = last + 1
                if at > len(line):
                    break
                continue
            groups = {
                name: tokens[found.start(name) : found.end(name)]
                for name, text in found.groupdict().items()
                if text
            }
            made = item.build(Match(tokens[first:last], groups))
            if made is None:
                at = first + 1
                continue
            head, tail = tokens[first], tokens[last - 1]
            token = Token(made[0], head.start, tail.end, "", made[1], head.before)
            trace.append((item.name, token))
            tokens[first:last] = [token]
            line = line[:first] + code(made[0]) + line[last:]
            at = first + 1
