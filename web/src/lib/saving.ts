/** What is said of changes on their way into the record, wherever they are made. */
import { counted } from './format';
import { field_of } from './fields';

/** Where a cell stands on its way into the record. */
export type Standing = 'typed' | 'saving' | 'saved' | 'refused' | 'conflict';

export const label = (column: string) => (field_of(column)?.label ?? column.replace(/_/g, ' ')).replace(/, (g|mm|%)$/, '').toLowerCase();
export const or_blank = (text: string) => (text === '' ? 'blank' : text);

export const kSaving = {
  marks: {
    typed: 'not in the record yet: a line needs a fabric, and a count or a weight',
    saving: 'being saved',
    saved: 'saved',
    refused: 'not taken',
    conflict: 'changed by someone else meanwhile',
  },
  all_saved: 'All is in the record',
  saving: 'Saving',
  waiting: (changes: number, why: string) =>
    `${counted(changes, 'change')} kept in this browser. ${
      why === 'http_401' || why === 'http_403'
        ? 'This browser has no leave any more: open the address that the program printed in another tab; they are sent then.'
        : why === 'no_program'
          ? 'The program does not answer. They are sent when it does, in order.'
          : 'The program is busy. They are sent again in a moment.'
    }`,
  try_now: 'Try now',
  close: 'Close',
  not_done: (what: string) => `Not done: ${what}.`,
  answered: (status: number) => `the program answered with ${status}`,
  conflict: (column: string, seen: string, now: string, who: string) =>
    column === '' ? `${who || 'Someone else'} has changed the row meanwhile.` : `${label(column)} was ${or_blank(seen)}; ${who || 'someone else'} has made it ${or_blank(now)}.`,
  keep_theirs: (text: string) => `Keep ${or_blank(text)}`,
  write_mine: (text: string) => `Write ${or_blank(text)}`,
  undone: (what: string) => `Taken back: ${what}.`,
  redone: (what: string) => `Brought again: ${what}.`,
  nothing_to_undo: 'Nothing of this sitting is left to take back; the list of changes in the Site room has all of them.',
  nothing_to_redo: 'Nothing to bring again.',
  label_row: (field: string, kind: string, values: Readonly<Record<string, string>>) =>
    `${field.toLowerCase()} of ${kind} ${values.context ?? values.record ?? values.tray ?? ''}`.trim(),
} as const;
