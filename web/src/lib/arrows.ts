/**
 * Lets the arrow keys move between the buttons of a table, and makes it one stop for the tab key: the button last used.
 * Left and right go along the row, up and down to the nearest in the next row, Home and End to the row's ends.
 */
export function arrow_keys(table: HTMLElement): () => void {
  let current: HTMLElement | null = null;

  const rows = () =>
    [...table.querySelectorAll<HTMLElement>('tr')]
      .map((row) => [...row.querySelectorAll<HTMLElement>('button, a[href]')].filter((item) => item.offsetParent))
      .filter((row) => row.length > 0);

  const settle = () => {
    const items = [...table.querySelectorAll<HTMLElement>('button, a[href]')];
    if (!current || !items.includes(current) || !current.offsetParent) {
      current = items.find((item) => item.offsetParent && item.closest('tbody')) ?? items[0] ?? null;
    }
    for (const item of items) item.tabIndex = item === current ? 0 : -1;
  };

  const on_focus = (event: FocusEvent) => {
    if (!(event.target instanceof HTMLElement) || event.target === table) return;
    if (current) current.tabIndex = -1;
    current = event.target;
    current.tabIndex = 0;
  };

  const on_key = (event: KeyboardEvent) => {
    if (event.altKey || event.ctrlKey || event.metaKey || event.shiftKey) return;
    const next = next_of(rows(), event.target as HTMLElement, event.key);
    if (!next) return;
    event.preventDefault();
    next.focus();
    next.scrollIntoView({ block: 'nearest', inline: 'nearest' });
  };

  const watcher = new MutationObserver(settle);
  watcher.observe(table, { childList: true, subtree: true });
  table.addEventListener('focusin', on_focus);
  table.addEventListener('keydown', on_key);
  settle();
  return () => {
    watcher.disconnect();
    table.removeEventListener('focusin', on_focus);
    table.removeEventListener('keydown', on_key);
  };
}

function next_of(rows: HTMLElement[][], from: HTMLElement, key: string): HTMLElement | null {
  const at = rows.findIndex((row) => row.includes(from));
  const row = rows[at];
  if (!row) return null;
  const place = row.indexOf(from);
  switch (key) {
    case 'ArrowLeft':
      return row[place - 1] ?? null;
    case 'ArrowRight':
      return row[place + 1] ?? null;
    case 'Home':
      return row[0] ?? null;
    case 'End':
      return row[row.length - 1] ?? null;
    case 'ArrowUp':
      return nearest(rows[at - 1], from);
    case 'ArrowDown':
      return nearest(rows[at + 1], from);
    default:
      return null;
  }
}

function nearest(row: HTMLElement[] | undefined, from: HTMLElement): HTMLElement | null {
  if (!row) return null;
  const middle = (item: HTMLElement) => {
    const box = item.getBoundingClientRect();
    return box.left + box.width / 2;
  };
  const wanted = middle(from);
  return row.reduce((best, item) => (Math.abs(middle(item) - wanted) < Math.abs(middle(best) - wanted) ? item : best));
}
