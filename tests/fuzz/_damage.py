"""Ways in which the bytes of any file are damaged."""

import random
import string

__all__ = ["cells_changed", "damaged_bytes"]

LETTERS = (
    "\u202e",
    "\ufeff",
    "\u2028",
    "é",
    "１",
    '"',
    "'",
    "#",
    "=",
    ",",
    ";",
    "\r",
    "\n",
    "\x00",
    "\x0b",
    "[",
    "{",
)
CELLS = (
    *(
        "",
        " ",
        "nan",
        "inf",
        "-inf",
        "-1",
        "0",
        "1e400",
        "1e-320",
        "1e300",
        "9**9**9",
        "__import__('os')",
        "１２",
    ),
    *(
        "1,5",
        "1_000",
        "0x10",
        "1e9",
        "x" * 5000,
        "(" * 3000,
        "\x00",
        "\u202e1",
        "=1+1",
        '"',
        "none",
        "9" * 400,
    ),
)
"""What stands in the cell of a table that something went wrong with."""


def damaged_bytes(content: bytes, dice: random.Random) -> bytes:
    """Flip, cut, double, leave out or put in something."""
    damaged = bytearray(content)
    at = dice.randrange(max(1, len(damaged)))
    to = min(len(damaged), at + dice.choice([1, 5, 200]))
    how = dice.randrange(7)
    if how == 0:
        for _ in range(dice.choice([1, 3, 20])):
            damaged[dice.randrange(len(damaged))] ^= 1 << dice.randrange(8)
    elif how == 1:
        del damaged[at:]
    elif how == 2:
        del damaged[at:to]
    elif how == 3:
        damaged[at:at] = dice.randbytes(dice.choice([1, 8, 500]))
    elif how == 4:
        damaged[at:at] = dice.choice(LETTERS).encode() * dice.choice([1, 1, 3000])
    elif how == 5:
        damaged[at:at] = damaged[at:to]
    else:
        digits = [place for place, byte in enumerate(damaged) if chr(byte) in string.digits]
        for place in dice.sample(digits, min(len(digits), 3)):
            damaged[place] = ord(dice.choice("0123456789-.eE+"))
    return bytes(damaged)


def cells_changed(lines: list[str], dice: random.Random) -> bytes:
    """One or two cells of a table, written with commas, are something else; sometimes one too many."""
    changed = [line.split(",") for line in lines]
    for _ in range(dice.choice([1, 1, 2])):
        row = dice.choice(changed)
        row[dice.randrange(len(row))] = dice.choice(CELLS)
        if dice.random() < 0.1:
            row.append(dice.choice(CELLS))
    return "".join(",".join(row) + "\n" for row in changed).encode()
