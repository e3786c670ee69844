"""Cuts a store short and flips single bytes in it, and looks at whether the damage is named.

A damage is
  harmless   where every row of every table is still read as it was and SQLite's checks find nothing;
  named      where a command (backup, which checks the whole file; lines, history, check, which read) refuses it by name;
  silent     where all of these succeed although a row reads differently;
  misnamed   where the program refuses it, and says that the fault is its own;
  a crash    where it ends by a signal.
"""
import os
import random
import shutil
import sqlite3
import sys
from collections import Counter

from hashes import differences
from program import Fault, ask, everything, folder, lines_text, make_store, problems_by_sqlite, run

PAGE = 4096
NAMED = {"damaged_store", "not_a_store", "newer_store", "no_store", "disk_error", "cannot_open"}


class Counts(Counter):
    def __init__(self):
        super().__init__()
        self.silent_in = Counter()
        self.misnamed, self.crashes = [], []

    def text(self):
        words = ", ".join(f"{self[kind]} {kind}" for kind in ("named", "harmless", "silent", "misnamed", "crash"))
        where = ", ".join(f"{table} {count}" for table, count in self.silent_in.most_common())
        return f"{sum(self.values())} damages: {words}" + (f" (silent ones by table: {where})" if where else "")


def make_small_store(where):
    store = where / "small.sherds"
    make_store(store)
    (where / "first.csv").write_text(lines_text({f"a{i}": (i + 1, f"a note of some length, {i}") for i in range(40)}))
    (where / "update.csv").write_text(lines_text({f"a{i}": (i + 2, f"another note, {i}") for i in range(10)}))
    ask("import", store, "first.csv", "--as", "sherds", cwd=where)
    ask("import", store, "update.csv", "--as", "sherds", "--update", cwd=where)
    return store


def read_apart(store):
    """All rows by SQLite alone; None where it cannot read them or finds damage."""
    try:
        if problems_by_sqlite(store, "&immutable=1"):
            return None
        return everything(store, "&immutable=1")
    except UnicodeDecodeError:  # of a column's name
        return {"sqlite_schema": None}
    except (sqlite3.Error, OverflowError):
        return None


def judge(store, whole, counts, what):
    """Names one damage. The program reads copies, since it may write to what it opens."""
    found = read_apart(store)
    if found == whole:
        return "harmless"
    scratch = store.parent / "scratch"
    shutil.rmtree(scratch, ignore_errors=True)
    scratch.mkdir()
    copy = scratch / "s.sherds"
    shutil.copy(store, copy)
    for words in (("backup", copy, scratch / "b.sherds"), ("lines", copy), ("history", copy), ("check", copy)):
        answer = run(*words)
        if answer.code == 0:
            continue
        try:
            error = answer.error() if answer.out else f"exit {answer.code}"
        except Fault:
            error = f"exit {answer.code}"
        if answer.code == 1 and error in NAMED:
            return "named"
        if words[0] == "check" and answer.code == 1 and error == "findings":
            break  # the record reads as if someone had written it so
        said = f"{what}: {words[0]}: exit {answer.code}, {error}: {answer.out[:300]} {answer.err[:200]}"
        (counts.misnamed if answer.code == 3 else counts.crashes).append(said)
        return "misnamed" if answer.code == 3 else "crash"
    if found is None:
        counts.silent_in["(structure)"] += 1
    else:
        counts.silent_in.update(table for table in found if found[table] != whole[table])
    return "silent"


def truncations(where):
    """At every page's start, and one byte short."""
    store = make_small_store(where)
    whole, size, counts = everything(store, "&immutable=1"), store.stat().st_size, Counts()
    cut = where / "cut.sherds"
    for length in [*range(0, size, PAGE), size - 1]:
        shutil.copy(store, cut)
        os.truncate(cut, length)
        counts[judge(cut, whole, counts, f"cut to {length} bytes")] += 1
    return counts


def flips(where, sample=None, seed=1, progress=lambda text: None):
    """One byte each time: all bytes that are not zero, or a sample of them. (The zeros are room that nothing uses, bar a few
    fields; a sample of as many zeros as a hundredth of the others is taken, too.)"""
    rng = random.Random(seed)
    store = make_small_store(where)
    if found := differences(store):
        raise Fault(f"the hashes of a whole store, made apart from the program, differ: {found[0]}")
    whole, bytes_of, counts = everything(store, "&immutable=1"), store.read_bytes(), Counts()
    full = [at for at, byte in enumerate(bytes_of) if byte != 0]
    empty = [at for at, byte in enumerate(bytes_of) if byte == 0]
    places = rng.sample(full, sample) if sample else full
    places = places + rng.sample(empty, max(len(places) // 100, 5))
    flipped = where / "flipped.sherds"
    shutil.copy(store, flipped)
    for done, at in enumerate(places):
        with open(flipped, "r+b", buffering=0) as file:
            file.seek(at)
            file.write(bytes([bytes_of[at] ^ rng.randint(1, 255)]))
        kind = judge(flipped, whole, counts, f"byte {at}")
        counts[kind] += 1
        with open(flipped, "r+b", buffering=0) as file:
            file.seek(at)
            file.write(bytes_of[at : at + 1])
        if (done + 1) % 2000 == 0:
            progress(counts.text())
    return counts


def faults(cut, flipped):
    """What may not be: damage that is not seen, or a crash."""
    found = [f"{cut['silent'] + cut['misnamed']} stores cut short were not named"] if cut["silent"] + cut["misnamed"] else []
    found += cut.crashes + flipped.crashes
    if flipped["silent"]:
        found.append(f"{flipped['silent']} of {sum(flipped.values())} flipped bytes went unseen")
    return found


def main():
    with folder() as where:
        (where / "cuts").mkdir()
        (where / "flips").mkdir()
        cut = truncations(where / "cuts")
        print("cut short: " + cut.text())
        sample = int(os.environ.get("SAMPLE", "120")) or None
        flipped = flips(where / "flips", sample, int(os.environ.get("SEED", "1")), lambda text: print(text, flush=True))
        print("bytes flipped: " + flipped.text())
        for text in (cut.misnamed + cut.crashes + flipped.crashes + flipped.misnamed)[:20]:
            print("  " + text)
    sys.exit(1 if faults(cut, flipped) else 0)


if __name__ == "__main__":
    main()
