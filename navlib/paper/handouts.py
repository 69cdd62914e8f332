"""What is handed out after a sitting, as PDF: a feedback sheet each, and results for the coach."""

from collections import Counter
from collections.abc import Iterable, Sequence
from typing import Any

from navlib.paper import analysis, sentences
from navlib.paper.differences import Comparison
from navlib.paper.feedback import Feedback
from navlib.paper.findings import Findings, QuestionFindings
from navlib.paper.practising import SlipWords, plain_words
from navlib.paper.results import Row, class_list, item_findings, question_titles
from navlib.paper.scripts import Script, write_marks
from navlib.paper.topics import Topic
from navlib.paper.typeset import plain, typeset

NAME, LINE = 80, 600
"""Characters of a name and of a sentence that are printed."""
_LOOK = "●"
_NONE = "–"
_ABREAST = 12  # questions side by side in a table of variants


def feedback_pdf(told: Feedback, title: str, *, closing: str = "", large: bool = False) -> bytes:
    """Return a candidate's feedback sheet: one A4 page, more if there is more to say.

    `title` is that of the paper; `closing` stands at the end, such as the date of the resit.
    `large` sets all words in 18 point letters. The same bytes each time.
    """
    whose = f"{told.candidate} {told.name}".strip()
    return typeset(
        "feedback",
        {
            "title": plain(f"Feedback: {whose}", NAME + 20),
            "code": plain(told.code, 24),
            "note": plain(f"Candidate {told.candidate}", 24),
            "large": large,
            "over": plain(f"Feedback on “{title}”", 2 * NAME),
            "heading": plain(whose, NAME) if told.name else plain(f"Candidate {whose}", NAME),
            "total": write_marks(told.total),
            "out_of": write_marks(told.out_of),
            "verdict": told.verdict,
            "open": told.open,
            "topics": [[t.title, t.share, _of(t)] for t in told.topics],
            "strengths": list(told.strengths),
            "lost": [
                {
                    "number": str(lost.number),
                    "title": lost.title,
                    "marks": f"{write_marks(lost.marks)} of {write_marks(lost.out_of)} marks",
                    "says": [[label, plain(words, LINE)] for label, words in lost.says],
                    "back": lost.back.says,
                }
                for lost in told.lost
            ],
            "notes": [list(note) for note in told.notes],
            "sets": [
                {"why": one.why, "kinds": list(one.kinds), "how": one.how} for one in told.sets
            ],
            "closing": plain(closing, LINE),
        },
    )


def results_pdf(
    scripts: Sequence[Script],
    title: str,
    *,
    differences: Iterable[Comparison] = (),
    slip_words: SlipWords = plain_words,
    large: bool = False,
) -> bytes:
    """Return the coach's pages: class list, papers to look at again, and item analysis.

    Raises ValueError if no paper has been marked.
    """
    found = item_findings(scripts)
    rows = class_list(scripts, differences)
    return typeset(
        "results",
        {
            "title": plain(f"Results: {title}", 2 * NAME),
            "code": "Results",
            "note": "for the coach only",
            "large": large,
            "over": plain(title, 2 * NAME),
            **_class(rows, found, scripts),
            **_paper(found, question_titles(scripts), slip_words),
        },
    )


def _of(topic: Topic) -> str:
    return f"{write_marks(topic.marks)} of {write_marks(topic.out_of)}"


def _class(rows: Sequence[Row], found: Findings, scripts: Sequence[Script]) -> dict[str, Any]:
    topics = list(dict.fromkeys(topic.topic for row in rows for topic in row.topics))
    suggested = sum(bool(script.suggested) for script in scripts)
    notice = (
        f"For {sentences.people(suggested)} nobody has ticked the working of every question yet: its "
        "marks are taken from the answers."
        if suggested
        else ""
    )
    return {
        "middle": found.middle.says,
        "most": rows[0].out_of,
        "pass_mark": scripts[0].pass_mark,
        "dots": [list(dot) for dot in sorted(Counter(row.marks for row in rows).items())],
        "heads": [topic.capitalize() for topic in topics],
        "rows": [
            {
                "number": plain(row.candidate, 12),
                "name": plain(row.name, 40),
                "marks": write_marks(row.marks),
                "percent": str(row.percent),
                "verdict": row.verdict,
                "topics": [_profile(row, topic) for topic in topics],
                "look": _LOOK if row.looks else "",
            }
            for row in rows
        ],
        "notice": notice,
        "looks": [[plain(r.candidate, 12), " ".join(r.looks)] for r in rows if r.looks],
    }


