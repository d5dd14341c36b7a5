"""Lengths of C++ function bodies by counting braces.

A brace opens a container (namespace, class …), a function, or an initialiser, told apart by the
text before it. Whatever stands inside a function belongs to it, lambdas and tables included.
"""

import re

BLANKED = re.compile(
    r'R"([^()\\ ]*)\((?:.|\n)*?\)\1"'       # raw text
    r'|"(?:[^"\\\n]|\\.)*"'                 # text
    r"|(?<![0-9A-Fa-f])'(?:[^'\\\n]|\\.)+'"  # character, not the group mark of a number
    r"|//[^\n]*|/\*(?:.|\n)*?\*/"           # remarks
    r"|^[ \t]*#(?:[^\n\\]|\\.|\\\n)*", re.M)  # preprocessor
CONTAINER = re.compile(r"\b(namespace|class|struct|union|enum|extern)\b")
AFTER_PARAMETERS = re.compile(r"\)\s*(const|noexcept|override|final|mutable|&|->|requires|try)*")


def blank(text):
    """The text without remarks, texts and directives, line ends kept."""
    def spaces(match):
        return re.sub(r"[^\n]", " ", match.group())
    return BLANKED.sub(spaces, text)


def kind_of(head):
    """What the brace after `head` opens: container, function or initialiser."""
    head = head.strip()
    # a `:` after the parameters starts the members of a constructor: `a{` there is a value
    members = re.search(r"\)\s*(noexcept\s*)?:(?!:)", head)
    if members and re.search(r"[\w>]$", head):
        return "initialiser"
    plain = re.sub(r"\boperator\s*[=<>!+\-*/%&|^~\[\]()]+", "operator", head)
    plain = re.sub(r"\([^()]*\)", "()", re.sub(r"\([^()]*\)", "()", plain))
    if re.search(r"(?<![=!<>])=(?!=)", plain) and not re.search(r"\[[^\]]*\]\s*(\(|$)", plain):
        return "initialiser"
    if AFTER_PARAMETERS.search(plain) or re.search(r"=.*\[[^\]]*\]$", plain, re.S):
        return "function"
    return "container" if CONTAINER.search(plain) else "initialiser"


def matching(text, start):
    """Place of the brace that closes the one at `start`."""
    depth = 0
    for match in re.compile(r"[{}]").finditer(text, start):
        depth += 1 if match.group() == "{" else -1
        if depth == 0:
            return match.start()
    return len(text)


def of_cpp(text):
    """(line of the opening brace, lines from brace to brace) of each function."""
    text = blank(text)
    found, head, at = [], 0, 0
    for_next = re.compile(r"[{};]")
    while match := for_next.search(text, at):
        at = match.end()
        kind = kind_of(text[head:match.start()]) if match.group() == "{" else None
        if kind in ("function", "initialiser"):
            end = matching(text, match.start())
            at = end + 1
            if kind == "function":
                lines = text.count("\n", match.start(), end) + 1
                found.append((text.count("\n", 0, match.start()) + 1, lines))
                head = at
        else:
            head = at
    return found


_SHORT = "\n    step();" * 3
_SAMPLES = [
    ("void f() {%s\n}\n", [5]),
    ("namespace a {\nstruct B {\n  int x = 0;\n  void f() const {%s\n  }\n};\n}\n", [5]),
    ("A::A(int x)\n    : x_{x}, y_(1) {%s\n}\n", [5]),
    ("A::A(int x) : x_(x) {%s\n}\n", [5]),
    ("const int t[] = {%s\n};\nvoid f() {%s\n}\n", [5]),
    ("constexpr Row row{1,\n 2};\nauto f() -> std::vector<int> {%s\n}\n", [5]),
    ("bool operator==(A a, A b) {%s\n}\n", [5]),
    ("void f(int a = 1) {%s\n}\n", [5]),
    ("void f() { // {\n  auto g = [&](int x) {%s\n  };\n  char c = '{';\n}\n", [8]),
    ("auto f = [](int x) {%s\n};\n", [5]),
    ("template <class T> struct A : B<T> {\n  A() = default;\n  T get() {%s\n  }\n};\n", [5]),
    ("enum class E { a, b };\nTEST_CASE(\"a { b\") {%s\n}\n", [5]),
    ("const char* s = R\"({ \" })\";\nint n = 1'000;\nvoid f() {%s\n}\n", [5]),
    ("#define M {\nvoid f() noexcept {%s\n}\n", [5]),
]
SELF_CHECKS = len(_SAMPLES)


def self_check():
    """Samples whose lengths are read wrongly."""
    wrong = []
    for sample, expected in _SAMPLES:
        found = [lines for _, lines in of_cpp(sample.replace("%s", _SHORT))]
        if found != expected:
            wrong.append(f"{sample!r}: {found}, expected {expected}")
    return wrong
