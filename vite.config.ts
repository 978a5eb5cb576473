import { readdirSync, readFileSync } from 'node:fs';
import { defineConfig, type Plugin } from 'vite';

/** What a meta tag cannot say of the page, and cross-origin isolation, so that a later stage may share memory. */
const headers = {
  'Content-Security-Policy': "frame-ancestors 'none'",
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'X-Content-Type-Options': 'nosniff',
};

/** While developing, styles are injected and the page is told of changes over a socket: both against the policy. */
const withoutPolicyWhileDeveloping: Plugin = {
  name: 'without-policy-while-developing',
  apply: 'serve',
  transformIndexHtml: (html) => html.replace(/<meta\s+http-equiv="Content-Security-Policy"[^>]*>/, ''),
};

/** LibRaw keeps its own names in a folder of its own, so that another build of it can be put in its place. */
const assetFileNames = ({ names }: { names: string[] }) =>
  names[0]?.startsWith('libraw.') ? 'libraw/[name][extname]' : 'assets/[name]-[hash][extname]';

/** What others' licences ask to be handed on with the modules that are fetched when first needed. */
const noticesOfModules: Plugin = {
  name: 'notices-of-modules',
  apply: 'build',
  generateBundle() {
    const notices = new URL('workers/notices/', import.meta.url);
    for (const name of readdirSync(notices, { recursive: true, encoding: 'utf8' }))
      if (name.endsWith('.txt'))
        this.emitFile({ type: 'asset', fileName: name, source: readFileSync(new URL(name, notices)) });
  },
};

export default defineConfig({
  base: './',
  publicDir: 'samples',
  plugins: [withoutPolicyWhileDeveloping, noticesOfModules],
  worker: { format: 'es', rolldownOptions: { output: { assetFileNames } } },
  server: { host: '127.0.0.1', headers },
  preview: { host: '127.0.0.1', port: 4173, headers },
  // nothing inlined: the policy names no data: addresses
  build: { target: 'es2022', assetsInlineLimit: 0, rolldownOptions: { output: { assetFileNames } } },
});
