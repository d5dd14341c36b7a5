#!/usr/bin/python3
"""Proves that the formulas of an internal workbook hold, with another spreadsheet program.

    check_workbook.py WORKBOOK [--estimate ESTIMATE.json] [--perturb [--engine CMD]] [--text TEXT]...

Every formula is recalculated by LibreOffice; its stored value must be equal to the recalculated
one. A copy with a formula stored with a wrong result must come back right, else nothing was
recalculated and the check fails. --estimate compares the printed values with the estimate's.
--perturb changes one unit price by 0.01 and, apart from that, doubles one quantity; the price that
the formulas then give must equal the whole chain computed here in exact decimals out of the inputs
that the workbook prints. --text asks for a cell that holds exactly this text, as text, in the file
and after a spreadsheet program has read and written it.

Exit status: 0 sound, 1 a fault was found, 3 the check could not look.
"""
import argparse
import json
import os
import re
import shutil
import signal
import subprocess
import sys
import tempfile
import zipfile
from decimal import Decimal, localcontext
from pathlib import Path

sys.path.insert(0, str(Path(__file__).resolve().parent))
sys.dont_write_bytecode = True
from workbook_chain import exact, is_formula, price_chain  # noqa: E402

try:
    import openpyxl
except ImportError:
    print("check_workbook: openpyxl is missing", file=sys.stderr)
    sys.exit(3)

SECONDS = 60
FEWEST_FORMULAS = 4  # totals of an empty workbook
RECALCULATE = """<?xml version="1.0" encoding="UTF-8"?>
<oor:items xmlns:oor="http://openoffice.org/2001/registry">
<item oor:path="/org.openoffice.Office.Calc/Formula/Load"><prop oor:name="OOXMLRecalcMode"
 oor:op="fuse"><value>0</value></prop></item>
</oor:items>
"""
SHEETS = ["Summary", "Scope and terms", "Points", "Bill of material", "Hours", "Supply and heat",
          "Findings and assumptions", "Basis"]
ERROR = re.compile(r"^(#.*[!?]|#N/A|Err:\d+)$")


class CannotLook(Exception):
    pass


class Spreadsheet:
    """LibreOffice with a profile of its own that recalculates whatever it loads."""

    def __init__(self, scratch):
        self.program = shutil.which("soffice")
        if self.program is None:
            raise CannotLook("soffice is missing")
        self.scratch = Path(scratch)
        user = self.scratch / "profile" / "user"
        user.mkdir(parents=True)
        (user / "registrymodifications.xcu").write_text(RECALCULATE, encoding="utf-8")

    def recalculated(self, paths):
        """The files loaded, recalculated and written again, all in one run."""
        out = self.scratch / "recalculated"
        command = [self.program, f"-env:UserInstallation=file://{self.scratch}/profile",
                   "--headless", "--norestore", "--nolockcheck", "--convert-to",
                   "xlsx:Calc MS Excel 2007 XML", "--outdir", str(out), *map(str, paths)]
        self.run(command)
        results = [out / path.name for path in paths]
        for result in results:
            if not result.exists():
                raise CannotLook(f"soffice wrote no {result.name}")
        return [Workbook(result) for result in results]

    def run(self, command):
        process = subprocess.Popen(command, stdout=subprocess.DEVNULL, stderr=subprocess.PIPE,
                                   env=dict(os.environ, HOME=str(self.scratch)),
                                   start_new_session=True)
        try:
            messages = process.communicate(timeout=SECONDS)[1]
        except subprocess.TimeoutExpired:
            os.killpg(process.pid, signal.SIGKILL)
            process.wait()
            raise CannotLook(f"soffice took more than {SECONDS} s") from None
        if process.returncode != 0:
            raise CannotLook(f"soffice failed: {messages.decode(errors='replace')}")


class Workbook:
    """The formulas as written and the values that stand beside them."""

    def __init__(self, path):
        self.path = Path(path)
        self.formulas = openpyxl.load_workbook(path)
        self.values = openpyxl.load_workbook(path, data_only=True)

    def formula_cells(self):
        for sheet in self.formulas.worksheets:
            for row in sheet.iter_rows():
                for cell in row:
                    if cell.data_type == "f":
                        yield sheet.title, cell.coordinate, str(cell.value)

    def value(self, sheet, place):
        return self.values[sheet][place].value

    def named_place(self, name):
        entry = self.formulas.defined_names.get(name)
        if entry is None:
            return None
        return next(iter(entry.destinations))

    def named(self, name):
        place = self.named_place(name)
        if place is None:
            return None
        return exact(self.value(place[0], place[1].replace("$", "")))

    def rows(self, sheet, first):
        """The rows of the table whose heading row starts with `first`, as dicts of cells."""
        page = self.formulas[sheet]
        heads = None
        for row in page.iter_rows():
            if heads is None:
                if row[0].value == first:
                    heads = [cell.value for cell in row]
                continue
            if row[0].value is None:
                return
            yield dict(zip(heads, row))


