import { onDestroy } from 'svelte';
import { rows_address, type Row } from '../../lib/edits';
import { Resource } from '../../lib/resource.svelte';
import { ask } from './queue.svelte';
import { session } from '../../lib/session.svelte';

/** Rows of one kind that meet any of the conditions ("" is met by all), read anew when a change touches the kind. For the life of a component. */
export function rows_of(kind: string, conditions: () => readonly string[]): { readonly rows: readonly Row[]; readonly answer: Resource<Row[]> } {
  const answer = new Resource<Row[]>();
  const read = () => {
    const wanted = conditions();
    void answer.load(async ({ signal }) => {
      const lists = await Promise.all(wanted.map((one) => ask<{ rows: Row[] }>(rows_address(kind, one ? [one] : [], { limit: 1000 }), signal)));
      const all = lists.flatMap((list) => list.rows.map((row) => ({ ...row, kind })));
      return all.filter((row, at) => all.findIndex((one) => one.uid === row.uid) === at);
    });
  };
  read();
  onDestroy(
    session.listen({
      saved: (entry) => {
        if (entry.steps.some((step) => step.kind === kind)) read();
      },
      changed: read,
    }),
  );
  return {
    get rows() {
      return answer.value ?? [];
    },
    answer,
  };
}
