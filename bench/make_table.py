#!/usr/bin/env python3
"""Writes the benchmark's tables: sherds.csv of N lines with 22 columns, contexts.csv, fabrics.csv, forms.csv.

    bench/make_table.py FOLDER [N]

The same N gives the same bytes. The numbers are invented; their shape (40 fabrics, 2,000 contexts, one line in six
with a rim) is that of a large urban excavation.
"""
import random
import sys
from pathlib import Path

COLUMNS = ["record", "context", "fabric", "count", "weight_g", "form", "part", "decoration", "vessels", "rims",
           "rim_diameter_mm", "rim_percent", "base_diameter_mm", "base_percent", "fabric_certainty", "condition",
           "vessel", "bag", "box", "notes", "recorder", "checked_by"]
FABRICS = [f"{kind}-{n}" for kind in ("grey", "shell", "sandy", "red", "white", "glaze", "stone", "tin") for n in range(1, 6)]
FORMS = ["jar", "bowl", "dish", "jug", "mug", "plate", "lid", "pipkin", "beaker", "flagon"]
CONDITIONS = ["", "", "fresh", "abraded", "heavily abraded", "burnt", "sooted"]


def line(record, draw):
    rim = draw.random() < 1 / 6
    base = not rim and draw.random() < 1 / 12
    count = 1 if rim else min(40, int(draw.expovariate(1 / 3)) + 1)
    return [
        record, draw.randint(1, 2000), draw.choice(FABRICS), count, f"{count * draw.lognormvariate(2.4, 0.7):.1f}",
        draw.choice(FORMS) if rim else "", "rim" if rim else "base" if base else "body", draw.choice(["", "", "", "rouletted", "combed"]),
        1 if rim or base else "", 1 if rim else "", 10 * draw.randint(8, 40) if rim else "", draw.randint(3, 40) if rim else "",
        10 * draw.randint(4, 16) if base else "", draw.randint(5, 100) if base else "", draw.choice(["", "", "", "probable"]),
        draw.choice(CONDITIONS), f"v{draw.randint(1, 9999)}" if draw.random() < 0.03 else "", draw.randint(1, 6000),
        draw.randint(1, 800), "see section drawing" if draw.random() < 0.05 else "", f"R{draw.randint(1, 4)}",
        "R9" if draw.random() < 0.8 else ""]


def write(path, rows):
    path.write_text("".join(",".join(str(cell) for cell in row) + "\n" for row in rows), encoding="utf-8")


def main():
    folder = Path(sys.argv[1])
    lines = int(sys.argv[2]) if len(sys.argv) > 2 else 200_000
    folder.mkdir(parents=True, exist_ok=True)
    draw = random.Random(20026)
    write(folder / "sherds.csv", [COLUMNS] + [line(n, draw) for n in range(1, lines + 1)])
    write(folder / "contexts.csv", [["context", "phase"]] + [[n, ""] for n in range(1, 2001)])
    write(folder / "fabrics.csv", [["fabric", "ware_group", "earliest", "latest"]] +
          [[fabric, fabric.split("-")[0], 100 + 40 * i, 200 + 40 * i] for i, fabric in enumerate(FABRICS)])
    write(folder / "forms.csv", [["form"]] + [[form] for form in FORMS])


if __name__ == "__main__":
    main()
