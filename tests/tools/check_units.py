#!/usr/bin/python3
"""Estimates the demo requests in metric and in inch units and in both practices and reads every
line of every output: no unit of the other system but beside its equivalent, and equal quantities.

    check_units.py PROGRAM [--self-test]

Outputs: the text of `estimate`, its JSON, and every cell of the workbook of `quote`. Descriptions of
parts are the maker's words and stay as they are. --self-test shows that the reader finds planted
faults. Exit status: 0 sound, 1 faults, 3 the check could not look.
"""
import json
import re
import subprocess
import sys
import tempfile
from pathlib import Path

try:
    import openpyxl
except ImportError:
    print("check_units: openpyxl is missing", file=sys.stderr)
    sys.exit(3)

ROOT = Path(__file__).resolve().parents[2]
REQUESTS = sorted((ROOT / "demo/requests").glob("*.json"))
NUMBER = r"-?\d+(?:,\d{3})*(?:\.\d+)?"
CHAIN = rf"(?:\[{NUMBER}(?:, ?{NUMBER})*\]|{NUMBER}(?:(?: × | to ){NUMBER})*)"
METRIC = re.compile(rf"({CHAIN}) (mm²|mm|°C|K|m³/h|m)(?![\w²³/])")
INCH = re.compile(rf"({CHAIN}) (in(?! (?:box|the)\b)|°F|ft³/min|ft|AWG)(?![\w³/])")
# To the metric unit, and how far two printed figures may lie apart (half a step of each).
SCALES = {"in": ("mm", 25.4, 0, 0.66), "°F": ("°C", 5 / 9, -32, 0.6), "ft": ("m", 0.3048, 0, 0.7),
          "ft³/min": ("m³/h", 0.3048 ** 3 * 60, 0, 0.9)}
BESIDE = re.compile(rf" \((?:at least )?{CHAIN}(?:, {NUMBER} \S+)* [^()]*\)")
# Names of rows and columns of a table stay as the table has them.
NAMES = re.compile(r"conductors/(?:iec|north_america) [\d.]+ (?:mm²|AWG)(?: \d+ °C)?|, column \d+ °C\b")
FEWEST_LINES, FEWEST_QUANTITIES = 2000, 200


def run(program, *words):
    done = subprocess.run([program, *map(str, words), "--library", ":starter:"],
                          capture_output=True, text=True, timeout=120)
    if done.returncode not in (0, 1):
        print(f"check_units: {' '.join(map(str, words))}: {done.stderr}", file=sys.stderr)
        sys.exit(3)
    return done.stdout


def without_descriptions(text, descriptions):
    for each in descriptions:
        text = text.replace(each, "PART")
    return text


def outputs(program, request, folder):
    """Every line by its place, without the descriptions of parts; the estimate."""
    path = folder / "request.json"
    path.write_text(json.dumps(request), encoding="utf-8")
    estimate = json.loads(run(program, "estimate", path, "--json"))
    said = sorted({line["description"] for line in estimate["bill"]}, key=len, reverse=True)
    lines = {f"text {i}": line
             for i, line in enumerate(run(program, "estimate", path).split("\n"))}
    for key in ("findings", "assumptions", "offer_texts"):
        for i, each in enumerate(estimate[key]):
            lines[f"/{key}/{i}"] = each["text"]
    for i, finding in enumerate(estimate["findings"]):
        for name, value in finding["params"].items():
            lines[f"/findings/{i}/params/{name}"] = value
    run(program, "quote", path, "--workbook", folder / "quote.xlsx")
    book = openpyxl.load_workbook(folder / "quote.xlsx", data_only=True)
    for sheet in book.worksheets:
        for row in sheet.iter_rows():
            cells = {cell.column: cell.value for cell in row if cell.value is not None}
            for column, value in cells.items():
                place = f"{sheet.title}!{row[0].row},{column}"
                if isinstance(value, str):
                    lines[place] = value
                elif isinstance(cells.get(column + 1), str):  # a figure with its unit beside it
                    lines[place] = f"{value} {cells[column + 1]}"
    return {place: without_descriptions(line, said) for place, line in lines.items()}, estimate


