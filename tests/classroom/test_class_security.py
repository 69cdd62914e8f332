"""What a learner might try against the class server, and what of it comes through: nothing."""

import json
import os
import socket
from http import HTTPStatus
from uuid import uuid4

import httpx
import pytest
from class_asked import opened
from hall import WORD, Caller, Class, kernel_of

BEYOND = [
    ("GET", "sessions"),
    ("GET", "sessions/1"),
    ("GET", "sessions/1/record"),
    ("GET", "questions/1/board?names=1"),
    ("GET", "questions/1/working"),
    ("GET", "questions/1/shown"),
    ("GET", "people"),
    ("POST", "sessions"),
    ("PATCH", "sessions/1"),
    ("DELETE", "sessions/1"),
    ("POST", "sessions/1/questions"),
    ("PATCH", "questions/1"),
    ("POST", "people/oskar-lund"),
    ("DELETE", "people/oskar-lund"),
    ("GET", "retention"),
    ("POST", "retention"),
]


@pytest.mark.parametrize(("method", "path"), BEYOND)
def test_a_learner_gets_neither_board_nor_key_nor_list(
    people: dict[str, Caller], method: str, path: str
):
    content = None if method in ("GET", "DELETE") else {}
    assert people["ina-skarp"].ask(method, path, content).status_code == HTTPStatus.FORBIDDEN


def test_a_coach_reads_and_does_not_run(people: dict[str, Caller]):
    opened(people)
    coach = people["toke-brandt"]
    assert coach.get("me")["roles"] == ["read", "take-part"]
    assert coach.get("sessions")["sessions"]
    assert coach.ask("POST", "sessions", {"title": "Mine"}).status_code == HTTPStatus.FORBIDDEN
    assert coach.ask("GET", "people").status_code == HTTPStatus.FORBIDDEN


def test_a_learner_is_who_the_token_says(people: dict[str, Caller]):
    session, asked = opened(people)
    forged = {"X-Forwarded-User": "oskar-lund", "X-User": "oskar-lund", "Cookie": "user=oskar-lund"}
    content = {"key": str(uuid4()), "question": asked, "answers": {"magnetic": "042 M"}}
    content |= {"learner": "oskar-lund", "name": "oskar-lund", "user": "oskar-lund"}
    ina = people["ina-skarp"]
    assert ina.ask("POST", "answers", content, headers=forged).status_code == HTTPStatus.CREATED
    rows = people["instructor"].get(f"sessions/{session}/record")["answers"]
    assert [row["name"] for row in rows] == ["ina-skarp"]
    assert people["oskar-lund"].get("now")["question"]["mine"] is None
    mine = ina.get("mine")
    assert "oskar" not in json.dumps(mine)
    assert all("outcomes" not in row for row in mine["answers"] if row["question"] == asked)


def test_a_token_that_is_none_or_was_made_for_less_gets_nothing(
    room: Class, people: dict[str, Caller]
):
    root = room.hall.root
    for token in ("x", "x" * 32, "a b", "a" * 5000):
        assert Caller(root, token).ask("GET", "me").status_code in (401, 403)
    address = f"{root}/services/class/api/me"
    assert httpx.get(f"{address}?token={people['instructor'].token}").status_code == 401
    assert room.browser("ina-skarp").client.get(address).status_code == HTTPStatus.UNAUTHORIZED
    less = room.browser("ina-skarp").ask_hub(
        "POST", "users/ina-skarp/tokens", json={"scopes": ["read:users:name!user"]}
    )
    reply = Caller(root, less.json()["token"]).ask("GET", "me")
    assert reply.status_code == HTTPStatus.FORBIDDEN
    more = room.browser("ina-skarp").ask_hub(
        "POST", "users/ina-skarp/tokens", json={"scopes": ["custom:class:teach"]}
    )
    assert more.status_code == HTTPStatus.BAD_REQUEST, "nobody gives more than they have"


