/** The documents as pages of the workbench: Markdown to HTML at build, with links between pages turned into addresses of Help. */
import { posix } from 'node:path';
import { Marked, type Tokens } from 'marked';

export interface Heading {
  id: string;
  text: string;
  depth: number;
}
/** What stands under one heading, as plain words: what is searched. */
export interface Section {
  id: string;
  heading: string;
  text: string;
}
export interface GuidePage {
  /** Its file under docs/guide without ending; of other documents under docs, such as "methods/marks". */
  name: string;
  title: string;
  html: string;
  headings: Heading[];
  sections: Section[];
  /** Files of pictures, relative to docs, in the order of their places in the HTML. */
  pictures: string[];
}

/** "guide/measure.md" -> "measure"; "methods/marks.md" -> "methods/marks". */
export function name_of(file: string): string {
  return file.replace(/^guide\//, '').replace(/\.md$/, '');
}

/** As repository pages make them: lower case, signs out, spaces as hyphens. */
export function id_of(text: string): string {
  return text
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\s-]/gu, '')
    .trim()
    .replace(/\s+/g, '-');
}

export function escape(text: string): string {
  return text.replace(/&/g, '&amp;').replace(/</g, '&lt;').replace(/>/g, '&gt;').replace(/"/g, '&quot;');
}

/** Where the picture's address is put in when the page is made. */
export function place_of(picture: number): string {
  return `@picture-${picture}@`;
}

function plain(html: string): string {
  return html
    .replace(/<[^>]+>/g, ' ')
    .replace(/&lt;/g, '<')
    .replace(/&gt;/g, '>')
    .replace(/&quot;/g, '"')
    .replace(/&#39;/g, "'")
    .replace(/&amp;/g, '&')
    .replace(/\s+/g, ' ')
    .trim();
}

/** The address of a link from `file`; null where it leads out of the documents. `known` are all documents, relative to docs. */
export function address_of(file: string, href: string, known: ReadonlySet<string>): string | null {
  if (/^https?:/.test(href)) return href;
  const [path = '', at] = href.split('#');
  const target = path === '' ? file : posix.normalize(posix.join(posix.dirname(file), path));
  if (!known.has(target)) return null;
  const query = new URLSearchParams({ page: name_of(target) });
  if (at) query.set('at', at);
  return `#/help?${query}`;
}

/** One document. `file` is relative to docs, `text` its Markdown. */
export function render(file: string, text: string, known: ReadonlySet<string>): GuidePage {
  const headings: Heading[] = [];
  const pictures: string[] = [];
  const used = new Map<string, number>();
  const marked = new Marked({ gfm: true });
  marked.use({
    renderer: {
      heading(token: Tokens.Heading) {
        const inner = this.parser.parseInline(token.tokens);
        const bare = id_of(plain(inner));
        const count = used.get(bare) ?? 0;
        used.set(bare, count + 1);
        const id = count === 0 ? bare : `${bare}-${count}`;
        headings.push({ id, text: plain(inner), depth: token.depth });
        return `<h${token.depth} id="help-${id}" tabindex="-1">${inner}</h${token.depth}>\n`;
      },
      link(token: Tokens.Link) {
        const inner = this.parser.parseInline(token.tokens);
        const address = address_of(file, token.href, known);
        if (address === null) return inner;
        return address.startsWith('#') ? `<a href="${escape(address)}">${inner}</a>` : `<a href="${escape(address)}" rel="noopener noreferrer" target="_blank">${inner}</a>`;
      },
      image(token: Tokens.Image) {
        pictures.push(posix.normalize(posix.join(posix.dirname(file), token.href)));
        return `<img src="${place_of(pictures.length - 1)}" alt="${escape(token.text)}" loading="lazy">`;
      },
      code(token: Tokens.Code) {
        const kind = token.lang === 'console' ? ' class="console"' : '';
        return `<pre${kind} tabindex="0"><code>${escape(token.text)}</code></pre>\n`;
      },
      table(token: Tokens.Table) {
        const cell = (one: Tokens.TableCell, tag: string) => `<${tag}${one.align === 'right' ? ' class="number"' : ''}>${this.parser.parseInline(one.tokens)}</${tag}>`;
        const bare = token.header.every((one) => one.text === '');
        const head = bare ? '' : `<thead><tr>${token.header.map((one) => (one.text ? cell(one, 'th') : '<td></td>')).join('')}</tr></thead>`;
        const rows = token.rows.map((row) => `<tr>${row.map((one) => cell(one, 'td')).join('')}</tr>`).join('');
        return `<div class="table" tabindex="0" role="group" aria-label="Table"><table>${head}<tbody>${rows}</tbody></table></div>\n`;
      },
      html(token: Tokens.HTML | Tokens.Tag) {
        return /^\s*<!--/.test(token.text) ? '' : escape(token.text);
      },
    },
  });
  const html = marked.parse(text, { async: false });
  return { name: name_of(file), title: headings[0]?.text ?? name_of(file), html, headings, sections: sections_of(html, headings), pictures };
}

function sections_of(html: string, headings: readonly Heading[]): Section[] {
  const parts = html.split(/<h[1-6] id="help-[^"]*"[^>]*>.*?<\/h[1-6]>/s).slice(1);
  return headings.map((heading, at) => ({ id: heading.id, heading: heading.text, text: plain((parts[at] ?? '').replace(/<pre class="console".*?<\/pre>/gs, ' ')) }));
}

export interface Group {
  title: string;
  pages: string[];
}
/** The groups of the contents page: each heading of the second order with the pages that its list names, by file. */
export function groups_of(text: string): Group[] {
  const groups: Group[] = [];
  for (const line of text.split('\n')) {
    const heading = /^## (.+)$/.exec(line);
    if (heading) groups.push({ title: heading[1] ?? '', pages: [] });
    const item = /^- \[[^\]]+\]\(([^)#]+\.md)\)/.exec(line);
    if (item) groups.at(-1)?.pages.push(posix.normalize(posix.join('guide', item[1] ?? '')));
  }
  return groups.filter((group) => group.pages.length > 0);
}
