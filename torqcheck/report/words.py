"""Plain words for verdicts and standards, shared by all renderers."""

from torqcheck.checks import Verdict

__all__ = ["VERDICT_WORDS", "standard_words"]

VERDICT_WORDS: dict[Verdict, str] = {
    "pass": "PASS",
    "marginal": "MARGINAL",
    "undecided": "UNDECIDED",
    "fail": "FAIL",
}


def standard_words(standard: str) -> str:
    """
    Name a standard as it is printed; a file and a command take it in small letters too.

    Examples
    --------
    >>> standard_words("din 5480"), standard_words("own")
    ('DIN 5480', 'own')
    """
    return standard if standard == "own" else standard.upper()
