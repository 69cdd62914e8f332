"""What runs as the learner: the lessons are put in the home, then JupyterLab opens on them."""

import os
import shutil
import sys
from pathlib import Path

from navlib import lab

_HERE = Path(__file__).parent


def lay_out(lessons: Path, home: Path) -> Path:
    """Copy the lessons that are new or have changed into the home, and return the folder there.

    What the learner has made stays; a lesson is teaching text and is not theirs to change.
    """
    here = home / "lessons"
    for path in sorted(lessons.rglob("*")):
        copy = here / path.relative_to(lessons)
        if path.is_dir():
            copy.mkdir(parents=True, exist_ok=True)
        elif not copy.exists() or copy.stat().st_mtime < path.stat().st_mtime:
            copy.parent.mkdir(parents=True, exist_ok=True)
            copy.unlink(missing_ok=True)
            shutil.copy2(path, copy)
    return here


def main() -> None:
    """Become the learner's server, with the settings that the hub gave by the environment."""
    home = Path.home()
    os.chdir(home)
    folder = lay_out(Path(os.environ.pop("NAVLIB_CLASS_LESSONS")), home)
    hub = {name: value for name, value in os.environ.items() if name.startswith("JUPYTERHUB_")}
    lab.translate(home / ".lab")
    env = lab.environment(os.environ, home / ".lab") | hub
    env["JUPYTER_CONFIG_PATH"] = os.pathsep.join(
        [str(_HERE / "config"), env["JUPYTER_CONFIG_PATH"]]
    )
    for name in os.environ.keys() - env.keys():
        del os.environ[name]
    os.environ.update(env)
    for own in (env["JUPYTER_RUNTIME_DIR"], env["IPYTHONDIR"]):
        Path(own).mkdir(mode=0o700, parents=True, exist_ok=True)
    # Jupyter reads its environment when it is imported.
    from jupyterhub.singleuser import main as serve

    chosen = lab.settings(lab.find(folder)) | {
        "KernelManager.transport": "ipc",  # a port of this machine could be listened to by others
        "ServerApp.shutdown_no_activity_timeout": 4 * 3600,
        # JupyterLab reads these two when it is imported, which a nursery did for all.
        "LabApp.user_settings_dir": env["JUPYTERLAB_SETTINGS_DIR"],
        "LabApp.workspaces_dir": env["JUPYTERLAB_WORKSPACES_DIR"],
    }
    sys.argv = ["jupyterhub-singleuser", *(f"--{name}={value}" for name, value in chosen.items())]
    serve()


if __name__ == "__main__":
    main()
