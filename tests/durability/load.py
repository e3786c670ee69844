"""All that is at work on one store while it is killed: writers, a server with its readers and writers, a copier."""
import json
import random
import subprocess
import threading
import time

from program import Client, Fault, Gone, command, environment, lines_text

WRITERS = 3
HTTP_WRITERS = 2
KILL_EVERY = 0.06  # seconds, on average; a command takes 0.01 to 0.05
LONG_IMPORT = 3000  # rows; its transaction is long enough to be hit in the middle


class Counts:
    def __init__(self):
        self.rounds = self.kills = self.asked = self.acknowledged = self.busy = self.cut_off = 0
        self.over_http = self.asked_again = self.kept_unasked = self.lost = self.backups = self.read = self.leftovers = 0

    def text(self):
        return (f"{self.rounds} rounds, {self.kills} processes killed, {self.asked} changes asked for, {self.acknowledged} "
                f"acknowledged ({self.over_http} over HTTP, {self.asked_again} of these asked for again), {self.lost} lost; "
                f"{self.cut_off} cut off, of which {self.kept_unasked} were kept whole; {self.busy} told busy; {self.backups} backups opened, "
                f"{self.read} reads over HTTP")  # fmt: skip


class Change:
    """One change that a writer asked for. `rows`: what it sets; an undo has `target`, the change it takes back."""

    def __init__(self, writer, command_text, rows=None, target=None):
        self.writer, self.command, self.rows, self.target = writer, command_text, rows, target
        self.begun = self.ended = self.seq = self.uid = None


class Writer:
    """A person at work: one change after the other, on records of its own."""

    def __init__(self, name, seed):
        self.name, self.random = name, random.Random(seed)
        self.number = 0
        self.rows = {}  # as its acknowledged changes make them
        self.before = {}  # as they were before the last one
        self.last = None  # the last change asked for, where it was acknowledged
        self.unanswered = None  # (change, path, body) that a server took and never answered

    def next_over_http(self):
        """(change, path, body): lines added and cells altered by one change, or the last one taken back."""
        self.number += 1
        what = self.random.random()
        if self.last is not None and what < 0.25:
            return Change(self, f"undo {self.last.seq}", target=self.last), "/api/undo", {"change": self.last.seq}
        name = f"{self.name}-{self.number}"
        rows = {f"{name}-{i}": (self.random.randint(1, 99), f"{name} {i}") for i in range(self.random.randint(1, 12))}
        steps = [{"do": "add", "kind": "sherds",
                  "values": {"record": record, "context": str(1 + count % 4), "fabric": "grey-1", "count": str(count),
                             "notes": notes}} for record, (count, notes) in rows.items()]  # fmt: skip
        if self.rows and what < 0.65:
            for record in self.random.sample(sorted(self.rows), min(len(self.rows), 5)):
                was, rows[record] = self.rows[record], (self.random.randint(1, 99), f"{name} anew")
                steps += [{"do": "set", "kind": "sherds", "row": record, "column": column, "seen": str(seen),
                           "value": str(value)}
                          for column, seen, value in zip(("count", "notes"), was, rows[record])]  # fmt: skip
        body = {"change": f"{self.random.getrandbits(128):032x}", "label": f"edits {name}", "steps": steps}
        return Change(self, body["label"], rows=rows), "/api/edits", body

    def next(self, where):
        """(change, words of the command)"""
        self.number += 1
        what = self.random.random()
        if self.last is not None and what < 0.25:
            change = Change(self, f"undo {self.last.seq}", target=self.last)
            return change, ["undo", None, self.last.seq]
        name = f"{self.name}-{self.number}"
        update = bool(self.rows) and what < 0.65
        count = LONG_IMPORT if self.random.random() < 0.04 else self.random.randint(1, 40)
        rows = {f"{name}-{i}": (self.random.randint(1, 99), f"{name} {i}") for i in range(count)}
        if update:
            for record in self.random.sample(sorted(self.rows), min(len(self.rows), self.random.randint(1, 20))):
                rows[record] = (self.random.randint(1, 99), f"{name} anew")
        text = lines_text(rows)
        if not update:
            text += f"{name}-bad,no such context,grey-1,1,\n"  # refused; the others go in by --keep-good
        file = where / f"{name}.csv"
        file.write_text(text)
        change = Change(self, f"import sherds {file}", rows=rows)
        option = "--update" if update else "--keep-good"
        return change, ["import", None, file, "--as", "sherds", option]

    def acknowledged(self, change):
        self.before, self.rows = self.rows, played(change, self.rows, self.before)
        self.last = change

    def forget(self):
        """What the last change did is no longer known here."""
        self.last = None