def foreign(line, inch):
    """What stands in the other system without its equivalent beside it."""
    line = NAMES.sub("NAME", line)
    bare = line
    for match in reversed(list((METRIC if inch else INCH).finditer(line))):
        if BESIDE.match(line, match.end()):
            bare = bare[:match.start()] + bare[match.end():]
    return [match.group(0) for match in (METRIC if inch else INCH).finditer(bare)]


def quantities(line, inch):
    """(metric unit, figure, how far it may lie from its twin) in the order of the line."""
    found = []
    bare = re.sub(rf"{CHAIN} (?:mm²|AWG)(?: \([^)]*\))?", "", line)
    bare = re.sub(r" \([^()]*(?: in| °F| ft| ft³/min)\)", "", bare)  # beside the engine's figure
    pattern = INCH if inch else METRIC
    for match in pattern.finditer(bare):
        for number in re.findall(NUMBER, re.sub(r"(?<=\d),(?=\d{3}\b)", "", match.group(1))):
            if inch:
                unit, scale, shift, near = SCALES[match.group(2)]
                found.append((unit, (float(number) + shift) * scale, near))
            else:
                found.append((match.group(2), float(number), 0))
    return found


def twin_faults(place, metric, inch):
    """The quantities of a line in both systems, one against the other."""
    in_metric, in_inch = quantities(metric, False), quantities(inch, True)
    if place.startswith("Basis!"):
        return [], 0  # the engine's own figures, the same in both
    if len(in_metric) != len(in_inch):
        return [f"{place}: '{metric}' has {len(in_metric)} quantities, '{inch}' {len(in_inch)}"], 0
    faults = []
    for (unit, value, _), (other, converted, near) in zip(in_metric, in_inch):
        difference = unit == "K" and abs(value - (converted + 32 * 5 / 9)) <= near
        if not difference and (unit != other or abs(value - converted) > near):
            faults.append(f"{place}: {value} {unit} in '{metric}', {converted:.2f} {other} in "
                          f"'{inch}'")
    return faults, len(in_metric)


def without_notes(value):
    """Lines of a bill without their notes, which are sentences and follow the units."""
    if not isinstance(value, list):
        return value
    return [{key: each[key] for key in each if key != "note"} if isinstance(each, dict) else each
            for each in value]


def equal_json(metric, inch):
    """Figures of the estimate do not hang on the units of its documents."""
    faults = []
    for key in metric:
        if key in ("findings", "assumptions", "offer_texts", "request"):
            continue
        if without_notes(metric[key]) != without_notes(inch[key]):
            faults.append(f"/{key} differs between the units")
    return faults


def mark_faults(estimate, practice):
    """Marks, conductors and sentences follow the practice."""
    faults = []
    for box in estimate["boxes"]:
        for enclosure in box["enclosures"]:
            wanted = "Type " if practice == "north_america" else "IP"
            if not (enclosure["protection"] or wanted).startswith(wanted):
                faults.append(f"{practice}: enclosure marked {enclosure['protection']}")
        conductor = (box["incoming"] or {}).get("conductor")
        if conductor and conductor.endswith(" AWG") != (practice == "north_america"):
            faults.append(f"{practice}: conductor {conductor}")
    rules = {text["rule"] for text in estimate["offer_texts"]}
    if estimate["buildable"] and f"texts/standards_{practice}" not in rules:
        faults.append(f"{practice}: its sentence on standards is missing")
    return faults


def read_request(path):
    text = path.read_text(encoding="utf-8")
    return json.loads(re.sub(r"^\s*//.*$", "", text, flags=re.M))


