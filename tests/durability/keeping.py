"""What a store does where no one kills it: backups that rotate while in use, restoring, two programs at once, stores of
earlier versions, logs left behind, clocks that jump, folders of the network."""
import concurrent.futures
import os
import random
import shutil
import subprocess
import threading

from program import (Fault, ask, command, connect, environment, everything, folder, history, lines_by_sqlite, lines_text,
                     make_old_store, make_store, old_versions, problems_by_sqlite, run, shim)  # fmt: skip

YEAR = 365 * 24 * 3600
# statfs(2), manual page of Linux, "Filesystem type constants".
NETWORK = {"NFS": "6969", "SMB": "517B", "CIFS": "FF534D42", "SMB2": "FE534D42", "AFS": "5346414F", "Coda": "73757245",
           "NCP": "564C", "Ceph": "C36400"}  # fmt: skip
LOCAL = {"ext4": "EF53", "XFS": "58465342", "Btrfs": "9123683E", "tmpfs": "1021994", "overlay": "794C7630", "FAT": "4D44"}


def expect(true, text):
    if not true:
        raise Fault(text)


def expect_error(code, *words, env=None, cwd=None):
    answer = run(*words, env=env, cwd=cwd)
    expect(answer.code == 1 and answer.error() == code,
           f"{' '.join(map(str, words[:2]))}: exit {answer.code}, {answer.out[:300]}; {code} was due")  # fmt: skip
    return answer.json()["errors"][0]


def add_lines(store, name, count=5, env=None, words=()):
    file = store.parent / f"{name}.csv"
    file.write_text(lines_text({f"{name}-{i}": (i + 1, name) for i in range(count)}))
    return ask("import", store, file, "--as", "sherds", *words, env=env)["change"]


def spoil(path):
    """A byte in each page, as a failing disk may leave it."""
    with open(path, "r+b") as file:
        for at in range(4096, path.stat().st_size, 4096):
            file.seek(at)
            file.write(b"\x7f")


def backups_rotate_while_in_use(where):
    """Writers at work; backups turn round, some of them killed; those that stay are sound and the newest is the last one
    that was acknowledged, or a later one."""
    store, kept = where / "tanyard.sherds", where / "kept"
    make_store(store)
    over, made, rng = threading.Event(), [], random.Random(1)

    def write(name):
        number = 0
        while not over.is_set():
            number += 1
            made.append(add_lines(store, f"{name}{number}"))

    writers = [threading.Thread(target=write, args=(name,)) for name in "ab"]
    for writer in writers:
        writer.start()
    acknowledged = killed = 0
    try:
        for number in range(24):
            at_most = len(made)
            process = subprocess.Popen(command("backup", store, kept, "--keep", 3), env=environment(), text=True,
                                       stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=subprocess.PIPE)  # fmt: skip
            timer = threading.Timer(rng.uniform(0.005, 0.12), process.kill) if number % 3 == 2 else None
            if timer:
                timer.start()
            out, err = process.communicate()
            if timer:
                timer.cancel()
            if process.returncode == -9:
                killed += 1
            else:
                expect(process.returncode == 0, f"backup --keep: exit {process.returncode}: {out[:300]} {err[:300]}")
                acknowledged = max(acknowledged, at_most)
            check_kept(kept, acknowledged)
    finally:
        over.set()
        for writer in writers:
            writer.join()
    names = [path for path in kept.iterdir() if not path.name.startswith(".") and ".part-" not in path.name]
    expect(3 <= len(names) <= 3 + killed, f"{len(names)} backups are there, not 3")
    ask("backup", store, kept, "--keep", 3)
    answer = ask("backup", store, kept, "--keep", 3)
    expect(len(answer["kept"]) == 3 and not answer["damaged"], "three sound backups were due")
    ask("restore", answer["kept"][0], where / "again.sherds")
    expect(everything(where / "again.sherds") == everything(store), "the newest backup is not the store")
    return f"24 rotations, {killed} of them killed, {len(made)} changes meanwhile"


def check_kept(kept, acknowledged):
    """Every backup under a name of its own is sound, and one holds all that was acknowledged before it was asked for."""
    if not kept.exists():
        return
    most = 0
    for path in kept.iterdir():
        if path.name.startswith(".") or ".part-" in path.name:
            continue
        expect(not problems_by_sqlite(path, "&immutable=1"), f"{path.name} is damaged")
        most = max(most, len(everything(path, "&immutable=1")["change"]) - 4)
    expect(most >= acknowledged, f"the newest backup holds {most} changes where {acknowledged} were there before it")


def the_last_good_backup_is_brought_back(where):
    store, kept = where / "tanyard.sherds", where / "kept"
    make_store(store)
    add_lines(store, "first")
    ask("backup", store, kept, "--keep", 2)
    add_lines(store, "second")
    good = ask("backup", store, kept, "--keep", 2)["file"]
    whole = everything(store)
    spoil(store)
    before = sorted(kept.iterdir())
    expect_error("damaged_store", "backup", store, kept, "--keep", 1)
    expect(sorted(kept.iterdir()) == before, "a store that is damaged cost a backup")
    ask("restore", good, where / "again.sherds")
    expect(everything(where / "again.sherds") == whole, "what was restored is not what was backed up")
    shutil.copy(good, where / "spoilt")
    spoil(where / "spoilt")
    expect_error("damaged_store", "restore", where / "spoilt", where / "not.sherds")
    expect(not (where / "not.sherds").exists(), "a damaged backup became a store")
    return "restored, and a damaged backup refused"


