"""What can go wrong with a store."""


class StoreError(Exception):
    """Trouble with the store; the message says what to do."""


class StaleState(StoreError):
    """A document was changed by somebody else since it was loaded."""

    def __init__(self, key: str, expected: int, found: int) -> None:
        self.key, self.expected, self.found = key, expected, found
        super().__init__(f"{key} is at version {found}, not {expected}: load it again")


class StoreTooNew(StoreError):
    """The store was written by a newer release."""

    def __init__(self, path: str, unknown: tuple[str, ...]) -> None:
        self.path, self.unknown = path, unknown
        super().__init__(
            f"{path} was written by a newer release (unknown steps: {', '.join(unknown)}): "
            "install that release, or choose another store"
        )


class StoreReadOnly(StoreError):
    """The store cannot be written."""

    def __init__(self, path: str) -> None:
        self.path = path
        super().__init__(f"{path} cannot be written: check its owner and the directory's")


class StoreFull(StoreError):
    """No room is left on the disk."""

    def __init__(self, path: str) -> None:
        self.path = path
        super().__init__(f"the disk of {path} is full: free some space, nothing was changed")


class StoreCorrupt(StoreError):
    """The file is not a sound store."""

    def __init__(self, path: str, detail: str) -> None:
        self.path, self.detail = path, detail
        super().__init__(f"{path} is not a sound store ({detail}): restore a backup")


class StoreBusy(StoreError):
    """Another program holds the store."""

    def __init__(self, path: str) -> None:
        self.path = path
        super().__init__(f"{path} is held by another program: stop it and try again")


class StoreMissing(StoreError):
    """The store's place does not exist."""

    def __init__(self, path: str) -> None:
        self.path = path
        super().__init__(f"{path} cannot be opened: its directory does not exist or is closed")
