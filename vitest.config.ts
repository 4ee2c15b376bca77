import { availableParallelism } from 'node:os';
import { defineConfig } from 'vitest/config';

/**
 * Fast units beside the code, whole flows under test/. Flows start real processes, so they get time: how long something
 * may take is a guard against hanging, not a promise, and must hold on a busy machine.
 */
export default defineConfig({
  test: {
    include: ['src/**/*.test.ts', 'src/**/*.test.tsx', 'test/**/*.test.ts'],
    setupFiles: ['test/chance.ts'],
    testTimeout: 180_000,
    hookTimeout: 180_000,
    expect: { poll: { timeout: 30_000 } },
    pool: 'forks',
    // Many flows wait for processes, disks and browsers; files share nothing but the machine (test/ports-of-own.ts).
    maxWorkers: Math.max(2, availableParallelism() >> 1),
  },
});
