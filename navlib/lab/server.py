"""Starts JupyterLab on a folder of lessons, apart from whatever else its user does with Jupyter."""

import json
import os
import secrets
import signal
from collections.abc import Mapping
from pathlib import Path
from types import FrameType
from urllib.parse import quote

import zmq
from jupyter_core.paths import jupyter_runtime_dir
from platformdirs import user_data_path

from navlib.language import translations
from navlib.language.scripts import said

_HERE = Path(__file__).parent

_KEPT = ("JUPYTER_RUNTIME_DIR", "JUPYTER_PLATFORM_DIRS", "JUPYTER_ALLOW_INSECURE_WRITES")


def own_folder() -> Path:
    """Return where JupyterLab keeps its settings for lessons.

    This is `NAVLIB_LAB` if set, else a place in this user's own data folder.
    """
    given = os.environ.get("NAVLIB_LAB")
    return Path(given) if given else user_data_path("navlib", appauthor=False) / "lab"


def environment(before: Mapping[str, str], own: Path) -> dict[str, str]:
    """Return `before` with Jupyter's settings replaced by ours, all kept in the folder `own`.

    The user's own settings, kernels, extensions and start-up files neither disturb a lesson nor
    are changed by one; running servers are listed where they always are.
    """
    env = {k: v for k, v in before.items() if not k.startswith("JUPYTER") or k in _KEPT}
    return env | {
        "JUPYTER_RUNTIME_DIR": jupyter_runtime_dir(),
        "JUPYTER_PREFER_ENV_PATH": "1",
        "JUPYTER_CONFIG_PATH": str(_HERE / "config"),
        "JUPYTER_CONFIG_DIR": str(own / "config"),
        "JUPYTER_DATA_DIR": str(own / "data"),
        "JUPYTERLAB_SETTINGS_DIR": str(own / "settings"),
        "JUPYTERLAB_WORKSPACES_DIR": str(own / "workspaces"),
        "IPYTHONDIR": str(own / "ipython"),
    }


def translate(own: Path) -> None:
    """Leave in the folder `own` what the page around a lesson says in the learner's language."""
    script = (_HERE / "labextensions" / "navlib-lesson" / "static" / "lesson.js").read_text("utf-8")
    known = translations()
    said_here = {text: known[text] for _, text in said(script) if text in known}
    texts = json.dumps(said_here)  # as a text: of a mapping JupyterLab keeps the names alone
    file = own / "config" / "labconfig" / "page_config.json"
    kept = json.loads(file.read_text("utf-8")) if file.exists() else {}
    if texts != kept.get("navlibTexts", "{}"):
        file.parent.mkdir(parents=True, exist_ok=True)
        file.write_text(json.dumps({**kept, "navlibTexts": texts}), "utf-8")


def settings(lesson: Path) -> dict[str, object]:
    """Return what makes JupyterLab open `lesson` as a lesson, whoever starts it."""
    return {
        "ServerApp.root_dir": lesson.parent,
        "Application.log_level": "ERROR",
        "ServerApp.terminals_enabled": False,
        "ServerApp.contents_manager_class": "navlib.lab.contents.LessonContents",
        "LanguageServerManager.autodetect": False,  # it would go looking with npm
        "LabApp.default_url": f"/doc/tree/{quote(lesson.name)}",
        "LabApp.extra_labextensions_path": _HERE / "labextensions",
        "LabApp.extension_manager": "readonly",
        "LabApp.check_for_updates_class": "jupyterlab.NeverCheckForUpdate",
    }


def options(lesson: Path, token: str, port: int | None, browser: bool) -> list[str]:
    """Return the words of the command line that make JupyterLab open `lesson` on this computer."""
    chosen = settings(lesson) | {
        "ServerApp.open_browser": browser,
        "ServerApp.allow_root": True,  # only this computer is listened to
        "IdentityProvider.token": token,
        "KernelManager.transport_encryption": "auto" if zmq.has("curve") else "disabled",
    }
    if port is not None:
        chosen |= {"ServerApp.port": port, "ServerApp.port_retries": 0}
    return [f"--{name}={value}" for name, value in chosen.items()]


def serve(lesson: Path, *, port: int | None = None, browser: bool = True) -> None:
    """Serve `lesson` and its folder to this computer's browser; the program ends by Ctrl-C.

    `port` None takes the first free one from Jupyter's usual port on. The address is printed.
    """
    translate(own_folder())
    os.environ.update(env := environment(os.environ, own_folder()))
    for name in os.environ.keys() - env.keys():
        del os.environ[name]
    # Jupyter reads its environment when it is imported.
    from jupyterlab.labapp import LabApp  # type: ignore[import-untyped]

    token = secrets.token_hex(24)
    server = LabApp.initialize_server(options(lesson, token, port, browser))
    address = f"{server.connection_url.rstrip('/')}/doc/tree/{quote(lesson.name)}?token={token}"
    print(
        "The lesson opens in your browser. If no page appears, copy this address into it:"
        if browser
        else "Copy this address into your browser:",
        f"    {address}",
        "Stop with Ctrl-C in this window.",
        sep="\n",
        flush=True,
    )

    def stop(number: int, _: FrameType | None) -> None:
        signal.signal(number, signal.SIG_DFL)  # asked twice, it stops without tidying up
        server.stop(from_signal=True)

    for number in (signal.SIGINT, signal.SIGTERM):
        signal.signal(number, stop)
    server.start()
    print("Stopped.", flush=True)
    # A worker thread that outlived its event loop would keep the program from ending for ever.
    os._exit(0)
