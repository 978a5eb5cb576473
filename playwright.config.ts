import { defineConfig } from '@playwright/test';
import { findChromium } from './tests/browser/find-chromium.ts';

const PORT = Number(process.env.EVENFIELD_TEST_PORT ?? 41_739);

/** Debian's Chromium as root needs no sandbox of its own; none of them may call home from a test. */
const FLAGS = [
  ...(process.getuid?.() === 0 ? ['--no-sandbox'] : []),
  '--disable-gpu',
  '--disable-quic',
  '--no-first-run',
  '--disable-background-networking',
  '--disable-component-update',
  '--disable-sync',
];

export default defineConfig({
  testDir: 'tests',
  outputDir: 'test-results',
  fullyParallel: false,
  workers: 1, // times are measured: nothing may run beside them
  timeout: 60_000,
  reporter: [['list'], ['json', { outputFile: 'reports/browser.json' }]],
  use: {
    baseURL: `http://127.0.0.1:${PORT}/`,
    serviceWorkers: 'block', // its answers would be hidden from tests that watch or change requests; offline.spec.ts allows it
    viewport: { width: 1440, height: 900 },
    launchOptions: { executablePath: findChromium(), args: FLAGS },
  },
  webServer: {
    command: `npx vite preview --port ${PORT} --strictPort`,
    url: `http://127.0.0.1:${PORT}/`,
    reuseExistingServer: false,
  },
  projects: [
    { name: 'tool', testDir: 'tests/browser' },
    { name: 'bench', testDir: 'tests/bench', timeout: 600_000 },
    { name: 'pictures', testDir: 'tests/pictures' },
  ],
});
