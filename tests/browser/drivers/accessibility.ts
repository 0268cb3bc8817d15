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
        rules: Record<string, { enabled: boolean }>;
      }): Promise<{ violations: Violation[] }>;
    };
  }
}

/** Rules of axe: these alone, or all that it takes by default without these. */
export interface Rules {
  only?: string[];
  without?: string[];
}

export async function axeFindings(
  page: Page,
  { only, without = [] }: Rules = {},
): Promise<string[]> {
  if (!(await page.evaluate(() => 'axe' in window))) await page.evaluate(AXE); // through the debugger, which the page's policy does not bind
  const violations = await page.evaluate(
    async ({ only, without }) => {
      const rules = Object.fromEntries(without.map((rule) => [rule, { enabled: false }]));
      const runOnly = only === undefined ? {} : { runOnly: only };
      return (await window.axe.run({ resultTypes: ['violations'], ...runOnly, rules })).violations;
    },
    { only, without },
  );
  return violations.flatMap(({ id, impact, nodes }) =>
    nodes.map((node) => `${id} (${impact}) ${node.target.join(' ')}: ${node.failureSummary}`),
  );
}
