/** The series as it stands, read once and again after each change of it. */
import * as api from '../../api';
import { Resource } from '../../lib/resource.svelte';
import { session } from '../../lib/session.svelte';

export const kKinds = ['fabrics', 'forms', 'decorations'] as const;
export type CodeKind = (typeof kKinds)[number];

/** Kinds of rows whose change shows in the series. */
const kOfSeries = new Set(['fabrics', 'forms', 'decorations', 'dates', 'inclusions', 'equivalents', 'specimens', 'pictures', 'sherds']);

class Book {
  all = new Resource<api.SeriesResponse>();
  #begun = false;

  begin(): void {
    if (this.#begun) return;
    this.#begun = true;
    this.read();
    session.listen({
      saved: (entry) => {
        if (entry.steps.some((step) => kOfSeries.has(step.kind))) this.read();
      },
      changed: () => this.read(),
    });
  }

  read(): void {
    void this.all.load((options) => api.series({}, options));
  }

  fabric(code: string): api.FabricEntry | undefined {
    return this.all.value?.fabrics.find((one) => one.fabric === code);
  }

  /** Codes of a kind, those in use first. */
  codes(kind: CodeKind): string[] {
    const value = this.all.value;
    if (!value) return [];
    const entries =
      kind === 'fabrics'
        ? value.fabrics.map((one) => ({ code: one.fabric, lines: one.lines }))
        : kind === 'forms'
          ? value.forms.map((one) => ({ code: one.form, lines: one.lines }))
          : value.decorations.map((one) => ({ code: one.decoration, lines: one.lines }));
    return entries.sort((a, b) => b.lines - a.lines).map((one) => one.code);
  }
}

export const book = new Book();
