/** The heads of a plain table, and which of them are likely to be what a fall-off needs. */

/** The cells of the first line: with tabs where there are any, else with semicolons or commas; quotes as in RFC 4180. */
export function heads_of(text: string): string[] {
  const line = text.replace(/^\uFEFF/, '').split(/\r?\n/, 1)[0] ?? '';
  const mark = line.includes('\t') ? '\t' : line.includes(';') && !line.includes(',') ? ';' : ',';
  const out: string[] = [];
  let cell = '';
  let quoted = false;
  for (let at = 0; at < line.length; ++at) {
    const letter = line[at] as string;
    if (letter === '"' && quoted && line[at + 1] === '"') cell += line[++at];
    else if (letter === '"') quoted = !quoted;
    else if (letter === mark && !quoted) {
      out.push(cell.trim());
      cell = '';
    } else cell += letter;
  }
  out.push(cell.trim());
  return out;
}

export interface Places {
  amount: string;
  far: string;
  transport: string;
  east: string;
  north: string;
}
const kLikely: Record<keyof Places, RegExp> = {
  far: /dist|dst|mile|\bkm\b|far/i,
  amount: /amount|percent|pct|%|count|sherds|weight|share/i,
  transport: /transport|trans|mode|route|by water/i,
  east: /^(east|easting|longitude|lon|x)$/i,
  north: /^(north|northing|latitude|lat|y)$/i,
};

/** The first column is the place's name and is none of these; "" where no head looks like it. */
export function likely(heads: readonly string[]): Places {
  const found = (name: keyof Places) => heads.slice(1).find((head) => kLikely[name].test(head)) ?? '';
  return { amount: found('amount'), far: found('far'), transport: found('transport'), east: found('east'), north: found('north') };
}
