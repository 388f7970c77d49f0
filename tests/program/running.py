"""Runs the real program, through pipes or on a pseudo-terminal, and hands back all that it said."""

import collections
import os
import pathlib
import pty
import select
import subprocess
import time

ROOT = pathlib.Path(__file__).resolve().parent.parent.parent
PROGRAM = os.environ.get("SPADEWORK_PROGRAM", str(ROOT / "build" / "spadework"))
SCENARIOS = ROOT / "scenarios"
SHARED = pathlib.Path(os.environ.get("SPADEWORK_SHARED_DIR", ROOT.parent / "shared"))

OK, INTERNAL, USAGE, INVALID_SITE, INFEASIBLE, CANNOT_WRITE, NOT_PROVED, NOT_ACCEPTED = range(8)
INTERRUPTED = 130
SHARE = int(os.environ.get("SPADEWORK_TEST_SHARE", "1"))
PATIENCE_SECONDS = 300  # A sanitizer build on a busy machine is slow; nothing here measures time.

Ended = collections.namedtuple("Ended", "code out err")


def effort(rounds):
    """So many rounds, or a share of them where the build says so, as it does under sanitizers."""
    return max(1, rounds // SHARE)


def run(*arguments, stdin="", cwd=None, environment=None):
    """Runs the program through pipes; `out` and `err` are texts."""
    ended = run_bytes(*arguments, stdin=stdin.encode(), cwd=cwd, environment=environment)
    return Ended(ended.code, ended.out.decode(), ended.err.decode())


def run_bytes(*arguments, stdin=b"", cwd=None, environment=None):
    """The same in bytes."""
    ended = subprocess.run([PROGRAM, *map(str, arguments)], input=stdin, capture_output=True, cwd=cwd,
                           env={**os.environ, **(environment or {})}, timeout=PATIENCE_SECONDS)
    return Ended(ended.returncode, ended.stdout, ended.stderr)


def read_until_closed(descriptor):
    """All that is written to a pseudo-terminal until its other side is closed."""
    text = b""
    end = time.monotonic() + PATIENCE_SECONDS
    while time.monotonic() < end:
        if not select.select([descriptor], [], [], 1.0)[0]:
            continue
        try:
            piece = os.read(descriptor, 65536)
        except OSError:  # Linux says EIO when the other side is closed.
            break
        if not piece:
            break
        text += piece
    return text.decode()


def run_on_terminal(*arguments):
    """Runs the program with standard error on a pseudo-terminal and standard output in a pipe."""
    ours, theirs = pty.openpty()
    process = subprocess.Popen([PROGRAM, *map(str, arguments)], stdin=subprocess.DEVNULL, stdout=subprocess.PIPE,
                               stderr=theirs)
    os.close(theirs)
    screen = read_until_closed(ours)
    os.close(ours)
    out, _ = process.communicate(timeout=PATIENCE_SECONDS)
    return Ended(process.returncode, out.decode(), screen)
