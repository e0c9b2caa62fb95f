"""A browser driven over a pipe: Chromium without a window, by the DevTools protocol.

Messages are JSON with a nought byte after each (Chrome DevTools Protocol, --remote-debugging-pipe).
"""

import json
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager
from itertools import count
from pathlib import Path
from typing import IO, Any

from tests.lettering.browser import CHROMIUM

FLAGS = (
    "--headless",
    "--no-sandbox",
    "--disable-gpu",
    "--disable-dev-shm-usage",
    "--disable-background-networking",
    "--hide-scrollbars",
    "--no-first-run",
    "--remote-debugging-pipe",
)
PIPES = 'exec 3<&0 4>&1 </dev/null >/dev/null 2>/dev/null; exec "$0" "$@"'
"""The browser reads messages from its file 3 and writes to its file 4."""

KEYS = {"Tab": (9, ""), "Enter": (13, "\r")}
"""The code of a key, and what it types."""


class Tab:
    """One page of the browser, and all that it reported so far.

    Args:
        orders: Where messages to the browser are written.
        answers: Where its messages are read.
    """

    def __init__(self, orders: IO[bytes], answers: IO[bytes]) -> None:
        self._orders, self._answers = orders, answers
        self._numbers = count(1)
        self._session: str | None = None
        self.reported: list[dict[str, Any]] = []
        target = self.call("Target.createTarget", url="about:blank")["targetId"]
        attached = self.call("Target.attachToTarget", targetId=target, flatten=True)
        self._session = attached["sessionId"]
        for domain in ("Page", "Runtime", "Log", "Network"):
            self.call(f"{domain}.enable")

    def call(self, method: str, **given: Any) -> Any:  # noqa: ANN401 - the protocol's own values
        """What the browser answers; what it reports meanwhile is kept."""
        number = next(self._numbers)
        message = {"id": number, "method": method, "params": given}
        if self._session is not None:
            message["sessionId"] = self._session
        self._orders.write(json.dumps(message).encode() + b"\0")
        self._orders.flush()
        while True:
            heard = self._hear()
            if heard.get("id") == number:
                if "error" in heard:
                    raise RuntimeError(f"{method}: {heard['error']}")
                return heard["result"]

    def open(self, address: str) -> None:
        """Load a page, and wait until it is there."""
        before = len(self.reported)
        self.call("Page.navigate", url=address)
        while not any(one["method"] == "Page.loadEventFired" for one in self.reported[before:]):
            self._hear()

    def run(self, script: str) -> Any:  # noqa: ANN401 - whatever the script returns
        """The value of a script, promises awaited."""
        asked = self.call(
            "Runtime.evaluate", expression=script, returnByValue=True, awaitPromise=True
        )
        if "exceptionDetails" in asked:
            raise RuntimeError(str(asked["exceptionDetails"]))
        return asked["result"].get("value")

    def show(self, *, width: int, height: int = 900, dark: bool = False) -> None:
        """Set the window's size and the reader's taste."""
        self.call(
            "Emulation.setDeviceMetricsOverride",
            width=width,
            height=height,
            deviceScaleFactor=1,
            mobile=False,
        )
        scheme = {"name": "prefers-color-scheme", "value": "dark" if dark else "light"}
        self.call("Emulation.setEmulatedMedia", features=[scheme])

    def press(self, key: str) -> None:
        """Press a key: Tab or Enter."""
        code, text = KEYS[key]
        for kind in ("keyDown", "keyUp"):
            self.call(
                "Input.dispatchKeyEvent",
                type=kind,
                key=key,
                code=key,
                windowsVirtualKeyCode=code,
                text=text if kind == "keyDown" else "",
            )

    def _hear(self) -> dict[str, Any]:
        parts = bytearray()
        while (byte := self._answers.read(1)) != b"\0":
            if not byte:
                raise RuntimeError("the browser has gone")
            parts += byte
        heard: dict[str, Any] = json.loads(parts)
        if "method" in heard:
            self.reported.append(heard)
        return heard


@contextmanager
def tab(profile: Path) -> Iterator[Tab]:
    """A tab of a browser of its own, which ends with it.

    Args:
        profile: A folder for the browser's own files.
    """
    command = ["sh", "-c", PIPES, str(CHROMIUM), *FLAGS, f"--user-data-dir={profile}"]
    with subprocess.Popen(  # noqa: S603 - the program found on PATH
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE
    ) as browser:
        assert browser.stdin is not None
        assert browser.stdout is not None
        own = Tab(browser.stdin, browser.stdout)
        try:
            yield own
        finally:
            own.call("Browser.close")
