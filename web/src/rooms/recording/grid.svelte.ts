import { flushSync } from 'svelte';
import { counted_uses, match_codes, type Match } from '../../lib/codes';
import type { Step, Values } from '../../lib/edits';
import { read_amount, without_doubt } from '../../lib/typed';
import { fields_of, type Field, type Level } from '../../lib/fields';
import { read_paste } from './paste';
import { series } from './series.svelte';
import { session } from '../../lib/session.svelte';
import type { Line, Sheet } from './sheet.svelte';
import { kWords } from './words';

/** Below the cell one is in: codes to choose from, how a number is read, what is wrong. */
export interface Choice {
  /** What goes into the cell. */
  text: string;
  note: string;
  /** Makes the code, where the series does not have it. */
  made: Step | null;
}

/** Where one is in the lines, what is being typed there, and the keys. */
export class Grid {
  sheet = $state.raw() as Sheet;
  level = $state<Level>('basic');
  at = $state(0);
  /** The line one is in, wherever others' lines push it; and the other end of what is chosen. */
  #current = $state.raw<Line | null>(null);
  #other = $state.raw<Line | null>(null);
  /** Where the line was, for when it is gone. */
  #was = 0;
  /** null: the cell shows what stands there, and the first letter replaces it. */
  typing = $state<string | null>(null);
  /** The arrows move in the text, not from cell to cell. */
  in_text = $state(false);
  /** Which of the choices, and whether the hands chose it: else the likeliest is taken as it stands. */
  chosen = $state(-1);
  input: HTMLInputElement | null = null;
  /** Brings a row into sight, so that it is drawn. */
  reveal: (row: number) => void = () => {};
  /** The column in which the hands began the line. */
  #home = 1;
  #moved = false;

