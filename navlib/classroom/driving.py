"""What an instructor can do with a session under way; `Running.do` says what each deed is."""

from collections.abc import Callable, Mapping
from datetime import datetime
from typing import Any

from navlib import questions
from navlib.classroom import stage as stages
from navlib.classroom.refusals import Refused
from navlib.classroom.seeds import new_number
from navlib.classroom.stage import Stage
from navlib.classroom.standing import Standing, put_on_the_list
from navlib.classroom.teaching import Classroom
from navlib.language import say

MOST_MORE = 120
"""Minutes by which the clock is set on or back at once, at most."""


class Driving:
    """A session that somebody drives, as it stands at one moment."""

    def __init__(self, classroom: Classroom, at: Standing, now: datetime) -> None:
        self.classroom = classroom
        self.at = at
        self.now = now

    def do(self, action: str, given: Mapping[str, Any]) -> None:
        """Do it; raises Refused with a sentence."""
        if action not in DEEDS:
            raise Refused(
                say(
                    "There is nothing called “{action}” to be done; there is: {known}.",
                    {"action": action, "known": ", ".join(DEEDS)},
                )
            )
        deed, takes = DEEDS[action]
        if foreign := [name for name in given if name not in takes]:
            raise Refused(
                say(
                    "“{action}” has no use for {given}.",
                    {"action": action, "given": ", ".join(foreign)},
                )
            )
        if self.at.session["ended"]:
            raise Refused(say("This session has ended. Begin another one."))
        deed(self, **given)

    def go(self, n: Any = None) -> None:
        """Enter a segment of the plan."""
        plan = self.at.plan
        if not plan:
            raise Refused(say("This session has no plan. Ask a question instead."))
        if type(n) is not int or not 0 <= n < len(plan):
            raise Refused(
                say(
                    "The plan has {count} parts: give a number from 0 to {last}, not {given}.",
                    {"count": len(plan), "last": len(plan) - 1, "given": n},
                )
            )
        put_on_the_list(self.classroom, self.at.session)
        self._keep(stages.entered(n, plan[n].minutes, self.now))

    def next(self) -> None:
        """Enter the segment that comes next."""
        if self.at.plan and self.at.after is None:
            raise Refused(say("That was the last part of the plan. You can end the session now."))
        n = self.at.stage["segment"]
        self.go(0 if n is None else n + 1)

    def back(self) -> None:
        """Enter the segment before."""
        n = self.at.stage["segment"]
        if not n:
            raise Refused(say("There is no part of the plan before this one."))
        self.go(n - 1)

    def open(self) -> None:
        """Open the question, and close all others."""
        asked = self.at.asked()
        if asked["state"] != "open":
            self._close_all()
            self.classroom.move(asked["id"], "open")

    def close(self) -> None:
        """Close the question."""
        self.classroom.move(self.at.asked()["id"], "closed")

    def reveal(self) -> None:
        """Reveal the question, and show the spread of its answers with the key."""
        self.classroom.move(self.at.asked()["id"], "revealed")
        self._keep({"spread": True})

    def pause(self) -> None:
        """Let the clock stand."""
        self._set_clock(stages.paused(self._left_s))

    def run(self) -> None:
        """Let the clock run."""
        if not self._left_s:
            raise Refused(say("The clock has no time left. Give it some more minutes."))
        self._set_clock(stages.running(self._left_s, self.now))

    def more(self, minutes: Any = None) -> None:
        """Give more time, or less."""
        if type(minutes) not in (int, float) or not -MOST_MORE <= minutes <= MOST_MORE:
            raise Refused(
                say(
                    "Give minutes as a number from -{most} to {most}, such as 5.",
                    {"most": MOST_MORE},
                )
            )
        left = max(self._left_s + 60 * minutes, 0.0)
        runs = self.at.stage["clock"]["ends"] is not None
        self._set_clock(stages.running(left, self.now) if runs else stages.paused(left))

    def spread(self) -> None:
        """Show the spread of answers, or hide it."""
        self._turn("spread")

    def names(self) -> None:
        """Show names, or hide them."""
        self._turn("names")

    def pair(self) -> None:
        """Show a pair of answers, or hide it."""
        asked = self.at.asked()
        if not self.at.stage["pair"]:
            if asked["state"] != "revealed":
                raise Refused(
                    say("Reveal the question first: the pair tells which answer is right.")
                )
            if self.classroom.board(asked["id"])["pair"] is None:
                raise Refused(say("There is no pair: it takes a right answer and a wrong one."))
        self._turn("pair")

    def seat(self, n: Any = None) -> None:
        """Show the values of a seat, or those of all."""
        if n is not None and (type(n) is not int or not 1 <= n < 10_000):
            raise Refused(say("Give the number of a seat, such as 7, or none."))
        self._keep({"seat": n})

    def ask(self, kind: Any = None, own: Any = True, tell: Any = False) -> None:
        """Ask a question that the plan does not have."""
        self._ask(kind, own is True, tell is True)

    def again(self) -> None:
        """Ask the last question with fresh values."""
        last = self.at.asked()
        self._ask(last["kind"], last["own"], last["tell"], new_number())

    def end(self) -> None:
        """End the session: its clock stands, and nothing is open any more."""
        self._close_all()
        stage = {"clock": stages.paused(self._left_s)}
        self.classroom.change(self.at.session["id"], stage=stage, ended=True)

    @property
    def _left_s(self) -> float:
        return stages.left_s(self.at.stage["clock"], self.now)

    def _set_clock(self, clock: Stage) -> None:
        self._keep({"clock": clock})

    def _turn(self, name: str) -> None:
        self.at.asked()
        self._keep({name: not self.at.stage[name]})

    def _keep(self, stage: Stage) -> None:
        """Change what is given of the stage: another may change the rest at the same moment."""
        self.classroom.change(self.at.session["id"], stage=stage)

    def _close_all(self) -> None:
        for asked in self.at.session["questions"]:
            if asked["state"] == "open":
                self.classroom.move(asked["id"], "closed")

    def _ask(self, kind: Any, own: bool, tell: bool, number: int | None = None) -> None:
        if kind not in questions.kinds():
            raise Refused(
                say(
                    "There is no kind of question called “{kind}”. One is {example}.",
                    {"kind": kind, "example": questions.kinds()[0]},
                )
            )
        put_on_the_list(self.classroom, self.at.session)
        self._close_all()
        segment = self.at.stage["segment"]
        self.classroom.ask(self.at.session["id"], kind, own, tell, segment, number, open=True)
        self._keep(stages.SHUT)


DEEDS: Mapping[str, tuple[Callable[..., None], tuple[str, ...]]] = {
    "go": (Driving.go, ("n",)),
    "next": (Driving.next, ()),
    "back": (Driving.back, ()),
    "open": (Driving.open, ()),
    "close": (Driving.close, ()),
    "reveal": (Driving.reveal, ()),
    "pause": (Driving.pause, ()),
    "run": (Driving.run, ()),
    "more": (Driving.more, ("minutes",)),
    "spread": (Driving.spread, ()),
    "names": (Driving.names, ()),
    "pair": (Driving.pair, ()),
    "seat": (Driving.seat, ("n",)),
    "ask": (Driving.ask, ("kind", "own", "tell")),
    "again": (Driving.again, ()),
    "end": (Driving.end, ()),
}
"""Each deed, and what it is told."""
