/** Installs the packages of package-lock.json when they are missing or older than it. Plain JavaScript: it runs before them. */

import { spawnSync } from 'node:child_process';
import { statSync } from 'node:fs';
import { join } from 'node:path';

/** Returns true when the packages stand ready; says what it does on standard error. */
export function setUp(root) {
  if (packagesAreCurrent(root)) return true;
  process.stderr.write('Installing packages (npm ci) …\n');
  const npm = spawnSync('npm', ['ci', '--include=dev', '--no-audit', '--no-fund'], {
    cwd: root,
    stdio: ['ignore', 2, 2],
    shell: process.platform === 'win32', // npm is a .cmd file there
  });
  if (npm.status === 0) return true;
  process.stderr.write('npm ci failed; its messages stand above.\n');
  return false;
}

/** npm leaves a copy of the lock file in node_modules when it has finished. */
function packagesAreCurrent(root) {
  const installed = changedAt(join(root, 'node_modules', '.package-lock.json'));
  const locked = changedAt(join(root, 'package-lock.json'));
  return installed !== null && locked !== null && installed >= locked;
}

function changedAt(path) {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? null;
}
