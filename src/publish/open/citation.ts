/** citation.cff: how to cite the data set, and the program that the estimate was made with (Citation File Format 1.2.0). */

import type { Credits } from '../../../shared/open.ts';
import { VERSION } from '../../../shared/version.ts';
import { authorOf } from './people.ts';

/** The word that the format has for those who are not named. */
const NOBODY = 'anonymous';

export interface Cited {
  title: string;
  /** what the data set holds, in a sentence or two */
  abstract: string;
}

export function citationCff({ title, abstract }: Cited, { authors, license }: Credits): string {
  const named = authors.length === 0 ? [entity(NOBODY)] : authors.map(author);
  const lines = [
    'cff-version: 1.2.0',
    `message: ${text('If you use this data set, please cite it as below.')}`,
    'type: dataset',
    `title: ${text(title)}`,
    `abstract: ${text(abstract)}`,
    'authors:',
    ...named.flatMap(item),
    ...(license === null ? [] : [`license: ${text(license)}`]),
    'references:',
    '  - type: software',
    '    title: Shoalwise',
    `    version: ${text(VERSION)}`,
    '    license: MIT',
    '    authors:',
    ...item(entity('The Shoalwise authors')).map((line) => `    ${line}`),
  ];
  return `${lines.join('\n')}\n`;
}

function author(written: string): Record<string, string> {
  const known = authorOf(written);
  if ('name' in known) return entity(known.name);
  return { 'family-names': known.family, 'given-names': known.given };
}

const entity = (name: string): Record<string, string> => ({ name });

/** An entry of a list of mappings. */
function item(entry: Record<string, string>): string[] {
  return Object.entries(entry).map(
    ([key, value], i) => `${i === 0 ? '  - ' : '    '}${key}: ${text(value)}`,
  );
}

/** A double-quoted scalar: JSON's strings are YAML's. */
const text = (value: string): string => JSON.stringify(value);
