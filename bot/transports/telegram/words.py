"""What the bot says on Telegram that is about the chat and not about golf."""

TYPE_IT = "I can't use that here. Type it, like: 150, 10 mph into, water left"
FORWARDED = "That was passed on, so I don't log it.\nIf it is your shot, type it yourself."
NAMELESS = "You write as the group, so I can't tell whose bag it is.\nPost under your own name."
BY_INVITATION = "This caddie is by invitation.\nAsk a player who has it for a link."
BAD_INVITATION = "That link is too old or not mine.\nAsk for a new one."
OLD_BUTTON = "That button is old. Type it instead."
NOT_YOURS = "That button is for somebody else."
NOTED_BEFORE = "Already noted."
TROUBLE = "That one I could not work on, and it is put aside.\nSend it again in other words."


def late(count: int) -> str:
    """What is said once for messages that came too late for advice."""
    what = "1 message" if count == 1 else f"{count} messages"
    return f"{what} came late: results are logged, advice is not sent.\nSend your next shot."


def greeting(username: str) -> str:
    """What is said on coming into a group."""
    return (
        f"Reply to me or start with @{username}: @{username} 150, 10 mph into\n"
        "To let me read all: make me an admin, or turn off privacy mode with the platform's "
        "bot settings and add me again. /join puts you on the trip."
    )


def invitation(link: str, group: bool) -> str:
    """What is said with an invitation link."""
    what = "Join this trip" if group else "Pass this caddie on"
    return f"{what}: {link}\nGood for 7 days."


COMMANDS_PRIVATE = {
    "start": "Set up or carry on",
    "help": "What to send, with examples",
    "bag": "Your clubs and carries",
    "hole": "Say the hole: /hole 7",
    "card": "Your card so far",
    "review": "What the round cost, and why",
    "undo": "Take the last message back",
    "invite": "A link for another player",
    "privacy": "What is kept, and how to delete it",
}
COMMANDS_GROUP = {
    "help": "What to send, with examples",
    "wind": "Today's wind for all: /wind 12 mph west",
    "hole": "The hole being played: /hole 7",
    "card": "Your card so far",
    "standings": "How the trip stands",
    "join": "Play on this trip",
    "leave": "Leave this trip",
    "invite": "A link for another player",
}

# A command is sent on as words; these few say more plainly what the short ones mean.
MEANT = {"start": "hello", "bag": "show my bag", "card": "show card"}
