/** All rows of a kind of the site, read once, and again after each change of them. */
import * as api from '../../api';
import { Resource } from '../../lib/resource.svelte';
import { session } from '../../lib/session.svelte';

/** More than any site has of contexts, phases, bags or people. */
const kAll = 20_000;

class RowsOfKind {
  answer = new Resource<api.RowsResponse>();
  #begun = false;
  readonly kind: string;

  constructor(kind: string) {
    this.kind = kind;
  }

  begin(): void {
    if (this.#begun) return;
    this.#begun = true;
    this.read();
    session.listen({
      saved: (entry) => {
        if (entry.steps.some((step) => step.kind === this.kind)) this.read();
      },
      changed: () => this.read(),
    });
  }

  read(): void {
    void this.answer.load((options) => api.rows({ kind: this.kind, limit: kAll }, options));
  }

  get rows(): api.RowState[] {
    return this.answer.value?.rows ?? [];
  }
}

const kinds = new Map<string, RowsOfKind>();
export function rows_of(kind: string): RowsOfKind {
  const known = kinds.get(kind) ?? new RowsOfKind(kind);
  kinds.set(kind, known);
  return known;
}
