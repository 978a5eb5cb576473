import { defineConfig } from 'vitest/config';

// A script, not a check: rewrites samples/ from tests/synthetic/samples.
export default defineConfig({
  test: { include: ['tests/synthetic/samples/write-samples.ts'] },
});
