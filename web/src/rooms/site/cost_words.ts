import { counted, fixed, whole } from '../../lib/format';

/** All that the part on costs says. */
export const kCostWords = {
  lead: 'What the work is to take and to cost, with its range, and the hours really used.',
  quote: 'Quote',
  all_quotes: 'all',
  from_record: 'Amounts as the record has them now',
  measured: 'Pace as this store’s history measures it',
  shape: 'Between the ends',
  shapes: [['triangular', 'a triangle'], ['pert', 'PERT']] as const,
  tasks: 'Tasks',
  stages: 'Against the hours used',
  task_head: ['Stage', 'Task', 'By', 'Amount', 'Sherds', 'An hour', 'Hours', 'Range', 'Cost', 'Range'] as const,
  stage_head: ['Stage', 'Likely', 'Range', 'Used', 'Left', 'Cost', 'Range', ''] as const,
  all: 'all',
  once: 'once',
  how: 'How the numbers come about',
  pace: (low: number, likely: number, high: number, lines: number, days: number) =>
    `This store’s history: ${fixed(likely, 1)} sherds an hour as a rule, ${fixed(low, 1)} to ${fixed(high, 1)} on four days of five, ${fixed(lines, 1)} lines an hour, over ${counted(days, 'day')} of recording by hand. Pauses are cut.`,
  no_pace: 'The history has too little recording by hand for a pace: three days with a quarter of an hour each are needed.',
  save: 'Save the tasks (CSV)',
  files: 'As a page or a workbook',
  quotes_title: 'Quotes, line by line',
  rates_title: 'Rates',
  hours_title: 'Hours used',
  currency: (one: string) => `Cost in ${one}.`,
  amount: (amount: number, basis: string | null) =>
    basis === 'fixed' || basis === null ? 'once' : `${whole(Math.round(amount * 10) / 10)} ${basis === 'weight' ? 'kg' : basis}`,
};
