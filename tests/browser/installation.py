"""An installation of its own: one server, and a database that is put back before every test."""

from __future__ import annotations

import os
import shutil
import socket
import sqlite3
import subprocess
import sys
import time
import urllib.error
import urllib.request
from contextlib import closing
from dataclasses import dataclass, field
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
TODAY = "2031-03-03"  # a Monday
PASSWORD = "lantern-walk"


@dataclass
class Installation:
    """``lay`` puts a kept database in place of the one that the server reads."""

    folder: Path
    port: int = field(default_factory=lambda: free_port())
    server: subprocess.Popen[bytes] | None = None

    @property
    def url(self) -> str:
        return f"http://127.0.0.1:{self.port}"

    @property
    def live(self) -> Path:
        return self.folder / "live.sqlite3"

    def env(self) -> dict[str, str]:
        mine = {
            "GIORNATA_DEBUG": "1",
            "GIORNATA_TODAY": TODAY,
            "GIORNATA_DB": str(self.live),
            "GIORNATA_MEDIA": str(self.folder / "media"),
        }
        kept = {k: v for k, v in os.environ.items() if k != "DATABASE_URL"}
        return {**kept, **mine}

    def manage(self, *words: str) -> None:
        command = [sys.executable, "manage.py", *words]
        done = subprocess.run(command, cwd=ROOT, env=self.env(), capture_output=True, text=True)
        assert done.returncode == 0, f"manage.py {words[0]} failed:\n{done.stderr[-3000:]}"

    def build(self) -> None:
        self.manage("migrate", "-v0")
        self.keep("empty")
        self.manage("load_demo")
        self.keep("demo")

    def keep(self, name: str) -> None:
        kept = self.folder / f"{name}.sqlite3"
        with closing(sqlite3.connect(self.live)) as now, closing(sqlite3.connect(kept)) as copy:
            now.backup(copy)

    def lay(self, name: str) -> None:
        """The server opens its database anew for every request, so it may be changed between."""
        for suffix in ("-wal", "-shm"):
            Path(f"{self.live}{suffix}").unlink(missing_ok=True)
        fresh = self.folder / "fresh.sqlite3"
        shutil.copyfile(self.folder / f"{name}.sqlite3", fresh)
        fresh.replace(self.live)

    def start(self) -> None:
        command = [sys.executable, "manage.py", "runserver", f"127.0.0.1:{self.port}", "--noreload"]
        with (self.folder / "server.log").open("wb") as log:
            self.server = subprocess.Popen(
                command, cwd=ROOT, env=self.env(), stdout=log, stderr=log
            )
        wait_for(f"{self.url}/login/")

    def stop(self) -> None:
        if self.server:
            self.server.terminate()
            self.server.wait(10)


def free_port() -> int:
    with socket.socket() as probe:
        probe.bind(("127.0.0.1", 0))
        return int(probe.getsockname()[1])


def wait_for(url: str, seconds: float = 60) -> None:
    until = time.monotonic() + seconds
    while time.monotonic() < until:
        try:
            urllib.request.urlopen(url, timeout=5).close()
            return
        except (urllib.error.URLError, ConnectionError):
            time.sleep(0.1)
    raise AssertionError(f"No answer from {url} in {seconds} seconds.")
