import { createHash } from 'node:crypto';
import { resolve } from 'node:path';
import { readFileSync } from 'node:fs';
import { defineConfig, type Plugin } from 'vite';

// Where the core (bowlwright.wasm) and the packed food library lie.
const core = resolve(process.env.BW_CORE ?? '../build/page');

/** Writes sw.js with the list of all files of the site: the page works offline after its first visit. */
function offline(): Plugin {
  return {
    name: 'bowlwright-offline',
    apply: 'build',
    generateBundle(_options, bundle) {
      const sum = createHash('sha256');
      const files = ['./', 'icon.svg', 'manifest.webmanifest', 'NOTICES.txt', 'LICENSE.txt']; /* the last two are laid beside it by the build */
      for (const [name, item] of Object.entries(bundle).sort(([a], [b]) => (a < b ? -1 : 1))) {
        sum.update(name);
        sum.update(item.type === 'asset' ? item.source : item.code);
        if (name !== 'index.html') files.push(name);
      }
      const source = readFileSync(resolve(__dirname, 'src/offline.js'), 'utf8')
        .replace('__FILES__', JSON.stringify(files))
        .replace('__VERSION__', JSON.stringify(sum.digest('hex').slice(0, 16)));
      this.emitFile({ type: 'asset', fileName: 'sw.js', source });
    },
  };
}

/** What the page needs first is asked for by its head already; and the script that starts the worker runs before the page's own. */
function askedFirst(): Plugin {
  const FIRST: [RegExp, string][] = [
    [/\.first-.*\.wasm$|\.near-.*\.packed$/, 'fetch'],
    [/literata-latin-(400|600)-.*\.woff2$|atkinson-hyperlegible-latin-(400|700)-.*\.woff2$/, 'font'],
  ];
  return {
    name: 'bowlwright-asked-first',
    apply: 'build',
    buildStart() {
      this.emitFile({ type: 'chunk', id: resolve(__dirname, 'src/core/start.ts'), name: 'start' });
    },
    transformIndexHtml: {
      order: 'post',
      handler: (html, { bundle }) => {
        const names = Object.keys(bundle ?? {});
        const start = names.find((name) => /\/start-.*\.js$/.test(name));
        const tags = names.flatMap((name) =>
          FIRST.filter(([of]) => of.test(name)).map(([, as]) => ({ tag: 'link', attrs: { rel: 'preload', as, href: `./${name}`, crossorigin: true }, injectTo: 'head' as const })),
        );
        return { html: html.replace('<script ', `<script type="module" async crossorigin src="./${start}"></script>\n    <script `), tags };
      },
    },
  };
}

export default defineConfig({
  base: './',
  plugins: [offline(), askedFirst()],
  esbuild: { jsx: 'automatic', jsxImportSource: 'preact' },
  resolve: { alias: { '@core': core, '@examples': resolve(__dirname, '../examples') } },
  worker: { format: 'es' },
  build: {
    target: 'es2022',
    outDir: process.env.BW_SITE ?? '../site',
    emptyOutDir: true,
    assetsInlineLimit: 0,
    modulePreload: { polyfill: false },
  },
  server: { fs: { allow: ['..', core] } },
  assetsInclude: ['**/*.packed'],
});
