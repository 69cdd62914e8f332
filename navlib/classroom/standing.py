"""How a session under way stands: its place in the plan, and the question that is spoken of."""

from functools import cached_property
from typing import Any

from navlib.classroom.plan.plan import AFTER, Plan, Segment
from navlib.classroom.refusals import Refused
from navlib.classroom.stage import Stage, stage_of
from navlib.classroom.teaching import Classroom
from navlib.language import say

Asked = dict[str, Any]


def put_on_the_list(classroom: Classroom, session: Asked) -> None:
    """Put all questions of a session's plan on its list, in the plan's order, if they are not there.

    Own values rest on the position. So they are those of the printed work cards, whatever is left
    out or asked besides.
    """
    there = {asked["segment"] for asked in session["questions"]}
    for n, one in enumerate(segments(session)):
        if one.kind is not None and n not in there:
            classroom.ask(session["id"], one.kind, one.own, one.tell, segment=n)


def segments(session: Asked) -> tuple[Segment, ...]:
    """Return the parts of a session's plan; none without a plan."""
    plan = session["plan"]
    return Plan.from_plain(plan).segments if plan else ()


class Standing:
    """A session as it stood at one moment, read once; `session` is as `API.md` has it."""

    def __init__(self, classroom: Classroom, session: int) -> None:
        self.session = classroom.session(session)

    @cached_property
    def stage(self) -> Stage:
        """Where the session is."""
        return stage_of(self.session["stage"])

    @cached_property
    def plan(self) -> tuple[Segment, ...]:
        """The parts of its plan; none without a plan."""
        return segments(self.session)

    @property
    def segment(self) -> Segment | None:
        """The part of the plan that is on now; None before the first."""
        n = self.stage["segment"]
        return self.plan[n] if n is not None and 0 <= n < len(self.plan) else None

    @property
    def after(self) -> Segment | None:
        """The part that comes next; None after the last."""
        n = -1 if self.stage["segment"] is None else self.stage["segment"]
        return self.plan[n + 1] if n + 1 < len(self.plan) else None

    @cached_property
    def question(self) -> Asked | None:
        """The question that is spoken of: the one asked last in this part of the plan.

        In a part that speaks of an earlier question it is the one asked last before.
        """
        at = self.stage["segment"]
        here = self.asked_in(at)
        if here is None and self.segment is not None and self.segment.what in AFTER:
            before = (self.asked_in(n) for n in range(at - 1, -1, -1))
            return next((asked for asked in before if asked), None)
        return here

    def asked_in(self, segment: int | None) -> Asked | None:
        """Return the question asked last in a part of the plan; None if there is none."""
        found = [asked for asked in self.session["questions"] if asked["segment"] == segment]
        return found[-1] if found else None

    def asked(self) -> Asked:
        """Return the question that is spoken of; raises Refused where there is none."""
        if self.question is None:
            raise Refused(say("No question is asked in this part. Ask one, or go on."))
        return self.question
