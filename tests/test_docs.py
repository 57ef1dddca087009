"""Do the pages tell the truth about commands, files and messages?"""

import re

import pytest

from bot import app
from bot.__main__ import COMMANDS, USAGE
from bot.storage.memory import MemoryStore
from tests.support.chats import DEMO, ROOT, Speaker, say

README = (ROOT / "README.md").read_text("utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text("utf-8")
TOP = {
    "README.md",
    "DEVELOPERS.md",
    "pyproject.toml",
    "bot",
    "engine",
    "tests",
    "fixtures",
    "deploy",
}
MADE = {"build", "__pycache__"}  # made by tools, not kept


def test_the_top_level_holds_nothing_else() -> None:
    found = {p.name for p in ROOT.iterdir() if not p.name.startswith(".")} - MADE
    assert {n for n in found if not n.endswith(".egg-info")} == TOP


def test_the_two_commands_come_first() -> None:
    block = re.search(r"\n((?:    bash .*\n)+)", README)
    assert block is not None
    assert block[1].split("\n")[:-1] == ["    bash deploy/run", "    bash deploy/test"]


@pytest.mark.parametrize("word", sorted({c.split()[0] for c in COMMANDS}))
def test_every_command_is_in_the_help(word: str) -> None:
    assert f"caddie {word}" in USAGE


@pytest.mark.parametrize("word", sorted(set(re.findall(r"`caddie ([a-z]+)", README))))
def test_every_command_of_the_readme_exists(word: str) -> None:
    assert word in {c.split()[0] for c in COMMANDS}


@pytest.mark.parametrize("path", sorted(set(re.findall(
    r"`((?:bot|engine|tests|fixtures|deploy)/[\w/.\-]+)`", README + DEVELOPERS
))))  # fmt: skip
def test_every_file_named_exists(path: str) -> None:
    assert (ROOT / path).exists()


@pytest.mark.parametrize("text", [
    said
    for row in re.findall(r"^\| [a-z ,]+ \| (`.+`) \|$", README, flags=re.M)
    for said in re.findall(r"`([^`]+)`", row)
    if not said.startswith("caddie")
])  # fmt: skip
def test_every_message_of_the_readme_is_understood(text: str) -> None:
    store = MemoryStore()
    app.load_demo(store, DEMO)
    conversation = app.conversation(store)
    conversation.handle(say(Speaker(), "160, into 18, water right", "first"))
    handled = conversation.process(say(Speaker(), text, "second"))
    assert [a["kind"] for a in handled.answers] not in ([], ["cannot"], ["broken"]), handled.reply
