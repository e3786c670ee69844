"""Power cuts: what a machine that stops at once may leave on its disk, worked out from what the program wrote.

A kill loses nothing that was written; a power cut does. So every write, truncation, sync, creation, rename and removal of
a run of commands is written down (fail_calls.c), and for each point of that list states of the disk are made up as POSIX
allows them: what was synced is there; of what was written since, nothing, all, or any part, torn at a sector; names change
in their order, as far as a sync of their folder forces it or further. In each state the store must open, be sound, and hold
every command that was acknowledged by then, and at most the next one, whole.
"""
import os
import random
import shutil
import sqlite3
import sys

from calls import contents
from program import Fault, ask, environment, folder, lines_text, problems_by_sqlite, shim

SECTOR = 512
STORE, BACKUP = "t.sherds", "b.sherds"


class Counts:
    def __init__(self):
        self.points = self.states = self.with_store = self.ahead = self.by_program = 0
        self.faults = []

    def text(self):
        return (f"{self.states} states of the disk at {self.points} points, {self.with_store} of them with a store, {self.ahead} "
                f"with a change more than was acknowledged, {self.by_program} also opened by the program; "
                f"{len(self.faults)} faults")  # fmt: skip


class Inode:
    def __init__(self):
        self.durable = bytearray()
        self.pending = []  # (offset, bytes), or (size, None) for a truncation


def put(content, offset, data):
    if data is None:
        if offset < len(content):
            del content[offset:]
        else:
            content.extend(bytes(offset - len(content)))
        return
    if len(content) < offset:
        content.extend(bytes(offset - len(content)))
    content[offset : offset + len(data)] = data


class Disk:
    """What is on the disk for certain, and what may be."""

    def __init__(self, root):
        self.root = str(root)
        self.inodes = {}  # as the program sees them
        self.durable = {}
        self.pending = []  # (call, name, inode) since the folder was last synced

    def play(self, call, path, offset, data):
        if path == self.root:
            if call == "sync":
                self.durable, self.pending = dict(self.inodes), []
            return
        if call == "rename":
            old, new = path.split("\t")
            self.names("rename", old, new)
            return
        if call == "create":
            self.names("create", path, Inode())
        elif call == "unlink":
            self.names("unlink", path, None)
        elif path in self.inodes:
            inode = self.inodes[path]
            if call == "write":
                inode.pending.append((offset, data))
            elif call == "ftruncate":
                inode.pending.append((offset, None))
            elif call == "sync":
                for one in inode.pending:
                    put(inode.durable, *one)
                inode.pending = []

    def names(self, *change):
        rename(self.inodes, change)
        self.pending.append(change)

    def after_a_cut(self, rng, how):
        """{name: bytes} of one state that a cut may leave."""
        count = {"none": 0, "all": len(self.pending)}.get(how, rng.randint(0, len(self.pending)))
        names = dict(self.durable)
        for change in self.pending[:count]:
            rename(names, change)
        return {name: survived(inode, rng, how) for name, inode in names.items() if not name.endswith("-shm")}


def rename(names, change):
    call, name, what = change
    if call == "create":
        names[name] = what
    elif call == "unlink":
        names.pop(name, None)
    elif name in names:
        names[what] = names.pop(name)


