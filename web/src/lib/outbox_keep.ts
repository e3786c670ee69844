/** The browser's own database: changes not sent yet, and what was typed and not taken. */
import type { Entry, Keep } from './outbox';

const kName = 'sherdwright-recording';
const kEntries = 'entries';
const kTyped = 'typed';

let opened: Promise<IDBDatabase> | null = null;

function open(): Promise<IDBDatabase> {
  opened ??= new Promise((resolve, reject) => {
    const request = indexedDB.open(kName, 1);
    request.onupgradeneeded = () => {
      request.result.createObjectStore(kEntries, { keyPath: 'id' });
      request.result.createObjectStore(kTyped);
    };
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('no database'));
    request.onblocked = () => reject(new Error('the database is held by another page'));
  });
  return opened;
}

async function write(store: string, act: (store: IDBObjectStore) => void): Promise<void> {
  const database = await open();
  return new Promise((resolve, reject) => {
    const transaction = database.transaction(store, 'readwrite', { durability: 'strict' });
    act(transaction.objectStore(store));
    transaction.oncomplete = () => resolve();
    transaction.onerror = () => reject(transaction.error ?? new Error('not kept'));
    transaction.onabort = () => reject(transaction.error ?? new Error('not kept'));
  });
}

async function read<T>(store: string, ask: (store: IDBObjectStore) => IDBRequest<T>): Promise<T> {
  const database = await open();
  return new Promise((resolve, reject) => {
    const request = ask(database.transaction(store, 'readonly').objectStore(store));
    request.onsuccess = () => resolve(request.result);
    request.onerror = () => reject(request.error ?? new Error('not read'));
  });
}

/** Entries are plain data; what the page wraps around them must not go into the database. */
const plain = <T>(value: T): T => JSON.parse(JSON.stringify(value)) as T;

export const kBrowserKeep: Keep & { everything(): Promise<Entry[]> } = {
  everything: () => read(kEntries, (store) => store.getAll() as IDBRequest<Entry[]>),
  all: async (owner) => (await kBrowserKeep.everything()).filter((one) => one.owner === owner),
  put: (entry) => write(kEntries, (store) => void store.put(plain(entry))),
  drop: (id) => write(kEntries, (store) => void store.delete(id)),
};

/** What was typed and is not in the record, by a key of the page's own. */
export async function keep_typed(key: string, value: unknown): Promise<void> {
  await write(kTyped, (store) => void (value === null ? store.delete(key) : store.put(plain(value), key)));
}
export async function read_typed<T>(key: string): Promise<T | null> {
  return ((await read(kTyped, (store) => store.get(key) as IDBRequest<T | undefined>)) ?? null) as T | null;
}
