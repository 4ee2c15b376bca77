import { defineConfig } from 'vitest/config';

/** Fast units beside the code, whole flows under test/. Flows start real processes, so they get time. */
export default defineConfig({
  test: {
    include: ['src/**/*.test.ts', 'src/**/*.test.tsx', 'test/**/*.test.ts'],
    testTimeout: 60_000,
    hookTimeout: 120_000,
    pool: 'forks',
  },
});
