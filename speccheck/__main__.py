"""The way into the command line, `speccheck` and `python -m speccheck` alike.

From the first line on, Ctrl-C ends a run with a message and a status of its own: loading the commands takes long enough
for somebody to stop it.
"""

import os

TYPE_CHECKING = False  # the fewer modules before signals are heard, the better
if TYPE_CHECKING:
    from collections.abc import Callable


def _stop_at_once(*_: object) -> None:
    """End a run that has done nothing so far, in one step: nothing is loaded that could say more."""
    os.write(2, b"stopped; nothing was written\n")
    os._exit(130)


try:
    import signal
except KeyboardInterrupt:  # loading it takes some milliseconds
    _stop_at_once()


def _hear_signals(answer: "Callable[..., object]") -> None:
    """Set what Ctrl-C does, and the system's wish to end, where they are not to be passed over, as under nohup."""
    for one in (signal.SIGINT, signal.SIGTERM):
        if signal.getsignal(one) is not signal.SIG_IGN:
            signal.signal(one, answer)


def main() -> None:
    """Run the command line."""
    _hear_signals(_stop_at_once)
    import gc

    from speccheck import cli

    _hear_signals(cli.interrupt)
    try:
        cli.main()
    finally:
        # Before Python ends it looks through all that is left for garbage, which takes half a second of a large review.
        gc.freeze()


if __name__ == "__main__":
    main()
