#!/usr/bin/python3
"""Checks the form of the sources.

    check_style.py [--headers] [--planted]

Lengths of files and functions, the closed list at the top level, left-over marks, the layout that
clang-format gives. --headers: every header also compiles alone. With --planted every check is
first shown a planted fault and must find it. Exit 0: no fault, else 1.
"""

import argparse
import ast
import pathlib
import re
import shutil
import subprocess
import sys
import tempfile

sys.dont_write_bytecode = True  # the source tree stays clean
import function_lengths  # noqa: E402

ROOT = pathlib.Path(__file__).resolve().parents[2]
PLANTED = ROOT / "tests/tools/planted/style"
FOLDERS = ("app", "pricing", "catalog", "reports", "tests", "demo")
TOP_LEVEL = {"CMakeLists.txt", "README.md", "DEVELOPERS.md", *FOLDERS}
BUILT = "build"  # what the two commands of the README make; never committed
CODE = {".cpp", ".h", ".py", ".sql", ".sh", ".cmake"}
FILE_LINES = 400
DESK_LINES = 500  # window classes
FUNCTION_LINES = 40
FORMATTER = "clang-format-14"
LEAST_FILES = 150


def our_files():
    files = [path for folder in FOLDERS for path in sorted((ROOT / folder).rglob("*"))
             if path.suffix in CODE or path.name == "CMakeLists.txt"]
    return [path for path in files if not path.is_relative_to(PLANTED)]


def shown(path):
    return path.relative_to(ROOT) if path.is_relative_to(ROOT) else path.name


def top_level_faults(names):
    names = {name for name in names if not name.startswith(".") and name != BUILT}
    return ([f"{name}: not in the closed list of the top level" for name in names - TOP_LEVEL] +
            [f"{name}: missing at the top level" for name in TOP_LEVEL - names])


def file_faults(path):
    text = path.read_text(encoding="utf-8")
    lines = text.count("\n")
    most = DESK_LINES if path.is_relative_to(ROOT / "app/desk") else FILE_LINES
    faults = [f"{shown(path)}: {lines} lines, at most {most}"] if lines > most else []
    if text and not text.endswith("\n"):
        faults.append(f"{shown(path)}: no line end at the end")
    for number, line in enumerate(text.splitlines(), 1):
        if re.search(r"\b(TO" r"DO|FIX" r"ME|X" r"XX)\b", line):
            faults.append(f"{shown(path)}:{number}: left-over mark")
    return faults


def function_faults(path):
    text = path.read_text(encoding="utf-8")
    if path.suffix in {".cpp", ".h"}:
        found = function_lengths.of_cpp(text)
    elif path.suffix == ".py":
        found = [(node.lineno, node.end_lineno - node.lineno + 1) for node in ast.walk(
            ast.parse(text)) if isinstance(node, (ast.FunctionDef, ast.AsyncFunctionDef))]
    else:
        found = []
    return len(found), [f"{shown(path)}:{line}: function of {lines} lines, at most {FUNCTION_LINES}"
                        for line, lines in found if lines > FUNCTION_LINES]


def layout_faults(files):
    """One run over all files; a file that the formatter would change is one fault."""
    if not shutil.which(FORMATTER):
        print(f"layout not looked at: no {FORMATTER}")
        return []
    done = subprocess.run([FORMATTER, "--dry-run", "-Werror", f"--style=file:{ROOT}/.clang-format",
                           *files], capture_output=True, text=True, check=False)
    names = re.findall(r"^(.*?):\d+:\d+: error:", done.stderr, re.M)
    return [f"{shown(pathlib.Path(name).resolve())}: not laid out by {FORMATTER}"
            for name in sorted(set(names))]


def header_faults(headers):
    """Each header as the only line of a unit; two compilers at a time."""
    faults = []
    with tempfile.TemporaryDirectory() as name:
        jobs = []
        for half in (headers[::2], headers[1::2]):
            units = []
            for header in half:
                unit = pathlib.Path(name) / (str(shown(header)).replace("/", "-") + ".cpp")
                unit.write_text(f'#include "{header}"\n', encoding="utf-8")
                units.append(unit)
            if units:
                jobs.append(subprocess.Popen(["g++", "-std=c++20", "-fsyntax-only", f"-I{ROOT}",
                                              *units], stderr=subprocess.PIPE, text=True))
        for job in jobs:
            errors = job.communicate()[1]
            for line in re.findall(r"^.*: (?:fatal )?error: .*$", errors, re.M):
                faults.append(f"does not compile alone: {line.removeprefix(str(ROOT) + '/')}")
    return faults


def planted_faults():
    """Names the checks that did not find their planted fault."""
    missed = []
    with tempfile.TemporaryDirectory() as name:
        folder = pathlib.Path(name)
        long_file = folder / "long.cpp"
        long_file.write_text("// line\n" * (FILE_LINES + 1), encoding="utf-8")
        marked = folder / "marked.cpp"
        marked.write_text("// TO" + "DO later\n", encoding="utf-8")
        long_py = folder / "long.py"
        long_py.write_text("def f():\n" + "    f()\n" * FUNCTION_LINES, encoding="utf-8")
        found = {
            "file of 401 lines": file_faults(long_file),
            "left-over mark": file_faults(marked),
            "long function in Python": function_faults(long_py)[1],
            "extra top-level folder": top_level_faults([*TOP_LEVEL, "docs"]),
            "missing README": top_level_faults(TOP_LEVEL - {"README.md"}),
            "header that needs another": header_faults([PLANTED / "needs_another.h"]),
        }
        if shutil.which(FORMATTER):
            found["crooked layout"] = layout_faults([PLANTED / "crooked.cpp"])
        missed += [f"planted and not found: {what}" for what, faults in found.items() if not faults]
        missed += [f"function lengths: {text}" for text in function_lengths.self_check()]
    print(f"planted faults tried: {len(found) + function_lengths.SELF_CHECKS}")
    return missed


def main():
    parser = argparse.ArgumentParser(description=__doc__.splitlines()[0])
    parser.add_argument("--headers", action="store_true", help="compile each header alone")
    parser.add_argument("--planted", action="store_true", help="prove each check on a fault")
    arguments = parser.parse_args()
    files = our_files()
    faults = planted_faults() if arguments.planted else []
    faults += top_level_faults(path.name for path in ROOT.iterdir())
    functions = 0
    for path in files:
        faults += file_faults(path)
        count, long_ones = function_faults(path)
        functions += count
        faults += long_ones
    faults += layout_faults([path for path in files if path.suffix in {".cpp", ".h"}])
    headers = [path for path in files if path.suffix == ".h" and
               path.relative_to(ROOT).parts[0] in {"pricing", "catalog", "reports"}]
    if arguments.headers:
        faults += header_faults(headers)
        print(f"headers compiled alone: {len(headers)}")
    for fault in faults:
        print("FAULT", fault)
    print(f"judged {len(files)} files, {functions} functions: {len(faults)} faults")
    if len(files) < LEAST_FILES:
        print(f"FAULT only {len(files)} files judged, expected {LEAST_FILES}")
    return 1 if faults or len(files) < LEAST_FILES else 0


if __name__ == "__main__":
    sys.exit(main())