def test_messages_that_no_lesson_sends_are_refused(people: dict[str, Caller]):
    session, asked = opened(people)
    ina = people["ina-skarp"]
    fine = {"key": "k" * 12, "question": asked, "answers": {"magnetic": "042 M"}}
    wrong = [
        {**fine, "key": "short"},
        {**fine, "key": "x" * 65},
        {**fine, "key": "../../../etc/passwd"},
        {**fine, "key": None},
        {**fine, "question": str(asked)},
        {**fine, "question": True},
        {**fine, "question": 10**12},
        {**fine, "answers": ["042 M"]},
        {**fine, "answers": {"magnetic": 42}},
        {**fine, "answers": {"magnetic": "0" * 201}},
        {**fine, "answers": {str(n): "0" for n in range(13)}},
        {**fine, "given": 5},
        [fine],
    ]
    for content in wrong:
        assert ina.ask("POST", "answers", content).status_code == HTTPStatus.BAD_REQUEST, content
    as_form = {"Content-Type": "application/x-www-form-urlencoded"}
    for kind in (as_form, {"Content-Type": "text/plain"}, {"Content-Type": "application/xml"}):
        reply = ina.ask("POST", "answers", headers=kind, content=json.dumps(fine))
        assert reply.status_code == HTTPStatus.UNSUPPORTED_MEDIA_TYPE
    json_kind = {"Content-Type": "application/json"}
    for text in ("{", "[" * 5000, '{"question": NaN}', "\x00"):
        reply = ina.ask("POST", "answers", headers=json_kind, content=text)
        assert reply.status_code == HTTPStatus.BAD_REQUEST
    enormous = '{"key": "' + "k" * 2_000_000 + '"}'
    assert ina.ask("POST", "answers", headers=json_kind, content=enormous).status_code >= 400
    rows = people["instructor"].get(f"sessions/{session}/record")["answers"]
    assert rows == [], "none of it was taken"


def test_a_flood_is_slowed_and_a_replay_is_one_answer(people: dict[str, Caller]):
    session, asked = opened(people)
    mira = people["mira-holt"]
    content = {"key": str(uuid4()), "question": asked, "answers": {"magnetic": "042 M"}}
    with httpx.Client(headers={"Authorization": f"token {mira.token}"}) as client:
        address = f"{mira.root}/services/class/api/answers"
        codes = [client.post(address, json=content).status_code for _ in range(60)]
    assert codes[0] == HTTPStatus.CREATED
    assert set(codes[1:]) == {HTTPStatus.OK, HTTPStatus.TOO_MANY_REQUESTS}
    rows = people["instructor"].get(f"sessions/{session}/record")["answers"]
    assert len(rows) == 1


def test_a_learner_may_have_all_that_is_kept_and_have_it_deleted(people: dict[str, Caller]):
    _, asked = opened(people)
    oskar = people["oskar-lund"]
    oskar.hand_in(asked, {"magnetic": "042 M"})
    assert asked in [row["question"] for row in oskar.get("mine")["answers"]]
    assert oskar.ask("DELETE", "mine").json()["deleted"] > 0
    assert oskar.get("mine")["answers"] == []


def test_learners_see_nothing_of_each_other_from_a_kernel(room: Class, people: dict[str, Caller]):
    """Tried from a kernel of each, as learners can: files, programs, tokens, sockets."""
    kernels = {name: kernel_of(room.browser(name), name) for name in ("ina-skarp", "oskar-lund")}
    ina, oskar = kernels.values()
    home = oskar.run("import os; print(os.path.expanduser('~'))").strip()
    oskar.run("open(os.path.expanduser('~/mine.txt'), 'w').write('my own')")
    tried = ina.run(
        "import glob, os\n"
        f"def read(path):\n"
        "    try:\n"
        "        return open(path, 'rb').read()\n"
        "    except OSError as error:\n"
        "        return error\n"
        f"places = ['{home}/mine.txt', '{room.hall.folder}/class.sqlite', "
        f"'{room.hall.folder}/words.json', '{room.hall.folder}/hub.sqlite', "
        f"'{room.hall.folder}/cookie-secret', '{room.hall.folder}/logs/oskar-lund.log']\n"
        "print([type(read(place)).__name__ for place in places])\n"
        "mine = os.getuid()\n"
        "others = [p for p in glob.glob('/proc/[0-9]*') if os.stat(p).st_uid != mine]\n"
        "print([p for p in others if isinstance(read(p + '/environ'), bytes)])\n"
        "token = os.environ['JUPYTERHUB_API_TOKEN'].encode()\n"
        "tokens = [read(p + '/environ') for p in glob.glob('/proc/[0-9]*')]\n"
        "tokens = [t for t in tokens if isinstance(t, bytes) and b'JUPYTERHUB_API_TOKEN=' in t]\n"
        "print(all(token in t for t in tokens))\n"
        f"print(os.path.exists('{home}'))\n"
        "print(os.getuid(), 'CapEff:\\t0000000000000000' in open('/proc/self/status').read())\n"
    ).splitlines()
    refused = {"PermissionError", "FileNotFoundError"}
    assert set(json.loads(tried[0].replace("'", '"'))) <= refused
    assert tried[1] == "[]"
    assert tried[2] == "True"
    assert tried[4].split()[1] == "True"
    if os.geteuid() == 0:
        uids = {int(kernel.run("print(os.getuid())")) for kernel in kernels.values()}
        assert len(uids) == 2
        assert 0 not in uids
    addresses = oskar.run(
        "from ipykernel.connect import get_connection_info; print(get_connection_info())"
    )
    assert '"transport": "ipc"' in addresses, "no port of this machine speaks for a kernel"

    # A token out of a kernel is good for taking part, and for nothing of anybody else's.
    token = ina.run("print(os.environ['JUPYTERHUB_API_TOKEN'])").strip()
    headers = {"Authorization": f"token {token}"}
    hub = f"{room.hall.root}/hub/api"
    for path in ("users", "users/oskar-lund", "users/oskar-lund/tokens", "groups", "proxy"):
        assert httpx.get(f"{hub}/{path}", headers=headers).status_code in (403, 404)
    theirs = f"{room.hall.root}/user/oskar-lund/api/contents"
    assert httpx.get(theirs, headers=headers).status_code == HTTPStatus.FORBIDDEN