def played(change, rows, before):
    return before if change.target is not None else rows | change.rows


class Load:
    """All that is at work on the store in one round."""

    def __init__(self, store, where, writers, counts, log, seed):
        self.store, self.where, self.writers, self.counts, self.log = store, where, writers, counts, log
        self.random = random.Random(seed)
        self.lock = threading.Lock()
        self.running = set()
        self.over = threading.Event()
        self.asked = []
        self.faults = []
        self.client = None

    def start(self, words):
        with self.lock:
            if self.over.is_set():
                return None
            words = [self.store if word is None else word for word in words]
            process = subprocess.Popen(command(*words), cwd=self.where, env=environment(), stdin=subprocess.DEVNULL,
                                       stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)  # fmt: skip
            self.running.add(process)
            return process

    def finish(self, process):
        out, err = process.communicate()
        with self.lock:
            self.running.discard(process)
        return process.returncode, out, err

    def kill_one(self):
        with self.lock:
            alive = [process for process in self.running if process.poll() is None]
            if alive:
                self.random.choice(alive).kill()
                self.counts.kills += 1

    def kill_all(self):
        with self.lock:
            self.over.set()
            for process in self.running:
                if process.poll() is None:
                    process.kill()
                    self.counts.kills += 1

    def guarded(self, work, *arguments):
        def run():
            try:
                work(*arguments)
            except Gone:
                pass
            except Fault as fault:
                self.faults.append(str(fault))

        thread = threading.Thread(target=run)
        thread.start()
        return thread

    def note(self, writer, change, seq, uid, http):
        twin = next((one for one in self.asked if one.seq == seq and one is not change), None)
        if twin is not None:
            raise Fault(f"{change.command} was acknowledged as change {seq}, as {twin.command} was before")
        change.seq, change.uid, change.ended = seq, uid, time.monotonic()
        with self.lock:
            self.counts.acknowledged += 1
            self.counts.over_http += http
            self.log.write(json.dumps({"seq": seq, "uid": uid, "command": change.command, "rows": change.rows}) + "\n")
            self.log.flush()
        writer.acknowledged(change)

    def ask_for(self, change):
        change.begun = time.monotonic()
        with self.lock:
            self.asked.append(change)
            self.counts.asked += 1

    def write(self, writer):
        while not self.over.is_set():
            change, words = writer.next(self.where)
            process = self.start(words)
            if process is None:
                writer.forget()
                return
            self.ask_for(change)
            code, out, err = self.finish(process)
            if code == 0:
                answer = json.loads(out)
                made = answer["changes"][0] if change.target is not None else None
                self.note(writer, change, made["seq"] if made else answer["change"], made and made["uid"], http=False)
                if self.random.random() < 0.3:
                    self.see(change)
                continue
            writer.forget()
            if code == -9:
                continue
            if code == 1 and json.loads(out)["errors"][0]["code"] == "store_busy":
                with self.lock:
                    self.counts.busy += 1
                continue
            raise Fault(f"{change.command}: exit {code}: {out[:300]} {err[:300]}")

    def see(self, change):
        """An acknowledged change is seen at once by a server that had the store open before."""
        client = self.client
        if client is None or change.rows is None:
            return
        status, answer = client.ask("GET", f"/api/changes?since={change.seq - 1}")
        if status == 200 and not any(one["seq"] == change.seq for one in answer["changes"]):
            raise Fault(f"change {change.seq} was acknowledged, and the server's history did not have it")
        if status not in (200, 503, 429):
            raise Fault(f"GET /api/changes: {status} {answer['errors']}")
        self.counts.read += 1

    def write_over_http(self, writer):
        client = self.client
        while client is not None and client is self.client and not self.over.is_set():
            if writer.unanswered is not None:  # asked for again under the same number: done once, whatever happened
                change, path, body = writer.unanswered
            else:
                change, path, body = writer.next_over_http()
                self.ask_for(change)
            try:
                status, answer = client.ask("POST", path, body)
            except Gone:
                writer.forget()
                if change.target is None:
                    writer.unanswered = (change, path, body)
                else:
                    writer.rows = {}  # whether they are as they were is not known
                return
            again, writer.unanswered = writer.unanswered is not None, None
            if status == 200:
                with self.lock:
                    self.counts.asked_again += again
                made = answer["changes"][0] if change.target is not None else None
                self.note(writer, change, made["seq"] if made else answer["seq"], made and made["uid"], http=True)
                if again:  # the checks between the rounds may have taken it back, and that back
                    writer.forget()
                continue
            writer.forget()
            if status not in (503, 429):
                raise Fault(f"{path}: {status} {answer['errors']}")
            with self.lock:
                self.counts.busy += 1

    def read(self):
        client = self.client
        while client is not None and client is self.client and not self.over.is_set():
            path = self.random.choice(("/api/lines?limit=50", "/api/tally?by=fabric", "/api/site", "/api/findings"))
            status, answer = client.ask("GET", path)
            if status not in (200, 503, 429):
                raise Fault(f"GET {path}: {status} {answer['errors']}")
            with self.lock:
                self.counts.read += 1

    def serve(self):
        """A server, its readers and writers; when it is killed, another one."""
        while not self.over.is_set():
            process = self.start(["serve", None, "--port", "0"])
            if process is None:
                return
            url = process.stdout.readline().strip()
            threads = []
            if url.startswith("http"):
                try:
                    self.client = Client(url)
                    threads = [self.guarded(self.read)]
                    if self.client.takes_writing():
                        threads += [self.guarded(self.write_over_http, writer) for writer in self.writers[WRITERS:]]
                except Gone:
                    pass
            code, out, err = self.finish(process)
            self.client = None
            for thread in threads:
                thread.join()
            if code != -9:
                raise Fault(f"serve ended by itself: {code} {out[:300]} {err[:300]}")

    def copy(self):
        number = 0
        while not self.over.is_set():
            number += 1
            backup = self.where / f"copy-{time.monotonic_ns()}"
            for words in (["backup", None, backup], ["restore", backup, f"{backup}.restored"]):
                process = self.start(words)
                if process is None:
                    return
                code, out, err = self.finish(process)
                if code == -9:
                    break
                if code != 0 and json.loads(out)["errors"][0]["code"] != "store_busy":
                    raise Fault(f"{words[0]}: exit {code}: {out[:300]} {err[:300]}")
                if code != 0:
                    break

    def run(self, seconds, pace=1.0):
        """`pace`: how much slower than usual the machine is; kills come so much less often."""
        threads = [self.guarded(self.write, writer) for writer in self.writers[:WRITERS]]
        threads += [self.guarded(self.serve), self.guarded(self.copy)]
        until = time.monotonic() + seconds
        while (left := until - time.monotonic()) > 0:
            time.sleep(min(left, self.random.expovariate(1 / (KILL_EVERY * pace))))
            if left > 0.02:
                self.kill_one()
        self.kill_all()
        for thread in threads:
            thread.join()
        if self.faults:
            raise Fault("; ".join(self.faults))
