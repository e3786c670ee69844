/** Conditions as they are read: "context.phase=A1", "part!=rim", "fabric=a||b", "checked_by=" for blank. */

export interface Condition {
  field: string;
  not: boolean;
  values: string[];
}

export function condition_of(text: string): Condition {
  const at = text.indexOf('=');
  const name = at < 0 ? text : text.slice(0, at);
  const not = name.endsWith('!');
  return { field: not ? name.slice(0, -1) : name, not, values: at < 0 ? [''] : text.slice(at + 1).split('||') };
}

export function text_of({ field, not, values }: Condition): string {
  return `${field}${not ? '!' : ''}=${values.join('||')}`;
}

/** As words: ["part", "is not rim or base"]. */
export function said(condition: Condition): string {
  const values = condition.values.map((one) => one || 'blank').join(condition.not ? ' nor ' : ' or ');
  return condition.not ? `not ${values}` : values;
}
