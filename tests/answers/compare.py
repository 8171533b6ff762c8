#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Compares the answers that tests/answers/keep.py kept of two programs.

    tests/answers/compare.py before after [--allowed tests/answers/allowed.txt]

Numbers of CSV and JSON agree within 1e-9 of their size, with floors of 1e-6 mm, 1e-8 deg and
1e-5 N (others: 1e-9 of their own unit); in rows at an end of travel, which lie where a search
closed in, within 1e-5 mm and what hangs on that. Text agrees exactly. A difference that is meant
is named in the list: one a line, `FILE-PATTERN : TEXT-PATTERN  # why`, both as shell patterns; a
line that excuses nothing is an error.

Exit status 1 where anything else differs.
"""
import argparse
import csv
import fnmatch
import json
import sys
from pathlib import Path

INCH = 25.4
FLOORS = {  # by unit
    "mm": 1e-6, "in": 1e-6 / INCH, "deg": 1e-8, "n": 1e-5, "lbf": 1e-5 / 4.4482216152605,
}
RELATIVE = 1e-9
AT_END = 10.0  # times the floors; and in a row at an end 1e-7 of the size


def unit_of(name):
    for unit in ("mm", "in", "deg", "n", "lbf"):
        if name.endswith("_" + unit) or name == unit:
            return unit
    return ""


def number(value):
    if isinstance(value, bool) or value is None:
        return None
    if isinstance(value, (int, float)):
        return float(value)
    try:
        return float(value)
    except ValueError:
        return None


def agree(a, b, unit, at_end):
    if a == b:
        return True
    x, y = number(a), number(b)
    if x is None or y is None:
        return False
    floor, relative = FLOORS.get(unit.lower(), 1e-9), RELATIVE
    if at_end:
        floor, relative = AT_END * floor, 100.0 * relative
    return abs(x - y) <= max(floor, relative * max(abs(x), abs(y)))


class Differences:
    def __init__(self, allowed):
        self.allowed = allowed
        self.used = set()
        self.count = 0

    def add(self, file, text):
        for i, (files, texts) in enumerate(self.allowed):
            if fnmatch.fnmatch(file, files) and fnmatch.fnmatch(text, texts):
                self.used.add(i)
                return
        self.count += 1
        if self.count <= 100000:
            print(f"{file}: {text}")


def compare_texts(file, a, b, differences):
    if a == b:
        return
    lines_a, lines_b = a.splitlines(), b.splitlines()
    if len(lines_a) != len(lines_b):
        gone = [line for line in lines_a if line not in set(lines_b)]
        new = [line for line in lines_b if line not in set(lines_a)]
        for line in gone:
            differences.add(file, "- " + line)
        for line in new:
            differences.add(file, "+ " + line)
        return
    for x, y in zip(lines_a, lines_b):
        if x != y:
            differences.add(file, f"'{x}' is now '{y}'")


def ends(path, rows):
    """The rows at an end of travel: a sweep's first and last."""
    if ".compare" in path:  # its ranges are what ends both vehicles
        return set(range(len(rows)))
    return {0, len(rows) - 1} if ".sweep" in path else set()


def compare_csv(file, a, b, differences):
    rows_a, rows_b = list(csv.reader(a.splitlines())), list(csv.reader(b.splitlines()))
    if not rows_a or not rows_b or rows_a[0] != rows_b[0]:
        differences.add(file, "its header")
        return
    head = rows_a[0]
    if len(rows_a) != len(rows_b):
        differences.add(file, f"{len(rows_a)} rows are now {len(rows_b)}")
        return
    last = ends(file, rows_a[1:])
    for i, (x, y) in enumerate(zip(rows_a[1:], rows_b[1:])):
        for name, cell_a, cell_b in zip(head, x, y):
            # What the other commands tell are ends and what is left there.
            if not agree(cell_a, cell_b, unit_of(name), i in last or ".sweep" not in file):
                differences.add(file, f"{x[0]} {name}: {cell_a} is now {cell_b}")


def compare_json(file, a, b, differences, where="", unit="", at_end=False):
    if isinstance(a, dict) and isinstance(b, dict):
        if a.keys() != b.keys():
            differences.add(file, f"{where}: keys {sorted(a.keys() ^ b.keys())}")
        for key in a.keys() & b.keys():
            if key == "rows" and isinstance(a.get("columns"), list):
                compare_rows(file, a, b, differences, where)
            else:
                compare_json(file, a[key], b[key], differences, f"{where}.{key}", unit_of(key))
    elif isinstance(a, list) and isinstance(b, list):
        if len(a) != len(b):
            differences.add(file, f"{where}: {len(a)} items are now {len(b)}")
        for i, (x, y) in enumerate(zip(a, b)):
            compare_json(file, x, y, differences, f"{where}[{i}]", unit, at_end)
    elif not agree(a, b, unit, at_end):
        differences.add(file, f"{where}: {a} is now {b}")


def compare_rows(file, a, b, differences, where):
    units = [column["unit"] for column in a["columns"]]
    names = [column["name"] for column in a["columns"]]
    if len(a["rows"]) != len(b["rows"]):
        differences.add(file, f"{where}: {len(a['rows'])} rows are now {len(b['rows'])}")
        return
    last = ends(file, a["rows"])
    swept = ".sweep" in file
    for i, (x, y) in enumerate(zip(a["rows"], b["rows"])):
        cells_a = x.values() if isinstance(x, dict) else x
        cells_b = y.values() if isinstance(y, dict) else y
        for name, unit, cell_a, cell_b in zip(names, units, cells_a, cells_b):
            # What the other commands tell are ends and what is left there.
            if not agree(cell_a, cell_b, unit, i in last or not swept):
                differences.add(file, f"{where}[{i}] {name}: {cell_a} is now {cell_b}")


def read_allowed(path):
    allowed = []
    for line in Path(path).read_text().splitlines() if path else []:
        line = line.split("  #")[0].strip()
        if not line or line.startswith("#"):
            continue
        files, texts = line.split(" : ", 1)
        allowed.append((files.strip(), texts.strip()))
    return allowed


def files_in(folder):
    """Names below it; tables of one answer stand in a folder of their own."""
    return {str(path.relative_to(folder)) for path in folder.rglob("*") if path.is_file()}


def main():
    arguments = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    arguments.add_argument("before", type=Path)
    arguments.add_argument("after", type=Path)
    arguments.add_argument("--allowed")
    options = arguments.parse_args()
    differences = Differences(read_allowed(options.allowed))
    before, after = files_in(options.before), files_in(options.after)
    for name in sorted(before ^ after):
        differences.add(name, "is in one of the folders only")
    for name in sorted(before & after):
        a, b = (options.before / name).read_text(), (options.after / name).read_text()
        if a == b:
            continue
        if name.endswith(".csv"):
            compare_csv(name, a, b, differences)
        elif name.endswith(".json"):
            compare_json(name, json.loads(a), json.loads(b), differences)
        else:
            compare_texts(name, a, b, differences)
    unused = [entry for i, entry in enumerate(differences.allowed) if i not in differences.used]
    for files, texts in unused:
        print(f"allowed, but not met: {files} : {texts}")
    print(f"{len(before & after)} files, {differences.count} differences, "
          f"{len(differences.used)} of those allowed met")
    return 1 if differences.count or unused else 0


if __name__ == "__main__":
    sys.exit(main())
