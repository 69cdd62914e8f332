"""Item analysis on a matrix of marks, a row a candidate, a column a question: numbers only.

Shares of marks (0 to 1) stand for marks wherever questions of different worth are compared. A figure
that the marks cannot give (one candidate, no spread) is None, never NaN. What the figures say in
words is told by `findings`.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

import numpy as np
import numpy.typing as npt

Marks = npt.NDArray[np.float64]
Indices = npt.NDArray[np.intp]

GROUP = 0.27
"""Share of the candidates in each of the two outer groups.

T. L. Kelley, “The selection of upper and lower groups for the validation of test items”, Journal of
Educational Psychology 30 (1939), page 17 (from memory).
"""
EXACT = 3000
"""Ways of dealing the candidates out up to which all are gone through."""
SHUFFLES = 3000
"""Ways that are drawn where there are more."""
_SEED = 20_000


@dataclass(frozen=True)
class Spread:
    """How marks lie: mean, standard deviation of the sample (None for one candidate), quartiles.

    Quartiles by straight lines between ranks (type 7 of R. J. Hyndman and Y. Fan, “Sample quantiles
    in statistical packages”, The American Statistician 50 (1996), page 363; from memory).
    """

    count: int
    mean: float
    sd: float | None
    lowest: float
    lower: float
    median: float
    upper: float
    highest: float


def spread(totals: npt.ArrayLike) -> Spread | None:
    """Return how the marks of a class lie; None if there are none."""
    values = np.asarray(totals, dtype=float)
    if not values.size:
        return None
    low, lower, median, upper, high = map(float, np.quantile(values, (0, 0.25, 0.5, 0.75, 1)))
    sd = float(values.std(ddof=1)) if values.size > 1 else None
    return Spread(values.size, float(values.mean()), sd, low, lower, median, upper, high)


def facility(shares: Marks) -> list[float | None]:
    """Return for each question the share of its marks that was earned, 0 to 1."""
    return [float(share.mean()) if share.size else None for share in shares.T]


def correlation(one: npt.ArrayLike, other: npt.ArrayLike) -> float | None:
    """Return Pearson's r; None where either does not vary.

    With 0 and 1 on one side it is the point-biserial correlation.
    """
    a, b = (np.asarray(side, dtype=float) for side in (one, other))
    if a.size < 2 or _steady(a) or _steady(b):
        return None
    a, b = a - a.mean(), b - b.mean()
    r = float((a / np.linalg.norm(a)) @ (b / np.linalg.norm(b)))
    return min(1.0, max(-1.0, r))


def discrimination(marks: Marks) -> list[float | None]:
    """Return for each question its correlation with the marks of all others (item-rest, corrected).

    A question that counted in the total too would agree with itself: hence the rest.
    """
    totals = marks.sum(axis=1)
    return [correlation(column, totals - column) for column in marks.T]


def bounds(r: float, count: int) -> tuple[float, float]:
    """Return between which figures a correlation lies, 19 times in 20.

    R. A. Fisher's z: atanh r is off by 1/√(n − 3). Under four candidates it may be anything.
    """
    if count < 4:
        return -1.0, 1.0
    z, off = math.atanh(min(max(r, -0.999_999), 0.999_999)), 1.96 / math.sqrt(count - 3)
    return math.tanh(z - off), math.tanh(z + off)


def group_size(count: int) -> int:
    """Return how many candidates are in each outer group: 27 %, one at least."""
    return max(1, round(GROUP * count))


def outer_groups(marks: Marks, shares: Marks) -> list[tuple[float, float] | None]:
    """Return for each question what the best and the weakest 27 % on the other questions earned.

    Where several candidates stand at the edge of a group they share the places left there, so the
    order of the rows is of no account. None for fewer than two candidates.
    """
    if len(marks) < 2:
        return [None] * marks.shape[1]
    size = group_size(len(marks))
    totals = marks.sum(axis=1)
    found: list[tuple[float, float] | None] = []
    for column, share in zip(marks.T, shares.T, strict=True):
        rest = np.round(totals - column, 9)
        found.append((_mean_of_top(rest, share, size), _mean_of_top(-rest, share, size)))
    return found


def _mean_of_top(rank: Marks, share: Marks, size: int) -> float:
    edge = np.sort(rank)[-size]
    above, at = rank > edge, rank == edge
    weight = above + at * (size - above.sum()) / at.sum()
    return float(weight @ share / size)


def alpha(marks: Marks) -> float | None:
    """Return Cronbach's alpha; None for fewer than two questions or candidates, or without spread.

    L. J. Cronbach, “Coefficient alpha and the internal structure of tests”, Psychometrika 16 (1951),
    page 297: k/(k − 1) · (1 − sum of the questions' variances / variance of the totals).
    """
    count, k = marks.shape
    totals = marks.sum(axis=1)
    if count < 2 or k < 2 or _steady(totals):
        return None
    return float(k / (k - 1) * (1 - marks.var(axis=0).sum() / totals.var()))


def all_or_nothing(shares: Marks) -> bool:
    """Return whether each question earned all its marks or none."""
    return bool(np.isin(shares, (0.0, 1.0)).all())


def kr20(right: Marks) -> float | None:
    """Return the Kuder-Richardson formula 20 of a matrix of 0 and 1; None as for `alpha`.

    G. F. Kuder and M. W. Richardson, “The theory of the estimation of test reliability”,
    Psychometrika 2 (1937), page 151. It is alpha where each question is right or wrong, as the
    variance of such a question is p(1 − p). Raises ValueError for anything but 0 and 1.
    """
    if not all_or_nothing(right):
        raise ValueError("KR-20 is for questions that are right (1) or wrong (0): use alpha")
    return alpha(right)


def error_of_measurement(sd: float, reliability: float) -> float:
    """Return the standard error of measurement, sd · √(1 − reliability), in marks.

    A reliability below 0 counts as 0: the marks are then all chance.
    """
    return sd * math.sqrt(1 - min(1.0, max(0.0, reliability)))


def beside_the_rest(marks: Marks, out_of: Marks) -> Marks:
    """Return how far each share lies above what the candidate's other marks let one expect.

    The expectation is the straight line of least squares from the share of all other marks to the
    share of this question, so that a group of strong candidates is not taken for an easy question.
    It never falls: nobody is expected to do worse here for having done well elsewhere.
    """
    shares = marks / out_of
    left = np.empty_like(shares)
    for j, share in enumerate(shares.T):
        others = np.delete(marks, j, axis=1).sum(axis=1) / max(out_of.sum() - out_of[j], 1e-12)
        around = others - others.mean()
        slope = 0.0 if _steady(others) else max(0.0, float(around @ share / (around @ around)))
        left[:, j] = share - share.mean() - slope * around
    return left


@dataclass(frozen=True)
class Unequal:
    """How unlikely chance alone is to part the groups so far, column by column.

    `group` is the one that lies furthest from the others and `by` how far above them, both for each
    column; `chance` the share of all dealings-out of the candidates that part some group in some
    column as far. `telling` is how far such a group must lie from the others to be beyond chance
    (19 in 20). `exact` says that all ways were gone through, `ways` how many.
    """

    group: tuple[int, ...]
    by: tuple[float, ...]
    chance: tuple[float, ...]
    telling: tuple[float, ...]
    ways: int
    exact: bool


def compare_groups(values: Marks, groups: Sequence[int]) -> Unequal | None:
    """Return how far the groups of candidates differ; None unless two groups or more are there.

    A permutation test: if groups did not matter, any other dealing-out of the same candidates would
    have been as likely. Its measure is the largest distance of one group from all others, each in
    standard errors, over all columns at once, so that many questions do not raise many false alarms
    (P. H. Westfall and S. S. Young, “Resampling-Based Multiple Testing”, 1993; from memory).
    """
    labels, at = np.unique(np.asarray(groups), return_inverse=True)
    if len(labels) < 2 or not values.size:
        return None
    sizes = np.bincount(at)
    orders, exact = _orders(at, sizes)
    sd = values.std(axis=0)
    there = np.where(sd > 1e-9, sd, 1.0)
    centred = np.where(sd > 1e-9, (values - values.mean(axis=0)) / there, 0.0)
    weigh = np.sqrt(len(at) / (sizes * (len(at) - sizes)))
    furthest = np.concatenate(
        [
            (np.abs(_sums(centred, some, sizes)) * weigh[:, None]).max(axis=(1, 2))
            for some in np.array_split(orders, math.ceil(len(orders) / _AT_ONCE))
        ]
    )
    sums = _sums(centred, np.argsort(at, kind="stable")[None], sizes)[0]
    far = np.abs(sums) * weigh[:, None]
    group = far.argmax(axis=0)
    # A group's mean lies sum/size above the whole class, so n/(n - size) times that above the others.
    unit = sd * len(at) / (len(at) - sizes[group]) / sizes[group]
    by = sums[group, range(len(group))] * unit
    telling = float(np.quantile(furthest, 0.95)) / weigh[group] * unit
    chance = [(furthest >= reached - 1e-9).mean() for reached in far.max(axis=0)]
    return Unequal(
        tuple(int(labels[one]) for one in group),
        tuple(map(float, by)),
        tuple(map(float, chance)),
        tuple(map(float, telling)),
        len(orders),
        exact,
    )


_AT_ONCE = 250


def _sums(values: Marks, orders: Indices, sizes: Indices) -> Marks:
    """Return sums by order, group and column, where an order names the candidates group by group."""
    starts = np.concatenate([[0], np.cumsum(sizes)[:-1]])
    return np.add.reduceat(values[orders], starts, axis=1)


def _orders(at: Indices, sizes: Indices) -> tuple[Indices, bool]:
    """Return ways of dealing the candidates out to groups of these sizes: all of them if few.

    Where they are drawn, always the same ones, the true way is one of them (so no chance is 0).
    """
    ways = math.factorial(len(at))
    for size in sizes:
        ways //= math.factorial(int(size))
    if ways <= EXACT:
        whole = tuple(range(len(at)))
        return np.array(list(_dealt(whole, [int(size) for size in sizes]))), True
    true = np.argsort(at, kind="stable")
    drawn = np.tile(true, (SHUFFLES - 1, 1))
    return np.vstack([true, np.random.default_rng(_SEED).permuted(drawn, axis=1)]), False


def _dealt(left: tuple[int, ...], sizes: Sequence[int]) -> Iterator[tuple[int, ...]]:
    """Yield each way to deal out who is `left`, as an order of them, group by group."""
    if not sizes:
        yield ()
        return
    for chosen in combinations(left, sizes[0]):
        rest = tuple(one for one in left if one not in chosen)
        for more in _dealt(rest, sizes[1:]):
            yield (*chosen, *more)


def _steady(values: Marks) -> bool:
    return bool(np.ptp(values) < 1e-9)
