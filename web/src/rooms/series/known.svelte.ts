import * as api from '../../api';
import { Resource } from '../../lib/resource.svelte';

/** What is known that dates a piece: the rows, and the values of each key, asked for once while the page is open. */
class Known {
  rows = new Resource<api.EvidenceResponse>();
  #values = new Map<string, Resource<api.EvidenceResponse>>();

  read_rows_once(): void {
    if (!this.rows.value && !this.rows.loading && !this.rows.problem) this.read_rows();
  }

  read_rows(): void {
    void this.rows.load((options) => api.evidence({}, options));
  }

  /** The known values of a key; none before they have come. */
  values(key: string): readonly string[] {
    return this.#of(key).value?.values ?? [];
  }

  /** Suggestions are a help only: without them the field takes what is typed, and asks again at the next visit. */
  read_values_once(key: string): void {
    const of = this.#of(key);
    if (of.value === null && !of.loading) void of.load((options) => api.evidence({ values: key }, options));
  }

  #of(key: string): Resource<api.EvidenceResponse> {
    let of = this.#values.get(key);
    if (!of) this.#values.set(key, (of = new Resource()));
    return of;
  }
}

export const known = new Known();
