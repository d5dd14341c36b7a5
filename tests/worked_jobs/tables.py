"""Reads what an estimate was made with: price lists, rule tables, JSON with its decimals kept."""
import csv
import json
import os
import re
from decimal import Decimal


def read_json(path):
    with open(path, encoding="utf-8") as file:
        return json.load(file, parse_float=Decimal)


def csv_files(path):
    if os.path.isfile(path):
        return [path]
    return sorted(os.path.join(path, name) for name in os.listdir(path) if name.endswith(".csv"))


def read_parts(path):
    """part -> cells."""
    parts = {}
    for name in csv_files(path):
        with open(name, newline="", encoding="utf-8-sig") as file:
            parts.update({row["part"]: row for row in csv.DictReader(file)})
    return parts


def read_rules(paths):
    """table -> row -> cells; a flat file names its tables in a column, a later table replaces."""
    tables = {}
    for path in paths:
        fresh = {}
        for name in csv_files(path):
            own = os.path.splitext(os.path.basename(name))[0]
            with open(name, newline="", encoding="utf-8-sig") as file:
                for row in csv.DictReader(file):
                    if row.get("active", "yes") != "no":
                        fresh.setdefault(row.get("table", own), {})[row["row"]] = row
        tables.update(fresh)
    return tables


def at(document, pointer):
    """What a JSON pointer leads to; a step `key=value&key=value` finds an entry of a list (null as
    `null`), `#` counts a list."""
    for step in pointer.split("/")[1:]:
        if step == "#":
            document = len(document)
        elif isinstance(document, list) and "=" in step:
            wanted = dict(pair.split("=", 1) for pair in step.split("&"))
            found = [entry for entry in document
                     if all(("null" if entry[k] is None else str(entry[k])) == v
                            for k, v in wanted.items())]
            if len(found) != 1:
                raise KeyError("%d entries are %s" % (len(found), step))
            document = found[0]
        else:
            document = document[int(step)] if isinstance(document, list) else document[step]
    return document


def numbers(node, pointer=""):
    """Every printed figure: pointer and value, money texts included."""
    if isinstance(node, dict):
        for key, value in node.items():
            yield from numbers(value, pointer + "/" + key)
    elif isinstance(node, list):
        for index, value in enumerate(node):
            yield from numbers(value, "%s/%d" % (pointer, index))
    elif isinstance(node, (int, Decimal)) and not isinstance(node, bool):
        yield pointer, node
    elif isinstance(node, str) and re.fullmatch(r"-?\d+\.\d+", node):
        yield pointer, node
