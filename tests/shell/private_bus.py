"""A message bus of a test's own, and services on it that note what they are asked."""

import contextlib
import shutil
import socket
import subprocess
from collections.abc import Callable, Iterator, Mapping
from pathlib import Path
from queue import Queue
from threading import Thread
from typing import Any

import pytest
from jeepney import HeaderFields, MessageType, new_method_return
from jeepney.bus_messages import message_bus
from jeepney.io.blocking import Proxy, open_dbus_connection

needs_bus = pytest.mark.skipif(shutil.which("dbus-daemon") is None, reason="dbus-daemon is not installed")

CONFIG = """\
<!DOCTYPE busconfig PUBLIC "-//freedesktop//DTD D-BUS Bus Configuration 1.0//EN"
 "http://www.freedesktop.org/standards/dbus/1.0/busconfig.dtd">
<busconfig>
  <type>session</type>
  <listen>unix:path={folder}/bus</listen>
  <policy context="default">
    <allow send_destination="*" eavesdrop="true"/><allow eavesdrop="true"/><allow own="*"/>
  </policy>
</busconfig>
"""

Answer = tuple[str, tuple[Any, ...]]


@contextlib.contextmanager
def private_bus(folder: Path) -> Iterator[str]:
    """The address of a bus that ends with the test."""
    config = folder / "bus.conf"
    config.write_text(CONFIG.format(folder=folder), encoding="utf-8")
    command = ["dbus-daemon", f"--config-file={config}", "--nofork", "--print-address"]
    bus = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.DEVNULL, text=True)
    assert bus.stdout is not None
    try:
        yield bus.stdout.readline().strip()
    finally:
        bus.kill()
        bus.wait()
        bus.stdout.close()


class FakeService:
    """Owns a name on a bus. `asked` has (method, its arguments, who asked) in the order they came.

    answers: by method, from the arguments to (signature, values); a method that is not in it is never answered.
    """

    def __init__(self, address: str, name: str, answers: Mapping[str, Callable[..., Answer]]) -> None:
        self.asked: Queue[tuple[str, tuple[Any, ...], str]] = Queue()
        self._answers = answers
        self._bus = open_dbus_connection(address)
        Proxy(message_bus, self._bus).RequestName(name)
        self._thread = Thread(target=self._serve, daemon=True)
        self._thread.start()

    def next(self, seconds: float = 20) -> tuple[str, tuple[Any, ...]]:
        """What it is asked next."""
        return self.asked.get(timeout=seconds)[:2]

    def close(self) -> None:
        """Off the bus."""
        self._bus.sock.shutdown(socket.SHUT_RDWR)
        self._thread.join()
        self._bus.close()

    def _serve(self) -> None:
        with contextlib.suppress(OSError):
            while True:
                message = self._bus.receive()
                if message.header.message_type is MessageType.method_call:
                    self._answer(message)

    def _answer(self, message: Any) -> None:
        fields = message.header.fields
        member = fields[HeaderFields.member]
        if member in self._answers:
            signature, values = self._answers[member](*message.body)
            self._bus.send(new_method_return(message, signature or None, values))
        self.asked.put((member, message.body, fields[HeaderFields.sender]))
