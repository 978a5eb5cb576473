import { defineConfig } from 'vite';

// Cross-origin isolation is not required today; it is served so that a later stage may share memory.
const headers = {
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
};

export default defineConfig({
  base: './',
  publicDir: 'samples',
  worker: { format: 'es' },
  server: { host: '127.0.0.1', headers },
  preview: { host: '127.0.0.1', port: 4173, headers },
  build: { target: 'es2022' },
});
