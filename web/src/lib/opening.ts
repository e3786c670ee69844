import type { Behind } from './panel.svelte';

/** What opens when a cell, a point or a bar is chosen: a context, or the lines that meet every condition. */
export type Opening = Behind;

export function lines_of(title: string, where: readonly string[], records?: readonly string[]): Opening {
  const name = title.charAt(0).toUpperCase() + title.slice(1);
  return { kind: 'rows', title: name, where: [...where], ...(records ? { records } : {}) };
}
