"""What an edited message does to what its first text had put into the log."""

from bot.turn.desk import Desk

LOOK_BACK = 60  # entries of this chat looked through for those of the edited message


def take_back(desk: Desk, message_id: str) -> Desk:
    """Return a desk on which every entry that the first text made is undone."""
    recent = desk.shelf.entries(
        player=desk.message.sender, chat=desk.message.chat, newest_first=True, limit=LOOK_BACK
    )
    for entry in recent:
        edited = entry.message_id == message_id or entry.message_id.startswith(f"{message_id}.")
        if edited and entry.kind != "profile" and entry.id is not None:
            desk = desk.log("undo", {"why": "edited"}, player=entry.player, undoes=entry.id)
    return desk
