import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    environment: 'node',
    include: ['tests/**/*.test.ts'],
    server: { deps: { inline: ['fmin'] } }, // fmin is a UMD file in a package that says "type": "module"
    env: { TZ: 'UTC' },
    testTimeout: 60_000,
    maxWorkers: '100%', // one core less is the default: of two that would be half
  },
});
