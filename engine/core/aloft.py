"""How are flights that belong to several questions flown in one march?

A march costs nearly the same for ten balls as for five hundred. So a question that needs
flights is written as a generator: it yields a batch, is sent its paths, and returns its
answer. Alone it is run to its end; several are stepped side by side, their batches flown
together.
"""

from __future__ import annotations

from collections.abc import Generator, Hashable
from functools import lru_cache
from typing import TypeVar

from engine.core.aero import Ball
from engine.core.flight import Batch, Landing, trace
from engine.core.march import Path

T = TypeVar("T")
U = TypeVar("U")
Flying = Generator[Batch, Path, T]


@lru_cache(maxsize=32)
def landings(*conditions: Hashable) -> list[Landing]:
    """Return what was flown under conditions, empty at first and to be filled by who flies it.

    A question put again, about another pin or other trouble, needs the same flights.
    """
    return []


def flown_alone(question: Flying[T], *, ball: Ball) -> T:
    """Return the answer of one question.

    Parameters
    ----------
    question : Flying
        Yields batches and returns an answer.
    ball : Ball
        Drag and lift law.

    Returns
    -------
    object
        What the question returns.
    """
    try:
        batch = next(question)
        while True:
            batch = question.send(trace(batches=[batch], ball=ball)[0])
    except StopIteration as end:
        return end.value  # type: ignore[no-any-return]


def flown_together(first: Flying[T], second: Flying[U], *, ball: Ball) -> tuple[T, U]:
    """Return the answers of two questions, with as few marches as the longer of them needs.

    Parameters
    ----------
    first, second : Flying
        Yield batches and return an answer.
    ball : Ball
        Drag and lift law.

    Returns
    -------
    tuple
        What each question returns.
    """
    open_: dict[int, Flying[object]] = {0: first, 1: second}
    paths: dict[int, Path] = {}
    answers: dict[int, object] = {}
    while open_:
        batches: dict[int, Batch] = {}
        for i, question in list(open_.items()):
            try:
                batches[i] = question.send(paths[i]) if i in paths else next(question)
            except StopIteration as end:
                answers[i] = end.value
                del open_[i]
        flown = trace(batches=list(batches.values()), ball=ball) if batches else []
        paths = dict(zip(batches, flown, strict=True))
    return answers[0], answers[1]  # type: ignore[return-value]
