"""What a question is: words for a person, a place in the scenario file, and when it is asked."""

from dataclasses import dataclass
from typing import Any, Literal

__all__ = ["NOT_KNOWN", "Choice", "Question", "When", "yes_or_no"]

NOT_KNOWN = "?"
"""The answer of someone who does not know, as it is kept."""

Form = Literal["reading", "choice", "ramp", "steel", "pick"]
"""How an answer is read: as the schema says at its place, or in a way of its own."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One answer of several: the word, what it means, and what it writes, by place."""

    word: str
    meaning: str = ""
    writes: tuple[tuple[str, Any], ...] = ()


@dataclass(frozen=True, slots=True)
class When:
    """Asked only if an earlier question of the same part was answered so, or not so.

    `key` is written as that of the question, `or_key` is another that will do as well. A question that
    was not asked counts as met only with `or_unasked`.
    """

    key: str
    any_of: tuple[str, ...] = ()
    none_of: tuple[str, ...] = ()
    or_key: str = ""
    or_unasked: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Question:
    """
    One question of the interview.

    Parameters
    ----------
    key : str
        Its name; `[]` stands for the count of the spell or joint. Where `form` is ``reading`` it is
        also the place in the file, and the schema there says how the answer is read.
    words, how : str
        The question, and how the answer is found at the bench.
    more : str, optional
        What ``help`` says beyond that.
    form : str, optional
        How the answer is read.
    choices : tuple of Choice, optional
        The answers among which one chooses.
    when : tuple of When, optional
        All must hold for it to be asked.
    needed : bool, optional
        Nothing can stand in for it.
    unknown : str or None, optional
        What the file says where it is not known; None where the key is then left out.
    assumed : str, optional
        Key by which the check writes down what it assumes; that of the question if empty.
    nothing : str, optional
        What no answer means, where the check assumes nothing that it would write down.
    leads_to : str, optional
        What no answer leads to, beside what stands for it.
    share : bool, optional
        A part of a whole, so that a per cent is understood too.
    silent : tuple of str, optional
        Answers that leave nothing in the file.
    """

    key: str
    words: str
    how: str
    more: str = ""
    form: Form = "reading"
    choices: tuple[Choice, ...] = ()
    when: tuple[When, ...] = ()
    needed: bool = False
    unknown: str | None = None
    assumed: str = ""
    nothing: str = ""
    leads_to: str = ""
    share: bool = False
    silent: tuple[str, ...] = ()


def yes_or_no(place: str) -> tuple[Choice, Choice]:
    """Return the two answers that write true or false at a place; nothing where there is no place."""
    if not place:
        return Choice("yes"), Choice("no")
    return Choice("yes", writes=((place, True),)), Choice("no", writes=((place, False),))
