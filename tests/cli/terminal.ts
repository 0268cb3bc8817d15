/** A terminal that keeps what it was told, and a core whose surveys do what a test needs. */

import type { Finding } from '../../shared/findings.ts';
import type { SurveyResult } from '../../shared/result.ts';
import type { Core, Terminal } from '../../src/cli/core.ts';
import { readPlanned } from '../../src/read/planned.ts';
import { handMadeResult } from '../helpers/result.ts';

export function keepingTerminal(): Terminal & { stdout: string; stderr: string } {
  return {
    stdout: '',
    stderr: '',
    bold: false,
    live: false,
    out(text) {
      this.stdout += text;
    },
    err(text) {
      this.stderr += text;
    },
  };
}

export const ERROR: Finding = {
  severity: 'error',
  code: 'not-a-number',
  table: 'transects.csv',
  row: 7,
  column: 'length_m',
  message: '"3O" is not a number (metres expected)',
};
export const NOTICE: Finding = {
  severity: 'notice',
  code: 'rope-over-30-m',
  table: 'transects.csv',
  row: 3,
  column: 'length_m',
  message: 'the rope is 35 m long;\nused as it is',
};

/** The folder's name says how its survey goes: `good…`, `bad…` (errors in the data), `broken…` (throws), else good. */
export function namedCore(good: () => SurveyResult = handMadeResult): Core {
  return {
    async judge(folder) {
      if (folder.name.startsWith('broken')) throw new Error('the sum is 3, expected 4');
      const findings = folder.name.startsWith('bad') ? [ERROR, NOTICE] : [NOTICE];
      return {
        files: new Map(),
        read: {} as never,
        prepared: null,
        shown: null,
        repairs: async () => [],
        findings,
        ok: !folder.name.startsWith('bad'),
      };
    },
    async readGivenFiles() {
      throw new Error('not read here');
    },
    async readAnswersFile() {
      throw new Error('not answered here');
    },
    async importGiven() {
      throw new Error('not imported here');
    },
    async rehearseSurvey() {
      throw new Error('not rehearsed here');
    },
    async treatSurvey() {
      throw new Error('not treated here');
    },
    readPlanned,
    async describeBed() {
      throw new Error('not described here');
    },
    async estimateSurvey(folder) {
      if (folder.name.startsWith('broken')) throw new Error('the sum is 3, expected 4');
      if (folder.name.startsWith('bad')) return { ok: false, findings: [ERROR, NOTICE] };
      const result = good();
      result.estimate.lake = folder.name;
      const told = { ...result, findings: [NOTICE] };
      return { ok: true, result: told, again: null, held: null, ahead: async () => null };
    },
  };
}
