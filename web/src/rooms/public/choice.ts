import type { ObjectCardsRequest, PublicObject } from '../../api';

/** What is asked of the record. */
export interface Choice {
  theme: string;
  period: string;
  use: string;
  most: string;
  include: string[];
}

export function choice_of(query: URLSearchParams): Choice {
  return {
    theme: query.get('theme') ?? '',
    period: query.get('period') ?? '',
    use: query.get('for') === 'handling' ? 'handling' : 'talk',
    most: query.get('most') ?? '12',
    include: query.getAll('include').filter((one) => one !== ''),
  };
}

export function request_of(choice: Choice): Partial<ObjectCardsRequest> {
  return {
    ...(choice.theme ? { theme: choice.theme } : {}),
    ...(choice.period.trim() ? { period: choice.period.trim() } : {}),
    ...(choice.use === 'handling' ? { for: 'handling' } : {}),
    ...(/^\d+$/.test(choice.most) ? { most: Number(choice.most) } : {}),
    ...(choice.include.length ? { include: choice.include } : {}),
  };
}

/** As options of the commands. */
export function options_of(choice: Choice): string {
  const quoted = (text: string) => (/^[\w.-]+$/.test(text) ? text : `"${text}"`);
  return [
    choice.theme ? `--theme ${choice.theme}` : '',
    choice.period.trim() ? `--period ${quoted(choice.period.trim())}` : '',
    choice.use === 'handling' ? '--for handling' : '',
    choice.most !== '12' && /^\d+$/.test(choice.most) ? `--most ${choice.most}` : '',
    ...choice.include.map((one) => `--include ${one}`),
  ]
    .filter(Boolean)
    .join(' ');
}

/** "tray B, bag 44, box 16"; where it is instead, for what is away. */
export function where_is(object: Pick<PublicObject, 'tray' | 'bag' | 'box' | 'away'>, unless: string): string {
  if (object.away) return object.away;
  const parts = [object.tray && `tray ${object.tray}`, object.bag && `bag ${object.bag}`, object.box && `box ${object.box}`].filter(Boolean);
  return parts.length ? parts.join(', ') : unless;
}

/** Each caution once, with its sentence. */
export function cautions_of(objects: readonly Pick<PublicObject, 'cautions'>[]): string[] {
  return [...new Set(objects.flatMap((object) => object.cautions.map((one) => one.text)))];
}
