"""The group conversations as written, through the platform and a real process."""

from dataclasses import replace
from datetime import timedelta
from pathlib import Path

import pytest

from tests.support.chats import ROOT, Speaker
from tests.support.platform import Platform
from tests.support.service import Service

NAMES = ("trip-of-four", "coach", "two-trips", "rules-round")
QUICK = {
    "CADDIE_SENDS_PER_SECOND": "500",
    "CADDIE_SENDS_PER_CHAT": "100",
    "CADDIE_SENDS_PER_GROUP": "9999",
    "CADDIE_LATE_SECONDS": "999999999",  # the conversations have dates of their own
}


class Numbers(dict[str, int]):
    """A number of the platform's for each name of a transcript."""

    def __missing__(self, name: str) -> int:
        self[name] = len(self) + 11
        return self[name]


@pytest.mark.parametrize("name", NAMES)
async def test_the_conversation_goes_as_written(tmp_path: Path, name: str) -> None:
    written = (ROOT / "fixtures" / "conversations" / f"{name}.chat").read_text("utf-8")
    platform = Platform(overall=10**6, chat_burst=10**6, group_minute=10**6)
    await platform.start()
    service = Service(platform, tmp_path, "webhook", QUICK)
    await service.start()
    people, groups = Numbers(), Numbers()
    speaker, played = Speaker(), []
    for line in written.splitlines():
        if line.startswith("< "):
            continue
        played.append(line)
        if line.startswith("@ "):
            speaker = speaker.directed(line[2:])
        elif line.startswith("> "):
            private = speaker.kind == "private"
            chat = people[speaker.sender] if private else -groups[speaker.chat]
            before = len(platform.texts(chat))
            text = line[2:] if private else f"@pocket_test_bot {line[2:]}"
            platform.say(
                text, user=people[speaker.sender], chat=chat, name=speaker.name, date=speaker.at
            )
            await platform.until(lambda c=chat, n=before: len(platform.texts(c)) > n)  # type: ignore[misc]
            played.extend(f"< {said}" for said in platform.texts(chat)[-1].split("\n"))
            speaker = replace(speaker, at=speaker.at + timedelta(seconds=30))
    assert await service.stop() == 0
    await platform.stop()
    assert "\n".join(played) + "\n" == written
    assert platform.refused == []
