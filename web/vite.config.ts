import { copyFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { guide } from './guide/plugin.ts';

const kNames = /^licen[cs]e/i;

/** The package that a file lies in: "node_modules/@fontsource/eb-garamond/..." -> "@fontsource/eb-garamond". */
function package_of(file: string): string | undefined {
  return file.match(/.*node_modules\/((?:@[^/]+\/)?[^/]+)\//)?.[1];
}

/** What goes into the built pages is listed beside them, each package with its version and its licence's text. */
function licences(): Plugin {
  const inside = new Set<string>();
  const note = (file: string) => {
    const name = package_of(file);
    if (name) inside.add(name);
  };
  let out = '';
  return {
    name: 'licences',
    apply: 'build',
    configResolved(config) {
      out = join(config.build.outDir, 'licences');
    },
    generateBundle(_, bundle) {
      for (const part of Object.values(bundle)) {
        if (part.type === 'asset') part.originalFileNames.forEach(note);
        else Object.entries(part.modules).filter(([, module]) => module.renderedLength > 0).forEach(([file]) => note(file));
      }
    },
    closeBundle() {
      mkdirSync(out, { recursive: true });
      const packages = [...inside].sort().map((name) => {
        const folder = `node_modules/${name}`;
        const { version, license } = JSON.parse(readFileSync(`${folder}/package.json`, 'utf8'));
        const text = readdirSync(folder).find((file) => kNames.test(file));
        if (!text) throw new Error(`${name} goes into the pages and brings no text of its licence`);
        const file = `${name.replace('@', '').replace('/', '-')}.txt`;
        copyFileSync(`${folder}/${text}`, join(out, file));
        return { name, version, license, file };
      });
      writeFileSync(join(out, 'packages.json'), `${JSON.stringify(packages, null, 2)}\n`);
    },
  };
}

export default defineConfig({
  base: '/',
  plugins: [svelte(), guide(), licences()],
  build: {
    target: 'es2022',
    cssTarget: ['chrome123', 'firefox120', 'safari17.5'],
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
    rollupOptions: { input: ['index.html', 'chooser.html'] }, // chooser: the page of stores that `open` shows
  },
  server: { fs: { allow: ['..'] }, proxy: { '/api': process.env.SHERDWRIGHT_URL ?? 'http://127.0.0.1:4173' } },
  test: { include: ['src/**/*.test.ts'], environment: 'node' },
});
