# SPDX-License-Identifier: MIT
"""Holds docs/vehicle.schema.json against the reader.

    schema_test.py READ_FILES SOURCE_FOLDER

Every vehicle in fixtures/vehicles must be good to both. Then two of them are spoilt in every way of
a list (an unknown key in each map, each required key left out, each value replaced by one of the
wrong type or dimension) and each spoilt file must be bad to both. Spoilt files are written as JSON,
which is YAML too and quicker to write.
"""

import copy
import json
import pathlib
import subprocess
import sys
import tempfile

import jsonschema
import yaml


def read_all(program, paths):
    """What the reader says of each file: "ok" or an error."""
    done = subprocess.run([program], input="\n".join(map(str, paths)) + "\n", text=True,
                          capture_output=True, check=True)
    return done.stdout.splitlines()


def places(node, path=()):
    """Every (path, node) of a document."""
    yield path, node
    if isinstance(node, dict):
        children = node.items()
    else:
        children = enumerate(node) if isinstance(node, list) else ()
    for key, child in children:
        yield from places(child, path + (key,))


def spoilt(document, path, change):
    """A copy of the document with change(container, key) made at a path."""
    changed = copy.deepcopy(document)
    container = changed
    for key in path[:-1]:
        container = container[key]
    change(container, path[-1])
    return changed


def put(value):
    return lambda container, key: container.__setitem__(key, value)


REQUIRED = {"units", "axles", "front", "rear", "wheel_center", "links", "frame", "axle",
            "free_length", "mass", "at", "item", "caster", "drag_link", "roll_rate", "yoke", "angle",
            "output", "output_angle", "weighed", "front_left", "rear_right", "cg_height", "center"}
OPTIONAL_AS_WELL = {("openings", "front"), ("openings", "rear"), ("driveshafts", "rear"),
                    ("driveshafts", "front"), ("kingpin", "at"),
                    # One of them may be: masses that then say too much are not for a schema.
                    ("axles", "front"), ("axles", "rear")}
NAMES = {"links", "springs", "bump_stops", "dampers", "driveshafts", "marks", "loads"}


def join_commas(node):
    """What a comma in braces broke off a text, put back: to YAML it is a key without value."""
    if isinstance(node, dict):
        text = None
        for key in list(node):
            if node[key] is None and isinstance(node.get(text), str):
                node[text] += f", {key}"
                del node[key]
            else:
                text = key
    for child in node.values() if isinstance(node, dict) else node:
        if isinstance(child, (dict, list)):
            join_commas(child)
    return node


def kind_of_place(path, node):
    """What the schema says of a place: members of one group, both axles and items of a list share
    it."""
    kind = [type(node).__name__]
    for i, key in enumerate(path):
        shared = isinstance(key, int) or key in ("front", "rear") or (i > 0 and path[i - 1] in NAMES)
        kind.append("*" if shared else key)
    return tuple(kind)


def mutations(document, done):
    """(name, spoilt document) for each way to spoil it, one of each kind of place.

    done    kinds that need no more
    """
    for path, node in places(document):
        if kind_of_place(path, node) in done:
            continue
        done.add(kind_of_place(path, node))
        where = ".".join(map(str, path))
        if isinstance(node, dict) and (not path or path[-1] not in NAMES):
            yield f"{where}: unknown key", spoilt(document, path + ("zzz",), put(1))
        if not path:
            continue
        if path[-1] in REQUIRED and path[-2:] not in OPTIONAL_AS_WELL:
            if path[-2:-1] != ("loads",):
                yield f"{where}: left out", spoilt(document, path, lambda c, k: c.pop(k))
        wrong = [{"zzz": 1}] if not isinstance(node, dict) else [[1, 2, 3, 4], 3]
        if isinstance(node, list):
            wrong += ["words", 3]
        if isinstance(node, (int, float, str)) and path[-1] not in ("title", "item"):
            wrong += ["words", "12 cubits", [1], "3 kg m/s"]
        for value in wrong:
            yield f"{where}: {json.dumps(value)}", spoilt(document, path, put(value))
        if isinstance(node, list) and node and not isinstance(node[0], dict) and path[-1] != "curve":
            yield f"{where}: one too few", spoilt(document, path, lambda c, k: c[k].pop())
        if isinstance(node, (int, float)) and path[-1] == "mass":
            yield f"{where}: negative", spoilt(document, path, put(-node))
            yield f"{where}: a force", spoilt(document, path, put(f"{node} lbf"))


SPOILT = ("harbour_van.yaml", "orchard_tractor_truck.yaml")  # between them they have every key

VARIANTS = {
    "base: {base}": True,
    "base: {base}\nunits: inch\ntitle: Plan": True,
    "base: {base}\nchange: {{title: Plan}}\nremove: [loads]": True,
    "base: {base}\nzzz: 1": False,
    "base: {base}\nunits: feet": False,
    "base: {base}\nchange: [1]": False,
    "base: {base}\nadd: 3": False,
    "base: {base}\nremove: loads": False,
    "base: {base}\nremove: [[loads]]": False,
    "base: [{base}]": False,
}


def main():
    program, source = sys.argv[1], pathlib.Path(sys.argv[2])
    schema = json.loads((source / "docs/vehicle.schema.json").read_text(encoding="utf-8"))
    jsonschema.Draft7Validator.check_schema(schema)
    validator = jsonschema.Draft7Validator(schema)
    vehicles = sorted((source / "fixtures/vehicles").glob("*.yaml"))
    assert vehicles, "no vehicles to test with"

    done = set()
    cases = []  # (name, document, good or bad, text)
    for path in vehicles:
        text = path.read_text(encoding="utf-8")
        document = yaml.safe_load(text)
        cases.append((path.name, document, True, text))
        if path.name not in SPOILT:
            continue
        document = join_commas(document)
        cases.append((f"{path.name}: written again", document, True, json.dumps(document)))
        for name, changed in mutations(document, done):
            cases.append((f"{path.name}: {name}", changed, False, json.dumps(changed)))
    base = next(path for path in vehicles if path.name == "harbour_van.yaml")
    for text, good in VARIANTS.items():
        text = text.format(base=base)
        cases.append((text, yaml.safe_load(text), good, text))

    with tempfile.TemporaryDirectory() as folder:
        files = []
        for number, (_, _, _, text) in enumerate(cases):
            files.append(pathlib.Path(folder, f"{number}.yaml"))
            files[-1].write_text(text, encoding="utf-8")
        # A variant in fixtures/vehicles finds its base only beside itself.
        for number, path in enumerate(vehicles):
            at = next(i for i, case in enumerate(cases) if case[0] == path.name)
            files[at] = path
        verdicts = read_all(program, files)

    failures = 0
    for (name, document, good, _), verdict in zip(cases, verdicts, strict=True):
        by_schema = validator.is_valid(document)
        if by_schema != good or (verdict == "ok") != good:
            failures += 1
            print(f"{name}\n  should be {'good' if good else 'bad'}; schema: "
                  f"{'good' if by_schema else 'bad'}; reader: {verdict}")
            if good and not by_schema:
                print("  ", jsonschema.exceptions.best_match(validator.iter_errors(document)))
    print(f"{len(cases)} files, {failures} failures")
    return 1 if failures else 0


if __name__ == "__main__":
    sys.exit(main())
