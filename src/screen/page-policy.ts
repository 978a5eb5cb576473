/**
 * What the tool's page may load and do: files of its own folder, pictures and data that it made itself, and nothing
 * else. Text becomes no script, and no address becomes one but those of its own folder.
 */
const RULES = {
  'default-src': "'none'",
  'script-src': "'self'",
  'style-src': "'self'",
  'img-src': "'self' blob:",
  'connect-src': "'self' blob:",
  'worker-src': "'self'",
  'manifest-src': "'self'",
  'frame-src': "'none'",
  'object-src': "'none'",
  'base-uri': "'none'",
  'form-action': "'none'",
  'require-trusted-types-for': "'script'",
  'trusted-types': 'lit-html default',
};

const inWords = (rules: Readonly<Record<string, string>>) =>
  Object.entries(rules)
    .map(([name, value]) => `${name} ${value}`)
    .join('; ');

/** In the page's head. It holds in the page itself, which compiles no WebAssembly. */
export const PAGE_POLICY = inWords(RULES);

/**
 * What a server should send with every file. Workers go by the policy that came with their own file, and those that open
 * raw files and tables of colour profiles compile WebAssembly; a page never does, as its own policy holds beside this.
 */
export const SERVED_HEADERS: Readonly<Record<string, string>> = {
  'Content-Security-Policy': inWords({
    ...RULES,
    'script-src': "'self' 'wasm-unsafe-eval'",
    'frame-ancestors': "'none'",
  }),
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Embedder-Policy': 'require-corp',
  'X-Content-Type-Options': 'nosniff',
  'Referrer-Policy': 'no-referrer',
};
