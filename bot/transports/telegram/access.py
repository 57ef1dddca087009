"""Who may use the bot: an allow-list, invitations that run out, and groups of guests."""

import base64
import hashlib
import hmac
import struct
from datetime import datetime, timedelta

from bot.model.base import Frozen

GOOD_FOR = timedelta(days=7)
FORM = ">Iq"  # when it ends (s), the group or 0
MAC_BYTES = 12


class Invitation(Frozen):
    """What a good invitation says; `group` is the chat whose trip it is for."""

    ends: datetime
    group: int | None = None


def derived(token: str, purpose: str) -> bytes:
    """A secret for one purpose that changes with the token."""
    return hmac.digest(token.encode(), f"two-line-caddie {purpose}".encode(), hashlib.sha256)


def invite(secret: bytes, now: datetime, group: int | None = None) -> str:
    """A start payload: at most 64 characters of A-Z a-z 0-9 _ -, signed, good for 7 days."""
    body = struct.pack(FORM, int((now + GOOD_FOR).timestamp()), group or 0)
    mac = hmac.digest(secret, body, hashlib.sha256)[:MAC_BYTES]
    return base64.urlsafe_b64encode(body + mac).decode().rstrip("=")


def accept(secret: bytes, payload: str, now: datetime) -> Invitation | None:
    """What the payload says, or None where it is not ours or has run out."""
    try:
        raw = base64.urlsafe_b64decode(payload + "=" * (-len(payload) % 4))
    except ValueError:
        return None
    size = struct.calcsize(FORM)
    if len(raw) != size + MAC_BYTES:
        return None
    body, mac = raw[:size], raw[size:]
    if not hmac.compare_digest(mac, hmac.digest(secret, body, hashlib.sha256)[:MAC_BYTES]):
        return None
    until, group = struct.unpack(FORM, body)
    ends = datetime.fromtimestamp(until, tz=now.tzinfo)
    return Invitation(ends=ends, group=group or None) if ends > now else None
