import { defineConfig } from 'vitest/config';
import { viewerInPage } from './src/viewer/bundle.mjs';
import { ALONE } from './tests/alone.ts';

const alone = ALONE.map((path) => (path.endsWith('/') ? `${path}**/*.test.ts` : path));

export default defineConfig({
  plugins: [viewerInPage()],
  test: {
    environment: 'node',
    server: { deps: { inline: ['fmin'] } }, // fmin is a UMD file in a package that says "type": "module"
    env: { TZ: 'UTC' },
    testTimeout: 60_000,
    hookTimeout: 60_000,
    expect: { poll: { timeout: 30_000 } }, // one second is the default, which a busy machine sleeps through
    maxWorkers: '100%', // one core less is the default: of two that would be half
    // in the order of their names: those alone come first, among them the longest
    projects: [
      { extends: true, test: { name: 'alone', include: alone } },
      {
        extends: true,
        test: {
          name: 'together',
          include: ['tests/**/*.test.ts'],
          exclude: alone,
          isolate: false, // loading all modules anew takes longer than most of these files
        },
      },
    ],
  },
});
