"""Whether the variants of a paper were equal, in plain words."""

from collections import Counter
from collections.abc import Sequence
from functools import cached_property

import numpy as np

from navlib.paper import analysis
from navlib.paper.analysis import Marks
from navlib.paper.sentences import Finding, people

SELDOM = 0.05
"""Chance under which a difference between variants is taken for one."""
FEW_IN_VARIANT = 2
"""Candidates under which a variant is left out of the comparison."""
WIDE = 0.25
"""Share of the marks that a comparison should be able to see; if it cannot, it says so."""


class Variants:
    """The marks of a sitting by variant; `variants` holds one for each row, or nothing."""

    def __init__(self, marks: Marks, out_of: Marks, variants: Sequence[int]) -> None:
        self._marks, self._out_of = marks, out_of
        self._of = np.asarray(variants, dtype=int)
        sizes = Counter(self._of.tolist())
        self._sizes = dict(sorted(sizes.items()))
        wanted = [variant for variant, size in sizes.items() if size >= FEW_IN_VARIANT]
        self._in = np.isin(self._of, wanted)
        self._compared = len(wanted)

    @property
    def too_few(self) -> Finding | None:
        """What to say where there is nothing to compare."""
        if len(self._sizes) < 2:
            return Finding(None, "All sat the same variant: there is nothing to compare.")
        if self._compared < 2:
            return Finding(
                None,
                "The variants cannot be compared.",
                f"It takes two variants with {FEW_IN_VARIANT} candidates each at least.",
            )
        return None

    def facilities(self, question: int) -> dict[int, float]:
        """Return the share of a question's marks that was earned in each variant."""
        return {
            variant: float(self._marks[self._of == variant, question].mean())
            / float(self._out_of[question])
            for variant in self._sizes
        }

    def totals(self) -> dict[int, tuple[int, float]]:
        """Return for each variant how many sat it, and their mean marks."""
        totals = self._marks.sum(axis=1)
        return {v: (size, float(totals[self._of == v].mean())) for v, size in self._sizes.items()}

    def question(self, question: int) -> Finding:
        """Say whether a question was as easy in each variant, given how its candidates did elsewhere."""
        if (nothing := self.too_few) is not None:
            return nothing
        unequal = self._beside
        assert unequal is not None
        variant, by, chance = (
            unequal.group[question],
            unequal.by[question],
            unequal.chance[question],
        )
        if chance < SELDOM:
            how = "harder" if by < 0 else "easier"
            less = "less" if by < 0 else "more"
            return Finding(
                chance,
                f"Not equal: variant {variant} was {how}. Its candidates earned {abs(by):.0%} {less} of "
                f"these marks than others who did as well elsewhere; chance alone parts variants so "
                f"far in {_times(chance)}. Look at its numbers before you let marks stand.",
                review=True,
                variant=variant,
            )
        return Finding(
            chance,
            "No more difference between the variants than chance makes.",
            self._blind(unequal.telling[question]),
        )

    def paper(self) -> Finding:
        """Say whether the whole paper was as easy in each variant."""
        if (nothing := self.too_few) is not None:
            return nothing
        unequal = self._whole
        assert unequal is not None
        (variant,), (by,), (chance,) = unequal.group, unequal.by, unequal.chance
        if chance < SELDOM:
            less = "fewer" if by < 0 else "more"
            return Finding(
                chance,
                f"The candidates of variant {variant} have {abs(by):.1f} marks {less} than the others; "
                f"chance alone parts variants so far in {_times(chance)}. Either the variant is not "
                "equal, or stronger and weaker candidates were not spread over the variants: the "
                "questions below tell more.",
                review=True,
                variant=variant,
            )
        most = float(self._out_of.sum())
        return Finding(
            chance,
            "The totals of the variants differ no more than chance makes.",
            self._blind(unequal.telling[0] / most),
        )

    def _blind(self, telling: float) -> str:
        if telling <= WIDE:
            return ""
        smallest = min(size for size in self._sizes.values() if size >= FEW_IN_VARIANT)
        return (
            f"With as few as {people(smallest)} a variant, only a difference of {telling:.0%} of the "
            "marks and more would show."
        )

    @cached_property
    def _beside(self) -> analysis.Unequal | None:
        marks = self._marks[self._in]
        left = analysis.beside_the_rest(marks, self._out_of)
        return analysis.compare_groups(left, self._of[self._in].tolist())

    @cached_property
    def _whole(self) -> analysis.Unequal | None:
        totals = self._marks[self._in].sum(axis=1, keepdims=True)
        return analysis.compare_groups(totals, self._of[self._in].tolist())


def _times(chance: float) -> str:
    """Return a chance in words: one sitting in so many."""
    return f"one sitting in {max(2, round(1 / chance))}" if chance > 0 else "hardly any sitting"
