"""How long commands take to begin, beside Python alone.

Run: python tests/bench/start_bench.py [repeats]

Each line gives the fastest of several new processes, the processor's time in it (what a
busy machine cannot stretch much), the most memory it took, and the ratio to an interpreter
that does nothing.
"""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time

MAIN = "from web.command import main; main()"
COMMANDS = (
    ["--help"],
    ["cut", "list"],
    ["bin", "list"],
    ["plan", "list"],
    ["pattern", "list"],
    ["person", "list"],
    ["fit", "--help"],
    ["serve", "--help"],
)


def begun(arguments: list[str]) -> tuple[float, float, float]:
    """(seconds, seconds of the processor, megabytes) of one new process."""
    start = time.perf_counter()
    process = subprocess.Popen([sys.executable, *arguments], stdout=subprocess.DEVNULL)
    _, status, usage = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit(f"{arguments} ended with {process.returncode}")
    cpu_s = usage.ru_utime + usage.ru_stime
    return time.perf_counter() - start, cpu_s, usage.ru_maxrss / 1024


def main(repeats: int) -> None:
    """Print the table."""
    with tempfile.TemporaryDirectory() as folder:
        command = ["-c", MAIN, "--data", folder]
        begun([*command, "demo", "--no-serve"])
        bare_s = min(begun(["-c", "pass"])[0] for _ in range(repeats))
        print(f"{'command':<16}{'s':>7}{'cpu s':>7}{'MB':>7}{'x Python':>10}")
        print(f"{'python':<16}{bare_s:7.2f}{'':>14}{1:10.1f}")
        for arguments in COMMANDS:
            took_s, cpu_s, took_mb = min(begun([*command, *arguments]) for _ in range(repeats))
            figures = f"{took_s:7.2f}{cpu_s:7.2f}{took_mb:7.0f}{took_s / bare_s:10.1f}"
            print(f"{' '.join(arguments):<16}{figures}")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)
