#!/usr/bin/env python3
"""The client's edition holds no cost, norm, margin, key of a part or internal note, in no part of
the file.

check_client_edition.py PROGRAM

A job is priced with figures that cannot stand anywhere by chance (odd margin, overhead, rates, list
prices) and with internal notes. Every such figure of the estimate, every rule row of its basis and
every note is looked for in every member of the zip; the internal workbook must hold them, else the
check could not look. A stop forbids the edition, --draft writes it marked on every page.
Exit 0: clean, 1: faults, 3: could not look."""
import json
import os
import re
import subprocess
import sys
import tempfile
import zipfile

TREE = os.path.join(os.path.dirname(os.path.abspath(__file__)), "..", "..")
NOTE = "CANARY-NOTE-7319"
FEWEST = 60
REQUEST = {
    "format": "backplate-request/1",
    "job": {"title": "Client's copy", "client": "Invented client", "date": "2026-11-24"},
    "boxes": [{"name": "CP1", "points": [
        {"signal": "DI", "count": 20, "note": NOTE}, {"signal": "DO", "count": 10},
        {"signal": "AI_MA", "count": 3}],
        "equipment": [{"text": "Drive", "watts": 30, "price": "317.43", "hours": 1.237}]}],
    "commercial": {"margin_percent": 23.4567, "contingency_percent": 7.1239,
                   "concession_percent": 1.3579,
                   "options": [{"title": "More inputs by VC-202", "kind": "added",
                                "change": {"boxes": {"CP1": {"points": {"DI": {"count": 40}}}}}}]}}


class Bench:
    def __init__(self, program, folder):
        self.program, self.folder = program, folder
        self.library = os.path.join(folder, "canary.bpl")
        rules = os.path.join(folder, "price_policy.csv")
        with open(os.path.join(TREE, "catalog", "starter", "rules", "price_policy.csv"),
                  encoding="utf-8") as source, open(rules, "w", encoding="utf-8") as changed:
            changed.write(re.sub(r"(?m)^overhead_percent,\d+", "overhead_percent,13.5791",
                                 source.read()))
        self.run("rules", "import", rules)

    def run(self, *words):
        done = subprocess.run([self.program, *words, "--library", self.library],
                              capture_output=True, text=True, timeout=120, check=False)
        if done.returncode not in (0, 1):
            raise RuntimeError("%s: %s" % (" ".join(words), done.stderr))
        return done

    def request(self, name, request):
        path = os.path.join(self.folder, name + ".json")
        with open(path, "w", encoding="utf-8") as file:
            json.dump(request, file)
        return path

    def path(self, name):
        return os.path.join(self.folder, name)


def members(path):
    with zipfile.ZipFile(path) as book:
        return {name: book.read(name).decode("utf-8", "replace" if "/media/" in name else "strict")
                for name in book.namelist()}


def canaries(estimate):
    """What may not stand in the client's edition; its own prices are no secret."""
    shown = {estimate["price"]["price"], estimate["price"]["tax"]}
    shown |= {box["price"]["price"] for box in estimate["boxes"]}
    shown |= {option["difference"]["price"] for option in estimate["options"]}
    secret = {NOTE, "23.4567", "7.1239", "1.3579", "VC-202"}
    secret |= {line["part"] for line in estimate["bill"] if line["part"]}
    for line in estimate["bill"]:
        secret |= {line[key] for key in ("list", "unit_net", "line_net", "line_all") if line[key]}
    for line in estimate["labour"]:
        secret |= {line["rate"], line["cost"], str(line["hours"])}
    secret |= {value for key, value in estimate["price"].items()
               if key not in ("currency", "price", "tax") and value}
    secret |= {entry["rule"] for entry in estimate["basis"] if entry["rule"]}
    return {each for each in secret if each not in shown and significant(each)}


def significant(text):
    """Long enough not to stand there by chance."""
    return len(text.replace(".", "").replace("-", "").strip("0")) >= 4


def found_in(parts, secret):
    """A figure as the file writes it: without zeros at its end."""
    bare = secret.rstrip("0").rstrip(".") if re.fullmatch(r"-?\d+\.\d+", secret) else secret
    figure = re.compile(r"(?<![\d.])%s0*(?![\d.])" % re.escape(bare))
    return [name for name, text in parts.items() if figure.search(text)]


def check_secrets(bench):
    request = bench.request("job", REQUEST)
    estimate = json.loads(bench.run("estimate", request, "--json").stdout)
    bench.run("quote", request, "--workbook", bench.path("own.xlsx"), "--client",
              bench.path("client.xlsx"))
    client, own = members(bench.path("client.xlsx")), members(bench.path("own.xlsx"))
    secrets = sorted(canaries(estimate))
    faults = ["%s stands in %s" % (each, ", ".join(found_in(client, each)))
              for each in secrets if found_in(client, each)]
    looked = [each for each in secrets if found_in(own, each)]
    if len(looked) < FEWEST:
        faults.append("only %d of %d canaries stand in the internal workbook, floor %d" %
                      (len(looked), len(secrets), FEWEST))
    price = estimate["price"]["price"].rstrip("0").rstrip(".")
    if not any(price in text for text in client.values()):
        faults.append("the price itself is missing")
    if any("DRAFT" in text for text in client.values()):
        faults.append("marked DRAFT without being one")
    planted = dict(client, planted="margin 23.4567")
    if not found_in(planted, "23.4567"):
        faults.append("a planted canary is not found")
    return faults, len(looked)


def check_stops(bench):
    stopped = json.loads(json.dumps(REQUEST))
    stopped["boxes"][0]["equipment"] = [{"text": "Meter", "watts": 3}]
    request = bench.request("stopped", stopped)
    client = bench.path("stopped.xlsx")
    words = ("quote", request, "--workbook", bench.path("stopped_own.xlsx"), "--client", client)
    faults = []
    done = bench.run(*words)
    if done.returncode != 1 or os.path.exists(client) or "NO_PRICE" not in done.stderr:
        faults.append("a stop does not forbid the client's edition: %s" % done.stderr)
    if not os.path.exists(bench.path("stopped_own.xlsx")):
        faults.append("the internal workbook is not written beside a stop")
    done = bench.run(*words, "--draft")
    if done.returncode != 0 or not os.path.exists(client):
        return faults + ["--draft writes nothing: %s" % done.stderr]
    sheets = {name: text for name, text in members(client).items() if "worksheets/sheet" in name}
    for name, text in sheets.items():
        if "DRAFT" not in "".join(re.findall(r"<oddFooter>.*?</oddFooter>", text)):
            faults.append("%s has no DRAFT in its footer" % name)
    return faults if sheets else faults + ["no sheet found"]


def main():
    if len(sys.argv) != 2:
        print(__doc__, file=sys.stderr)
        return 2
    with tempfile.TemporaryDirectory() as folder:
        bench = Bench(sys.argv[1], folder)
        faults, looked = check_secrets(bench)
        faults += check_stops(bench)
    for fault in faults:
        print("fault: " + fault)
    print("client's edition: %d canaries looked for, %d faults" % (looked, len(faults)))
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
