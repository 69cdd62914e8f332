"""The hub's settings: who may what, where learners work, and the class service beside it."""

import json
import os
import sys
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

from navlib.classroom import nursery
from navlib.classroom.gate import ACCESS, ROLES, SERVICE, TAKE_PART, scope

SETTINGS = "NAVLIB_CLASS_SETTINGS"
"""The environment variable that hands the settings to the hub, as JSON."""

CONFIG_FILE = Path(__file__).parent / "jupyterhub_config.py"

STARTING_S = 120
"""How long a server may take to start when a whole class comes in at once."""


@dataclass(frozen=True)
class Settings:
    """How a class is served.

    `folder` keeps all of it, `database` is a URL or the path of a file, `address` and `port` are
    where learners come in; `ports` are three free ones: the hub's, the proxy's own, the service's.
    """

    folder: str
    database: str
    lessons: str
    short: str
    isolation: str
    word: str
    staff_word: str
    listed_only: bool
    address: str
    port: int
    ports: tuple[int, int, int]

    def to_text(self) -> str:
        """Return the settings as the hub gets them."""
        return json.dumps(asdict(self))

    @classmethod
    def from_environment(cls) -> "Settings":
        """Return the settings that the command put into the environment."""
        return cls(**json.loads(os.environ[SETTINGS]))


def configure(c: Any, given: Settings) -> None:
    """Set the hub up in its configuration `c`."""
    hub_port, proxy_port, service_port = given.ports
    folder = Path(given.folder)
    _set_hub(c, given, folder, hub_port, proxy_port)
    _set_people(c, given)
    _set_seats(c, given, folder, service_port)
    c.JupyterHub.services = [
        {
            "name": SERVICE,
            "url": f"http://127.0.0.1:{service_port}",
            "command": [sys.executable, "-P", "-m", "navlib.classroom.keeper"],
            "environment": {
                "NAVLIB_CLASS_DATABASE": given.database,
                "NAVLIB_CLASS_FOLDER": given.folder,
                "NAVLIB_CLASS_WORD": given.word,
                "NAVLIB_KEPT": str(folder / "pictures"),
            },
            "display": False,
            # A browser's login there is good for taking part, and for nothing else of its owner's.
            "oauth_client_allowed_scopes": [scope(TAKE_PART)],
            "oauth_no_confirm": True,
        }
    ]


def first_page(handler: Any) -> str:
    """Return where somebody who has come in is led: learners to the class, staff to the lessons.

    Empty means the hub's own way, which is everybody's own server.
    """
    user = handler.current_user
    groups = {group.name for group in user.groups} if user else set()
    return f"/services/{SERVICE}/" if groups == {"learners"} else ""


def _set_hub(c: Any, given: Settings, folder: Path, hub_port: int, proxy_port: int) -> None:
    c.JupyterHub.bind_url = f"http://{given.address}:{given.port}"
    c.JupyterHub.hub_bind_url = f"http://127.0.0.1:{hub_port}"
    c.JupyterHub.db_url = f"sqlite:///{folder / 'hub.sqlite'}"
    c.JupyterHub.cookie_secret_file = str(folder / "cookie-secret")
    c.JupyterHub.log_level = "ERROR"
    c.JupyterHub.concurrent_spawn_limit = 30
    # Whoever comes in is shown at once how far their server is, instead of a page that hangs.
    c.JupyterHub.tornado_settings = {"slow_spawn_timeout": 0}
    c.JupyterHub.default_url = first_page
    c.JupyterHub.proxy_class = "jupyterhub.proxy.ConfigurableHTTPProxy"
    c.ConfigurableHTTPProxy.command = [sys.executable, "-P", "-m", "navlib.classroom.proxy"]
    c.ConfigurableHTTPProxy.api_url = f"http://127.0.0.1:{proxy_port}"
    c.ConfigurableHTTPProxy.pid_file = str(folder / "proxy.pid")
    c.ConfigurableHTTPProxy.log_level = "error"


def _set_people(c: Any, given: Settings) -> None:
    from navlib.classroom.door import GROUPS, Door

    c.JupyterHub.authenticator_class = Door
    c.Door.database = given.database
    c.Door.word = given.word
    c.Door.staff_word = given.staff_word
    c.Door.listed_only = given.listed_only
    c.Door.manage_groups = True
    c.Door.allow_all = True
    c.JupyterHub.custom_scopes = {
        scope("take-part"): {"description": "Take part in class sessions"},
        scope("read"): {"description": "Read class sessions with names"},
        scope("teach"): {"description": "Run class sessions and see the board"},
    }
    c.JupyterHub.load_roles = [
        {
            "name": f"class-{role}",
            "groups": [GROUPS[role]],
            "scopes": [ACCESS, *(scope(one) for one in may)],
        }
        for role, may in ROLES.items()
    ] + [
        # so that a cleared PIN also ends what was begun with it
        {
            "name": "class-service",
            "services": [SERVICE],
            "scopes": [f"delete:users!group={group}" for group in GROUPS.values()],
        },
        # A learner's own server and no more: no tokens for other purposes, no sharing.
        {"name": "user", "scopes": ["self"]},
    ]


def _set_seats(c: Any, given: Settings, folder: Path, service_port: int) -> None:
    from navlib.classroom.spawner import Seat

    c.JupyterHub.spawner_class = Seat
    c.Seat.isolation = given.isolation
    c.Seat.homes = str(folder / "homes")
    c.Seat.logs = str(folder / "logs")
    c.Seat.short = given.short
    if os.geteuid() == 0:
        c.Seat.nursery = f"{given.short}/nursery"
        nursery.begin(Path(c.Seat.nursery))
    c.Seat.lessons = given.lessons
    c.Seat.database = given.database
    c.Seat.default_url = "/doc/tree/start.ipynb"
    c.Seat.env_keep = ["PATH", "LD_LIBRARY_PATH", "VIRTUAL_ENV"]
    c.Seat.environment = {
        "NAVLIB_CLASS_URL": f"http://127.0.0.1:{service_port}/services/{SERVICE}/",
    }
    c.Seat.server_token_scopes = [
        "users:activity!user",
        "access:servers!server",
        ACCESS,
        *(scope(one) for one in ("take-part", "read", "teach")),
    ]
    c.Seat.start_timeout = STARTING_S
    c.Seat.http_timeout = STARTING_S
    c.Seat.interrupt_timeout = 1
    c.Seat.term_timeout = 5
