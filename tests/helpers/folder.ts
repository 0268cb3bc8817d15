/** A folder of its own for one test file, removed when the file is done. */

import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll } from 'vitest';

export function testFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'shoalwise-test-'));
  afterAll(() => rmSync(folder, { recursive: true, force: true }));
  return folder;
}
