"""Do the public functions of the core say the unit of every number they take?"""

import importlib
import inspect
import pkgutil

import pytest

import engine.core

UNITS = ("_m", "_mps", "_mps2", "_rad", "_radps", "_k", "_c", "_pa", "_pas", "_kgpm3", "_s", "_kg")
# Dimensionless numbers, and what is counted.
BARE = {
    "humidity", "share", "spread", "factor", "grade", "seed", "count", "k", "n", "par", "index",
    "reynolds", "spin_ratio", "value", "low", "high", "state", "z", "hour",
    "wind_feel", "height_feel", "stored", "learned", "sd", "matters", "rolls",
    "slope", "cost", "out", "wind_doubt", "keep", "up", "right", "x", "wildness", "pace",
    "slope_rating", "rating", "score", "strokes", "handicap", "hole", "row", "swing", "shots",
    "before", "played", "after", "made", "penalty", "halves",
}  # fmt: skip
NUMBERS = ("float", "F64", "Array", "NDArray", "ndarray")

MODULES = [m.name for m in pkgutil.walk_packages(engine.core.__path__, "engine.core.")]


@pytest.mark.parametrize("name", MODULES)
def test_numbers_are_named_with_their_unit(name: str) -> None:
    wrong = []
    for function in vars(importlib.import_module(name)).values():
        if not inspect.isfunction(function) or function.__module__ != name:
            continue
        if function.__name__.startswith("_"):
            continue
        for parameter in inspect.signature(function).parameters.values():
            kind = str(parameter.annotation)
            if not kind.startswith(NUMBERS) or parameter.name in BARE:
                continue
            if not parameter.name.endswith(UNITS):
                wrong.append(f"{function.__name__}({parameter.name})")
    assert not wrong, wrong
