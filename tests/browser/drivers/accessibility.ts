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
    axe: {
      run(options: {
        resultTypes: ['violations'];
        runOnly?: string[];
      }): Promise<{ violations: Violation[] }>;
    };
  }
}

/** @param rules of axe, these alone; left out: all that it takes by default */
export async function axeFindings(page: Page, rules?: string[]): Promise<string[]> {
  await page.evaluate(AXE); // through the debugger, which the page's policy does not bind
  const violations = await page.evaluate(async (runOnly) => {
    const only = runOnly === undefined ? {} : { runOnly };
    return (await window.axe.run({ resultTypes: ['violations'], ...only })).violations;
  }, rules);
  return violations.flatMap(({ id, impact, nodes }) =>
    nodes.map((node) => `${id} (${impact}) ${node.target.join(' ')}: ${node.failureSummary}`),
  );
}
