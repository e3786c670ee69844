/** Looking for words in the guide. */

export interface Words {
  name: string;
  title: string;
  sections: readonly { id: string; heading: string; text: string }[];
}
export interface Found {
  page: string;
  title: string;
  id: string;
  heading: string;
  /** Text around the first word that was found, parted so that every second piece is such a word. */
  around: string[];
}

/** Lower case without accents, and of the same length, so that places agree. */
function folded(text: string): string {
  return [...text.toLowerCase()].map((sign) => (sign.normalize('NFD')[0] ?? sign).padEnd(sign.length)).join('');
}

/** The words asked for; an s at the end is left off, so that sherds finds sherd. */
function asked_for(question: string): string[] {
  return folded(question)
    .split(/[^\p{L}\p{N}]+/u)
    .filter((word) => word.length > 1)
    .map((word) => (word.length > 3 && word.endsWith('s') && !word.endsWith('ss') ? word.slice(0, -1) : word));
}

/** Where a word begins with it; 0-based, in order. */
function places(text: string, word: string): number[] {
  const found: number[] = [];
  for (let at = text.indexOf(word); at >= 0; at = text.indexOf(word, at + 1)) {
    if (at === 0 || !/[\p{L}\p{N}]/u.test(text[at - 1] ?? '')) found.push(at);
  }
  return found;
}

/** Sections in which each word begins some word, of the section itself or of its page's title; the best first. */
export function find(pages: readonly Words[], question: string, most = 30): Found[] {
  const words = asked_for(question);
  if (words.length === 0) return [];
  const scored: { score: number; found: Found }[] = [];
  for (const page of pages) {
    const title = folded(page.title);
    const of_guide = page.name.includes('/') ? 0 : 4;
    page.sections.forEach((section, number) => {
      const heading = folded(section.heading);
      const text = folded(section.text);
      let score = of_guide + (number === 0 ? 1 : 0);
      for (const word of words) {
        const in_title = places(title, word).length;
        const in_heading = places(heading, word).length;
        const in_text = places(text, word).length;
        if (in_heading + in_text === 0 && (in_title === 0 || number > 0)) return;
        score += (in_title ? 6 : 0) + (in_heading ? 8 : 0) + Math.min(in_text, 5);
      }
      const { name, title: said } = page;
      scored.push({ score, found: { page: name, title: said, id: section.id, heading: section.heading, around: around(section.text, text, words) } });
    });
  }
  return scored
    .sort((a, b) => b.score - a.score)
    .slice(0, most)
    .map(({ found }) => found);
}

const kBefore = 60;
const kLength = 180;

function around(text: string, plain: string, words: readonly string[]): string[] {
  const marks = words.flatMap((word) => places(plain, word).map((at) => [at, at + word.length] as const)).sort((a, b) => a[0] - b[0]);
  const first = marks[0]?.[0] ?? 0;
  let from = Math.max(0, first - kBefore);
  if (from > 0) from = text.indexOf(' ', from) + 1;
  let to = Math.min(text.length, from + kLength);
  if (to < text.length) to = Math.max(text.lastIndexOf(' ', to), from + 1);
  const pieces = [from > 0 ? '… ' : ''];
  let at = from;
  for (const [start, end] of marks) {
    if (start < at || end > to) continue;
    pieces[pieces.length - 1] += text.slice(at, start);
    pieces.push(text.slice(start, end), '');
    at = end;
  }
  pieces[pieces.length - 1] += text.slice(at, to) + (to < text.length ? ' …' : '');
  return pieces;
}
