"""What each change wrote, hashed apart from the program: docs/design/0006-content-hash.md, in Python alone."""
import hashlib
import struct

from program import connect

KEY = b"sherdwright 0006"
MASK = (1 << 64) - 1
OWN = ("uid", "site", "from_change", "to_change")


def siphash128(data, key=KEY):
    """SipHash-2-4 with 128 bits, by its authors' reference (github.com/veorq/SipHash), as (low, high)."""
    k0, k1 = struct.unpack("<QQ", key)
    v = [k0 ^ 0x736F6D6570736575, k1 ^ 0x646F72616E646F6D ^ 0xEE, k0 ^ 0x6C7967656E657261, k1 ^ 0x7465646279746573]

    def turn(x, by):
        return ((x << by) | (x >> (64 - by))) & MASK

    def rounds(count):
        for _ in range(count):
            v[0] = (v[0] + v[1]) & MASK
            v[1] = turn(v[1], 13) ^ v[0]
            v[0] = turn(v[0], 32)
            v[2] = (v[2] + v[3]) & MASK
            v[3] = turn(v[3], 16) ^ v[2]
            v[0] = (v[0] + v[3]) & MASK
            v[3] = turn(v[3], 21) ^ v[0]
            v[2] = (v[2] + v[1]) & MASK
            v[1] = turn(v[1], 17) ^ v[2]
            v[2] = turn(v[2], 32)

    whole = len(data) // 8 * 8
    last = data[whole:] + bytes(7 - (len(data) - whole)) + bytes([len(data) & 0xFF])
    for (word,) in struct.iter_unpack("<Q", data[:whole] + last):
        v[3] ^= word
        rounds(2)
        v[0] ^= word
    v[2] ^= 0xEE
    rounds(4)
    low = v[0] ^ v[1] ^ v[2] ^ v[3]
    v[1] ^= 0xDD
    rounds(4)
    return low, v[0] ^ v[1] ^ v[2] ^ v[3]


def tag(name):
    return struct.pack("<Q", siphash128(name.encode())[0])


def with_length(text):
    return struct.pack("<Q", len(text)) + text


def number(pair):
    return pair[0] | pair[1] << 64


def version_hash(table, site, uid, cells):
    data = tag(table) + with_length(site) + with_length(uid)
    for name in sorted(cells):
        value = cells[name]
        if isinstance(value, int):
            data += tag(name) + b"\1" + struct.pack("<q", value)
        elif value is not None:
            data += tag(name) + b"\2" + with_length(value)
    return number(siphash128(data))


def end_hash(table, site, uid, begun):
    return number(siphash128(tag(table) + with_length(site) + with_length(uid) + b"\3" + struct.pack("<q", begun)))


def all_sums(database):
    """{change: {table: [wrote, ended]}}"""
    sites = dict(database.execute("select id, code from site"))
    sums = {}
    for (name,) in database.execute("select name from sqlite_schema where type = 'table'").fetchall():
        table = name.decode()
        columns = [row[1].decode() for row in database.execute(f'pragma table_info("{table}")')]
        if not set(OWN) <= set(columns):
            continue
        for row in database.execute(f'select * from "{table}"'):
            cells = dict(zip(columns, row))
            uid, site, begun, ended = (cells.pop(own) for own in OWN)
            of = sums.setdefault(begun, {}).setdefault(table, [0, 0])
            of[0] = (of[0] + version_hash(table, sites[site], uid, cells)) % (1 << 128)
            if ended is not None:
                of = sums.setdefault(ended, {}).setdefault(table, [0, 0])
                of[1] = (of[1] + end_hash(table, sites[site], uid, begun)) % (1 << 128)
    return sums


def differences(store):
    """Where the hashes that the store keeps are not those made here; one sentence each."""
    found = []
    with connect(store, "&immutable=1") as database:
        database.text_factory = bytes
        sums = all_sums(database)
        kept = {row[0]: row[1:] for row in database.execute("select seq, sums, counters, late, link from change_hash")}
        copies = dict(database.execute("select change, copy from merged_change"))
        before = ""
        changes = database.execute("select seq, uid, at, who, origin, command, undoes, rows_added, rows_changed, "
                                   "rows_removed from change order by seq").fetchall()  # fmt: skip
    for change in changes:
        if change[0] not in kept:
            found.append(f"change {change[0]} has none")
            continue
        noted, counters, late, link = kept[change[0]]
        due = "\n".join(f"{table} {wrote:032x} {ended:032x}" for table, (wrote, ended) in sorted(sums.get(change[0], {}).items()))
        if due != noted.decode():
            found.append(f"change {change[0]}: {noted!r} is kept, {due!r} is due")
        parts = [before, *change, noted, counters, late, copies.get(change[0])]
        parts = [part if isinstance(part, bytes) else ("" if part is None else str(part)).encode() for part in parts]
        before = hashlib.sha256(b"".join(b"%d:%s\n" % (len(part), part) for part in parts)).hexdigest()
        if before != link.decode():
            found.append(f"change {change[0]}: its link is not the one that is due")
    if set(kept) - {change[0] for change in changes}:
        found.append("there are hashes of changes that are not there")
    return found
