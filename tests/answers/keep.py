#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Keeps the answers of a built program aside: every command on every sound vehicle, in metric and
inch, what it prints, its CSV and its JSON. tests/answers/compare.py then holds two such folders
against one another, so that a change to the code shows whether it changed an answer.

    tests/answers/keep.py build/release/cli/linkwright before
"""
import os
import subprocess
import sys
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]

# A command and its options; the vehicle's file comes after the command.
QUESTIONS = {
    "check": ["check"],
    "settle": ["settle"],
    "sweep": ["sweep"],
    "sweep-roll": ["sweep", "--motion", "roll"],
    "sweep-one-wheel": ["sweep", "--motion", "one-wheel", "--wheel", "rear-left"],
    "sweep-crossed": ["sweep", "--motion", "crossed"],
    "sweep-steer": ["sweep", "--motion", "steer"],
    "limits": ["limits"],
    "limits-split": ["limits", "--split", "60"],
    "limits-wish": ["limits", "--bump", "70 mm", "--droop", "80 mm"],
    "openings": ["openings"],
    "driveline": ["driveline"],
    "steering": ["steering"],
    "roll": ["roll", "--torque", "400 N*m"],
    "ride": ["ride"],
    "original": ["original"],
}


def ask(program, folder, vehicle, name, units):
    command, *options = QUESTIONS[name]
    stem = folder / f"{vehicle.stem}.{name}.{units}"
    done = subprocess.run(
        [program, command, f"fixtures/vehicles/{vehicle.name}", *options, "--units", units,
         "--full", "--csv", f"{stem}.csv/", "--json", f"{stem}.json"],
        cwd=ROOT, capture_output=True, text=True)
    Path(f"{stem}.txt").write_text(f"exit {done.returncode}\n{done.stdout}{done.stderr}")


def compare_pairs(program, folder, vehicles):
    """Each vehicle against the reference one."""
    for vehicle in vehicles:
        stem = folder / f"{vehicle.stem}.compare.metric"
        done = subprocess.run(
            [program, "compare", "fixtures/vehicles/harbour_van.yaml",
             f"fixtures/vehicles/{vehicle.name}", "--csv", f"{stem}.csv"],
            cwd=ROOT, capture_output=True, text=True)
        Path(f"{stem}.txt").write_text(f"exit {done.returncode}\n{done.stdout}{done.stderr}")


def main():
    if len(sys.argv) != 3:
        sys.exit(__doc__)
    program, folder = os.path.abspath(sys.argv[1]), Path(os.path.abspath(sys.argv[2]))
    folder.mkdir(parents=True, exist_ok=True)
    if any(folder.iterdir()):
        sys.exit(f"{folder} is not empty: answers of two programs would mix there")
    vehicles = sorted((ROOT / "fixtures" / "vehicles").glob("*.yaml"))
    with ThreadPoolExecutor(os.cpu_count()) as pool:
        jobs = [pool.submit(ask, program, folder, vehicle, name, units)
                for vehicle in vehicles for name in QUESTIONS for units in ("metric", "inch")]
        jobs.append(pool.submit(compare_pairs, program, folder, vehicles))
        for job in jobs:
            job.result()
    print(f"{sum(path.is_file() for path in folder.rglob("*"))} files in {folder}")


if __name__ == "__main__":
    main()
