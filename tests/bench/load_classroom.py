"""Load on the class service: a class of 30 hands in 10 answers a second, and the service is killed.

    python tests/bench/load_classroom.py [--seconds 120] [--rate 10] [--learners 30] [--postgresql]

A real hub gives the tokens; answers go straight to the service (`--through-the-proxy`: by the
front door). With `--kernel` the instructor looks on from a real kernel, which gets SIGKILL half way;
one begun anew must see the same class. Prints p50, p95 and p99 of the time from sending to reply,
retries included, and fails if an answer was lost or counted twice. The service gets SIGKILL after a
third and two thirds of the time.
"""

import argparse
import os
import random
import signal
import statistics
import sys
import tempfile
import threading
import time
from contextlib import ExitStack
from pathlib import Path
from urllib.parse import urlsplit

import httpx

sys.path.insert(0, str(Path(__file__).parent.parent / "classroom"))

from databases import postgresql
from hall import (
    PLAIN,
    WORD,
    Browser,
    Caller,
    Hall,
    Kernel,
    come_in,
    kernel_of,
    open_hall,
    sit_down,
    wait_for,
)

KIND = "bearings.true-to-magnetic"

LEAD = """
import os, signal, threading, time
from navlib.classroom.client import connect
from navlib.classroom.refusals import Down
from navlib.classroom.running import Running
from navlib.classroom.served import Served
running = Running(Served(connect()), {session})
def look():
    while True:
        try:
            running.desk()
        except Down:
            pass
        time.sleep(1)
threading.Thread(target=look, daemon=True).start()
if {dies_after}:
    threading.Timer({dies_after}, os.kill, (os.getpid(), signal.SIGKILL)).start()
print(running.desk()["face"]["joined"])
"""


def main() -> None:
    given = arguments()
    with ExitStack() as stack:
        folder = Path(stack.enter_context(tempfile.TemporaryDirectory(prefix="load-")))
        folder.chmod(0o711)
        env = {}
        if given.postgresql:
            env["NAVLIB_CLASS_DATABASE"] = stack.enter_context(postgresql())
        hall = stack.enter_context(open_hall(folder / "class", "--word", WORD, env=env))
        report(*run(hall, given))


def arguments() -> argparse.Namespace:
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0] if __doc__ else "")
    parser.add_argument("--seconds", type=float, default=120)
    parser.add_argument("--rate", type=float, default=10)
    parser.add_argument("--learners", type=int, default=30)
    parser.add_argument("--kills", type=int, default=2)
    parser.add_argument("--kernel", action="store_true")
    parser.add_argument("--postgresql", action="store_true")
    parser.add_argument("--through-the-proxy", action="store_true")
    return parser.parse_args()


def token(hall: Hall, name: str, word: str = WORD) -> str:
    return token_of(come_in(hall, name, word), name)


def token_of(browser: Browser, name: str) -> str:
    made = browser.ask_hub("POST", f"users/{name}/tokens", json={})
    return str(made.json()["token"])


def lead(kernel: Kernel, session: int, dies_after: float = 0) -> int:
    """Look on from the instructor's kernel, until it kills itself; return how many it sees joined."""
    return int(kernel.run(LEAD.format(session=session, dies_after=dies_after)))


