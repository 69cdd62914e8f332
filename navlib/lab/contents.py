"""Keeps a lesson's file as it is: a lesson is teaching text, a learner's work is kept elsewhere."""

from pathlib import Path
from typing import Any

from jupyter_server.services.contents.largefilemanager import AsyncLargeFileManager
from tornado.web import HTTPError

from navlib.lab.lesson import is_lesson, is_lesson_file


class LessonContents(AsyncLargeFileManager):
    """The files that JupyterLab sees; lessons among them can be read and copied, not changed.

    A copy that is saved under another name is an ordinary notebook, its owner's to change.
    """

    def is_writable(self, path: str) -> bool:
        """Return whether JupyterLab may offer to save `path`."""
        return not self._lesson_at(path) and super().is_writable(path)

    async def save(self, model: dict[str, Any], path: str = "") -> dict[str, Any]:
        """Save `model`, which stops being a lesson by it; refuse where a lesson stands."""
        self._keep(path)
        if is_lesson(model.get("content")):
            del model["content"]["metadata"]["navlib"]
        return await super().save(model, path)

    async def delete_file(self, path: str) -> None:
        """Delete a file that is not a lesson."""
        self._keep(path)
        await super().delete_file(path)

    async def rename_file(self, old_path: str, new_path: str) -> None:
        """Rename a file that is not a lesson."""
        self._keep(old_path)
        await super().rename_file(old_path, new_path)

    async def list_checkpoints(self, path: str) -> list[dict[str, Any]]:
        """Return the earlier states of a file; a lesson has none, and no folder is made for them."""
        return [] if self._lesson_at(path) else await super().list_checkpoints(path)

    def _lesson_at(self, path: str) -> bool:
        return is_lesson_file(Path(self._get_os_path(path.strip("/"))))

    def _keep(self, path: str) -> None:
        if self._lesson_at(path):
            raise HTTPError(
                403,
                f"“{path.strip('/')}” is a lesson and stays as it is. "
                "To keep notes, save a copy under another name.",
            )
