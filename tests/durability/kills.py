"""Kills the command line and the server at random moments under load, and looks at what is left.

A round: writers of the command line (import --keep-good, import --update, undo), writers over HTTP where the server takes
changes, readers over HTTP, and a copier (backup, restore) work on one store; single processes are killed (SIGKILL), then
all of them at once. Each acknowledged change, that is exit 0 or HTTP 200, is written to a file outside the store. Then:

  the store opens and passes SQLite's checks, by the program (backup) and apart from it;
  the history has every acknowledged change under its number, no change that no one asked for, no gap in the numbers;
  changes that did not overlap stand in the order in which they were made;
  the lines are what the changes of the history, played again one by one, make them: a change that was not acknowledged is
  there whole or not at all;
  the newest change can be taken back; each backup that is there under its name is whole; a restored one equals its store.
"""
import os
import random
import re
import shutil
import time

from load import HTTP_WRITERS, WRITERS, Change, Counts, Load, Writer
from program import (Fault, ask, connect, everything, folder, history, lines_by_program, lines_by_sqlite, make_store,
                     problems_by_sqlite)  # fmt: skip

USUAL_SECONDS = 0.012  # that `history` takes
ROUNDS_A_STORE = 6  # then a new store: a long history makes the later rounds slow and says nothing new


def chosen(same, seq):
    """Of changes asked for in the same words the one that was acknowledged under this number, else one that was not."""
    acknowledged = [change for change in same if change.seq == seq]
    return (acknowledged or [change for change in same if change.seq is None] or [None])[0]


def replay(changes, asked):
    """The lines that the history's changes make, one after the other; and for each change of it, the state after it."""
    by_command = {}
    for change in asked:
        by_command.setdefault(change.command, []).append(change)
    rows_of, before_of, states, used = {}, {}, [], set()
    for made in changes:
        change = chosen(by_command.get(made["command"], []), made["seq"])
        if change is None or change in used:
            raise Fault(f"change {made['seq']} ({made['command']}) was not asked for" + (" twice" if change else ""))
        used.add(change)
        writer = change.writer
        was = rows_of.get(writer, {})
        if change.target is not None:
            if change.target not in before_of:
                raise Fault(f"DEBUG {made['command']}: {change.writer.trace[-14:]} " + str([(c.command, c.seq, c.begun, c.ended, c.writer.name, id(c)) for c in asked if c.command == change.target.command or c is change.target or c is change or c.seq in (15,16,17)]))
            now = before_of[change.target]
        else:
            before_of[change] = was
            now = was | change.rows
        before_of[change] = was
        added, removed = len(now.keys() - was.keys()), len(was.keys() - now.keys())
        changed = sum(was[record] != now[record] for record in was.keys() & now.keys())
        told = (made["rows_added"], made["rows_changed"], made["rows_removed"])
        if told != (added, changed, removed):
            raise Fault(f"change {made['seq']} says {told} rows added, changed, removed, but did {(added, changed, removed)}")
        rows_of[writer] = now
        states.append({record: row for rows in rows_of.values() for record, row in rows.items()})
        change.found = made
    return states


def found_by_seq(asked):
    return {change.found["seq"]: change for change in asked if hasattr(change, "found")}


def check_order(changes, asked):
    by_seq = found_by_seq(asked)
    latest = 0
    for made in changes:
        change = by_seq[made["seq"]]
        if change.ended is not None and change.ended < latest:
            raise Fault(f"change {made['seq']} was acknowledged before an earlier number was asked for")
        latest = max(latest, change.begun)


def compare(what, found, expected):
    if found == expected:
        return
    odd = sorted(found.items() ^ expected.items())[:3]
    raise Fault(f"{what}: {len(found)} lines where the history makes {len(expected)}; among them {odd}")


def check_history(store, first, asked, counts):
    """The changes after the template's, and the states that they make."""
    changes = history(store)
    if [change["seq"] for change in changes] != list(range(1, len(changes) + 1)):
        raise Fault("the numbers of the changes have a gap")
    if len({change["uid"] for change in changes}) != len(changes):
        raise Fault("two changes have one uid")
    changes = changes[first:]
    states = replay(changes, asked)
    by_seq = {change["seq"]: change for change in changes}
    acknowledged = [change for change in asked if change.seq is not None]
    for change in acknowledged:
        made = by_seq.get(change.seq)
        if made is None or made["command"] != change.command or change.uid not in (None, made["uid"]):
            counts.lost += 1
            raise Fault(f"LOST: change {change.seq} ({change.command}) was acknowledged and is not in the history")
    check_order(changes, asked)
    return changes, states


