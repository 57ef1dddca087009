"""Is the message talk: danger, thanks, help, a rules question, or text to leave alone?"""

from bot.model.reading import Facts, Nonsense, RulesHelp, Safety, Talk
from bot.text.acts.bundle import Bundle

_TOPICS = {
    "hazard.ob": "ob", "hazard.penalty": "penalty_area", "hazard.water": "penalty_area",
    "result.unplayable": "unplayable", "lie.lost": "lost", "hazard.bunker": "bunker",
    "lie.buried": "embedded", "lie.path": "free_relief", "result.provisional": "provisional",
    "rules.wrong": "wrong_ball", "rules.moved": "ball_moved", "rules.search": "search",
    "rules.device": "distance_device", "rules.embedded": "embedded",
    "rules.bunker_rules": "bunker",
    "lie.wet": "free_relief", "lie.ob": "ob", "lie.water": "penalty_area",
}  # fmt: skip


def safety(b: Bundle) -> Safety | None:
    """The danger told, or None."""
    token = b.first("danger.medical", "danger.lightning", "danger.heat", "danger.people")
    if token is None:
        return None
    danger = {"people": "people_in_range"}.get(token.name.split(".")[1], token.name.split(".")[1])
    return Safety(danger=danger)


def hostile(b: Bundle, told: Facts, text: str) -> Nonsense | None:
    """Text that must not be taken for a shot, or None."""
    if b.has("hostile") and told == Facts():
        return Nonsense(why="hostile", said=text[:80])
    return None


def rules(b: Bundle) -> RulesHelp | None:
    """A question about the Rules, or None."""
    if not b.has("rules"):
        return None
    topic = next((t for n, t in _TOPICS.items() if b.has(n)), "other")
    return RulesHelp(topic=topic)


def early(b: Bundle) -> Talk | None:
    """Talk that is never about a shot: forget, privacy, undo, help."""
    for name, intent in (("forget", "forget_me"), ("privacy", "privacy"), ("undo", "undo")):
        if b.has(f"talk.{name}") and not b.has("n", "got"):
            return Talk(intent=intent)
    return None


def late(b: Bundle) -> Talk | None:
    """Talk where nothing of golf was told."""
    for name, intent in (
        ("help", "help"), ("low", "mood_low"), ("thanks", "thanks"), ("greeting", "greeting"),
    ):  # fmt: skip
        if b.has(f"talk.{name}"):
            return Talk(intent=intent)
    return None