def judge_pair(program, request, folder, counts):
    faults, both = [], {}
    for units in ("metric", "inch"):
        request["job"]["units"] = units
        both[units] = outputs(program, request, folder)
        for place, line in both[units][0].items():
            counts["lines"] += 1
            for text in foreign(line, units == "inch"):
                faults.append(f"{units} job, {place}: '{text}' in '{line[:120]}'")
    metric, inch = both["metric"], both["inch"]
    for place in sorted(set(metric[0]) ^ set(inch[0])):
        faults.append(f"{place} stands in one of the two alone")
    for place in sorted(set(metric[0]) & set(inch[0])):
        found, judged = twin_faults(place, metric[0][place], inch[0][place])
        faults += found
        counts["quantities"] += judged
    return faults + equal_json(metric[1], inch[1]), metric[1]


def judge(program):
    faults, counts = [], {"lines": 0, "quantities": 0}
    with tempfile.TemporaryDirectory() as scratch:
        for path in REQUESTS:
            request = read_request(path)
            found, _ = judge_pair(program, request, Path(scratch), counts)
            faults += [f"{path.stem}: {fault}" for fault in found]
        for practice in ("iec", "north_america"):
            request = {"format": "backplate-request/1", "job": {"practice": practice},
                       "boxes": [{"points": [{"signal": "DI", "count": 30},
                                             {"signal": "DO", "count": 12},
                                             {"signal": "AI_MA", "count": 4}]}]}
            found, estimate = judge_pair(program, request, Path(scratch), counts)
            faults += [f"{practice}: {fault}" for fault in found]
            faults += mark_faults(estimate, practice)
    if counts["lines"] < FEWEST_LINES or counts["quantities"] < FEWEST_QUANTITIES:
        faults.append(f"too little was read: {counts}")
    print(f"{counts['lines']} lines and {counts['quantities']} quantities judged, "
          f"{len(faults)} faults")
    return faults


def self_test():
    planted = [
        foreign("a plate of 800 × 600 mm", True), foreign("at 40.0 °C", True),
        foreign("up to 450 m", True), foreign("at 104 °F", False), foreign("31.50 in, wide", False),
        foreign("1.5 mm²", True), foreign("14 AWG", False),
        foreign("a = 13.5 A, rule conductors/iec 1.5 mm² of 40 mm", True),
        twin_faults("x", "40 °C at 800 mm", "104 °F at 31.00 in")[0],
        twin_faults("x", "40 °C", "104 °F and 3.00 in")[0],
        mark_faults({"boxes": [{"enclosures": [{"protection": "IP55"}],
                                "incoming": {"conductor": "1.5 mm²"}}],
                     "offer_texts": [], "buildable": True}, "north_america"),
    ]
    sound = [
        foreign("1.5 mm² (at least 14 AWG)", True), foreign("14 AWG (2.08 mm²)", False),
        foreign("a = 13.5 A, rule conductors/iec 1.5 mm²", True),
        foreign("table 310.16, column 60 °C: the thinnest", True),
        foreign("b = 25 A, rule conductors/north_america 14 AWG 90 °C", True),
        foreign("a = 40 °C (104 °F), request /x", True), foreign("5 mW, 3 min, 2 machines", True),
        twin_faults("x", "5 to 40 °C, 800 × 1200 × 300 mm", "41 to 104 °F, 31.50 × 47.24 × 11.81 in")[0],
        twin_faults("x", "Sun adds 8.0 K", "Sun adds 14.4 °F")[0],
    ]
    missed = [i for i, each in enumerate(planted) if not each]
    wrong = [i for i, each in enumerate(sound) if each]
    print(f"{len(planted) + len(sound)} planted lines judged, missed {missed}, wrongly found {wrong}")
    return missed + wrong


def main():
    if "--self-test" in sys.argv[2:]:
        return 1 if self_test() else 0
    faults = judge(sys.argv[1])
    for fault in faults[:60]:
        print(f"  {fault}")
    return 1 if faults else 0


if __name__ == "__main__":
    sys.exit(main())
