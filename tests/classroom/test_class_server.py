"""A real class server, started by the README's command: a session from joining to the reveal."""

import json
import os
import signal
import threading
import time
from http import HTTPStatus
from pathlib import Path

import httpx
import pytest
from class_asked import KIND, LEARNERS, opened, question_of, slipped
from hall import Caller, Class, wait_for

from navlib import questions
from navlib.classroom import seeds
from navlib.classroom.client import Line
from navlib.classroom.plan.plan import Plan, Segment
from navlib.classroom.refusals import Down, Missing, Refused
from navlib.classroom.running import Running
from navlib.classroom.served import Served


def test_a_session_from_joining_to_the_reveal(people: dict[str, Caller]):
    session, asked = opened(people)
    teach = people["instructor"]
    faces = {name: people[name].get("now")["question"] for name in LEARNERS}
    assert len({face["text"] for face in faces.values()}) == 3, "each has own values"
    assert {face["reveal"] for face in faces.values()} == {None}

    own = {name: question_of(people, name, session, asked) for name in LEARNERS}
    assert {name: own[name].text for name in LEARNERS} == {n: f["text"] for n, f in faces.items()}
    slip, wrong = slipped(own["oskar-lund"])
    told = people["ina-skarp"].hand_in(asked, own["ina-skarp"].answers)
    assert told["parts"] == {"magnetic": {"read": True, "says": []}}, "nothing before the reveal"
    people["oskar-lund"].hand_in(asked, {"magnetic": wrong})

    board = teach.get(f"questions/{asked}/board")
    assert (board["joined"], board["in"]) == (3, 3)
    assert board["outcomes"] == {"right": 1, "carried": 0, "near": 0, "wrong": 1, "unread": 1}
    assert [(found["name"], found["count"]) for found in board["slips"]] == [(slip, 1)]
    assert {one["why"] for one in board["stuck"]} == {"not read", "wrong again"}
    assert [one["outcome"] for one in board["pair"]] == ["right", "wrong"]
    assert not any(name in json.dumps(board) for name in ("ina", "oskar", "mira", "Ina"))
    named = teach.get(f"questions/{asked}/board?names=1")
    assert {one["name"]: one["outcome"] for one in named["people"]} == {
        "ina-skarp": "right",
        "oskar-lund": "wrong",
        "mira-holt": "unread",
    }
    since = teach.ask("GET", f"questions/{asked}/board?since={board['tag']}")
    assert since.status_code == HTTPStatus.NOT_MODIFIED

    teach.patch(f"questions/{asked}", {"state": "revealed"})
    shown = people["oskar-lund"].get("now")["question"]
    assert shown["mine"]["parts"]["magnetic"]["outcome"] == "wrong"
    assert shown["reveal"]["parts"]["magnetic"]["answer"] == own["oskar-lund"].answers["magnetic"]
    assert shown["reveal"]["working"] == list(own["oskar-lund"].working())
    assert teach.ask("GET", f"questions/{asked}/board?since={board['tag']}").status_code == 200


def test_a_session_is_run_over_the_line_and_says_from_when_it_is_when_that_is_cut(
    people: dict[str, Caller], tmp_path: Path
):
    """The instructor's notebook reads and drives the same session as over the service itself."""
    token, url = people["instructor"].token, f"{people['instructor'].root}/services/class/"
    served = Served(Line(url, token, tmp_path))
    kind = "bearings.map-to-compass"
    parts = (Segment("work alone", 10, "By hand", kind=kind), Segment("break", 5, "Tea"))
    plan = Plan("evening", "An evening", "bearings", (), (), parts)
    running = Running(served, served.begin("By wire", plan=plan.to_plain())["id"])
    running.do("next")
    running.do("open")
    for name in LEARNERS:
        people[name].post("join", {"session": running.session})
    asked = running.face()["question"]
    assert (asked["state"], asked["joined"], asked["in"]) == ("open", 3, 0)
    assert asked["picture"]["svg"].startswith("<")
    question = questions.make(kind, seeds.seed(running.desk()["session"]["number"], 1, 1))
    people[LEARNERS[0]].hand_in(asked["id"], dict(question.answers))
    running.do("seat", n=1)
    assert running.face()["question"]["text"] == question.text
    running.do("reveal")
    assert running.face()["question"]["working"]["working"] == list(question.working())
    assert running.desk()["outcomes"]["right"] == 1
    assert {one["name"] for one in running.desk()["people"]} == set(LEARNERS)
    with pytest.raises(Missing, match="no session 999"):
        served.session(999)
    with pytest.raises(Refused, match="revealed"):
        running.do("open")
    served.line.url = "http://127.0.0.1:9/api/"
    with pytest.raises(Down, match=r"what you see is from \d\d:\d\d"):
        running.face()
    served.line.url = f"{url}api/"
    running.do("next")
    assert running.face()["segment"]["title"] == "Tea"
    assert served.drop(running.session) == 1


def test_the_same_number_gives_the_same_values_next_year(people: dict[str, Caller]):
    teach = people["instructor"]
    texts = []
    for _ in range(2):
        session = teach.post("sessions", {"title": "Again", "number": 271_828})["id"]
        people["mira-holt"].post("join", {"session": session})
        for own in (True, False):
            asked = {"kind": KIND, "own": own, "open": True}
            teach.post(f"sessions/{session}/questions", asked)
            texts.append(people["mira-holt"].get(f"now?session={session}")["question"]["text"])
    assert texts[:2] == texts[2:]


def test_a_picture_is_drawn_with_own_values(people: dict[str, Caller]):
    teach, ina = people["instructor"], people["ina-skarp"]
    session = teach.post("sessions", {"title": "Pictures"})["id"]
    ina.post("join", {"session": session})
    sent = {"kind": "bearings.map-to-compass", "open": True}
    asked = teach.post(f"sessions/{session}/questions", sent)["id"]
    face = ina.get("now")["question"]
    assert face["has_picture"]
    picture = ina.get(f"questions/{asked}/picture")["picture"]
    assert picture["svg"].startswith("<")
    assert picture["alt"]


def test_a_killed_service_loses_nothing_and_counts_nothing_twice(
    room: Class, people: dict[str, Caller]
):
    session, asked = opened(people)
    sent: dict[str, set[str]] = {name: set() for name in LEARNERS}

    def send(name: str) -> None:
        for n in range(25):
            key = f"{name}-{n:08}"
            content = {"key": key, "question": asked, "answers": {"magnetic": f"{n:03} M"}}
            for _ in range(40):
                try:
                    reply = people[name].ask("POST", "answers", content)
                except httpx.TransportError:
                    continue
                if reply.status_code in (200, 201):
                    sent[name].add(key)
                    break
                assert reply.status_code in (429, 500, 502, 503), reply.text
                time.sleep(0.25)

    threads = [threading.Thread(target=send, args=(name,)) for name in LEARNERS]
    for thread in threads:
        thread.start()
    for _ in range(2):
        time.sleep(1)
        before = room.hall.service_pid
        os.kill(before, signal.SIGKILL)
        wait_for(lambda gone=before: room.hall.service_pid != gone, "the service begins again")
    for thread in threads:
        thread.join()
    rows = people["instructor"].get(f"sessions/{session}/record")["answers"]
    kept = [(row["name"], row["answers"]["magnetic"]) for row in rows]
    assert sorted(kept) == sorted((name, f"{n:03} M") for name in LEARNERS for n in range(25))
    assert all(row["outcomes"] for row in rows), "and all are judged"
    assert {name: len(keys) for name, keys in sent.items()} == dict.fromkeys(LEARNERS, 25)
