"""What each layer may read and link. Every fault reads `unit: kind: detail`."""

import os
import pathlib
import re

LAYERS = ("pricing", "catalog", "reports", "app")
MAY_READ = {
    "pricing": {"pricing"},
    "catalog": {"pricing", "catalog"},
    "reports": {"pricing", "reports"},
    "app": {"pricing", "catalog", "reports", "app"},
}
# Units that make scenes: plain values, no type of the library that draws.
WITHOUT_CAIRO = {f"reports/drawing/{name}.cpp" for name in (
    "channel_sheet device_sheet distribution_sheet door_scene labels palette panel_scene panel_sheet "
    "scene sheets text_size").split()}
# Standard headers that pricing does without even where no symbol would show it.
NOT_IN_PRICING = {"random", "iostream", "fstream", "filesystem", "future", "regex",
                  "condition_variable"}
C_FUNCTIONS = {
    "file": "fopen fopen64 freopen fdopen fread fwrite fclose fgets open open64 openat creat read "
            "write close stat fstat lstat opendir mkdir unlink remove rename getenv system popen",
    "clock": "time clock clock_gettime gettimeofday localtime localtime_r gmtime gmtime_r mktime "
             "strftime nanosleep usleep sleep",
    "locale": "setlocale uselocale newlocale duplocale freelocale localeconv nl_langinfo strtod "
              "strtof strtold atof",
    "thread": "pthread_create pthread_join pthread_detach pthread_mutex_lock pthread_cond_wait",
    "printf": "printf fprintf sprintf snprintf vprintf vfprintf vsprintf vsnprintf __printf_chk "
              "__fprintf_chk __sprintf_chk __snprintf_chk __vsnprintf_chk puts putchar putc fputs "
              "fputc scanf sscanf fscanf",
    "random": "rand srand random srandom drand48 getrandom getentropy",
}
CXX_NAMES = {
    "file": r"std::(basic_[io]?fstream|basic_filebuf|filesystem::)",
    "clock": r"std::chrono::(_V2::)?(system|steady|high_resolution)_clock::now",
    "locale": r"std::(locale::|use_facet|has_facet)",
    "thread": r"std::(thread::_M_start_thread|jthread|condition_variable|__future_base|mutex::)",
    "random": r"std::(random_device::|mersenne_twister_engine|linear_congruential_engine)",
    "iostream": r"std::(ios_base|basic_[io]?stream|basic_iostream|basic_ios<|basic_streambuf|"
                r"basic_[io]?stringstream|basic_stringbuf|cout|cerr|clog|cin|ostream|istream|endl)",
}


def layer_of(path, root):
    """First folder of a file of ours, nothing for another file."""
    path = pathlib.Path(path)
    return path.relative_to(root).parts[0] if path.is_relative_to(root) else None


def read_faults(unit, read, root, standard):
    """`unit` is a path from the root; `read` are full paths."""
    own = unit.split("/")[0]
    faults = []
    for path in sorted(set(read)):
        layer = layer_of(path, root)
        if own in MAY_READ and layer in LAYERS and layer not in MAY_READ[own]:
            faults.append(f"{unit}: layer: reads {pathlib.Path(path).relative_to(root)}")
        if own == "pricing" and layer is None and os.path.realpath(path) not in standard:
            faults.append(f"{unit}: foreign header: reads {path}")
        if own == "pricing" and re.search(r"/c\+\+/\d+/\w+$", path):
            if os.path.basename(path) in NOT_IN_PRICING:
                faults.append(f"{unit}: header: reads <{os.path.basename(path)}>")
        if re.search(r"/wx(-\d[\d.]*)?/", path) and not unit.startswith(("app/desk/", "tests/")):
            faults.append(f"{unit}: window: reads {path}")
        if unit in WITHOUT_CAIRO and re.search(r"/(cairo|pango)[-\w./]*\.h$", path):
            faults.append(f"{unit}: cairo: reads {path}")
        if own == "app" and re.search(r"/(SQLiteCpp/|sqlite3\.h$)", path):
            faults.append(f"{unit}: database: reads {path}")
    return faults


def floor_faults(counts, floors):
    return [f"{layer}: floor: {counts[layer]} units judged, expected at least {least}"
            for layer, least in floors.items() if counts[layer] < least]


def symbol_faults(name, listing):
    """From `nm -C`: everything wanted from outside or brought along as an inline copy."""
    by_function = {word: kind for kind, words in C_FUNCTIONS.items() for word in words.split()}
    faults = set()
    for line in listing.splitlines():
        match = re.match(r"[0-9a-f ]{16} ([A-Za-z]) (.*)", line)
        if not match:
            continue
        letter, symbol = match.groups()
        if letter in "Uw" and symbol.split("@")[0] in by_function:
            faults.add(f"{name}: {by_function[symbol.split('@')[0]]}: {symbol}")
        for kind, pattern in CXX_NAMES.items():
            if re.match(pattern, symbol):
                faults.add(f"{name}: {kind}: {symbol}")
    return sorted(faults)


def section_faults(name, listing):
    """From `objdump -h -t -C`: objects that can change, and code that runs before main.

    GCC 12 puts `constexpr std::array x{…}` (type deduced) into a writable section when it holds
    pointers; `constexpr auto x = std::array{…}` says the same and is read-only.
    """
    faults = set()
    for line in listing.splitlines():
        if re.match(r"\s*\d+ \.(init_array|ctors)\S*\s+(?!0{8})[0-9a-f]{8} ", line):
            faults.add(f"{name}: start-up: code runs before main")
        match = re.match(r"[0-9a-f]{16} .{7} (\S+)\s+([0-9a-f]{16})\s*(.*)", line)
        if not match:
            continue
        section, size, symbol = match.groups()
        changes = re.match(r"\.(data|bss|tdata|tbss)|\*COM\*", section)
        if changes and not section.startswith(".data.rel.ro") and int(size, 16):
            if not symbol.removeprefix(".hidden ").startswith("DW.ref."):
                faults.add(f"{name}: mutable: {symbol} in {section}")
    return sorted(faults)


def needed_faults(name, listing):
    """From `ldd`: the command line needs no window library. The library that draws may bring the
    protocol of the screen along; only what opens windows counts."""
    return [f"{name}: window: needs {line.split()[0]}" for line in listing.splitlines()
            if re.search(r"lib(wx|gtk|gdk-|gdk_|wayland|Qt)", line)]


def asked_faults(name, listing):
    """From `objdump -p`: nothing of ours asks for the screen itself."""
    return [f"{name}: window: asks for {word}" for word in re.findall(r"NEEDED\s+(\S+)", listing)
            if re.match(r"lib(wx|gtk|gdk|X11|xcb|wayland|Qt)", word)]