def two_programs_on_one_file(where):
    """No one is killed here: each of them is acknowledged, one after the other."""
    store = where / "tanyard.sherds"
    make_store(store)

    def work(name):
        return [add_lines(store, f"{name}{number}", count=200) for number in range(12)]

    with concurrent.futures.ThreadPoolExecutor(3) as pool:
        numbers = sorted(number for made in pool.map(work, "abc") for number in made)
    expect(numbers == list(range(5, 41)), f"the changes got the numbers {numbers}")
    expect(len(lines_by_sqlite(store)) == 36 * 200, "lines are missing")
    expect(not problems_by_sqlite(store), "the store is damaged")
    return "3 programs, 36 changes, none lost"


def stores_of_earlier_versions_migrate_behind_a_backup(where):
    for version in old_versions():
        store = where / f"version-{version}.sherds"
        make_old_store(store, version)
        old = everything(store)
        changes = history(store)
        expect([change["uid"].encode() for change in changes] == [row[1] for row in old["change"]], "changes were lost")
        expect(not problems_by_sqlite(store), f"version {version} is damaged by the migration")
        new = everything(store)
        expect(new["meta"] != old["meta"], "the version did not go up")
        for table in old:
            if table not in ("meta", "sqlite_schema"):
                expect(same_columns(store, table, old, new), f"version {version}: rows of {table} are not as they were")
        backups = sorted(where.glob(f"version-{version}.sherds.before-*"))
        expect(len(backups) == 1, f"{len(backups)} backups stand beside the store of version {version}")
        expect(everything(backups[0], "&immutable=1") == old, "the backup is not the store as it was")
    return f"versions {', '.join(map(str, old_versions()))}"


def same_columns(store, table, old, new):
    """A later version may add columns at the end of a table."""
    if not isinstance(old[table], list) or not old[table]:
        return True
    width = len(old[table][0])
    return sorted(map(repr, old[table])) == sorted(repr(row[:width]) for row in new[table])


def logs_left_behind_are_told(where):
    store = where / "tanyard.sherds"
    make_store(store)
    left = where / "left"
    left.mkdir()
    with connect(store) as reader:
        reader.execute("begin")
        reader.execute("select count(*) from change").fetchall()
        add_lines(store, "newest")
        for name in ("tanyard.sherds", "tanyard.sherds-wal"):
            shutil.copy(where / name, left / name)
    (left / "alone.sherds-wal").write_bytes((left / "tanyard.sherds-wal").read_bytes())
    error = expect_error("no_store", "history", left / "alone.sherds")
    expect("alone.sherds-wal" in error["message"] + error["hint"], "the log is not named")
    expect_error("orphan_log", "new", left / "alone.sherds", "--site", "X")
    answer = ask("lines", left / "tanyard.sherds")
    expect(answer["total"] == 5, f"{answer['total']} lines of the log's 5 were read back")
    said = run("backup", left / "tanyard.sherds", left / "b.sherds").json()["warnings"]
    expect(not said, f"said again: {said}")
    return "a log without its store named, one beside it read back"


def clocks_that_jump_do_not_disorder(where):
    store, kept, library = where / "tanyard.sherds", where / "kept", shim(where)
    make_store(store)
    made, backups = [], []
    for number, offset in enumerate((0, -20 * YEAR, 40 * YEAR, -3600, 5 * YEAR, -40 * YEAR)):
        env = environment(LD_PRELOAD=library, SHERD_CLOCK=offset)
        made.append(add_lines(store, f"n{number}", env=env))
        backups.append(ask("backup", store, kept, "--keep", 2, env=env)["file"])
    changes = history(store)[4:]
    expect([change["seq"] for change in changes] == made == list(range(5, 11)), "the history is out of order")
    expect([change["at"] for change in changes] != sorted(change["at"] for change in changes), "the clock did not jump")
    left = sorted(path.name for path in kept.iterdir())
    expect(left == sorted(os.path.basename(path) for path in backups[-2:]), f"the newest two are not those kept: {left}")
    ask("undo", store, made[-1], env=environment(LD_PRELOAD=library, SHERD_CLOCK=-30 * YEAR))
    expect(len(lines_by_sqlite(store)) == 25, "undo by a clock gone wrong did not take the newest back")
    return "6 clocks, one order"


def folders_of_the_network_are_refused(where):
    library, store = shim(where), where / "tanyard.sherds"
    make_store(store)
    ask("backup", store, where / "b.sherds")
    for number, (name, magic) in enumerate(NETWORK.items()):
        env = environment(LD_PRELOAD=library, SHERD_STATFS=magic)
        error = expect_error("network_folder", "history", store, env=env)
        expect("serve" in error["hint"], f"{name}: the way out is not told")
        expect_error("network_folder", "new", where / f"new-{number}.sherds", "--site", "X", env=env)
        expect_error("network_folder", "restore", where / "b.sherds", where / f"restored-{number}.sherds", env=env)
    for name, magic in LOCAL.items():
        ask("history", store, env=environment(LD_PRELOAD=library, SHERD_STATFS=magic))
    return f"{len(NETWORK)} kinds refused, {len(LOCAL)} kinds of a local disk taken"


ALL = (backups_rotate_while_in_use, the_last_good_backup_is_brought_back, two_programs_on_one_file,
       stores_of_earlier_versions_migrate_behind_a_backup, logs_left_behind_are_told, clocks_that_jump_do_not_disorder,
       folders_of_the_network_are_refused)  # fmt: skip


def main():
    for check in ALL:
        with folder() as where:
            print(f"{check.__name__.replace('_', ' ')}: {check(where)}", flush=True)


if __name__ == "__main__":
    main()
