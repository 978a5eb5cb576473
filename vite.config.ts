import { createHash } from 'node:crypto';
import { existsSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { defineConfig, type Plugin, type UserConfig } from 'vite';
import { elementBuild, engineBuild } from './src/package/package-builds.ts';
import { PAGE_POLICY, SERVED_HEADERS } from './src/screen/page-policy.ts';

const { 'Content-Security-Policy': _, ...withoutPolicy } = SERVED_HEADERS;

/** Into the built page only: while developing, styles are injected and news of changes come over a socket. */
const pagePolicy: Plugin = {
  name: 'page-policy',
  apply: 'build',
  transformIndexHtml: () => [
    {
      tag: 'meta',
      attrs: { 'http-equiv': 'Content-Security-Policy', content: PAGE_POLICY },
      injectTo: 'head-prepend',
    },
  ],
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

/** What makes the built page installable: its manifest and icons, under names that do not change. */
const installable: Plugin = {
  name: 'installable',
  apply: 'build',
  transformIndexHtml: () => [
    { tag: 'link', attrs: { rel: 'manifest', href: 'app.webmanifest' }, injectTo: 'head' },
    { tag: 'link', attrs: { rel: 'apple-touch-icon', href: 'icons/icon-192.png' }, injectTo: 'head' },
  ],
  generateBundle() {
    const folder = new URL('src/screen/install/', import.meta.url);
    for (const name of readdirSync(folder)) {
      const fileName = name.endsWith('.png') ? `icons/${name}` : name;
      this.emitFile({ type: 'asset', fileName, source: readFileSync(new URL(name, folder)) });
    }
  },
};

const OFFLINE = 'offline.js';
const sha256 = (bytes: string | Uint8Array) => createHash('sha256').update(bytes).digest('base64');

/**
 * Tells the service worker which files the build has, with the digest of each, once all of them lie there. Not its own;
 * nor texts that some servers turn into pages and nothing of the tool reads.
 */
const listOfBuiltFiles: Plugin = {
  name: 'list-of-built-files',
  apply: 'build',
  writeBundle({ dir = '' }) {
    const worker = join(dir, OFFLINE);
    if (!existsSync(worker)) return;
    const files = readdirSync(dir, { recursive: true, encoding: 'utf8' })
      .filter((path) => statSync(join(dir, path)).isFile() && path !== OFFLINE && !path.endsWith('.md'))
      .sort()
      .map((path) => {
        const address = path.replaceAll('\\', '/');
        const digest = sha256(readFileSync(join(dir, path)));
        return { path: address === 'index.html' ? '' : address, sha256: digest };
      });
    const [list, version] = [JSON.stringify(files), sha256(JSON.stringify(files))];
    const code = readFileSync(worker, 'utf8')
      .replace(/(["'`])__BUILT_FILES__\1/, () => JSON.stringify(list))
      .replace(/(["'`])__BUILT_VERSION__\1/, () => JSON.stringify(version));
    writeFileSync(worker, code);
  },
};

const worker = { format: 'es' as const, rolldownOptions: { output: { assetFileNames } } };

/** The page of the tool. */
export const page = {
  base: './',
  publicDir: 'samples',
  plugins: [pagePolicy, noticesOfModules, installable, listOfBuiltFiles],
  worker,
  server: { host: '127.0.0.1', headers: withoutPolicy },
  preview: { host: '127.0.0.1', port: 4173, headers: SERVED_HEADERS },
  // nothing inlined: the policy names no data: addresses
  build: {
    target: 'es2022',
    assetsInlineLimit: 0,
    rolldownOptions: {
      input: { index: 'index.html', offline: 'workers/offline.worker.ts' },
      output: {
        assetFileNames,
        entryFileNames: ({ name }) => (name === 'offline' ? OFFLINE : 'assets/[name]-[hash].js'),
      },
    },
  },
} satisfies UserConfig;

const element = elementBuild({ plugins: [noticesOfModules], worker, assetFileNames });

export default defineConfig(({ mode }) =>
  mode === 'element' ? element : mode === 'engine' ? engineBuild : page,
);
