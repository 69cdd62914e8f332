"""The moderator's page: whether the papers of a sitting test what they should, and all the same."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations, pairwise
from typing import Any

from navlib.chain.question import Question
from navlib.kinds.times import Clock, Duration
from navlib.paper.awards import labels
from navlib.paper.choosing import measured
from navlib.paper.features import COUNTED, IN_WORDS, Bands, features
from navlib.paper.lessons import question_title, title
from navlib.paper.luck import lucky, nearest_slip
from navlib.paper.planning import plan
from navlib.paper.printed import SHORT, instructions, where
from navlib.paper.typeset import plain, typeset
from navlib.paper.variants import Paper

MOST_WORDS = 900
"""Words of a paper beyond which reading is tested, not navigation; common practice."""
_YES, _NO, _NONE = "✓", "✗", "–"
_FAR = 99.9  # from here on it does not matter how far


@dataclass(frozen=True)
class Range:
    """A feature of one question over all variants, and the band that it must lie in."""

    feature: str
    least: float
    most: float
    band: tuple[float, float]

    @property
    def within(self) -> bool:
        """Whether every variant lies in the band."""
        return self.band[0] <= self.least and self.most <= self.band[1]


def ranges(asked: Sequence[Question], bands: Bands) -> tuple[Range, ...]:
    """Return the features of one question in each variant as ranges, with their bands."""
    found = list(map(features, asked))
    return tuple(
        Range(name, min(values), max(values), limits)
        for name, limits in bands.limits.items()
        if (values := [float(getattr(f, name)) for f in found])
    )


def words_to_read(paper: Paper) -> int:
    """Return how many words a candidate has to read: instructions, questions, prompts, tables."""
    read = [*instructions(paper), *map(where, paper.items)]
    asked = sum(features(item.question).words for item in paper.items)
    return asked + sum(len(text.split()) for text in read)


def shared_with_neighbour(papers: Sequence[Paper]) -> tuple[tuple[str, str, str], ...]:
    """Return codes and label wherever two papers next to each other share an answer.

    Left out are parts to which there are but few answers, such as a choice.
    """
    few = {
        item.number: measured(item.question.kind, papers[0].blueprint).few
        for item in papers[0].items
    }
    return tuple(
        (one.code, other.code, label)
        for one, other in pairwise(papers)
        for a, b in zip(one.items, other.items, strict=True)
        for label, name in labels(a).items()
        if name not in few[a.number] and a.question.answers[name] == b.question.answers.get(name)
    )


def same_papers(papers: Sequence[Paper]) -> tuple[tuple[str, str], ...]:
    """Return the codes of any two papers with the same answers throughout."""
    answers = {p.code: [list(i.question.answers.values()) for i in p.items] for p in papers}
    return tuple((a, b) for a, b in combinations(answers, 2) if answers[a] == answers[b])


def moderation_pdf(papers: Sequence[Paper]) -> bytes:
    """Return the moderator's pages for the papers of a sitting, as PDF.

    Raises ValueError without papers.
    """
    if not papers:
        raise ValueError("There are no papers to moderate: give the papers of a sitting.")
    blueprint = papers[0].blueprint
    return typeset(
        "moderation",
        {
            "title": plain(f"For the moderator: {blueprint.title}", SHORT + 25),
            "code": "Moderation",
            "note": "for the coach only",
            "over": plain(blueprint.title, SHORT),
            "facts": [
                ["Papers", f"{len(papers)} ({papers[0].sitting} sitting)"],
                ["Time", f"{blueprint.minutes} minutes"],
                ["Marks", f"{blueprint.marks}, to pass {blueprint.pass_mark}"],
                ["Days", f"{blueprint.first} to {blueprint.last}"],
            ],
            "checks": [list(check) for check in checks(papers)],
            "shares": _shares(papers),
            "questions": [_question(papers, index) for index in range(len(papers[0].items))],
            "words": [[f"{p.variant:02}", p.code, str(words_to_read(p))] for p in papers],
        },
    )


def checks(papers: Sequence[Paper]) -> Iterator[tuple[str, str]]:
    """Yield what was checked: a sign whether it holds, and a sentence."""
    outside = [
        f"{item.number} of {paper.code}"
        for paper in papers
        for item in paper.items
        if not measured(item.question.kind, paper.blueprint).bands.hold(features(item.question))
    ]
    yield (
        _NO if outside else _YES,
        f"Outside the bands of difficulty: {', '.join(outside)}."
        if outside
        else "Every question of every paper lies within the bands of difficulty below.",
    )
    shared = shared_with_neighbour(papers)
    told = "; ".join(f"{one} and {other}, {label}" for one, other, label in shared)
    yield (
        _NO if shared else _YES,
        f"Neighbours share an answer: {told}."
        if shared
        else "Papers next to each other share no answer, choices and the few figures that a sheet "
        "prints once left out.",
    )
    same = same_papers(papers)
    yield (
        _NO if same else _YES,
        f"The same answers throughout: {'; '.join(map(' and '.join, same))}."
        if same
        else "No two papers have the same answers throughout.",
    )
    unfair = [
        f"{item.number} of {paper.code}"
        for paper in papers
        for item in paper.items
        if not item.question.fair
    ]
    yield (
        _NO if unfair else _YES,
        f"A slip cannot be told from the key or from another slip: {', '.join(unfair)}."
        if unfair
        else "Every usual slip can be told from the key and from every other slip.",
    )
    earning = [
        f"{item.number} of {paper.code}"
        for paper in papers
        for item in paper.items
        if lucky(item.question)
    ]
    yield (
        _NO if earning else _YES,
        f"A slip, rounded as it is written, comes near enough for half marks: {', '.join(earning)}. "
        "The mark scheme names it."
        if earning
        else "No slip comes near enough to earn marks by luck.",
    )
    words = [words_to_read(paper) for paper in papers]
    yield (
        _NO if max(words) > MOST_WORDS else _YES,
        f"There are {_from_to(min(words), max(words))} words to read; {MOST_WORDS} are the most that "
        "leave time to navigate.",
    )
    for finding in plan(papers[0].blueprint).findings:
        number = f"Question {finding.number}: " if finding.number else ""
        yield _NO, f"{number}{finding.sentence}"


def _shares(papers: Sequence[Paper]) -> list[list[str]]:
    """Return a row for each topic and each level: name, marks, share of them, minutes."""
    reckoned = plan(papers[0].blueprint)
    rows = []
    for share in (*reckoned.topics, *reckoned.levels):
        level = share.name.startswith("level")
        name = share.name.capitalize() if level else title(share.name)
        part = share.marks / papers[0].blueprint.marks
        rows.append(
            [name, str(share.marks), f"{part:.0%}", f"{share.minutes:g}", f"{share.expected:g}"]
        )
    return rows


def _question(papers: Sequence[Paper], index: int) -> dict[str, Any]:
    """Return how one question lies over the variants."""
    items = [paper.items[index] for paper in papers]
    first, bands = items[0], measured(items[0].question.kind, papers[0].blueprint).bands
    found = ranges([item.question for item in items], bands)
    nearest = min(nearest_slip(item.question) for item in items)
    most = Counter(tuple(item.question.answers.values()) for item in items).most_common(1)[0][1]
    return {
        "number": str(first.number),
        "title": question_title(first.question.kind),
        "what": f"{title(first.row.topic)}, level {first.question.level}, {first.row.marks} marks",
        "counted": ", ".join(
            f"{IN_WORDS[r.feature]} {r.least:g}" for r in found if r.feature in COUNTED and r.most
        ),
        "measured": [
            [*_measured(r, first.question), _YES if r.within else _NO]
            for r in found
            if r.feature not in COUNTED and r.band[1] > 0
        ],
        "nearest": _NONE if nearest == float("inf") else f"{min(nearest, _FAR):.1f}",
        "alike": str(most) if most > 1 else "none",
    }


def _measured(found: Range, question: Question) -> list[str]:
    """Return a measured feature in words, what it comes to in these papers, and its band."""
    per, unit = 1.0, ""
    if found.feature == "size":  # in the unit that the question asks for
        of = next(n for n in question.asks if isinstance(question.values[n], int | float))
        kind = question.chain.by_name[of].kind
        per = getattr(kind, "per_unit", 1.0)
        unit = "minutes" if isinstance(kind, Clock | Duration) else kind.unit
    both = ((found.least, found.most), found.band)
    words = f"{IN_WORDS[found.feature]}, {unit}" if unit else IN_WORDS[found.feature]
    return [words, *(_from_to(low / per, high / per) for low, high in both)]


def _from_to(low: float, high: float) -> str:
    one, other = (_rounded(value) for value in (low, high))
    return one if one == other else f"{one} to {other}"


def _rounded(value: float) -> str:
    return f"{value:.3g}" if abs(value) < 1000 else f"{value:.0f}"
