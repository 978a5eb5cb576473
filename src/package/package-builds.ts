import { cpSync, readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import type { Plugin, UserConfig } from 'vite';
import { writeDeclarations } from './declarations.ts';
import { elementsManifest } from './elements-manifest.ts';

/** Paths are from the root, where builds are started. Beside the page, which is built first and empties the folder. */
const FOLDER = 'dist/package';
const ELEMENT = 'evenfield-bench';

type Shared = Pick<UserConfig, 'plugins' | 'worker'> & { readonly assetFileNames: unknown };

/**
 * The element for other people's pages: one module with all that it needs beside it, found from wherever the folder
 * lies. Everything is built in, so that a page without a bundler can use it.
 */
export function elementBuild({ plugins = [], worker, assetFileNames }: Shared): UserConfig {
  return {
    base: './',
    publicDir: false,
    plugins: [...plugins, manifest],
    worker: worker!,
    build: {
      target: 'es2022',
      outDir: FOLDER,
      emptyOutDir: true,
      assetsInlineLimit: 0,
      modulePreload: { polyfill: false },
      rolldownOptions: {
        input: { [ELEMENT]: resolve('src/package/evenfield.ts') },
        preserveEntrySignatures: 'strict',
        output: { entryFileNames: '[name].js', assetFileNames: assetFileNames as () => string },
      },
    },
  };
}

/** The engine for Node, beside the element: it finds the raw decoder where the element's worker does. */
export const engineBuild: UserConfig = {
  publicDir: false,
  plugins: [
    {
      name: 'what-goes-with-the-package',
      apply: 'build',
      closeBundle() {
        cpSync('node_modules/lcms-wasm/dist/lcms.wasm', `${FOLDER}/lcms/lcms.wasm`);
        cpSync('src/package/README.md', `${FOLDER}/README.md`);
        cpSync('src/package/examples', `${FOLDER}/examples`, { recursive: true });
        writeDeclarations('src/package/tsconfig.json', FOLDER, [
          'src/package/evenfield.d.ts',
          'src/package/engine-in-node.d.ts',
        ]);
      },
    },
  ],
  ssr: { noExternal: true },
  build: {
    target: 'node20',
    ssr: resolve('src/package/engine-in-node.ts'),
    outDir: FOLDER,
    emptyOutDir: false,
    rolldownOptions: {
      // the module of colour tables looks for its other file beside itself
      output: { entryFileNames: 'engine.js', chunkFileNames: 'lcms/[name].js' },
    },
  },
};

const manifest: Plugin = {
  name: 'elements-manifest',
  apply: 'build',
  generateBundle() {
    const source = readFileSync('src/screen/bench-element.ts', 'utf8');
    const text = JSON.stringify(elementsManifest(source, `${FOLDER}/${ELEMENT}.js`), null, 2);
    this.emitFile({ type: 'asset', fileName: 'custom-elements.json', source: `${text}\n` });
  },
};
