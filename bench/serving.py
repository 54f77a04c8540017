"""A real studio process for benches: started on a ledger, asked, and killed."""

from __future__ import annotations

import http.client
import json
import os
import shutil
import socket
import subprocess
import sys
import time
from pathlib import Path
from typing import Any

ROOT = Path(__file__).resolve().parent.parent
DEMO = ROOT / "examples" / "tide-mill"
NAME = "tide-mill"
HOST = "127.0.0.1"
STARTS_IN_S = 60.0


def printed_demo(work: Path) -> Path:
    """Copy the demo game into `work` with its printed set, and return its folder."""
    from boxwright.build import Asked, build
    from boxwright.build.current import keep
    from boxwright.choose.chance import Chance
    from boxwright.game.choosing import Wishes

    game = work / NAME
    shutil.copytree(DEMO, game, ignore=shutil.ignore_patterns("editions", ".history"))
    asked = Asked(game, Wishes(groups=2), Chance(1))
    keep(build(asked), asked)
    return game


class Process:
    """`boxwright session` over one game, on one ledger and one port, however often it is killed."""

    def __init__(self, game: Path, ledger: Path, compiled: Path) -> None:
        """Choose a port; nothing runs yet."""
        with socket.socket() as free:
            free.bind((HOST, 0))
            self.port: int = free.getsockname()[1]
        options = ["--port", str(self.port), "--ledger", str(ledger), "--no-browser"]
        self.command = [sys.executable, "-m", "boxwright", "session", str(game), *options]
        kept = {key: text for key, text in os.environ.items() if key != "PYTHONDONTWRITEBYTECODE"}
        self.environment = kept | {"PYTHONPYCACHEPREFIX": str(compiled)}
        self.running: subprocess.Popen[bytes] | None = None

    def start(self) -> None:
        """Start it, and wait until it answers."""
        self.running = subprocess.Popen(
            self.command, env=self.environment, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL
        )
        give_up = time.monotonic() + STARTS_IN_S
        while time.monotonic() < give_up and self.running.poll() is None:
            try:
                Asking(self.port).get(f"/games/{NAME}/wall/now")
            except OSError:
                time.sleep(0.02)
            else:
                return
        raise SystemExit("the studio did not start")

    def kill(self) -> None:
        """Kill it as a power cut does: nothing is put in order."""
        assert self.running is not None
        self.running.kill()
        self.running.wait()


class Asking:
    """One connection to the studio, made anew where it broke."""

    def __init__(self, port: int, timeout: float = 10.0) -> None:
        """Connect at the first question."""
        self.connection = http.client.HTTPConnection(HOST, port, timeout=timeout)

    def get(self, address: str) -> Any:
        """Return the JSON that stands at an address; OSError where nobody answers."""
        return self._asked("GET", address, None)

    def post(self, address: str, value: Any) -> Any:
        """Send JSON and return the JSON that comes back; OSError where nobody answers."""
        return self._asked("POST", address, json.dumps(value))

    def _asked(self, method: str, address: str, body: str | None) -> Any:
        try:
            self.connection.request(method, address, body, {"Content-Type": "application/json"})
            answer = self.connection.getresponse()
            data = answer.read()
        except (http.client.HTTPException, OSError) as error:
            self.connection.close()
            raise OSError(str(error)) from error
        if answer.status != 200:
            raise OSError(f"{answer.status} {data[:300]!r}")
        return json.loads(data)
