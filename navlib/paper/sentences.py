"""What one figure of item analysis says in plain words, and when it comes from too few to say it."""

from dataclasses import dataclass

import numpy as np

from navlib.paper import analysis
from navlib.paper.analysis import Marks
from navlib.paper.scripts import write_marks

WANTED = (0.3, 0.9)
"""Facilities between which a question does its work. Common practice."""
PARTS_WELL, PARTS_POORLY = 0.3, 0.2
"""From which item-rest correlation a question tells strong from weak well, and under which poorly.

Common practice, after R. L. Ebel, “Essentials of Educational Measurement” (from memory).
"""
FIRM, FAIR = 0.8, 0.7
"""Reliability from which a pass rests firmly on a paper, and from which it may do. Common practice."""
FEW_FOR_FACILITY, FEW_FOR_PARTING, FEW_FOR_RELIABILITY = 10, 30, 30
"""Candidates under which a figure is shown with a warning. Common practice."""
FEW_QUESTIONS = 5
"""Questions under which a reliability is shown with a warning. Common practice."""


@dataclass(frozen=True)
class Finding:
    """A figure (None if there is none), what it says, and a warning if the numbers are too few.

    `review` is true where somebody should look at it before the question is used again; `variant`
    is the one that differs, if one does.
    """

    value: float | None
    says: str
    few: str = ""
    review: bool = False
    variant: int | None = None


def share_words(share: float) -> str:
    """Return a share in words, such as “three in four”, with “about” where it is not quite that."""
    if share <= 0 or share >= 1:
        return "none" if share <= 0 else "all"
    if share < 0.05 or share > 0.95:
        return "hardly any" if share < 0.05 else "nearly all"
    near = min(_SHARES, key=lambda one: abs(one - share))
    return _SHARES[near] if abs(near - share) < 0.006 else f"about {_SHARES[near]}"


_SHARES = {
    **{0.1: "one in ten", 0.2: "one in five", 0.25: "one in four", 1 / 3: "one in three"},
    **{0.4: "two in five", 0.5: "half", 0.6: "three in five", 2 / 3: "two in three"},
    **{0.75: "three in four", 0.8: "four in five", 0.9: "nine in ten"},
}


def people(count: int) -> str:
    """Return so many candidates in words."""
    return "1 candidate" if count == 1 else f"{count} candidates"


def _tenths(marks: float) -> str:
    return f"{marks:.1f}".removesuffix(".0")


def middle(
    spread: analysis.Spread | None, most: float, pass_mark: float | None, totals: Marks
) -> Finding:
    """Say how the class did: `totals` are its marks, of `most`."""
    if spread is None:
        return Finding(None, "Nobody has marks yet.")
    says = f"On average {_tenths(spread.mean)} of {most:g} marks."
    if spread.count > 1:
        says += (
            f" Half of the class lies between {_tenths(spread.lower)} and {_tenths(spread.upper)}; "
            f"the lowest has {write_marks(spread.lowest)}, the highest {write_marks(spread.highest)}."
        )
    if pass_mark is not None:
        passed = int((totals >= pass_mark - 1e-9).sum())
        says += f" The pass mark of {pass_mark:g} was reached by {passed} of {spread.count}."
    return Finding(spread.mean, says)


def facility(value: float | None, count: int) -> Finding:
    """Say how easy a question was to `count` candidates."""
    if value is None:
        return Finding(None, "Nobody has marks for this question yet.")
    low, high = WANTED
    if value < low:
        says = (
            f"Facility {value:.2f}: {share_words(1 - value)} of these marks were lost. "
            f"Under {low:g} goes to review."
        )
    elif value > high:
        says = (
            f"Facility {value:.2f}: {share_words(value)} of these marks were earned. It is easy: fine "
            "as a beginning, but it says little about who knows more."
        )
    else:
        says = f"Facility {value:.2f}: {share_words(value)} of these marks were earned."
    few = ""
    if count < FEW_FOR_FACILITY:
        few = (
            f"Only {people(count)}: one person more or less moves a facility by up to "
            f"{1 / count:.2f}. From {FEW_FOR_FACILITY} on it is steadier."
        )
    return Finding(value, says, few, review=value < low)


