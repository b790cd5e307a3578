import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['tests/**/*.test.ts'],
    env: { TZ: 'UTC' },
    testTimeout: 20_000,
    hookTimeout: 30_000,
    maxWorkers: 2,
    // Files share the modules of their worker: loading them anew for each took longer than the tests.
    isolate: false,
    reporters: ['default'],
  },
});
