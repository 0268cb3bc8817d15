/** GDAL's own tools as independent readers of what we write; where they are missing such tests are skipped (tests/run.mjs says so). */

import { spawnSync } from 'node:child_process';

export const hasGdal = ['gdalinfo', 'gdallocationinfo', 'ogrinfo'].every(
  (tool) => spawnSync(tool, ['--version']).status === 0,
);

/** Standard output of a tool; throws with its messages when it fails or warns. */
export function runTool(tool: string, args: string[], input = ''): string {
  const done = spawnSync(tool, args, { encoding: 'utf8', input, maxBuffer: 1 << 26 });
  if (done.status !== 0 || /warning|error/i.test(done.stderr))
    throw new Error(`${tool} ${args.join(' ')}: ${done.stderr || done.stdout || done.error}`);
  return done.stdout;
}
