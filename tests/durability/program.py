"""The program under test, and a store's contents read in two ways: by the program, and by SQLite itself apart from it."""
import contextlib
import http.client
import json
import os
import pathlib
import shutil
import sqlite3
import subprocess
import tempfile
import urllib.parse

HERE = pathlib.Path(__file__).resolve().parent
ROOT = HERE.parent.parent
RUN_SECONDS = 60  # no command of these tests takes longer; one that does hangs
SITE = "X"


def binary():
    path = pathlib.Path(os.environ.get("SHERDWRIGHT", ROOT / "build/release/sherdwright")).resolve()
    if not path.exists():
        raise SystemExit(f"There is no program at {path}: build it, or name it in SHERDWRIGHT.")
    return str(path)


class Fault(Exception):
    """What should not have been, in one sentence."""


class Answer:
    def __init__(self, code, out, err):
        self.code, self.out, self.err = code, out, err

    def json(self):
        try:
            return json.loads(self.out)
        except ValueError:
            raise Fault(f"exit {self.code}, but this is no document: {self.out[:200]!r} {self.err[:200]!r}") from None

    def error(self):
        """The code of the first error of the document, "" where there is none."""
        errors = self.json()["errors"]
        return errors[0]["code"] if errors else ""


def command(*words):
    return [binary(), *map(str, words), "--json"]


def environment(**more):
    return os.environ | {"LC_ALL": "C.UTF-8"} | {name: str(value) for name, value in more.items()}


def run(*words, cwd=None, env=None):
    done = subprocess.run(command(*words), cwd=cwd, env=env or environment(), stdin=subprocess.DEVNULL,
                          capture_output=True, text=True, timeout=RUN_SECONDS)  # fmt: skip
    return Answer(done.returncode, done.stdout, done.stderr)


def ask(*words, cwd=None, env=None):
    """The document of a command that must succeed."""
    answer = run(*words, cwd=cwd, env=env)
    if answer.code != 0:
        raise Fault(f"{' '.join(map(str, words[:3]))}: exit {answer.code}: {answer.out[:400]} {answer.err[:400]}")
    return answer.json()


@contextlib.contextmanager
def folder(keep=False):
    path = pathlib.Path(tempfile.mkdtemp(prefix="sherd-durability-"))
    try:
        yield path
    except BaseException:
        print(f"  what was left: {path}", flush=True)
        raise
    else:
        if not keep:
            shutil.rmtree(path, ignore_errors=True)


def make_store(path):
    """A closed store of one site with four contexts, two fabrics, a form and a few lines of the template's own."""
    where = path.parent
    (where / "contexts.csv").write_text("context,deposit\n1,use\n2,dump\n3,silting\n4,use\n")
    (where / "fabrics.csv").write_text("fabric,earliest,latest,reference\ngrey-1,120,250,test\ngreen-1,1250,1400,test\n")
    (where / "forms.csv").write_text("form\njar\n")
    ask("new", path, "--site", SITE, cwd=where)
    for kind in ("contexts", "fabrics", "forms"):
        ask("import", path, f"{kind}.csv", "--as", kind, cwd=where)


def make_old_store(path, version):
    """A store as version `version` of the schema left it: its tables by the migrations, its rows from the store's tests."""
    words = {"$int": "integer", "$text": "text", "$bytes": "blob", "$strict": "strict"}
    with contextlib.closing(sqlite3.connect(path)) as database:
        database.executescript("create table meta (name text primary key, value text not null) strict;")
        for step in range(1, version + 1):
            text = (ROOT / f"src/store/migrations/{step:04}.sql").read_text()
            for word, meaning in words.items():
                text = text.replace(word, meaning)
            # Without the blanks around lines, as the program makes them: the schema's text is compared.
            database.executescript("\n".join(line.strip() for line in text.splitlines()))
        database.executescript((ROOT / f"src/store/testdata/version_{version}.sql").read_text())
        database.execute("insert into meta values ('schema_version', ?)", (str(version),))
        database.execute("pragma application_id = 0x53485244")
        database.commit()


def old_versions():
    """The versions of the schema of which the store's tests keep a store."""
    return sorted(int(file.stem.split("_")[1]) for file in (ROOT / "src/store/testdata").glob("version_*.sql"))


