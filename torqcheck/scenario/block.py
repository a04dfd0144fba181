"""Base of every block of a scenario file, and how lists and tables in it are read."""

from typing import Annotated, Any, TypeVar

from pydantic import BaseModel, BeforeValidator, ConfigDict

__all__ = ["Block", "ListOf", "as_tuple", "form"]

Item = TypeVar("Item")


class Block(BaseModel):
    """Base of every block: frozen, no unknown keys, no silent conversions.

    The validators are built when a block is first read, so that a file pays only for its own kinds.
    """

    model_config = ConfigDict(frozen=True, extra="forbid", strict=True, allow_inf_nan=False, defer_build=True)


def as_tuple(written: Any) -> Any:
    """Let a TOML array stand for a tuple."""
    return tuple(written) if isinstance(written, list) else written


ListOf = Annotated[tuple[Item, ...], BeforeValidator(as_tuple)]


def form(written: Any) -> str:
    """Tell the two ways of writing a field apart: a word, or a table."""
    return "words" if isinstance(written, str) else "table"
