"""The engine's errors: one root, each carrying fields that build its message."""


class EngineError(Exception):
    """Root of everything the engine raises on purpose."""


class OutOfRange(EngineError, ValueError):
    """A quantity outside the range in which the model is valid.

    Attributes
    ----------
    name : str
        The quantity, as the public function names it.
    value, low, high : float
        What was given and both limits, in `unit`.
    unit : str
        Unit of the three numbers.
    """

    def __init__(self, name: str, value: float, low: float, high: float, unit: str) -> None:
        self.name, self.value, self.low, self.high, self.unit = name, value, low, high, unit
        super().__init__(f"{name} {value:g} {unit} is outside {low:g} to {high:g} {unit}")


class NoSolution(EngineError):
    """A solve that has no answer, such as a carry no launch of this club reaches."""

    def __init__(self, name: str, reason: str) -> None:
        self.name, self.reason = name, reason
        super().__init__(f"{name}: {reason}")


class BadTable(EngineError):
    """A data file of the engine that cannot be used."""

    def __init__(self, table: str, reason: str) -> None:
        self.table, self.reason = table, reason
        super().__init__(f"{table}: {reason}")
