"""The heaviest set of at least N reps of a lift, found with regular expressions: what one would write in an hour.

    python3 best_set.py DIR LIFT REPS

It knows plain counts and loads in kg and lb, which is most of what a journal holds, and nothing of faults on single
sets, sums, plates or bodyweight; a set line takes the last load over.
"""

import pathlib
import re
import sys

folder, lift, least = sys.argv[1], sys.argv[2], int(sys.argv[3])
WORK = re.compile(r"^[-*+] (?:\*\*)?([^:*]+?)s?(?:\*\*)?:\s(.*)$")
GROUP = re.compile(r"(?:(\d+)\s*[xX×]\s*)?(\d+)(?:\s*@\s*(\d+(?:\.\d+)?)\s*(kg|lb)?)?(?=[\s,]|$)")
fold = lambda name: re.sub(r"[ _-]", "", name).lower().removesuffix("s")
wanted = fold(lift)
best = None
for path in sorted(pathlib.Path(folder).rglob("*.md")):
    for number, line in enumerate(path.read_text(encoding="utf-8", errors="replace").splitlines(), 1):
        work = WORK.match(line)
        if not work or fold(work.group(1)) != wanted or "!" in line:
            continue
        load = None
        for part in work.group(2).split(", "):
            group = GROUP.match(part)
            if not group:
                continue
            if group.group(3):
                load = float(group.group(3)) * (0.45359237 if group.group(4) == "lb" else 1.0)
            if load is not None and int(group.group(2)) >= least:
                candidate = (load, int(group.group(2)), str(path), number)
                if best is None or candidate[:2] > best[:2]:
                    best = candidate
print(best)
