#!/usr/bin/env python3
"""Every label in the window's sources stands in LABELS.md, where it is said what kind of word it is.

A label is a literal of at most five words that begins with a capital letter; longer ones are sentences,
which the list answers as a whole. With --self-test an unlisted one is planted and must be found.
"""

import pathlib
import re
import sys

ROOT = pathlib.Path(__file__).resolve().parents[2]
MOST_WORDS = 5


def plain(text):
    """Words alone: marks, accelerators and formats say nothing about where a word comes from."""
    text = re.sub(r"\\t.*| - Backplate$|\\n|%[a-z]|\([^)]*\)|\{\}", " ", text.replace("&", ""))
    return " ".join(re.findall(r"[a-z0-9]+", text.lower()))


def labels_in(source):
    source = re.sub(r"^\s*#include.*$|//.*$", "", source, flags=re.M)
    source = re.sub(r'R"\(.*?\)"', "", source, flags=re.S)  # guide and keys
    source = re.sub(r'"\s*\n\s*"', "", source)
    for literal in re.findall(r'"((?:[^"\\\n]|\\.)*)"', source):
        words = plain(literal.split("|")[0])  # after the bar: patterns of files
        if re.match(r"&?[A-Z]", literal) and re.search("[a-z]{2}", words) \
                and len(words.split()) <= MOST_WORDS:
            yield literal, words


def unlisted(sources, listed):
    held = " | ".join(f" {plain(line)} " for line in listed.splitlines() if line.startswith("|"))
    return sorted({(name, literal) for name, source in sources for literal, words in labels_in(source)
                   if f" {words} " not in held})


def main():
    sources = [(path.name, path.read_text(encoding="utf-8"))
               for path in sorted((ROOT / "app/desk").glob("*.cpp"))]
    listed = (ROOT / "tests/desk/LABELS.md").read_text(encoding="utf-8")
    if "--self-test" in sys.argv:
        planted = sources + [("planted.cpp", 'menu.Append(1, "&Flux capacitor\\tCtrl+F");')]
        found = unlisted(planted, listed)
        print(f"{len(found)} faults found of 1 planted")
        return 0 if [name for name, _ in found] == ["planted.cpp"] else 1
    missing = unlisted(sources, listed)
    for name, literal in missing:
        print(f"{name}: \"{literal}\" is not in LABELS.md")
    count = sum(1 for _, source in sources for _ in labels_in(source))
    print(f"{count} labels judged, {len(missing)} faults")
    return 1 if missing or not count else 0


sys.exit(main())
