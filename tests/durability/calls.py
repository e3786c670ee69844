"""Fails one system call after the other under a command, and looks at what it says and what is left.

For each command and each kind of call the n-th call fails, for n = 1, 2, ... until a run is not hit any more: once with
"no room left" and once with "input/output error", once alone and once with every later one; writes also end short. Then:

  the program ends with 0 or 1, never by a signal and never with "internal error", and says one of the codes below;
  with 0, what was asked for is there; with 1, it is there whole or not at all, and not at all where the message says so;
  the store is sound, holds all that it held, and the same command, run again, does its work.
"""
import concurrent.futures
import os
import shutil
import sqlite3
import subprocess
import sys
from collections import Counter

from program import (Fault, ask, command, connect, environment, everything, folder, lines_text, make_old_store,
                     make_store,
                     problems_by_sqlite, run, shim)  # fmt: skip

CALLS = {
    "write": ("ENOSPC", "EIO", "SHORT"),
    "pwrite": ("ENOSPC", "EIO", "SHORT"),
    "fsync": ("EIO", "ENOSPC"),
    "fdatasync": ("EIO", "ENOSPC"),
    "ftruncate": ("EIO", "ENOSPC"),
    "rename": ("EIO", "ENOSPC"),
    "open": ("EIO", "ENOSPC"),
    "unlink": ("EIO",),
}
# What a user may be told when a disk fails. The last four come where a file cannot even be opened.
SAID = {"disk_full", "disk_error", "cannot_write", "cannot_open", "read_only", "not_readable", "no_folder"}


MOST_SHOWN = 30


class Counts:
    def __init__(self):
        self.runs = self.hit = self.done = self.refused = self.kept = self.unfinished = 0
        self.said = Counter()
        self.faults = []

    def text(self):
        said = ", ".join(f"{code} {count}" for code, count in self.said.most_common())
        return (f"{self.runs} runs, {self.hit} with a failed call: {self.done} did their work all the same, {self.refused} refused "
                f"({said}), {self.kept} of them with the change kept whole, {self.unfinished} with a store left without its site; "
                f"{len(self.faults)} faults")  # fmt: skip


def contents(store):
    """What the store holds, without what differs from run to run (uids, times)."""
    if not store.exists():
        return None
    rows = everything(store)
    if "change" not in rows or "meta" not in rows:
        return {"changes": [], "version": None}
    held = {"changes": [(row[0], *row[3:]) for row in rows["change"]], "version": rows["meta"]}
    with connect(store) as database:
        for table in ("sherds", "contexts", "fabrics", "forms"):
            held[table] = sorted(database.execute(f'select * from "{table}" where to_change is null').fetchall(), key=str)
            held[table] = [row[1:] for row in held[table]]
            held[table].sort(key=str)
    return held


class Case:
    """A command on files that are laid out anew for each run."""

    def __init__(self, name, template, words, target="t.sherds", reads=False):
        self.name, self.template, self.words, self.target, self.reads = name, template, words, target, reads

    def lay_out(self, where):
        shutil.rmtree(where, ignore_errors=True)
        shutil.copytree(self.template, where)


def make_cases(where):
    """One folder a state of the files."""
    base = where / "base"
    base.mkdir()
    store = base / "t.sherds"
    make_store(store)
    (base / "first.csv").write_text(lines_text({f"a{i}": (i + 1, f"note {i}") for i in range(60)}))
    (base / "more.csv").write_text(lines_text({f"b{i}": (i + 1, f"note {i}") for i in range(400)}))
    (base / "update.csv").write_text(lines_text({f"a{i}": (i + 2, f"anew {i}") for i in range(30)}))
    ask("import", store, base / "first.csv", "--as", "sherds", cwd=base)

    backed_up = where / "backed-up"
    shutil.copytree(base, backed_up)
    ask("backup", backed_up / "t.sherds", backed_up / "b.sherds")
    (backed_up / "t.sherds").unlink()

    old = where / "old"
    old.mkdir()
    make_old_store(old / "t.sherds", 1)

    left = where / "left"
    left.mkdir()
    leave_log(base, left, where / "open")

    return [
        Case("new", backed_up, ["new", "t.sherds", "--site", "X"]),
        Case("import", base, ["import", "t.sherds", "more.csv", "--as", "sherds"]),
        Case("import --update", base, ["import", "t.sherds", "update.csv", "--as", "sherds", "--update"]),
        Case("undo", base, ["undo", "t.sherds", "5"]),
        Case("backup", base, ["backup", "t.sherds", "b.sherds"], target="b.sherds"),
        Case("restore", backed_up, ["restore", "b.sherds", "t.sherds"]),
        Case("migrating", old, ["history", "t.sherds"]),
        Case("reading a log left behind", left, ["undo", "t.sherds", "6"]),
    ]


def leave_log(base, left, scratch):
    """A store with its newest change in the log only, as a power cut leaves it."""
    shutil.copytree(base, scratch)
    store = scratch / "t.sherds"
    with connect(store) as reader:
        reader.execute("begin")
        reader.execute("select count(*) from change").fetchall()  # holds the log as it is
        ask("import", store, scratch / "more.csv", "--as", "sherds")
        for name in ("t.sherds", "t.sherds-wal"):
            shutil.copy(scratch / name, left / name)
    if (left / "t.sherds-wal").stat().st_size == 0:
        raise Fault("no log was left to read back")