def survived(inode, rng, how):
    content = bytearray(inode.durable)
    share = rng.random()
    for offset, data in inode.pending:
        if how == "none" or (how == "some" and rng.random() > share):
            continue
        if how == "some" and data is not None and len(data) > SECTOR and rng.random() < 0.3:
            data = data[: SECTOR * rng.randint(1, len(data) // SECTOR)]
        put(content, offset, data)
    return bytes(content)


def recorded(file):
    """The list of calls: (call, path, offset, bytes)."""
    text = file.read_bytes()
    at, calls = 0, []
    while at < len(text):
        end = text.index(b"\n", at)
        call, length, offset, path = text[at:end].decode().split(" ", 3)
        data = text[end + 1 : end + 1 + int(length)]
        calls.append((call, path, int(offset), data))
        at = end + 1 + int(length)
    return calls


def commands(where):
    (where / "contexts.csv").write_text("context,deposit\n1,use\n2,dump\n3,silting\n4,use\n")
    (where / "fabrics.csv").write_text("fabric,earliest,latest,reference\ngrey-1,120,250,test\n")
    (where / "a.csv").write_text(lines_text({f"a{i}": (i + 1, f"note {i}") for i in range(30)}))
    (where / "b.csv").write_text(lines_text({f"b{i}": (i + 1, f"note {i}") for i in range(300)}))
    (where / "c.csv").write_text(lines_text({f"a{i}": (i + 2, f"anew {i}") for i in range(20)}))
    return [
        ["new", STORE, "--site", "X"],
        ["import", STORE, "../contexts.csv", "--as", "contexts"],
        ["import", STORE, "../fabrics.csv", "--as", "fabrics"],
        ["import", STORE, "../a.csv", "--as", "sherds"],
        ["import", STORE, "../b.csv", "--as", "sherds"],
        ["import", STORE, "../c.csv", "--as", "sherds", "--update"],
        ["undo", STORE, "5"],
        ["backup", STORE, BACKUP],
    ]


def write_down(where, library):
    """Runs the commands; (calls, how many calls had been made when each was acknowledged, what the store then held)."""
    disk = where / "disk"
    disk.mkdir()
    record = where / "record"
    record.touch()
    marks, states = [], [None]
    for words in commands(where):
        ask(*words, cwd=disk, env=environment(LD_PRELOAD=library, SHERD_RECORD=record, SHERD_RECORD_PATH=disk))
        marks.append(len(recorded(record)))
        copy = where / "read.sherds"
        shutil.copy(disk / STORE, copy)
        states.append(contents(copy))
    return recorded(record), marks, states


def lay_out(files, root, where):
    shutil.rmtree(where, ignore_errors=True)
    where.mkdir()
    for name, content in files.items():
        (where / os.path.relpath(name, root)).write_bytes(content)


def check_state(where, acknowledged, states, counts, by_program):
    store, backup = where / STORE, where / BACKUP
    backed_up = len(states) - 1  # the last command; it changes nothing in the store
    if backup.exists():
        if problems_by_sqlite(backup) or contents(backup) != states[backed_up]:
            raise Fault("a backup is there under its name and is not whole")
    elif acknowledged >= backed_up:
        raise Fault("LOST: the backup was acknowledged and is not there")
    if not store.exists():
        if acknowledged > 0:
            raise Fault("LOST: the store was acknowledged and is not there")
        return
    counts.with_store += 1
    if by_program:
        counts.by_program += 1
        ask("history", store)
        if acknowledged > 0:
            ask("lines", store)
    if problems := problems_by_sqlite(store):
        raise Fault(f"the store is damaged: {problems[0]}")
    held = contents(store)
    allowed = states[acknowledged : acknowledged + 2]
    if acknowledged == 0:
        if held["version"] is None:
            raise Fault("a store is there under its name and lacks its tables")
        if held["changes"] and held not in allowed:
            raise Fault("the store holds something else than was written")
        return
    if held not in allowed:
        raise Fault(f"LOST: {len(held['changes'])} changes where {acknowledged} were acknowledged, or other contents")
    counts.ahead += held != allowed[0]


def power_cuts(where, points=None, variants=4, seed=1, synced=True):
    """`points`: how many points of the list, spread over it; all where absent. Where not `synced`, the disk ignores every
    sync: that must show, or these tests see nothing."""
    rng = random.Random(seed)
    calls, marks, states = write_down(where, shim(where))
    calls = [call if synced or call[0] != "sync" else ("nothing", *call[1:]) for call in calls]
    root = where / "disk"
    chosen = set(range(len(calls) + 1)) if points is None else set(rng.sample(range(len(calls) + 1), points)) | set(marks)
    disk, counts = Disk(root), Counts()
    for point in range(len(calls) + 1):
        if point in chosen:
            counts.points += 1
            acknowledged = sum(mark <= point for mark in marks)
            for how in ("none", "all", *["some"] * (variants - 2)):
                counts.states += 1
                cut = where / "cut"
                lay_out(disk.after_a_cut(rng, how), root, cut)
                try:
                    check_state(cut, acknowledged, states, counts, by_program=counts.states % 10 == 0)
                except (Fault, sqlite3.Error) as fault:
                    counts.faults.append(f"call {point} of {len(calls)}, {how} of what was not synced, {acknowledged} acknowledged: {fault}")
        if point < len(calls):
            disk.play(*calls[point])
    return counts


def main():
    with folder() as where:
        points = int(os.environ.get("POINTS", "0")) or None
        (where / "blind").mkdir()
        (where / "seeing").mkdir()
        if not power_cuts(where / "blind", 10, 3, synced=False).faults:
            raise SystemExit("A disk that ignores every sync was not noticed: these tests see nothing.")
        counts = power_cuts(where / "seeing", points, int(os.environ.get("VARIANTS", "4")), int(os.environ.get("SEED", "1")))
        print(counts.text())
        for fault in counts.faults[:20]:
            print("  " + fault)
    sys.exit(1 if counts.faults else 0)


if __name__ == "__main__":
    main()
