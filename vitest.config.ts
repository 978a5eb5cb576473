import { defineConfig } from 'vitest/config';
import { BaseSequencer, type TestSpecification } from 'vitest/node';

/** The one that takes as long as all others together. */
const LONGEST = 'read-frame.coverage.test.ts';

/** The longest test first: one core works on it while the other does the rest. */
class LongestFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const isLongest = ({ moduleId }: TestSpecification) => moduleId.endsWith(LONGEST);
    return [...sorted.filter(isLongest), ...sorted.filter((file) => !isLongest(file))];
  }
}

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    exclude: ['tests/browser/**', 'tests/bench/**'],
    reporters: ['default', ['json', { outputFile: 'reports/unit.json' }]],
    testTimeout: 60_000,
    maxWorkers: '100%', // one long test beside all others halves the wait on two cores
    sequence: { sequencer: LongestFirst },
  },
});
