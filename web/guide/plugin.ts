/** Puts the documents into the build: `virtual:guide` names them and fetches each, and its words, only when it is asked for. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';
import { groups_of, name_of, place_of, render, type GuidePage } from './render.ts';

const kDocs = fileURLToPath(new URL('../../docs/', import.meta.url));
const kNames = 'virtual:guide';
const kPage = 'virtual:guide/page/';
const kWords = 'virtual:guide/words';

/** Every document but the records of decisions. */
function documents(): string[] {
  const found = readdirSync(kDocs, { recursive: true, encoding: 'utf8' });
  return found
    .map((file) => file.replaceAll('\\', '/'))
    .filter((file) => file.endsWith('.md') && !file.startsWith('design/'))
    .sort();
}

function all_pages(): Map<string, GuidePage> {
  const files = documents();
  const known = new Set(files);
  const pages = files.map((file) => render(file, readFileSync(join(kDocs, file), 'utf8'), known));
  for (const page of pages) {
    page.pictures = page.pictures.map((picture, at) => {
      if (existsSync(join(kDocs, picture))) return picture;
      console.warn(`docs: ${page.name} shows ${picture}, which is not there; its words stand in its place`);
      page.html = page.html.replace(new RegExp(`<img src="${place_of(at)}" alt="([^"]*)"[^>]*>`), '<em>$1</em>');
      return '';
    });
  }
  return new Map(pages.map((page) => [page.name, page]));
}

function names_module(pages: Map<string, GuidePage>): string {
  const groups = groups_of(readFileSync(join(kDocs, 'guide/README.md'), 'utf8')).map((group) => ({ ...group, pages: group.pages.map(name_of) }));
  const titles = [...pages.values()].map(({ name, title }) => ({ name, title }));
  const fetches = [...pages.keys()].map((name) => `${JSON.stringify(name)}: () => import(${JSON.stringify(kPage + name)})`);
  return `export const groups = ${JSON.stringify(groups)};
export const titles = ${JSON.stringify(titles)};
export const pages = {${fetches.join(',\n')}};
export const words = () => import(${JSON.stringify(kWords)});`;
}

function page_module(page: GuidePage): string {
  const there = page.pictures.flatMap((picture, at) => (picture ? [{ picture, at }] : []));
  const imports = there.map(({ picture, at }) => `import p${at} from ${JSON.stringify(join(kDocs, picture))};`);
  const put = there.map(({ at }) => `.replaceAll(${JSON.stringify(place_of(at))}, p${at})`);
  return `${imports.join('\n')}
export const html = ${JSON.stringify(page.html)}${put.join('')};
export const headings = ${JSON.stringify(page.headings)};`;
}

function words_module(pages: Map<string, GuidePage>): string {
  return `export const pages = ${JSON.stringify([...pages.values()].map(({ name, title, sections }) => ({ name, title, sections })))};`;
}

export function guide(): Plugin {
  let pages: Map<string, GuidePage> | null = null;
  return {
    name: 'guide',
    resolveId: (id) => (id.startsWith(kNames) ? `\0${id}` : undefined),
    load(id) {
      if (!id.startsWith(`\0${kNames}`)) return undefined;
      pages ??= all_pages();
      const asked = id.slice(1);
      if (asked === kNames) return names_module(pages);
      if (asked === kWords) return words_module(pages);
      const page = pages.get(asked.slice(kPage.length));
      return page && page_module(page);
    },
  };
}
