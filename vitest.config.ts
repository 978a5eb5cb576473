import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**', 'tests/bench/**'],
    reporters: ['default', ['json', { outputFile: 'reports/unit.json' }]],
    testTimeout: 60_000,
    maxWorkers: '100%', // one long test beside all others halves the wait on two cores
  },
});
