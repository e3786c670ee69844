/** What of this sitting can be taken back, and brought again: numbers of changes, the newest last. */

export interface Done {
  /** The change's number in the history. */
  seq: number;
  label: string;
}

export class UndoStack {
  #done: Done[] = [];
  #undone: Done[] = [];
  /** Being taken back or brought again. */
  #going = new Set<number>();

  /** A change of one's own was made: what was taken back before it stays so. */
  made(done: Done): void {
    this.#done.push(done);
    this.#undone = [];
  }

  /** The change to take back next; null where there is none. */
  get next_undo(): Done | null {
    return [...this.#done].reverse().find((one) => !this.#going.has(one.seq)) ?? null;
  }
  get next_redo(): Done | null {
    return [...this.#undone].reverse().find((one) => !this.#going.has(one.seq)) ?? null;
  }

  /** It is asked for: the next key goes one further. */
  going(seq: number): void {
    this.#going.add(seq);
  }

  /** `by` is the change that took the last one back: to take that back brings it again. */
  undone(seq: number, by: number): void {
    this.#going.delete(seq);
    const at = this.#done.findIndex((one) => one.seq === seq);
    if (at < 0) return;
    const [taken] = this.#done.splice(at, 1);
    if (taken) this.#undone.push({ seq: by, label: taken.label });
  }

  redone(seq: number, by: number): void {
    this.#going.delete(seq);
    const at = this.#undone.findIndex((one) => one.seq === seq);
    if (at < 0) return;
    const [taken] = this.#undone.splice(at, 1);
    if (taken) this.#done.push({ seq: by, label: taken.label });
  }

  /** The program says that this one can not be taken back, or not any more. */
  dropped(seq: number): void {
    this.#going.delete(seq);
    this.#done = this.#done.filter((one) => one.seq !== seq);
    this.#undone = this.#undone.filter((one) => one.seq !== seq);
  }
}
