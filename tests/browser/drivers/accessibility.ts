/** What axe finds on the page as it stands: rule, impact and where. */

import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const AXE = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

interface Violation {
  id: string;
  impact: string;
  nodes: { target: string[]; failureSummary: string }[];
}

declare global {
  interface Window {
    /** put there by the script of axe-core */
    axe: { run(): Promise<{ violations: Violation[] }> };
  }
}

export async function axeFindings(page: Page): Promise<string[]> {
  await page.evaluate(AXE); // through the debugger, which the page's policy does not bind
  const violations = await page.evaluate(async () => {
    return (await window.axe.run()).violations;
  });
  return violations.flatMap(({ id, impact, nodes }) =>
    nodes.map((node) => `${id} (${impact}) ${node.target.join(' ')}: ${node.failureSummary}`),
  );
}