def digits_of(book):
    """Decimals of the currency: those that the price's rounding asks for."""
    sheet, place = book.named_place("material")
    return int(re.search(r",(\d)\)$", book.formulas[sheet][place.replace("$", "")].value).group(1))


def recalculation_faults(book, again):
    faults, count = [], 0
    for sheet, place, formula in book.formula_cells():
        count += 1
        stored, fresh = book.value(sheet, place), again.value(sheet, place)
        if stored != fresh:
            faults.append(f"{sheet}!{place} {formula}: stored {stored!r}, recalculated {fresh!r}")
    for sheet in again.values.worksheets:
        for row in sheet.iter_rows():
            for cell in row:
                if cell.data_type == "e":
                    faults.append(f"{sheet.title}!{cell.coordinate}: error {cell.value}")
                elif (again.formulas[sheet.title][cell.coordinate].data_type == "f"
                      and ERROR.match(str(cell.value))):
                    faults.append(f"{sheet.title}!{cell.coordinate}: error {cell.value}")
    return faults, count


def plant_wrong_result(path):
    """A workbook whose only formula, =1+1, stands with the result 3."""
    book = openpyxl.Workbook()
    book.active["A1"] = "=1+1"
    sound = path.with_suffix(".sound")
    book.save(sound)
    with zipfile.ZipFile(sound) as old, zipfile.ZipFile(path, "w") as new:
        for name in old.namelist():
            content = old.read(name)
            if name == "xl/worksheets/sheet1.xml":
                content = re.sub(rb"<f>1\+1</f><v\s*/?>(</v>)?", b"<f>1+1</f><v>3</v>", content)
            new.writestr(name, content)
    if Workbook(path).value("Sheet", "A1") != 3:
        raise CannotLook("the wrong result could not be planted")


def chain_faults(book, digits, what, change=None, inputs=None):
    faults = []
    for name, wanted in price_chain(inputs or book, digits, change).items():
        if book.named(name) != wanted:
            faults.append(f"{what}: {name} is {book.named(name)}, the chain gives {wanted}")
    return faults


class Change:
    """The workbook with one input of the bill changed."""

    def __init__(self, book, what, row, column, value, path):
        cell = row[column]
        self.what, self.cell, self.value, self.path = what, cell.coordinate, value, path
        self.asked = [str(row["Line"].value), column.lower().replace(" ", "_"), str(value)]
        copy = openpyxl.load_workbook(book.path)
        copy["Bill of material"][self.cell] = float(value)
        copy.save(path)

    def faults(self, book, again, digits, engine):
        faults = chain_faults(again, digits, self.what, {self.cell: self.value}, book)
        if engine:
            told = subprocess.run(engine.split() + self.asked, capture_output=True, text=True)
            if told.returncode or Decimal(told.stdout) != again.named("price_total"):
                faults.append(f"{self.what}: the cost step gives {told.stdout.strip()}"
                              f"{told.stderr.strip()}, the formulas {again.named('price_total')}")
        if again.named("material") == book.named("material"):
            faults.append(f"{self.what}: the material does not follow")
        print(f"  {self.what} at {self.cell}: price {book.named('price_total')} -> "
              f"{again.named('price_total')}")
        return faults


def make_changes(book, scratch):
    """The unit price of the line with most pieces + 0.01; apart from that, the quantity of the
    dearest line × 2."""
    lines = [row for row in book.rows("Bill of material", "Line")
             if row["Unit net"].value != "no price" and not is_formula(row["Unit net"])]
    if not lines:
        raise CannotLook("the bill has no line to change")
    most = max(lines, key=lambda row: exact(row["Quantity"].value))
    dearest = max(lines, key=lambda row: exact(row["Unit net"].value)
                  * exact(row["Quantity"].value))
    return [Change(book, "unit price + 0.01", most, "Unit net",
                   exact(most["Unit net"].value) + Decimal("0.01"), scratch / "unit_price.xlsx"),
            Change(book, "quantity × 2", dearest, "Quantity",
                   exact(dearest["Quantity"].value) * 2, scratch / "quantity.xlsx")]


