import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    env: { TZ: 'UTC' },
    testTimeout: 20_000,
    hookTimeout: 30_000,
    // Many tests wait for a clock or a connection, so one more than there are processors.
    maxWorkers: 3,
    // Files share the modules of their worker: loading them anew for each took longer than the tests.
    isolate: false,
    reporters: ['default'],
  },
});
