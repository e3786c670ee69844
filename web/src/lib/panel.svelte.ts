/** The side panel: the rows behind a number, or a context with its reasons. It stands beside the record. */

export interface RowsBehind {
  kind: 'rows';
  title: string;
  /** Conditions, all of which a line meets: "context=1013". */
  where: string[];
  /** Only these of the lines, where given. */
  records?: readonly string[];
  /** Sentences that say why. */
  why?: readonly string[];
  /** The column that the question is about. */
  column?: string;
}
export interface ContextBehind {
  kind: 'context';
  context: string;
}
/** A sample of the chemistry: its readings and its sherd. */
export interface SampleBehind {
  kind: 'sample';
  sample: string;
  record: string;
}
/** Several samples, each of which opens. */
export interface SamplesBehind {
  kind: 'samples';
  title: string;
  samples: readonly string[];
}
/** A page of the guide, beside the work. */
export interface HelpBehind {
  kind: 'help';
  page: string;
  at?: string | null;
}
export type Behind = RowsBehind | ContextBehind | SampleBehind | SamplesBehind | HelpBehind;

class Panel {
  shown = $state.raw<Behind | null>(null);
  /** What was shown before, the last of them last: opened from within the panel. */
  trail = $state.raw<readonly Behind[]>([]);
  #opener: HTMLElement | SVGElement | null = null;

  /** Shows it in place of what is shown. What opened it is marked, and gets the focus back when the panel closes. */
  open(behind: Behind): void {
    const active = document.activeElement;
    const from = active instanceof HTMLElement || active instanceof SVGElement ? active : null;
    if (from?.closest('aside') && this.shown) {
      this.trail = [...this.trail, this.shown];
    } else {
      this.trail = [];
      this.#mark(from);
    }
    this.shown = behind;
  }

  rows(title: string, where: string[], more: Omit<Partial<RowsBehind>, 'kind' | 'title' | 'where'> = {}): void {
    this.open({ kind: 'rows', title, where, ...more });
  }

  context(context: string): void {
    this.open({ kind: 'context', context });
  }

  sample(sample: string, record: string): void {
    this.open({ kind: 'sample', sample, record });
  }

  samples(title: string, samples: readonly string[]): void {
    this.open({ kind: 'samples', title, samples });
  }

  help(page: string, at: string | null = null): void {
    this.open({ kind: 'help', page, at });
  }

  back(): void {
    const last = this.trail[this.trail.length - 1];
    if (!last) return;
    this.trail = this.trail.slice(0, -1);
    this.shown = last;
  }

  close(): void {
    if (this.shown === null) return;
    const opener = this.#opener;
    this.shown = null;
    this.trail = [];
    this.#mark(null);
    if (opener?.isConnected) opener.focus();
    else document.getElementById('main')?.focus();
  }

  /** Where the panel lies over the page's foot, moves what opened it above the panel's upper edge. */
  clear_of(top: number): void {
    const box = this.#opener?.getBoundingClientRect();
    if (box && box.bottom > top) window.scrollBy({ top: box.bottom - top + 48 });
  }

  #mark(opener: HTMLElement | SVGElement | null): void {
    delete this.#opener?.dataset.behind;
    this.#opener = opener;
    if (opener) opener.dataset.behind = '';
  }
}

export const panel = new Panel();
