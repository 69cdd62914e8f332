"""Drives a session through its plan, and says what the class sees of it and what its instructor sees.

All that a `Running` knows is kept with the session, so that the projector, the instructor's desk and
a notebook that begins anew agree. Both faces are plain data, fit for JSON.
"""

from collections.abc import Callable
from datetime import UTC, datetime
from typing import Any

from navlib.classroom.driving import Driving
from navlib.classroom.plan.plan import Segment
from navlib.classroom.projected import named, question_face, revealed_face
from navlib.classroom.stage import Stage
from navlib.classroom.standing import Standing
from navlib.classroom.teaching import Classroom

Face = dict[str, Any]


def _now() -> datetime:
    return datetime.now(UTC)


class Running:
    """A session under way.

    `session` is its id; `now` tells the time. What raises for the classroom raises here too:
    `Missing`, `Refused`, `Down`.
    """

    def __init__(
        self, classroom: Classroom, session: int, now: Callable[[], datetime] = _now
    ) -> None:
        self.classroom = classroom
        self.session = session
        self._now = now

    def face(self) -> Face:
        """Return what the projector shows; no learner is named unless the stage says `names`.

        title      the session's
        word       what one comes in with the first time; empty without a class server
        ended      whether the session has ended
        joined     how many have joined
        segment    None before the first, else {n, of, what, title, minutes, demonstration}: `n` from 0
                   up to `of` - 1, `what` as in a plan, `demonstration` a name or None
        next       what comes after it: None, or {what, title, minutes}; the first before the first
        clock      {ends, left_s}: `ends` in UTC (ISO 8601) while it runs, maybe past; None while it
                   is paused, and `left_s` counts then
        question   None if the segment has none, else:
          id, state      `planned` (not opened yet), `open`, `closed` or `revealed`
          own            whether each seat has own values
          seat           whose values are shown: None for those of all, or for an example of `own`
          title, text, table, parts, picture    as a learner's: parts are {name, prompt, example,
                         options, drawn, written}; picture is None or {svg, alt, width_mm,
                         height_mm, tools}
          in, joined     how many have answered, of how many
          spread         None unless shown; else for each part that is not chosen from a list {name,
                         prompt, unit, band: {full, part}, answers: [{off, text, outcome}], key}.
                         Once revealed `off` is the signed distance from the key in the part's unit,
                         outcome is told, `key` too where all share the values. Before that `off` is
                         measured from the middle of all answers, so that nothing tells where the
                         key is; it is None for what could not be read, and for kinds whose distance
                         has no direction (places, marks on the sheet)
          choices        None unless shown, or nothing is chosen; else for each part chosen from a list
                         {name, prompt, options: [{value, words, count, right}]}; `right` is True or
                         False once revealed where all share the values, else None
          slips          None until revealed; [{name, count, says: [sentence]}], the commonest first
          pair           None until revealed and asked for, or where there is none; a right and a
                         wrong answer [{text, answers: {part: written}, outcome, says}]
          working        None until revealed; {working: [line], parts: {name: {answer, band}}}
          people         None unless names are shown; [{shown, outcome}], `outcome` None until
                         revealed and for who has not answered

        Outcomes are `right`, `carried` (right from an own earlier answer), `near`, `wrong`, `unread`.
        """
        return self._face(Standing(self.classroom, self.session))

    def desk(self) -> Face:
        """Return what the instructor sees, and nobody else.

        face       as the projector shows it now
        session    as API.md has it, with its questions; `stage` in full
        segments   of the plan: [{n, what, title, minutes, notes, kind, demonstration, question}],
                   question None or {id, state, in}: the one asked last there
        notes      on the segment now, "" if there are none
        stuck      [{shown, name, seat, why, since}], `why` of `nothing yet`, `not read`, `wrong again`
        people     [{shown, name, seat, tries, outcome, confirmed}] by seat, outcome None for who has not
                   answered; tries is 0, the others None for all where nothing is asked
        outcomes   how many have each outcome now, before the reveal too; {} where nothing is asked
        slips      as in the face, but always
        """
        at = Standing(self.classroom, self.session)
        board = self.classroom.board(at.question["id"], names=True) if at.question else None
        segment = at.segment
        return {
            "face": self._face(at),
            "session": {**at.session, "stage": at.stage},
            "segments": [_row(n, one, at) for n, one in enumerate(at.plan)],
            "notes": segment.notes if segment else "",
            "stuck": board["stuck"] if board else [],
            "people": board["people"] if board else [_waiting(one) for one in at.session["people"]],
            "outcomes": board["outcomes"] if board else {},
            "slips": board["slips"] if board else [],
        }

    def do(self, action: str, **given: Any) -> None:
        """Do one of these, or raise Refused with a sentence on why not.

        go n=           enter a segment of the plan, from 0: its clock runs; its question is there again
        next, back      enter the one after, or before
        open            let the question be answered; any other that is open is closed
        close, reveal   its question; a revealed one stays so, and its spread is shown
        pause, run      the clock
        more minutes=   more time, or less: a number below 0
        spread, names, pair    show it, or no more
        seat n=         show that seat's values; None for those of all
        ask kind= own= tell=   a question that the plan does not have, opened at once
        again           the last question with fresh values, opened at once
        end             the session
        """
        at = Standing(self.classroom, self.session)
        Driving(self.classroom, at, self._now()).do(action, given)

    def _face(self, at: Standing) -> Face:
        session, stage = at.session, at.stage
        return {
            "title": session["title"],
            "word": session["word"],
            "ended": bool(session["ended"]),
            "joined": session["joined"],
            "segment": at.segment and _segment(stage["segment"], at.segment, len(at.plan)),
            "next": at.after and {n: getattr(at.after, n) for n in ("what", "title", "minutes")},
            "clock": stage["clock"],
            "question": self._question(at.question, stage) if at.question else None,
        }

    def _question(self, asked: Face, stage: Stage) -> Face:
        number, seat = asked["id"], stage["seat"] if asked["own"] else None
        board = self.classroom.board(number)
        shown = self.classroom.shown(number, seat)
        face = question_face(asked, board, shown, seat, spread=stage["spread"])
        if asked["state"] == "revealed":
            working = self.classroom.working(number, seat)
            face |= revealed_face(board, working, pair=stage["pair"])
        if stage["names"]:
            known = self.classroom.board(number, names=True)["people"]
            face["people"] = named(known, revealed=asked["state"] == "revealed")
        return face


def _segment(n: int, one: Segment, of: int) -> Face:
    shown = ("what", "title", "minutes", "demonstration")
    return {"n": n, "of": of, **{name: getattr(one, name) for name in shown}}


def _row(n: int, one: Segment, at: Standing) -> Face:
    asked = at.asked_in(n)
    shown = ("what", "title", "minutes", "notes", "kind", "demonstration")
    question = asked and {"id": asked["id"], "state": asked["state"], "in": asked["answers"]}
    return {"n": n, **{name: getattr(one, name) for name in shown}, "question": question}


def _waiting(one: Face) -> Face:
    """Return somebody who has been asked nothing yet."""
    seated = {name: one[name] for name in ("name", "shown", "seat")}
    return {**seated, "tries": 0, "outcome": None, "confirmed": None}
