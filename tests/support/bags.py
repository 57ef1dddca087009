"""Bags built on the standard physics."""

from __future__ import annotations

from engine.api.standard import physics
from engine.core.bag import StartBag, build_bag
from engine.core.facts import Facts


def built(facts: Facts) -> StartBag:
    """Return the start bag of these facts."""
    return build_bag(facts, physics=physics())
