/** Words from the survey's files stay words on the page, whatever they hold. */

import { createElement } from 'react';
import { renderToStaticMarkup } from 'react-dom/server';
import { describe, expect, it } from 'vitest';
import type { CheckName, Verdict } from '../../../shared/result.ts';
import { ChoiceControl } from '../../../src/app/stations/density/ChoiceControl.tsx';
import { Verdicts } from '../../../src/app/stations/density/Verdicts.tsx';
import { TransectTable } from '../../../src/app/stations/transects/TransectTable.tsx';
import type { CheckWords } from '../../../src/present/checks.ts';

const HOSTILE = '<img src=x onerror=alert(1)>';

describe('a name that looks like markup', () => {
  it('is text in the table of transects', () => {
    const html = renderToStaticMarkup(
      createElement(TransectTable, {
        table: {
          title: 'Transects',
          columns: {
            transect: 'Transect',
            observers: 'Observers',
            depth: 'Depth',
            area: 'Searched area',
            clusters: 'Clusters',
            mussels: 'Mussels',
          },
          rows: [
            {
              transect: HOSTILE,
              name: HOSTILE,
              observers: HOSTILE,
              depths: '1.0 to 2.0 m',
              area: '30 m²',
              clusters: '1',
              mussels: '1',
              flagged: true,
            },
          ],
          flag: 'position in doubt',
          note: null,
        },
        chosen: null,
        onChoose: () => {},
      }),
    );
    expect(html).not.toContain('<img');
    expect(html).toContain('&lt;img src=x onerror=alert(1)&gt;');
    // a flag is a sign and a word
    expect(html).toContain('position in doubt');
  });
});

describe('a verdict', () => {
  const check = (name: CheckName, verdict: Verdict): CheckWords => ({
    name,
    title: `${name} title`,
    term: `${name} title`,
    gloss: 'how far it moves',
    verdict,
    figures: 'without T1 the total would be 4 % lower',
    meaning: 'no single transect decides the total',
    sentence: 'Without T1 the total would be 4 % lower: no single transect decides the total.',
  });

  it('is said by word and by shape, with its gloss', () => {
    const html = renderToStaticMarkup(
      createElement(Verdicts, {
        checks: [
          check('depth', 'fails'),
          check('observer', 'doubtful'),
          check('substrate', 'holds'),
        ],
        picture: () => null,
      }),
    );
    for (const word of ['fails', 'doubtful', 'holds']) expect(html).toContain(`>${word}<`);
    const signs = [...html.matchAll(/<svg.*?<\/svg>/g)].map((m) =>
      m[0].replace(/class="[^"]*"/g, ''),
    );
    expect(new Set(signs).size).toBe(3);
    expect(html).toContain('How far it moves');
    expect(html).toContain('Without T1');
  });
});

describe('a choice', () => {
  const control = (path: string, value: string | number | boolean | null, idle: string | null) =>
    renderToStaticMarkup(createElement(ChoiceControl, { path, value, idle, onChange: () => {} }));

  it('says its meaning and that it is the default, or how to get back to it', () => {
    const usual = control('density.depth', 'auto', null);
    expect(usual).toContain('This is the default.');
    // the gloss of the value that is chosen
    expect(control('density.depth', 'curve', null)).toContain(
      'Natural cubic spline: a smooth curve of depth.',
    );
    const changed = control('density.depth', 'none', null);
    expect(changed).toContain('Default: by AICc.');
    expect(changed).toContain('Back to the default');
    expect(changed).toContain('How depth enters the density');
  });

  it('that is idle is off and says why', () => {
    const html = control('density.depth_df', 3, 'only for a natural cubic spline of depth');
    expect(html).toContain('disabled=""');
    expect(html).toContain('only for a natural cubic spline of depth');
  });

  it('with nothing set says what that means', () => {
    expect(control('map.max_depth_m', null, null)).toContain(
      'placeholder="as deep as was surveyed"',
    );
  });
});
