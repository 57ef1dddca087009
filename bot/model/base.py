"""What every stored or exchanged type of the bot has in common."""

from pydantic import BaseModel, ConfigDict


class Frozen(BaseModel):
    """A frozen value; an unknown field is an error. Its checks are built on first use."""

    model_config = ConfigDict(frozen=True, extra="forbid", defer_build=True)
