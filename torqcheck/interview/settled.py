"""An answer in the one form in which it is kept."""

import datetime
import re
from decimal import Decimal

from torqcheck.interview.question import Question

__all__ = ["DATE", "TODAY", "plain", "settled_as"]

DATE, TODAY = "record.date", "today"
_PER_CENT = re.compile(r"([+-]?\d{1,3}(?:\.\d{0,6})?)\s*(?:%|percent|per cent)", re.ASCII)


def plain(text: str) -> str:
    """Write a plain number in one way, so that 1.0 and 1 are one answer."""
    if re.fullmatch(r"[+-]?\d{1,9}\.\d{0,9}", text, re.ASCII):
        return text.rstrip("0").rstrip(".") or "0"
    return text


def settled_as(question: Question, text: str) -> str:
    """
    Return an answer as it is kept: a per cent of a share as a plain number, today as a date.

    Examples
    --------
    >>> settled_as(Question(key="duty[].share", words="", how="", share=True), "12.5 %")
    '0.125'
    """
    if question.key == DATE and text.casefold() == TODAY:
        return datetime.date.today().isoformat()
    percent = _PER_CENT.fullmatch(text) if question.share else None
    return plain(text if percent is None else f"{Decimal(percent[1]) / 100:f}")
