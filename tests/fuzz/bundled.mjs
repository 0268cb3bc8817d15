/** The fuzzer's driver and the program of its processes as modules of their own, in a folder that `remove` takes away. */

import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { bundle } from '../../src/cli/bundle.mjs';

const HERE = dirname(fileURLToPath(import.meta.url));

/**
 * @param {string} parent folder in which the folder is made
 * @returns {Promise<{ driver: string, program: string, remove: () => void }>}
 */
export async function bundled(parent) {
  const folder = mkdtempSync(join(parent, 'program-'));
  const written = async (name) => {
    const path = join(folder, `${name}.mjs`);
    writeFileSync(path, await bundle(join(HERE, `${name}.ts`), ['vitest']));
    return path;
  };
  const [driver, program] = await Promise.all([written('fuzz'), written('child')]);
  return { driver, program, remove: () => rmSync(folder, { recursive: true, force: true }) };
}
