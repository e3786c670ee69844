/** Whose queue a page sends: every page of a browser has its own, and a page that is gone leaves it to another. */
import type { Entry, Outbox } from './outbox';
import { kBrowserKeep } from './outbox_keep';
import { new_uid } from './edits';

const kKey = 'sherdwright-page';
const lock_name = (owner: string) => `sherdwright-outbox-${owner}`;

/** Holds the lock of a name for as long as the page lives; false where another page has it. */
function hold(owner: string): Promise<boolean> {
  if (!('locks' in navigator)) return Promise.resolve(true);
  return new Promise((told) => {
    void navigator.locks.request(lock_name(owner), { ifAvailable: true }, (lock) => {
      told(lock !== null);
      return lock === null ? undefined : new Promise<void>(() => {});
    });
  });
}

/** The name that this page had before it was loaded again, unless a copy of it has that name now. It begins with the site. */
export async function own_name(site: string): Promise<string> {
  let before: string | null = null;
  try {
    before = sessionStorage.getItem(kKey);
  } catch {
    before = null;
  }
  if (!before?.startsWith(`${site}:`)) before = null;
  const owner = before && (await hold(before)) ? before : `${site}:${new_uid()}`;
  if (owner !== before) await hold(owner);
  try {
    sessionStorage.setItem(kKey, owner);
  } catch {
    // Without storage a page that is loaded again has a new name, and takes over what the old one left.
  }
  return owner;
}

/** Without locks a page is taken for gone where its entries are this old; sent twice, the program takes them once. */
const kLeft = 60_000;

/** Takes over the entries for the same site of pages that are gone. */
export async function adopt_left(outbox: Outbox, site: string): Promise<void> {
  const everything = await kBrowserKeep.everything().catch(() => [] as Entry[]);
  const all = everything.filter((one) => one.owner !== outbox.owner && one.owner.startsWith(`${site}:`)).sort((a, b) => a.id - b.id);
  if (!('locks' in navigator)) return outbox.adopt(all.filter((one) => one.id < (Date.now() - kLeft) * 1000));
  for (const owner of new Set(all.map((one) => one.owner))) {
    await navigator.locks.request(lock_name(owner), { ifAvailable: true }, async (lock) => {
      if (lock) await outbox.adopt(all.filter((one) => one.owner === owner));
    });
  }
}