def check_copies(where, first, states, counts):
    for copy in sorted(where.glob("copy-*")):
        if ".part-" in copy.name:  # a backup that was cut off; no name under which anyone looks for one
            counts.leftovers += re.search(r"\.part-\d+$", copy.name) is not None
            copy.unlink()
            continue
        if problems_by_sqlite(copy, "&immutable=1"):
            raise Fault(f"the backup {copy.name} is damaged")
        made = len(everything(copy, "&immutable=1")["change"]) - first
        held = {row[0].decode(): (row[1], row[2].decode()) for row in current_lines(copy)}
        compare(f"the backup {copy.name}", held, states[made - 1] if made > 0 else {})
        counts.backups += 1
        copy.unlink()


def current_lines(store):
    with connect(store, "&immutable=1") as database:
        database.text_factory = bytes
        return database.execute('select record, "count", notes from sherds where to_change is null').fetchall()


def check_undo(store, first, changes, states, asked):
    """Takes the newest change back, and that back too."""
    newest = found_by_seq(asked)[changes[-1]["seq"]]
    for target, expected in ((newest, states[-2] if len(states) > 1 else {}), (None, states[-1])):
        target = target or asked[-1]
        undo = Change(target.writer, f"undo {target.found['seq']}", target=target)
        undo.begun = time.monotonic()
        made = ask("undo", store, target.found["seq"])["changes"][0]
        undo.seq, undo.uid, undo.ended, undo.found = made["seq"], made["uid"], time.monotonic(), made
        asked.append(undo)
        compare("after undo", lines_by_sqlite(store), expected)


def check_round(store, where, first, asked, counts, thorough):
    changes, states = check_history(store, first, asked, counts)
    expected = states[-1] if states else {}
    compare("lines", lines_by_program(store), expected)
    compare("lines, read apart", lines_by_sqlite(store), expected)
    if problems := problems_by_sqlite(store):
        raise Fault(f"the store is damaged: {problems[0]}")
    check_copies(where, first, states, counts)
    backup = where / "after-round"
    ask("backup", store, backup)
    if thorough:
        ask("restore", backup, where / "restored.sherds")
        if everything(where / "restored.sherds") != everything(store):
            raise Fault("what was restored is not what was backed up")
        (where / "restored.sherds").unlink()
    backup.unlink()
    if changes:
        check_undo(store, first, changes, states, asked)
    counts.kept_unasked += sum(change.seq is None for change in asked if hasattr(change, "found"))
    counts.cut_off += sum(change.seq is None for change in asked)


def check_sight(store, first, asked):
    """These checks see a lost change: one that was never made, noted as acknowledged, is missed."""
    made_up = Change(asked[0].writer, "import sherds nothing.csv", rows={"never": (1, "made")})
    made_up.begun, made_up.seq, made_up.ended = time.monotonic(), 10**6, time.monotonic()
    try:
        check_history(store, first, [*asked, made_up], Counts())
    except Fault:
        return
    raise Fault("a change that was lost was not missed: these tests see nothing")


def slowness(store):
    """How much longer a short command takes than on a machine that has nothing else to do, 1 to 6."""
    start = time.monotonic()
    for _ in range(5):
        ask("history", store)
    return min(max((time.monotonic() - start) / (5 * USUAL_SECONDS), 1), 6)


def rounds(where, count, seed, progress=lambda text: None):
    """`count` rounds of kills; raises Fault with the round and its seed."""
    counts = Counts()
    template = where / "template.sherds"
    make_store(template)
    first, pace = len(history(template)), slowness(template)
    here = store = writers = asked = None
    for number in range(count):
        if number % ROUNDS_A_STORE == 0:
            if here:
                shutil.rmtree(here)
            here = where / f"store-{number}"
            here.mkdir()
            store = here / "tanyard.sherds"
            shutil.copy(template, store)
            writers = [Writer(f"w{i}", f"{seed}/{number}/{i}") for i in range(WRITERS + HTTP_WRITERS)]
            asked = []
        rng = random.Random(f"{seed}/{number}")
        before = len(asked)
        unsettled = Counts()
        with open(here / "acknowledged.jsonl", "a", encoding="utf-8") as log:
            load = Load(store, here, writers, counts, log, f"{seed}/{number}/load")
            try:
                load.run(rng.uniform(0.15, 0.9) * min(pace, 2), pace)
                asked += load.asked
                check_round(store, here, first, asked, unsettled, thorough=number % 5 == 4)
            except Fault as fault:
                raise Fault(f"round {number + 1} (seed {seed}): {fault}") from None
        for writer in writers:
            writer.forget()
        counts.rounds += 1
        counts.cut_off += sum(change.seq is None for change in asked[before:])
        counts.kept_unasked += sum(change.seq is None and hasattr(change, "found") for change in asked[before:])
        for name in ("backups", "leftovers", "lost"):
            setattr(counts, name, getattr(counts, name) + getattr(unsettled, name))
        progress(counts.text())
    check_sight(store, first, asked)
    return counts


def main():
    count = int(os.environ.get("ROUNDS", "25"))
    with folder() as where:
        print(rounds(where, count, os.environ.get("SEED", "1"), lambda text: print("  " + text, flush=True)).text())


if __name__ == "__main__":
    main()