def discrimination(r: float | None, outer: tuple[float, float] | None, count: int) -> Finding:
    """Say whether a question parts strong from weak, by item-rest correlation and outer groups."""
    if r is None or outer is None:
        return Finding(
            None, "It cannot be said whether this question parts strong from weak: no marks differ."
        )
    size = analysis.group_size(count)
    if r < -PARTS_POORLY:
        word = (
            "Those who did well elsewhere did worse here: look for a wrong key, a trap or words that "
            "mislead."
        )
    elif r < 0:
        word = "Those who did well elsewhere did no better here."
    elif r < PARTS_POORLY:
        word = "It tells strong from weak poorly."
    elif r < PARTS_WELL:
        word = "It tells strong from weak fairly."
    else:
        word = "It tells strong from weak well."
    many = "" if size == 1 else f"{size} "
    says = (
        f"Discrimination {r:.2f}. {word} The {many}best on the rest of the paper earned "
        f"{outer[0]:.0%} of its marks, the {many}weakest {outer[1]:.0%}."
    ).replace("-", "−", 1 if r < 0 else 0)
    few = ""
    if count < FEW_FOR_PARTING:
        low, high = analysis.bounds(r, count)
        few = (
            f"From {people(count)} it may lie anywhere from {low:.2f} to {high:.2f}; "
            f"{FEW_FOR_PARTING} are wanted."
        ).replace("-", "−")
    return Finding(r, says, few, review=r < 0)


def reliability(value: float | None, count: int, questions: int) -> Finding:
    """Say how far a pass may rest on a paper of so many questions."""
    if value is None:
        return Finding(
            None,
            "No figure: it takes two questions and two candidates with different marks.",
        )
    if value >= FIRM:
        word = "The questions agree on who knows more: a pass rests firmly on this paper."
    elif value >= FAIR:
        word = "The questions agree fairly on who knows more: enough for a class paper."
    elif value < 0:
        word = "Under 0 the questions pull against each other, or the marks hardly differ."
    else:
        word = (
            "The questions do not agree well on who knows more. Do not let a pass hang on a mark or "
            "two; more questions, or less varied ones, would help."
        )
    says = f"Reliability {value:.2f}. {word}".replace("-", "−")
    few = []
    if count < FEW_FOR_RELIABILITY:
        few.append(
            f"It is from {people(count)}; {FEW_FOR_RELIABILITY} and more are wanted before "
            "it is more than a hint."
        )
    if questions < FEW_QUESTIONS:
        few.append(f"With {questions} questions it is always low; {FEW_QUESTIONS} are wanted.")
    return Finding(value, says, " ".join(few), review=value < FAIR and not few)


def error(
    reliability: float | None,
    spread: analysis.Spread | None,
    pass_mark: float | None,
    totals: Marks,
) -> Finding:
    """Say how near a mark is to what the candidate is worth."""
    if reliability is None or spread is None or spread.sd is None:
        return Finding(None, "No figure: it follows from the reliability.")
    error = analysis.error_of_measurement(spread.sd, reliability)
    says = (
        f"Standard error of measurement {error:.1f}: on another paper of this sort two in three "
        f"candidates would come within {error:.1f} marks of what they have now."
    )
    if pass_mark is not None:
        near = int((np.abs(totals - pass_mark) <= error + 1e-9).sum())
        who = f"{people(near)} {'lies' if near == 1 else 'lie'}" if near else "Nobody lies"
        says += f" {who} so close to the pass mark that another paper might turn it."
    few = "" if spread.count >= FEW_FOR_RELIABILITY else f"It is from {people(spread.count)}."
    return Finding(error, says, few)
