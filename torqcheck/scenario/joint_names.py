"""What a joint is called: by its own name, or by its place in the path."""

from collections.abc import Sequence
from typing import Any

__all__ = ["SPLINED", "called", "joint_name", "joints_called"]

SPLINED = ("involute spline", "straight spline")
"""Kinds of joint with teeth, as the file writes them."""


def called(own: str | None, index: int) -> str:
    """Return what reports call a joint: its own name, or its place counted from 1."""
    return own or f"joint {index + 1}"


def joint_name(joint: Any, index: int) -> str:
    """Return the name of a joint as reports give it."""
    return called(joint.name, index)


def joints_called(joints: Sequence[Any], text: str) -> list[int]:
    """
    Return the places of the joints that a user can mean.

    Parameters
    ----------
    joints : sequence of joints
        The path.
    text : str
        A name, whatever its case, or a place counted from 1 where no joint has that name.
    """
    wanted = text.strip()
    names = [joint_name(joint, index) for index, joint in enumerate(joints)]
    found = [index for index, name in enumerate(names) if name.casefold() == wanted.casefold()]
    # more digits than that are no place, and int() refuses some thousands of them
    if not found and wanted.isascii() and wanted.isdigit() and len(wanted) < 6:
        found = [int(wanted) - 1] if 1 <= int(wanted) <= len(names) else []
    return found
