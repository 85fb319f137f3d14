"""What is told of one kind of finding: how bad, in which words, what to do, and which rules ask for it?

Texts are made from codes, never stored: `{subject}` is what the finding is about, `{value}` and `{limit}` are figures
with their unit at two significant digits. Severity: danger (someone may be hurt), caution (the work stops, or a
question is open), info. A verdict of `unknown` in its aspect is what an open question leaves.
Not here: the codes themselves (finding_codes.py, site_finding_codes.py, code_finding_codes.py).
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

MARKS = "ul-817_marked"


@dataclass(frozen=True, slots=True)
class FindingCode:
    """One kind of finding.

    severity : danger, caution or info. aspect : safety, capacity or code. text, what_to_do : templates.
    verdict : what one such finding makes of its aspect: fail, unknown, marginal or pass (told, not judged).
    figure : name of its value, None without one. basis : citation keys. meaning : for a reference page, no figures.
    rules : rule codes of engine/standards/rule_layers; an answer names the clause of each layer that was asked for.
    card : what a crew reads where `text` names clauses, a template like it; empty where `text` does for both.
    """

    severity: str
    aspect: str
    text: str
    what_to_do: str
    verdict: str
    figure: str | None = None
    basis: tuple[str, ...] = ()
    meaning: str = ""
    rules: tuple[str, ...] = ()
    card: str = ""


def danger(
    text: str,
    todo: str,
    figure: str | None = None,
    *basis: str,
    meaning: str = "",
    rules: tuple[str, ...] = (),
    card: str = "",
) -> FindingCode:
    """Someone may be hurt: the safety verdict fails."""
    return FindingCode("danger", "safety", text, todo, "fail", figure, basis, meaning, rules, card)


def capacity(
    text: str, todo: str, figure: str | None = None, *basis: str, meaning: str = "", rules: tuple[str, ...] = ()
) -> FindingCode:
    """Its verdict comes from the figures; `fail` here stands for a finding without a figure."""
    return FindingCode("caution", "capacity", text, todo, "fail", figure, basis, meaning, rules)


def caution(
    text: str,
    todo: str,
    verdict: str = "marginal",
    figure: str | None = None,
    *basis: str,
    meaning: str = "",
    rules: tuple[str, ...] = (),
) -> FindingCode:
    """The work stops, or a question is open."""
    return FindingCode("caution", "safety", text, todo, verdict, figure, basis, meaning, rules)


def info(
    text: str, todo: str, figure: str | None = None, *basis: str, meaning: str = "", rules: tuple[str, ...] = ()
) -> FindingCode:
    """Told beside the figures; changes no verdict."""
    return FindingCode("info", "capacity", text, todo, "pass", figure, basis, meaning, rules)


def reminder(text: str, todo: str, *basis: str, meaning: str = "", rules: tuple[str, ...] = ()) -> FindingCode:
    """Told for safety; nothing that a request could say would settle it, so it changes no verdict."""
    return FindingCode("info", "safety", text, todo, "pass", None, basis, meaning, rules)


def code_caution(
    text: str,
    todo: str,
    rules: tuple[str, ...],
    verdict: str = "fail",
    figure: str | None = None,
    *,
    meaning: str,
    basis: tuple[str, ...] = (),
) -> FindingCode:
    """A rule layer asks for something else."""
    return FindingCode("caution", "code", text, todo, verdict, figure, basis, meaning, rules)


def code_info(text: str, todo: str, rules: tuple[str, ...], figure: str | None = None, *, meaning: str) -> FindingCode:
    """A rule that sizes, or that applies by analogy: told, never failed."""
    return FindingCode("info", "code", text, todo, "pass", figure, (), meaning, rules)


def tables_of(code: FindingCode, of_cords: Sequence[str]) -> tuple[str, ...]:
    """Citations behind a finding of some kind; the marks of listed sets only where a cord's rating is such a mark.

    of_cords : citations that the capacity of the cords it is about leans on.
    """
    return tuple(key for key in code.basis if key != MARKS or MARKS in of_cords)
