"""A question type (a chain with its generator) and one question made from it."""

import random
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, field, replace
from functools import cached_property
from typing import Any

from navlib.chain.chain import Band, Chain
from navlib.chain.step import Step
from navlib.language import say

DRAWS = 400
"""Numbers drawn for one seed before a question type is called unable to make a fair question."""


class NoFairNumbers(ValueError):
    """A question type drew no numbers that tell its slips apart: mend its generator."""


@dataclass(frozen=True)
class Question:
    """One question with its own numbers: what is shown, what is asked, and the chain to judge by.

    `givens` hold the values, `asks` the names of the steps that the learner answers, in order.
    `picture` describes what is shown beside the words, for whoever draws it.
    """

    kind: str
    seed: int
    title: str
    topic: str
    level: int
    text: str
    prompts: Mapping[str, str]
    chain: Chain
    givens: Mapping[str, Any]
    picture: Any = None

    @property
    def asks(self) -> tuple[str, ...]:
        """Return the names of the steps asked."""
        return tuple(self.prompts)

    @cached_property
    def values(self) -> dict[str, Any]:
        """Return the value of every given and step, gone through rightly."""
        return self.chain.run(self.givens)

    @cached_property
    def written(self) -> dict[str, str]:
        """Return every given and step as a practitioner writes it."""
        return write(self.chain, self.values)

    @property
    def answers(self) -> dict[str, str]:
        """Return the right answer to each step asked, as written."""
        return {name: self.written[name] for name in self.asks}

    def band(self, asked: str) -> Band:
        """Return how far an answer may lie from the key."""
        return self.chain.band(self.givens, asked)

    def by(self, instruments: str) -> "Question":
        """Return this question to be worked with another set of instruments: its bands are theirs."""
        return replace(self, chain=self.chain.by(instruments))

    @property
    def fair(self) -> bool:
        """Whether every slip shows in the answer to every part."""
        return fair(self.chain, self.givens, self.asks)

    @property
    def steps(self) -> tuple[Step, ...]:
        """Return the steps that lead to what is asked, in order."""
        needed = {step.name for asked in self.asks for step in self.chain.upstream(asked)}
        return tuple(step for step in self.chain.steps if step.name in needed)

    def working(self) -> tuple[str, ...]:
        """Return the worked solution, a line a step, with the numbers put in."""
        return tuple(say(step.line, self.written) for step in self.steps)

    def band_written(self, asked: str) -> str:
        """Return how far an answer may lie from the key, with its unit."""
        return self.chain.by_name[asked].kind.write_width(self.band(asked).full)

    def hints(self, asked: str) -> tuple[str, ...]:
        """Return three hints, each giving more away: a check, what to do, the lines but the end."""
        before = self.asks[: self.asks.index(asked)]
        steps = self.chain.upstream(asked, dict.fromkeys(before))
        check = steps[-1].check or "Sketch it: roughly which way, and roughly how much?"
        how = " ".join(say(step.how, self.written) for step in steps)
        open_end = {**self.written, asked: "…"}
        return (
            say(check, self.written),
            how,
            "; ".join(say(step.nearly or step.line, open_end) for step in steps),
        )


@dataclass(frozen=True)
class QuestionType:
    """A chain with the generator that finds numbers for it, and the words around it.

    `draw` takes a seeded random source and returns the givens, or None where it drew badly.
    `text` and `prompts` (step name to the words before its answer box) may name givens in braces.
    `picture` makes the description of what is shown from the givens.
    """

    kind: str
    title: str
    topic: str
    level: int
    chain: Chain
    draw: Callable[[random.Random], Mapping[str, Any] | None]
    text: str
    prompts: Mapping[str, str]
    picture: Callable[[Mapping[str, Any]], Any] | None = None
    tags: tuple[str, ...] = field(default=())

    def make(self, seed: int) -> Question:
        """Return the question of this seed: the first fair numbers that the seed draws.

        The same seed gives the same question on every machine. Raises NoFairNumbers.
        """
        source = random.Random(f"{self.kind}/{seed}")
        for _ in range(DRAWS):
            givens = self.draw(source)
            if givens is not None and fair(self.chain, givens, self.prompts):
                return self.with_givens(givens, seed)
        raise NoFairNumbers(f"{self.kind}, seed {seed}: no fair numbers in {DRAWS} draws")

    def with_givens(self, givens: Mapping[str, Any], seed: int = 0) -> Question:
        """Return a question with these givens, fair or not (worked examples, published checks)."""
        written = write(self.chain, givens)
        return Question(
            self.kind,
            seed,
            say(self.title),
            self.topic,
            self.level,
            say(self.text, written),
            {name: say(words, written) for name, words in self.prompts.items()},
            self.chain,
            givens,
            self.picture(givens) if self.picture else None,
        )


def fair(chain: Chain, givens: Mapping[str, Any], asks: Iterable[str]) -> bool:
    """Return whether every slip of a chain shows in the answer to every part asked, in order."""
    values = chain.run(givens)
    before: dict[str, Any] = {}
    for asked in asks:
        if not chain.separable(givens, asked, before):
            return False
        before[asked] = values[asked]
    return True


def write(chain: Chain, values: Mapping[str, Any]) -> dict[str, str]:
    """Return each value as its kind writes it; words are said, names stay as they are."""
    written = {}
    for name, value in values.items():
        kind = chain.kind(name)
        written[name] = kind.write(value) if kind and value is not None else say(str(value))
    return written