  fields = $derived(fields_of(this.level));
  field = $derived(this.fields[Math.min(this.at, this.fields.length - 1)] as Field);
  row = $derived.by(() => {
    const at = this.#current ? this.sheet.lines.indexOf(this.#current) : -1;
    return at >= 0 ? at : Math.min(this.#was, this.sheet.lines.length - 1);
  });
  line = $derived(this.sheet.lines[this.row] as Line);
  anchor = $derived.by(() => {
    const at = this.#other ? this.sheet.lines.indexOf(this.#other) : -1;
    return at >= 0 ? at : this.row;
  });
  selected = $derived.by((): [number, number] => [Math.min(this.row, this.anchor), Math.max(this.row, this.anchor)]);
  chosen_lines = $derived(this.sheet.lines.slice(this.selected[0], this.selected[1] + 1));
  uses = $derived.by(() => {
    const column = this.field.column;
    return counted_uses(this.sheet.lines.map((line) => without_doubt(line.text(column))[0]));
  });
  choices = $derived.by((): Choice[] => (this.typing === null ? [] : this.#choices(this.typing)));
  reading = $derived.by(() => {
    const amount = this.field.amount;
    if (!amount || this.typing === null || this.typing.trim() === '') return null;
    return read_amount(this.typing, amount);
  });

  constructor(sheet: Sheet, level: Level) {
    this.sheet = sheet;
    this.level = level;
    this.at = 1;
  }

  go(row: number, at: number, extend = false): void {
    const lines = this.sheet.lines.length;
    this.#stand(Math.max(0, Math.min(row, lines - 1)), extend);
    this.at = Math.max(0, Math.min(at, this.fields.length - 1));
    this.typing = null;
    this.in_text = false;
    this.chosen = -1;
    this.reveal(this.row);
    flushSync();
    this.#moved = true;
    this.input?.focus({ preventScroll: true });
    this.input?.select();
  }

  #stand(row: number, extend: boolean): void {
    this.#was = row;
    this.#current = this.sheet.lines[row] ?? null;
    if (!extend) this.#other = this.#current;
  }

  /** To the next line, while the hands are elsewhere. */
  step(): void {
    if (this.row < this.sheet.lines.length - 1) this.#stand(this.row + 1, false);
  }

  /** The cell, from outside: a finding, a search, a matter to settle. */
  show(line: Line, column: string): void {
    const row = this.sheet.lines.indexOf(line);
    let at = this.fields.findIndex((field) => field.column === column);
    if (at < 0) {
      this.level = 'detailed';
      at = this.fields.findIndex((field) => field.column === column);
    }
    if (row >= 0) this.go(row, Math.max(0, at));
  }

  typed(text: string): void {
    this.typing = text;
    this.chosen = -1;
  }

  edit(): void {
    if (this.field.given) return;
    this.typing ??= this.line.text(this.field.column);
    this.in_text = true;
    flushSync();
    this.input?.setSelectionRange(this.typing.length, this.typing.length);
  }

  leave(): void {
    this.typing = null;
    this.in_text = false;
    this.chosen = -1;
  }

  /** Takes what is typed. True where something was. */
  take(everywhere = false): boolean {
    if (this.typing === null || this.field.given) return false;
    const { text, made } = this.#meant(this.typing);
    const { line, field } = this;
    this.leave();
    if (everywhere && this.chosen_lines.length > 1) this.sheet.commit_many(this.chosen_lines.filter((one) => one === line || !one.empty), field.column, text);
    else this.sheet.commit(line, field.column, text, made);
    return true;
  }

  empty_cells(): void {
    if (this.field.given) return;
    const lines = this.chosen_lines.filter((line) => line.text(this.field.column) !== '');
    this.sheet.commit_cells(lines.map((line) => [line, this.field.column, '']), kWords.label_empty(this.field.column, lines.length));
    this.leave();
  }

  /** The value of the line above, or of the first of those chosen, in all that are chosen. */
  fill_down(): void {
    if (this.field.given) return;
    this.take();
    const several = this.selected[1] > this.selected[0];
    const from = this.sheet.lines[several ? this.selected[0] : this.row - 1];
    if (!from) return;
    const lines = several ? this.chosen_lines.slice(1).filter((line) => !line.empty) : [this.line];
    const text = from.text(this.field.column);
    if (lines.length === 1 && lines[0]) this.sheet.commit(lines[0], this.field.column, text);
    else this.sheet.commit_many(lines, this.field.column, text);
    this.go(this.row, this.at, true);
  }

  /** The line again beneath the last: what it is, without what was counted on it. */
  duplicate(): void {
    this.take();
    if (this.line.empty) return;
    const left_out = new Set(['record', 'count', 'weight_g', 'vessels', 'rims', 'rim_percent', 'base_percent', 'checked_by', 'recorder', 'recorded_on']);
    const values: Values = {};
    for (const field of fields_of('detailed')) {
      const text = this.line.text(field.column);
      if (text && !left_out.has(field.column)) values[field.column] = text;
    }
    const line = this.sheet.add(values);
    this.show(line, 'count');
  }

  check(): void {
    const lines = this.chosen_lines.filter((line) => !line.draft);
    if (!session.initials) return session.say(kWords.who_first);
    this.sheet.commit_many(lines, 'checked_by', session.initials);
  }

  async paste(text: string): Promise<void> {
    const pasted = read_paste(text, this.fields, this.at, this.sheet.context);
    if (pasted.rows.length === 0) return session.say(kWords.nothing_pasted);
    this.leave();
    const on = pasted.headed ? [] : this.sheet.lines.slice(this.row, -1).slice(0, pasted.rows.length);
    const cells = on.flatMap((line, at) =>
      Object.entries(pasted.rows[at] ?? {}).map(([column, value]) => [line, column, value] as const),
    );
    if (cells.length) this.sheet.commit_cells(cells, kWords.label_paste(on.length));
    const rest = pasted.rows.slice(on.length);
    const added = rest.length ? this.sheet.add_all(rest, kWords.label_paste(rest.length)) : [];
    session.say(kWords.pasted(pasted));
    if (added[0]) this.show(added[0], this.field.column);
  }

  on_key(event: KeyboardEvent): void {
    if (event.isComposing) return;
    const ctrl = event.ctrlKey || event.metaKey;
    const done = ctrl || event.altKey ? this.#with_ctrl(event) : this.#plain(event);
    if (done) event.preventDefault();
    if (done) event.stopPropagation();
  }

  #with_ctrl(event: KeyboardEvent): boolean {
    const key = event.key.toLowerCase();
    if (event.altKey) {
      if (key !== 'arrowdown' || this.typing !== null) return false;
      this.typing = '';
      return true;
    }
    const last = this.sheet.lines.length - 1;
    switch (key) {
      case 'enter':
        this.take(true);
        this.go(this.row, this.at, true);
        return true;
      case 'd':
        if (event.shiftKey) this.duplicate();
        else this.fill_down();
        return true;
      case "'":
        this.fill_down();
        return true;
      case 'home':
        this.#move_to(0, 1, event.shiftKey);
        return true;
      case 'end':
        this.#move_to(last, this.at, event.shiftKey);
        return true;
      case 'arrowdown':
        this.#move_to(last, this.at, event.shiftKey);
        return true;
      case 'arrowup':
        this.#move_to(0, this.at, event.shiftKey);
        return true;
      case 'a':
        if (this.typing !== null) return false;
        this.#stand(0, false);
        this.go(Math.max(0, last - 1), this.at, true);
        return true;
      default:
        return false;
    }
  }

  #plain(event: KeyboardEvent): boolean {
    const { key, shiftKey } = event;
    const listed = this.choices.length > 0 && this.typing !== null;
    switch (key) {
      case 'Enter':
        this.take();
        this.go(this.row + (shiftKey ? -1 : 1), shiftKey ? this.at : this.#home);
        return true;
      case 'Tab':
        return this.#tab(shiftKey ? -1 : 1);
      case 'Escape':
        if (this.typing === null) return false;
        this.go(this.row, this.at, true);
        return true;
      case 'F2':
        this.edit();
        return true;
      case 'Delete':
      case 'Backspace':
        if (this.typing !== null) return false;
        this.empty_cells();
        this.go(this.row, this.at, true);
        return true;
      case 'ArrowDown':
      case 'ArrowUp': {
        const by = key === 'ArrowDown' ? 1 : -1;
        if (listed && !shiftKey) {
          const count = this.choices.length;
          const from = this.chosen < 0 ? (by > 0 && this.#top() === 0 ? 0 : -1) : this.chosen;
          this.chosen = (Math.max(from, by > 0 ? -1 : 0) + by + count) % count;
          return true;
        }
        this.#move_to(this.row + by, this.at, shiftKey);
        return true;
      }
      case 'PageDown':
        this.#move_to(this.row + 15, this.at, shiftKey);
        return true;
      case 'PageUp':
        this.#move_to(this.row - 15, this.at, shiftKey);
        return true;
      case 'ArrowLeft':
      case 'ArrowRight':
        if (this.in_text || shiftKey) return false;
        this.#move_to(this.row, this.at + (key === 'ArrowRight' ? 1 : -1), false);
        this.#home = this.at;
        return true;
      case 'Home':
        if (this.in_text) return false;
        this.#move_to(this.row, 1, false);
        return true;
      case 'End':
        if (this.in_text) return false;
        this.#move_to(this.row, this.fields.length - 1, false);
        return true;
      default:
        return this.field.given ? key.length === 1 : false;
    }
  }

  /** To the next cell, over the end of a line to the next; out of the lines from the first cell, and from an empty last line. */
  #tab(by: number): boolean {
    const took = this.take();
    const first = by < 0 && this.row === 0 && this.at <= 1;
    const last = by > 0 && !took && this.line.empty && this.row === this.sheet.lines.length - 1 && this.at === this.#home;
    if (first || last) return false;
    let row = this.row;
    let at = this.at + by;
    if (at >= this.fields.length) [row, at] = [row + 1, 1];
    if (at < 1) [row, at] = [row - 1, this.fields.length - 1];
    this.go(row, at);
    if (by > 0 && row === this.row && at === 1) this.#home = 1;
    return true;
  }

  #move_to(row: number, at: number, extend: boolean): void {
    this.take();
    this.go(row, at, extend);
  }

