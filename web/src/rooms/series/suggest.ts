/** Which of the known values a typed text may mean, the likeliest first. */

function folded(text: string): string {
  return text
    .normalize('NFD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[-–_.]/g, ' ')
    .replace(/\s+/g, ' ')
    .trim();
}

/** 0 the same, 1 begins so, 2 each typed word begins a word, 3 each occurs somewhere; null where one does not. */
function rank(typed: string, value: string): number | null {
  if (value === typed) return 0;
  if (value.startsWith(typed)) return 1;
  const words = value.split(' ');
  const parts = typed.split(' ');
  if (parts.every((part) => words.some((word) => word.startsWith(part)))) return 2;
  return parts.every((part) => value.includes(part)) ? 3 : null;
}

/** At most `most` of the values; all of them are meant, in their order, where nothing is typed. */
export function suggest(values: readonly string[], text: string, most = 60): string[] {
  const typed = folded(text);
  if (typed === '') return values.slice(0, most);
  return values
    .map((value, at) => ({ value, at, rank: rank(typed, folded(value)) }))
    .filter((one) => one.rank !== null)
    .sort((a, b) => (a.rank as number) - (b.rank as number) || a.at - b.at)
    .slice(0, most)
    .map((one) => one.value);
}
