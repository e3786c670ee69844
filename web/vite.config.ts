import { copyFileSync, mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { svelte } from '@sveltejs/vite-plugin-svelte';
import type { Plugin } from 'vite';
import { defineConfig } from 'vitest/config';
import { guide } from './guide/plugin.ts';

/** The licences of what goes into the built page lie beside it. */
function licences(): Plugin {
  const from = {
    'inter.txt': '@fontsource-variable/inter/LICENSE',
    'eb-garamond.txt': '@fontsource/eb-garamond/LICENSE',
    'svelte.txt': 'svelte/LICENSE.md',
  };
  let out = '';
  return {
    name: 'licences',
    apply: 'build',
    configResolved(config) {
      out = join(config.build.outDir, 'licences');
    },
    closeBundle() {
      mkdirSync(out, { recursive: true });
      for (const [name, path] of Object.entries(from)) copyFileSync(`node_modules/${path}`, join(out, name));
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
  },
  server: { fs: { allow: ['..'] }, proxy: { '/api': process.env.SHERDWRIGHT_URL ?? 'http://127.0.0.1:4173' } },
  test: { include: ['src/**/*.test.ts'], environment: 'node' },
});