def _profile(row: Row, topic: str) -> list[Any]:
    one = next((each for each in row.topics if each.topic == topic), None)
    if one is None:
        return [0.0, ""]
    return [one.share, f"{write_marks(one.marks)}/{write_marks(one.out_of)}"]


def _paper(found: Findings, titles: dict[int, str], slip_words: SlipWords) -> dict[str, Any]:
    low, high = sentences.WANTED
    return {
        "paper": [
            [f"{found.coefficient}", found.reliability.says, found.reliability.few],
            ["How near a mark is", found.error.says, found.error.few],
            ["Variants", found.variants.says, found.variants.few],
        ],
        "wanted": [low, high],
        "legend": (
            f"Facility: share of the marks that was earned; the ticks stand at {low:g} and {high:g}, "
            "between which a question does its work. Discrimination: how far those who did well "
            "elsewhere did well here, from −1 to 1; the line below a bar shows where the figure "
            f"may lie with so few candidates. {_LOOK} Look at it before you use it again."
        ),
        "few": max((one.facility.few for one in found.questions), key=len, default=""),
        "questions": [
            _question(one, titles[one.number], found, slip_words) for one in found.questions
        ],
        "variants": _variants(found),
    }


def _question(
    one: QuestionFindings, title: str, found: Findings, slip_words: SlipWords
) -> dict[str, Any]:
    count = found.spread.count if found.spread else 0
    r = one.discrimination.value
    low, high = (0.0, 0.0) if r is None else analysis.bounds(r, count)
    others = (one.discrimination, *((one.variants,) if one.variants.review else ()))
    slips = [f"{slip_words(name)} ({times})" for name, times in one.slips]
    return {
        "number": str(one.number),
        "title": title,
        "facility": _NONE if one.facility.value is None else f"{one.facility.value:.2f}",
        "share": one.facility.value or 0.0,
        "discrimination": _NONE if r is None else f"{r:.2f}".replace("-", "−"),
        "lean": r,
        "low": low,
        "high": high,
        "slip": slips[0] if slips else "",
        "look": _LOOK if one.review else "",
        "says": [
            [one.facility.says, ""],  # few candidates are few for each question: that is said once
            *([each.says, each.few] for each in others),
            *([[f"Slips told: {', '.join(slips)}.", ""]] if slips else []),
        ],
    }


def _variants(found: Findings) -> dict[str, Any]:
    """Return the tables of variants; none where there is nothing to compare."""
    if not found.questions or found.questions[0].variants.value is None:
        return {"words": "", "tables": []}
    few = max((one.variants.few for one in found.questions), key=len)
    return {
        "words": (
            "A row a variant: how many sat it, their mean marks, and what share of its marks each "
            "question gave them, per cent. A frame marks what differs more than chance makes. "
            f"{few}"
        ),
        "tables": [
            _table(found, found.questions[first : first + _ABREAST])
            for first in range(0, len(found.questions), _ABREAST)
        ],
    }


def _table(found: Findings, some: Sequence[QuestionFindings]) -> dict[str, Any]:
    """Return a row a variant; each cell is its words and whether it is framed."""
    return {
        "heads": ["Variant", "Sat", "Mean", *(str(one.number) for one in some)],
        "cells": [
            cell
            for variant, (sat, mean) in found.by_variant.items()
            for cell in (
                [str(variant), False],
                [str(sat), False],
                [f"{mean:.1f}", variant == found.variants.variant],
                *(
                    [f"{100 * one.by_variant[variant]:.0f}", variant == one.variants.variant]
                    for one in some
                ),
            )
        ],
    }
