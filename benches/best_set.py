"""The best set of at least N reps of a lift, found with regular expressions: what one would write in an afternoon.

    python3 best_set.py DIR LIFT REPS

It knows tidily spelled pages, one block a page: counts and lists, loads in kg, lb, sums, plates, bars by name and
percentages, loads taken over, faults, `as planned`. It reports nothing that it cannot read.
"""

import pathlib
import re
import sys

folder, lift, least = pathlib.Path(sys.argv[1]), sys.argv[2], int(sys.argv[3])
BULLET = re.compile(r"^(\s*)- (?:([^:]+):(?: (.*))?$|(.*))")
GROUP = re.compile(r"(?:(\d+)x)?([\d,+]+)(?:/side)?(?= |$)(?: @ ~?([^@(!]*?))?(?= (?:RPE|RIR|AMRAP|miss|rest|tempo|\(|!)|$)")
SPLIT = re.compile(r", (?=[^()\"]*(?:[(\"][^()\"]*[)\"][^()\"]*)*$)")
FAULT = re.compile(r"!\w+(?:\(([\d, ]+)\))?")
TERM = re.compile(r"(?:(\d+)x)?([\d.]+) (kg|lb)(/side)?$")
POUND = 0.45359237

settings = (folder / "journal.yaml").read_text(encoding="utf-8")
mass = lambda text: float(text.split()[0]) * (POUND if text.endswith("lb") else 1.0)
bars = {name.strip(): mass(text) for name, text in re.findall(r"([a-z ]+): ([\d.]+ (?:kg|lb))", re.search(r"bars: \{(.*)\}", settings).group(1))}
colours = {name: mass(text) for text, name in re.findall(r"mass: ([\d.]+ (?:kg|lb)), colour: (\w+)", settings)}
collars = mass(re.search(r"collars: (.*)", settings).group(1))


def kilograms(text, maximum):
    if text.endswith("%"):
        return maximum * float(text[:-1]) / 100 if maximum else None
    total = 0.0
    for term in text.split(" + "):
        found = TERM.match(term)
        if found:
            total += int(found[1] or 1) * float(found[2]) * (POUND if found[3] == "lb" else 1.0) * (2 if found[4] else 1)
        elif term in bars:
            total += bars[term] + collars
        elif term.replace(".", "").isdigit():
            total += float(term)
        else:
            count, _, colour = term.removesuffix("/side").rpartition(" ")
            if colour not in colours:
                return None
            total += int(count or 1) * colours[colour] * (2 if term.endswith("/side") else 1)
    return total


def groups(text, load, maximum):
    """Load, reps and number of clean sets, one after the other; then the load that stands last."""
    found = []
    for part in SPLIT.split(text.rstrip(".")):
        group = GROUP.match(part)
        if not group:
            continue
        if group[3]:
            load = kilograms(group[3].strip(), maximum)
        if "," in group[2]:
            reps = [int(number) for number in group[2].split(",")]
        else:
            reps = [sum(map(int, group[2].split("+")))] * int(group[1] or 1)
        faulted = set()
        for fault in FAULT.finditer(part):
            faulted |= {int(n) for n in fault[1].split(",")} if fault[1] else set(range(1, len(reps) + 1))
        if load is not None:
            found.extend((load, number) for at, number in enumerate(reps, 1) if at not in faulted)
    return found, load


best = (0.0, 0)
for path in folder.rglob("*.md"):
    maximum, ours, load, planned = None, False, None, False
    for line in path.read_text(encoding="utf-8").split("\n"):
        bullet = BULLET.match(line)
        if not bullet:
            continue
        indent, name, value, bare = bullet.groups()
        found = []
        if not indent:
            if name == "max" and value.startswith(lift + " "):
                maximum = kilograms(value[len(lift) + 1 :], None)
            ours, planned, load = name == lift, False, None
            if ours and value and value.startswith("as planned"):
                planned = "!" not in value
            elif ours and value:
                found, load = groups(value, None, maximum)
        elif ours and planned and name == "plan":
            found, _ = groups(value, None, maximum)
            planned = False
        elif ours and bare and bare[0].isdigit():
            found, load = groups(bare, load, maximum)
        best = max([best, *(pair for pair in found if pair[1] >= least)])
print(f"{best[0]:.2f} kg")
