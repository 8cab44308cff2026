"""A CUPS of a test's own whose printer is a file; nothing of it outlives the test."""

import shutil
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

CUPSD = shutil.which("cupsd", path="/usr/sbin:/sbin:/usr/local/sbin:/usr/bin")
LONGEST_WAIT = 8.0
LONGEST_SOCKET = 100
"""Letters in the path of a socket; Linux allows 107."""

SERVER = """\
Listen {folder}/s
LogLevel warn
MaxLogSize 0
Browsing No
DefaultAuthType None
WebInterface No
<Location />
  Order allow,deny
  Allow all
</Location>
<Policy default>
  <Limit All>
    Order allow,deny
    Allow all
  </Limit>
</Policy>
"""

FOLDERS = """\
ServerRoot {folder}/root
RequestRoot {folder}/spool
TempDir {folder}/spool
CacheDir {folder}/cache
StateDir {folder}/state
ServerBin {folder}/bin
AccessLog {folder}/access
ErrorLog {folder}/error
PageLog {folder}/page
"""

PRINTERS = """\
<Printer Stand>
DeviceURI paper:/stand
State Idle
Accepting Yes
</Printer>
<Printer Closed>
DeviceURI paper:/closed
State Idle
Accepting No
</Printer>
"""

BACKEND = """\
#!/bin/sh
[ $# -eq 0 ] && exit 0
printf '%s' "$5" > "{folder}/options"
cat "$6" > "{folder}/arriving" && mv "{folder}/arriving" "{folder}/printed.pdf"
"""


@contextmanager
def open_print_shop(folder: Path) -> Iterator[None]:
    """Run a print server in a folder; it is skipped with the reason where it cannot run.

    The environment variable CUPS_SERVER must name the socket `folder / "s"` meanwhile.
    """
    if CUPSD is None or shutil.which("lp") is None or shutil.which("lpstat") is None:
        pytest.skip("CUPS is not installed here (Debian: cups-daemon, cups-client)")
    if len(str(folder / "s")) > LONGEST_SOCKET:
        pytest.skip("the folder of this test has too long a name for a socket")
    furnish(folder)
    files = ["-c", str(folder / "root/cupsd.conf"), "-s", str(folder / "root/cups-files.conf")]
    with (
        (folder / "said").open("w") as said,
        subprocess.Popen([CUPSD, *files, "-f"], stdout=said, stderr=said) as server,  # noqa: S603
    ):
        try:
            wait_until_open(folder, server)
            yield
        finally:
            server.terminate()
            try:
                server.wait(timeout=LONGEST_WAIT)
            except subprocess.TimeoutExpired:
                server.kill()


def furnish(folder: Path) -> None:
    """Lay out the server's folder: its settings, two printers, and what stands for paper."""
    for name in ("root", "spool", "cache", "state", "bin/backend"):
        (folder / name).mkdir(parents=True)
    (folder / "bin/daemon").symlink_to("/usr/lib/cups/daemon")
    (folder / "bin/backend/paper").write_text(BACKEND.format(folder=folder))
    (folder / "bin/backend/paper").chmod(0o700)  # so that it runs as whoever runs the server
    (folder / "root/cupsd.conf").write_text(SERVER.format(folder=folder))
    (folder / "root/cups-files.conf").write_text(FOLDERS.format(folder=folder))
    (folder / "root/printers.conf").write_text(PRINTERS)


def wait_until_open(folder: Path, server: "subprocess.Popen[bytes]") -> None:
    """Wait for the server; where it cannot run, its last words are the reason for the skip."""
    end = time.monotonic() + LONGEST_WAIT
    while time.monotonic() < end and server.poll() is None:
        asked = subprocess.run(
            ["lpstat", "-r"],  # noqa: S607  as bookgen itself looks for it
            capture_output=True,
            check=False,
            text=True,
        )
        if "is running" in asked.stdout:
            return
        time.sleep(0.05)
    last = "".join(
        (folder / name).read_text()[-300:] for name in ("said", "error") if (folder / name).exists()
    )
    pytest.skip(f"CUPS cannot run here: {last or 'it says nothing'}")


def printed(folder: Path) -> Path:
    """Wait for what comes out of the printer."""
    paper = folder / "printed.pdf"
    end = time.monotonic() + LONGEST_WAIT
    while not paper.exists() and time.monotonic() < end:
        time.sleep(0.02)
    assert paper.exists(), (folder / "error").read_text()
    return paper