def failing(library, where, note, call, error, at, for_how_many):
    return environment(LD_PRELOAD=library, SHERD_FAIL_CALLS=call, SHERD_FAIL_WITH=error, SHERD_FAIL_AT=at,
                       SHERD_FAIL_FOR=for_how_many, SHERD_FAIL_PATH=where, SHERD_FAIL_NOTE=note)  # fmt: skip


def check_run(case, where, answer, before, after, counts):
    what = case.name
    target = where / case.target
    if answer.code not in (0, 1):
        raise Fault(f"{what}: exit {answer.code}: {answer.out[:300]} {answer.err[:300]}")
    found = contents(target)
    if answer.code == 0:
        counts.done += 1
        if found != after:
            raise Fault(f"{what}: FALSE ACKNOWLEDGEMENT: exit 0, and the work is not there")
    else:
        counts.refused += 1
        error = answer.json()["errors"][0]
        counts.said[error["code"]] += 1
        if error["code"] not in SAID:
            raise Fault(f"{what}: says {error['code']}: {error['message']}")
        if case.name == "new" and found is not None and not found["changes"]:
            # `new` makes the store, then writes its site. Between the two nothing was acknowledged, and nothing can be lost.
            counts.unfinished += run(*case.words, cwd=where).code != 0
            return
        if found not in (before, after):
            raise Fault(f"{what}: what is left is neither what was nor what should be ({error['code']})")
        if found == after and after != before:
            counts.kept += 1
            if "nothing of this change was kept" in error["message"]:
                raise Fault(f"{what}: says that nothing was kept, and the change is there")
    store = where / "t.sherds"
    if store.exists() and (problems := problems_by_sqlite(store)):
        raise Fault(f"{what}: the store is damaged: {problems[0]}")
    if answer.code == 1 and found == before:
        again = run(*case.words, cwd=where)
        if again.code != 0 or contents(target) != after:
            raise Fault(f"{what}: done again it does not work: {again.out[-300:]} {again.err[:300]}")


def one_kind(case, library, where, call, error, for_how_many, before, after, most):
    """All n of one kind; (counts, faults)."""
    counts = Counts()
    n = 0
    while n < most:
        n += 1
        here = where / f"{case.name.replace(' ', '_')}-{call}-{error}-{for_how_many}"
        case.lay_out(here)
        note = where / (here.name + ".note")
        note.unlink(missing_ok=True)
        counts.runs += 1
        answer = run(*case.words, cwd=here, env=failing(library, here, note, call, error, n, for_how_many))
        if not note.exists():
            shutil.rmtree(here)
            return counts
        counts.hit += 1
        try:
            check_run(case, here, answer, before, after, counts)
        except (Fault, sqlite3.Error) as fault:
            counts.faults.append(f"{fault} [{call} {n} {error}{'' if for_how_many else ' and all later'}]")
    shutil.rmtree(here)
    return counts


def before_and_after(case, where):
    """Found by running the command with nothing failing."""
    here = where / ("whole-" + case.name.replace(" ", "_"))
    case.lay_out(here)
    target = here / case.target
    before = contents(target)
    ask(*case.words, cwd=here)
    after = contents(target)
    shutil.rmtree(here)
    return before, after


def check_full_output(where):
    """An answer that could not be written is no acknowledgement, whatever the disk of the store holds."""
    store = where / "output.sherds"
    make_store(store)
    (where / "out.csv").write_text(lines_text({"a1": (1, "x")}))
    with open("/dev/full", "wb") as full:
        done = subprocess.run(command("import", store, where / "out.csv", "--as", "sherds"), stdout=full,
                              stderr=subprocess.PIPE, env=environment())  # fmt: skip
    if done.returncode != 1:
        raise Fault(f"with an output that takes nothing: exit {done.returncode}, not 1")


def all_calls(where, most=10**6, durations=(1, 0), errors=None):
    library = shim(where)
    total = Counts()
    check_full_output(where)
    with concurrent.futures.ThreadPoolExecutor(2) as pool:
        jobs = []
        for case in make_cases(where):
            before, after = before_and_after(case, where)
            for call, kinds in CALLS.items():
                for error in kinds:
                    for for_how_many in durations:
                        if errors and error not in errors and not (error == "SHORT" and for_how_many == 1):
                            continue
                        jobs.append(pool.submit(one_kind, case, library, where, call, error, for_how_many, before, after, most))
        for job in jobs:
            counts = job.result()
            for name in ("runs", "hit", "done", "refused", "kept", "unfinished"):
                setattr(total, name, getattr(total, name) + getattr(counts, name))
            total.said += counts.said
            total.faults += counts.faults
    return total


def main():
    with folder() as where:
        total = all_calls(where, most=int(os.environ.get("MOST", "1000000")))
        print(total.text())
        for fault in total.faults[:MOST_SHOWN]:
            print("  " + fault)
    sys.exit(1 if total.faults else 0)


if __name__ == "__main__":
    main()
