/** Pictures of the page for people to look at, in out/screens/: kept where SCREENS is set, for drawing them takes time. */

import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import type { Page } from 'playwright-core';

const SCREENS = join(import.meta.dirname, '../../../out/screens');

export async function picture(page: Page, name: string): Promise<void> {
  if (!process.env.SCREENS) return;
  mkdirSync(SCREENS, { recursive: true });
  await page.screenshot({ path: join(SCREENS, name) });
}
