"""What was told of a shot, and understood, that the model does not weigh?"""

from __future__ import annotations

from bot.model.reading import NO_GAP, Facts


def left_out(facts: Facts, shape: str | None) -> tuple[str, ...]:
    """Return its names, for a player of the usual `shape`; nothing told is dropped in silence."""
    found = [name for name in facts.beside if name != NO_GAP]
    if facts.air is not None and facts.air.rain:
        found.append("rain")
    if facts.shape not in (None, "straight", shape):
        found.append(str(facts.shape))
    wind = facts.wind
    if wind is not None and wind.unsteady and wind.speed is None and wind.from_deg is None:
        found.append("swirling wind")
    if facts.swing in ("smooth", "hard"):
        found.append(f"{facts.swing} swing")
    return tuple(found)