def money_differs(cell, wanted):
    return (None if wanted is None else Decimal(wanted)) != exact(cell)


def estimate_faults(book, estimate):
    faults = []
    names = {"price": "price_total"}
    signs = {"concession": -1}
    price = estimate["price"] or {}
    for key in ("material", "freight", "labour", "direct", "contingency", "overhead", "cost",
                "margin", "concession", "rounding", "price", "tax"):
        if price.get(key) is None:
            continue
        cell = book.named(names.get(key, key))
        if cell != signs.get(key, 1) * Decimal(price[key]):
            faults.append(f"/price/{key} is {price[key]}, the workbook has {cell}")
    tables = [("bill", "Bill of material", "Line",
               {"Unit net": "unit_net", "Line net": "line_net", "All boxes": "line_all"}),
              ("labour", "Hours", "Box", {"Cost": "cost", "Hours": "hours", "Rate": "rate"})]
    for key, sheet, first, columns in tables:
        rows = list(book.rows(sheet, first))
        if len(rows) != len(estimate[key]):
            faults.append(f"/{key} has {len(estimate[key])} lines, the workbook {len(rows)}")
        for number, (row, line) in enumerate(zip(rows, estimate[key])):
            cells = {head.split(",")[0]: cell for head, cell in row.items()}
            for column, field in columns.items():
                value = book.value(sheet, cells[column].coordinate)
                if value == "no price":
                    value = None
                wanted = line[field]
                if money_differs(value, None if wanted is None else str(wanted)):
                    faults.append(f"/{key}/{number}/{field} is {wanted}, the workbook has {value}")
    return faults


def text_faults(book, again, wanted):
    faults = []
    for where, each in (("file", book), ("file read and written again", again)):
        texts = {cell.value for sheet in each.formulas.worksheets for row in sheet.iter_rows()
                 for cell in row if cell.data_type == "s"}
        faults += [f"no cell of the {where} holds the text {text!r}" for text in wanted
                   if text not in texts]
    return faults


def check(arguments, scratch):
    spreadsheet = Spreadsheet(scratch)
    copy, planted = scratch / "workbook.xlsx", scratch / "planted.xlsx"
    shutil.copyfile(arguments.workbook, copy)
    plant_wrong_result(planted)
    book = Workbook(copy)
    changes = make_changes(book, scratch) if arguments.perturb else []
    right, again, *changed = spreadsheet.recalculated(
        [planted, copy, *(change.path for change in changes)])
    if right.value("Sheet", "A1") != 2:
        raise CannotLook("the spreadsheet program did not recalculate")

    faults, count = recalculation_faults(book, again)
    if book.formulas.sheetnames not in (SHEETS, SHEETS + ["Drawing"]):
        faults.append(f"sheets are {book.formulas.sheetnames}")
    if count < FEWEST_FORMULAS:
        faults.append(f"only {count} formulas")
    digits = digits_of(book)
    if book.named_place("price_total") is not None:
        faults += chain_faults(book, digits, "as written")
    if arguments.estimate:
        text = Path(arguments.estimate).read_text(encoding="utf-8")
        faults += estimate_faults(book, json.loads(text, parse_float=Decimal))
    faults += text_faults(book, again, arguments.text)
    for change, result in zip(changes, changed):
        faults += change.faults(book, result, digits, arguments.engine)
    print(f"{arguments.workbook}: {count} formulas recalculated, {len(faults)} faults")
    return faults


def main():
    parser = argparse.ArgumentParser(description=__doc__.split("\n")[0])
    parser.add_argument("workbook", type=Path)
    parser.add_argument("--estimate", type=Path)
    parser.add_argument("--perturb", action="store_true")
    parser.add_argument("--engine", help="command that is given LINE, FIELD and VALUE and prints "
                        "the price of the cost step over the frozen design")
    parser.add_argument("--text", action="append", default=[])
    arguments = parser.parse_args()
    with tempfile.TemporaryDirectory() as scratch, localcontext() as context:
        context.prec = 60
        try:
            faults = check(arguments, Path(scratch))
        except (CannotLook, OSError) as fault:
            print(f"check_workbook: {fault}", file=sys.stderr)
            return 3
    for fault in faults:
        print(f"  {fault}", file=sys.stderr)
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
