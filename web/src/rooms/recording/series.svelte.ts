import type { Code } from '../../lib/codes';
import { rows_address, send, type Row } from '../../lib/edits';
import { years } from '../../lib/format';
import { kParts, type Codes } from '../../lib/fields';

type Kind = 'fabrics' | 'forms' | 'decorations';
const kKey: Record<Kind, string> = { fabrics: 'fabric', forms: 'form', decorations: 'decoration' };
const kOne: Record<string, Kind> = { fabric: 'fabrics', form: 'forms', decoration: 'decorations' };
const kMost = 10_000;

const number = (text: string | undefined) => (text ? Number(text) : null);

/** What the codes of the series say, for completing them and for their cards. */
class Series {
  rows = $state.raw<Record<Kind, readonly Row[]>>({ fabrics: [], forms: [], decorations: [] });
  /** Other names of a fabric, from its equivalents in other series. */
  #others = $state.raw<ReadonlyMap<string, readonly string[]>>(new Map());
  #reading: Promise<void> | null = null;

  read(): Promise<void> {
    this.#reading ??= this.#read().finally(() => (this.#reading = null));
    return this.#reading;
  }

  codes = $derived.by((): Record<Codes, readonly Code[]> => ({
    fabrics: this.rows.fabrics.filter(used).map((row) => this.#code(row, 'fabric', row.values.ware_group)),
    forms: this.rows.forms.filter(used).map((row) => this.#code(row, 'form', row.values.vessel_class)),
    decorations: this.rows.decorations.filter(used).map((row) => this.#code(row, 'decoration', row.values.technique)),
    parts: kParts.map((code) => ({ code, name: '', synonyms: [], note: '' })),
  }));

  card(kind: Kind, code: string): Row | null {
    return this.rows[kind].find((row) => row.values[kKey[kind]] === code) ?? null;
  }

  kind_of(column: string): Kind | null {
    return kOne[column] ?? null;
  }

  #code(row: Row, key: string, group: string | undefined): Code {
    const code = row.values[key] ?? '';
    const range = years(number(row.values.earliest), number(row.values.latest));
    const provisional = row.values.status === 'provisional' ? 'provisional' : '';
    return {
      code,
      name: row.values.name ?? '',
      synonyms: [...(this.#others.get(code) ?? []), group ?? ''].filter(Boolean),
      note: [group, range, provisional].filter(Boolean).join(', '),
    };
  }

  async #read(): Promise<void> {
    const list = async (kind: string) => {
      const reply = await send('GET', rows_address(kind, [], { limit: kMost }));
      return reply.status === 200 ? ((reply.body as { rows: Row[] }).rows ?? []) : [];
    };
    try {
      const [fabrics, forms, decorations, equivalents] = await Promise.all(['fabrics', 'forms', 'decorations', 'equivalents'].map(list));
      const others = new Map<string, string[]>();
      for (const row of equivalents ?? []) {
        const fabric = row.values.fabric ?? '';
        others.set(fabric, [...(others.get(fabric) ?? []), row.values.code ?? '']);
      }
      this.#others = others;
      this.rows = { fabrics: fabrics ?? [], forms: forms ?? [], decorations: decorations ?? [] };
    } catch {
      // Without an answer the codes known before stay; the grid says itself that the program is away.
    }
  }
}

function used(row: Row): boolean {
  return row.values.status !== 'retired';
}

export const series = new Series();