def test_the_line_from_a_notebook_keeps_an_answer_while_the_network_is_down(
    room: Class, people: dict[str, Caller]
):
    session, asked = opened(people)
    kernel = kernel_of(room.browser("ina-skarp"), "ina-skarp")
    down = socket.create_server(("127.0.0.1", 0))
    dead = f"http://127.0.0.1:{down.getsockname()[1]}/services/class/"
    down.close()
    said = kernel.run(
        "from navlib.classroom import client\n"
        "client.AGAIN_S = 0.2\n"
        "line = client.connect()\n"
        "print(line.me()['name'], line.now() is line.now())\n"
        f"real, line.url = line.url, '{dead}api/'\n"
        f"print([line.hand_in({asked}, {{'magnetic': f'{{n:03}} M'}}).waiting for n in range(3)])\n"
        "print(len(line.waiting))\n"
        "line.url = real\n"
        "import time\n"
        "while line.waiting: time.sleep(0.05)\n"
        f"print(line.hand_in({asked}, {{'magnetic': '003 M'}}).reply['counted'])\n"
    ).split("\n")
    assert said[:4] == ["ina-skarp True", "[True, True, True]", "3", "True"], said
    rows = people["instructor"].get(f"sessions/{session}/record")["answers"]
    assert [row["answers"]["magnetic"] for row in rows] == ["000 M", "001 M", "002 M", "003 M"]


# From here on people come to harm: these stand last.


def test_the_word_cannot_be_guessed_and_the_owner_cannot_be_locked_out(room: Class):
    stranger = room.hall.browser()
    forged = iter(f"192.0.2.{n}" for n in range(1, 100))

    def guess(word: str) -> str:
        headers = {"X-Forwarded-For": next(forged), "X-Real-Ip": next(forged)}
        return stranger.log_in("Jory Vane", word=word, headers=headers)

    said = [guess(f"kelp-tern-{n}") for n in range(6)]
    assert "not the class word" in said[0]
    assert "Wait" in said[5], "whatever address it claims to come from"
    assert "Wait" in stranger.log_in("Jory Vane", word=WORD), "even the right word, for a while"

    wrong = [room.hall.browser().log_in("Ina Skarp", pin=f"guess-{n}") for n in range(6)]
    assert "not the PIN" in wrong[0]
    assert "Wait" in wrong[5]
    assert "Wait" in room.hall.browser().log_in("Ina Skarp"), "from a strange browser"
    owner = room.browser("ina-skarp")
    owner.client.cookies.delete("jupyterhub-hub-login")
    owner.client.cookies.delete("jupyterhub-session-id")
    assert owner.log_in("Ina Skarp") == "", "from the browser that she came in with before"


def test_no_script_comes_in_by_the_name(room: Class):
    name = "<script>alert(1)</script>"
    browser = room.hall.browser()
    page = browser.client.get("/hub/login", params={"username": name}).text
    assert name not in page
    assert "&lt;script&gt;" in page


def test_a_cleared_pin_ends_what_was_begun_with_it(
    room: Class, people: dict[str, Caller], instructor: Caller
):
    listed = {one["name"]: one for one in instructor.get("people")["people"]}
    assert listed["oskar-lund"]["claimed"]
    assert listed["oskar-lund"]["confirmed"] is None
    assert not any("pin" in one for one in listed.values())
    instructor.post("people/oskar-lund", {"do": "confirm"})
    instructor.post("people/oskar-lund", {"do": "clear"})
    assert people["oskar-lund"].ask("GET", "me").status_code == HTTPStatus.FORBIDDEN
    page = room.browser("oskar-lund").client.get("/hub/home")
    assert "/hub/login" in str(page.url)
    assert "not the PIN" not in room.hall.browser().log_in("Oskar Lund", pin="new-pin-0815")