def lines_text(rows):
    """A table of sherd lines: {record: (count, notes)}."""
    text = "record,context,fabric,count,notes\n"
    for record, (count, notes) in rows.items():
        text += f"{record},{1 + count % 4},grey-1,{count},{notes}\n"
    return text


def shim(where):
    """The library that makes calls fail, built for this run."""
    library = pathlib.Path(where) / "fail_calls.so"
    compiler = shutil.which("cc") or shutil.which("gcc")
    if compiler is None:
        raise SystemExit("There is no C compiler: ./test installs it.")
    subprocess.run([compiler, "-shared", "-fPIC", "-O1", "-Wall", "-Wextra", "-Werror", "-o", library,
                    HERE / "fail_calls.c", "-ldl"], check=True)  # fmt: skip
    return library


# What a store holds


def history(store):
    return ask("history", store)["changes"]


def lines_by_program(store):
    """{record: (count, notes)} as `lines` tells it."""
    answer = ask("lines", store, "--limit", 1000000)
    rows = {line["record"]: (line["count"], line["notes"]) for line in answer["lines"]}
    if len(rows) != answer["total"] or len(answer["lines"]) != answer["total"]:
        raise Fault(f"lines says {answer['total']} and gives {len(answer['lines'])} of {len(rows)} records")
    return rows


def connect(store, extra=""):
    # Not "ro": a log or a journal left behind is to be read back, as the next user's program would.
    address = "file:" + urllib.parse.quote(str(store)) + "?mode=rw" + extra
    return contextlib.closing(sqlite3.connect(address, uri=True, timeout=10))


def lines_by_sqlite(store):
    with connect(store) as database:
        found = database.execute('select record, "count", notes from sherds where to_change is null').fetchall()
    rows = {record: (count, notes) for record, count, notes in found}
    if len(rows) != len(found):
        raise Fault(f"{len(found) - len(rows)} records are there twice")
    return rows


def problems_by_sqlite(store, extra=""):
    """What SQLite's own checks find, by a program that shares no code with ours but SQLite."""
    with connect(store, extra) as database:
        found = [row[0] for row in database.execute("pragma integrity_check") if row[0] != "ok"]
        found += [str(row) for row in database.execute("pragma foreign_key_check")]
    return found


def everything(store, extra=""):
    """Every row of every table, for comparing."""
    rows = {}
    with connect(store, extra) as database:
        database.text_factory = bytes
        schema = database.execute("select type, name, tbl_name, sql from sqlite_schema order by name").fetchall()
        rows["sqlite_schema"] = schema
        for kind, name, _, _ in schema:
            if kind != b"table":
                continue
            table = name.decode()
            rows[table] = database.execute(f'select * from "{table}" not indexed').fetchall()
        for pragma in ("application_id", "user_version"):
            rows[pragma] = database.execute(f"pragma {pragma}").fetchone()
    return rows


# The server


class Gone(Exception):
    """The server did not answer to the end."""


class Client:
    """One session with a server, as its page has it."""

    def __init__(self, url):
        parts = urllib.parse.urlsplit(url)
        self.host = parts.netloc
        status, headers, _ = self.request("GET", parts.path + "?" + parts.query)
        if status != 303:
            raise Fault(f"the server answered its own address with {status}")
        self.cookie = headers["Set-Cookie"].split(";")[0]

    def request(self, method, path, body=None):
        headers = {"Origin": f"http://{self.host}"}
        if getattr(self, "cookie", None):
            headers["Cookie"] = self.cookie
        if body is not None:
            headers["Content-Type"] = "application/json"
            body = json.dumps(body)
        connection = http.client.HTTPConnection(self.host, timeout=RUN_SECONDS)
        try:
            connection.request(method, path, body, headers)
            answer = connection.getresponse()
            return answer.status, answer.headers, answer.read()
        except (OSError, http.client.HTTPException) as error:
            raise Gone(str(error)) from None
        finally:
            connection.close()

    def ask(self, method, path, body=None):
        status, _, text = self.request(method, path, body)
        try:
            return status, json.loads(text)
        except ValueError:
            raise Gone("half an answer") from None

    def takes_writing(self):
        """Whether this version does `undo` over HTTP: an empty request is then refused for what it lacks."""
        status, _, _ = self.request("POST", "/api/undo", {})
        return status != 405
