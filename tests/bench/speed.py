#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Writes the table of docs/speed.md: every command on every sound vehicle, whole process, and the
ratios of tests/bench/solver_bench. Prints it on standard output; times are of one processor, so that
what else the machine does hardly matters, and the least of several runs.

    cmake -S . -B build/bench -G Ninja -DLINKWRIGHT_TESTS=OFF -DLINKWRIGHT_BENCHMARKS=ON
    cmake --build build/bench && tests/bench/speed.py build/bench > docs/speed.md
"""
import os
import statistics
import subprocess
import sys
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
COMMANDS = {
    "page": [], "check": [], "settle": [], "sweep": [], "sweep roll": ["--motion", "roll"],
    "sweep crossed": ["--motion", "crossed"], "limits": [], "openings": [], "driveline": [],
    "steering": [], "roll": [], "ride": [], "original": [],
}
RUNS = 5


def once(words):
    """Processor milliseconds and the most memory in MB, or nothing where the file is refused."""
    child = subprocess.Popen(words, stdout=subprocess.DEVNULL, stderr=subprocess.DEVNULL)
    _, status, used = os.wait4(child.pid, 0)
    if os.waitstatus_to_exitcode(status) == 2:
        return None
    return 1e3 * (used.ru_utime + used.ru_stime), used.ru_maxrss / 1024.0


def time_of(words):
    runs = [once(words) for _ in range(RUNS)]
    if runs[0] is None:
        return None
    return min(run[0] for run in runs), max(run[1] for run in runs)


def commands_table(program):
    vehicles = sorted((ROOT / "fixtures" / "vehicles").glob("*.yaml"))
    print("| command | median, ms | most, ms | on | memory, MB |")
    print("| --- | ---: | ---: | --- | ---: |")
    everything = []
    for name, options in COMMANDS.items():
        times = {}
        for vehicle in vehicles:
            took = time_of([program, name.split()[0], vehicle, *options])
            if took:
                times[vehicle.stem] = took
        slowest = max(times, key=lambda stem: times[stem][0])
        everything += [took[0] for took in times.values()]
        print(f"| `{name}` | {statistics.median(took[0] for took in times.values()):.0f} "
              f"| {times[slowest][0]:.0f} | {slowest} | {max(t[1] for t in times.values()):.0f} |")
    print(f"\nOver all of them: median {statistics.median(everything):.0f} ms (bar: 100), most "
          f"{max(everything):.0f} ms (bar: 300).")
    took = time_of([program, "sweep", ROOT / "fixtures" / "vehicles" / "harbour_van.yaml"])
    print(f"`sweep` on the reference vehicle: {took[0]:.0f} ms (bar: 50), {took[1]:.0f} MB "
          "(bar: 40).\n")


def ratios_table(bench):
    said = subprocess.run([bench], capture_output=True, text=True, check=True).stdout
    print("| ratio of two times of one run | is | bar |")
    print("| --- | ---: | --- |")
    for line in said[said.index("\nratio"):].splitlines()[2:]:
        work, rest = line[:42].strip(), line[42:].split()
        print(f"| {work} | {rest[0]} | {' '.join(rest[1:])} |")
    print()


def main():
    build = Path(sys.argv[1])
    print("# Speed\n")
    print("Made by `tests/bench/speed.py`. Times are of one processor, whole process, the least of "
          f"{RUNS} runs; they differ\nbetween machines, the ratios hardly.\n")
    commands_table(build / "cli" / "linkwright")
    ratios_table(build / "tests" / "bench" / "solver_bench")
    print("`WalkedPose` is a pose from its neighbour with both derivatives; `BounceRow` both axles "
          "moved and every column;\n`NewtonByHand` the least loop that solves four links, "
          "`MultibodyProjection` the same by a general library.")


main()