def run(hall: Hall, given: argparse.Namespace) -> tuple[list[float], set[str], list[str]]:
    """Return how long each answer took, the keys sent, and the keys kept."""
    browser = come_in(hall, "instructor", hall.staff_word)
    teach = Caller(hall.root, token_of(browser, "instructor"))
    session = teach.post("sessions", {"title": "Load"})["id"]
    asked = teach.post(f"sessions/{session}/questions", {"kind": KIND, "open": True})["id"]
    names = [f"learner-{n:02}" for n in range(given.learners)]
    tokens = {name: token(hall, name) for name in names}
    for name in names:
        Caller(hall.root, tokens[name]).post("join", {"session": session})
    root = hall.root if given.through_the_proxy else service_address(hall)

    took: list[float] = []
    sent: set[str] = set()
    end = time.monotonic() + given.seconds
    apart = given.learners / given.rate

    def learner(name: str) -> None:
        source = random.Random(name)
        at = time.monotonic() + source.random() * apart
        count = 0
        with httpx.Client(
            headers={"Authorization": f"token {tokens[name]}"}, verify=PLAIN, timeout=30
        ) as client:
            while at < end:
                time.sleep(max(0.0, at - time.monotonic()))
                key, count = f"{name}-{count:06}", count + 1
                answer = {"magnetic": f"{source.randrange(360):03} M"}
                content = {"key": key, "question": asked, "answers": answer}
                began = time.monotonic()
                while not handed_in(client, f"{root}/services/class/api/answers", content):
                    time.sleep(0.2)
                took.append(time.monotonic() - began)
                sent.add(key)
                at += apart * source.uniform(0.5, 1.5)

    if given.kernel:
        sit_down(browser, "instructor")
        kernel = kernel_of(browser, "instructor")
        assert lead(kernel, session, given.seconds / 2) == given.learners
        end = time.monotonic() + given.seconds  # the server took its time to start
    threads = [threading.Thread(target=learner, args=(name,)) for name in names]
    stop = threading.Event()
    boards = threading.Thread(target=watch, args=(teach, asked, stop))
    for thread in (*threads, boards):
        thread.start()
    for _ in range(given.kills):
        time.sleep(given.seconds / (given.kills + 1))
        before = hall.service_pid
        os.kill(before, signal.SIGKILL)
        wait_for(lambda gone=before: hall.service_pid != gone, "the service begins again")
    for thread in threads:
        thread.join()
    stop.set()
    boards.join()
    if given.kernel:
        assert "NameError" in kernel.run("running"), "the kernel did not die"
        assert lead(kernel, session) == given.learners, (
            "the class looks different from a new kernel"
        )
    return took, sent, kept_keys(hall, given, session, teach)


def handed_in(client: httpx.Client, address: str, content: object) -> bool:
    try:
        return client.post(address, json=content).status_code in (200, 201)
    except httpx.TransportError:
        return False


def watch(teach: Caller, asked: int, stop: threading.Event) -> None:
    """Look at the board every two seconds, as an instructor's notebook does."""
    tag = ""
    while not stop.wait(2):
        try:
            reply = teach.ask("GET", f"questions/{asked}/board?since={tag}")
        except httpx.TransportError:
            continue
        if reply.status_code == 200:
            tag = reply.json()["tag"]


def service_address(hall: Hall) -> str:
    environment = Path(f"/proc/{hall.service_pid}/environ").read_bytes().split(b"\0")
    url = next(e for e in environment if e.startswith(b"JUPYTERHUB_SERVICE_URL=")).decode()
    return f"http://{urlsplit(url.partition('=')[2]).netloc}"


def kept_keys(hall: Hall, given: argparse.Namespace, session: int, teach: Caller) -> list[str]:
    rows = teach.get(f"sessions/{session}/record")["answers"]
    counts: dict[str, int] = {}
    keys = []
    for row in rows:  # in the order in which each learner's came in
        number = counts.get(row["name"], 0)
        counts[row["name"]] = number + 1
        keys.append(f"{row['name']}-{number:06}")
        assert row["outcomes"] is not None, "an answer was not judged"
    return keys


def report(took: list[float], sent: set[str], kept: list[str]) -> None:
    marks = statistics.quantiles(took, n=100)
    p50, p95, p99 = (round(marks[n - 1] * 1000, 1) for n in (50, 95, 99))
    print(f"sent {len(sent)}, kept {len(kept)}; p50/p95/p99 {p50}/{p95}/{p99} ms")
    print(f"slowest {max(took) * 1000:.0f} ms")
    if sorted(kept) != sorted(sent):
        sys.exit("LOST OR DOUBLED")


if __name__ == "__main__":
    main()
