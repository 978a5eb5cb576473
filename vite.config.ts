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

export default defineConfig({
  base: './',
  publicDir: 'samples',
  plugins: [withoutPolicyWhileDeveloping],
  worker: { format: 'es' },
  server: { host: '127.0.0.1', headers },
  preview: { host: '127.0.0.1', port: 4173, headers },
  build: { target: 'es2022', assetsInlineLimit: 0 }, // nothing inlined: the policy names no data: addresses,
});
