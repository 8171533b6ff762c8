#!/usr/bin/env python3
# SPDX-License-Identifier: MIT
"""Workbooks of --xlsx opened in LibreOffice, on a machine with decimal commas: numbers are numbers,
each equals the CSV's, charts are there. LibreOffice saves each book anew; openpyxl reads that.

    opens.py PROGRAM SOFFICE FOLDER_OF_VEHICLES
"""
import csv
import math
import subprocess
import sys
import tempfile
from pathlib import Path

import openpyxl

PROFILE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry"
 xmlns:xs="http://www.w3.org/2001/XMLSchema" xmlns:xsi="http://www.w3.org/2001/XMLSchema-instance">
<item oor:path="/org.openoffice.Setup/L10N"><prop oor:name="ooSetupSystemLocale" oor:op="fuse">
<value>de-DE</value></prop></item>
</oor:items>
"""

# The command, and whether it has curves.
QUESTIONS = [("harbour_van", ["sweep"], True), ("orchard_tractor_truck", ["sweep"], True),
             ("harbour_van", ["settle"], False), ("harbour_van", ["limits"], False)]


def office(soffice, folder, what, files):
    profile = folder / "profile"
    (profile / "user").mkdir(parents=True, exist_ok=True)
    (profile / "user" / "registrymodifications.xcu").write_text(PROFILE)
    subprocess.run([soffice, "--headless", f"-env:UserInstallation=file://{profile}",
                    "--convert-to", what, "--outdir", str(folder / "saved"), *map(str, files)],
                   check=True, capture_output=True, timeout=300)


def number(text):
    try:
        return float(text)
    except ValueError:
        return None


def tables_of(folder):
    """The CSV files by table, each a list of columns without their names."""
    tables = {}
    for path in folder.glob("*.csv"):
        rows = list(csv.reader(path.open(newline="", encoding="utf-8")))
        tables[path.stem] = list(zip(*rows[1:])) if len(rows) > 1 else []
    return tables


def same(cell, text):
    if text == "":
        return cell is None or cell == ""
    value = number(text)
    if value is None:
        return str(cell) == text or "'" + str(cell) == text
    return isinstance(cell, (int, float)) and math.isclose(cell, value, rel_tol=1e-12, abs_tol=1e-300)


def main():
    program, soffice, vehicles = sys.argv[1], sys.argv[2], Path(sys.argv[3])
    wrong = []
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        books = []
        for i, (vehicle, question, _) in enumerate(QUESTIONS):
            books.append(folder / f"{i}.xlsx")
            done = subprocess.run([program, *question, str(vehicles / f"{vehicle}.yaml"), "--xlsx",
                                   str(books[-1]), "--csv", f"{folder / str(i)}/"],
                                  capture_output=True, text=True)
            if done.returncode != 0:
                sys.exit(f"{vehicle} {question}: exit {done.returncode}: {done.stderr}")
        office(soffice, folder, "xlsx", books)
        for i, (vehicle, question, has_curves) in enumerate(QUESTIONS):
            of = f"{question[0]} of {vehicle}"
            saved = openpyxl.load_workbook(folder / "saved" / f"{i}.xlsx")
            columns = [[c.value for c in column[1:]]
                       for sheet in saved.worksheets[1:] for column in sheet.iter_cols()]
            compared = 0
            for table, wanted in tables_of(folder / str(i)).items():
                for column in wanted:
                    n = len(column)
                    if not any(all(same(a, b) for a, b in zip((have + [None] * n)[:n], column))
                               for have in columns):
                        wrong.append(f"{of}: no column of the book is {table}: {column[:4]}...")
                    compared += n
            if compared < 50:
                wrong.append(f"{of}: only {compared} cells compared")
            charts = sum(len(sheet._charts) for sheet in saved.worksheets)
            if has_curves != (charts > 5):
                wrong.append(f"{of}: {charts} charts")
            # LibreOffice saves no view where it has shown none.
            for sheet in openpyxl.load_workbook(books[i]).worksheets[1:]:
                if sheet.freeze_panes != "B2":
                    wrong.append(f"{of}: {sheet.title}: head does not stay in sight")
        # What the decimal-comma spreadsheet itself shows.
        office(soffice, folder, "csv:Text - txt - csv (StarCalc):59,34,76,1,,0,false,true,false,"
               "false,false,2", [books[2]])
        shown = "".join(p.read_text("utf-8") for p in (folder / "saved").glob("2*.csv"))
        if "1,2" not in shown:
            wrong.append("no number with a decimal comma is shown by a spreadsheet that uses them")
    for complaint in wrong:
        print(complaint)
    sys.exit(1 if wrong else 0)


if __name__ == "__main__":
    main()