  /** A click into another cell: what was typed in the one left behind is taken. */
  click(row: number, at: number, extend: boolean): void {
    if (row === this.row && at === this.at && !extend) return this.edit();
    this.take();
    this.#home = at;
    this.go(row, at, extend);
  }

  /** Which choice stands for what was typed: that of the hands, else the likeliest where it is surely one. */
  #top(): number {
    if (this.chosen >= 0) return this.chosen;
    const first = this.choices[0];
    if (!first || first.made || this.typing === null || without_doubt(this.typing)[0] === '') return -1;
    return this.field.codes === 'decorations' ? -1 : 0;
  }
  get top(): number {
    return this.#top();
  }

  #meant(typed: string): { text: string; made: Step | null } {
    const choice = this.choices[this.#top()];
    return choice ? { text: choice.text, made: choice.made } : { text: typed, made: null };
  }

  #choices(typed: string): Choice[] {
    const { codes, words } = this.field;
    if (words) return words.filter((word) => word.startsWith(typed.trim().toLowerCase())).map((text) => ({ text, note: '', made: null }));
    if (!codes) return [];
    const [code, doubt] = without_doubt(typed);
    const known = series.codes[codes];
    const own = codes === 'parts' || codes === 'decorations' ? this.#own_words(known.map((one) => one.code)) : [];
    const found = match_codes([...known, ...own], code, this.uses);
    const choices = found
      .filter((match) => codes !== 'parts' || match.rank <= 1)
      .map((match: Match): Choice => {
        const used = this.uses.get(match.code.code);
        return {
          text: `${match.code.code}${doubt}`,
          note: [match.code.name, match.code.note, used ? kWords.used_here(used) : ''].filter(Boolean).join(' · '),
          made: null,
        };
      });
    const kind = series.kind_of(this.field.column);
    const there = known.some((one) => one.code === code);
    if (code !== '' && kind && kind !== 'decorations' && !there) choices.push(this.#new_code(kind, code, doubt));
    return choices;
  }

  #new_code(kind: 'fabrics' | 'forms' | 'decorations', code: string, doubt: string): Choice {
    const column = kind === 'fabrics' ? 'fabric' : 'form';
    const values: Values = { [column]: code, status: 'provisional' };
    return { text: `${code}${doubt}`, note: kWords.new_code(column), made: { do: 'add', kind, values } };
  }

  /** Words that this context's lines use beside those of the list. */
  #own_words(known: readonly string[]) {
    return [...this.uses.keys()].filter((code) => !known.includes(code)).map((code) => ({ code, name: '', synonyms: [], note: '' }));
  }

  get moved(): boolean {
    const moved = this.#moved;
    this.#moved = false;
    return moved;
  }
}

/** The sums under the lines. */
export function sums_of(lines: readonly Line[]): { lines: number; count: number; weight: number } {
  let [rows, count, weight] = [0, 0, 0];
  for (const line of lines) {
    if (line.empty) continue;
    rows += 1;
    const amounts = [read_amount(line.text('count'), 'count'), read_amount(line.text('weight_g'), 'weight')];
    count += amounts[0]?.ok ? amounts[0].value : 0;
    weight += amounts[1]?.ok ? amounts[1].value : 0;
  }
  return { lines: rows, count, weight };
}
