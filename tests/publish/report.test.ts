/** report.html: the answer first, nothing fetched, nothing from a file taken as markup. */

import { describe, expect, it } from 'vitest';
import type { SurveyResult } from '../../shared/result.ts';
import { answerSentence } from '../../src/publish/answer.ts';
import { densityFigure } from '../../src/publish/figure.ts';
import { escapeHtml, html } from '../../src/publish/html.ts';
import { publish } from '../../src/publish/index.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

const report = (result: SurveyResult) => publish(result).get('report.html') as string;
const VOID = new Set(['meta', 'br', 'rect', 'line', 'polygon', 'polyline']);

/** Every element that is opened is closed, in order. */
function unbalanced(document: string): string[] {
  const open: string[] = [];
  const wrong: string[] = [];
  const markup = document.replace(/<style>.*?<\/style>/s, '').replace('<!doctype html>', '');
  for (const [, slash, name, rest] of markup.matchAll(/<(\/?)([a-zA-Z0-9]+)([^>]*)>/g)) {
    if (slash === '') {
      if (!rest!.endsWith('/') && !VOID.has(name!)) open.push(name!);
    } else if (open.pop() !== name) wrong.push(name!);
  }
  return [...wrong, ...open];
}

describe('report.html', () => {
  it('gives the answer sentence as its first sentence', () => {
    const text = report(handMadeResult());
    expect(text.indexOf(answerSentence(handMadeResult()))).toBeGreaterThan(0);
    expect(text.match(/<p class="answer">([^<]*)/)![1]).toBe(answerSentence(handMadeResult()));
    expect(text.indexOf('<h2>')).toBeGreaterThan(text.indexOf('class="answer"'));
  });

  it.each([
    ['a whole survey', handMadeResult()],
    ['no lake', withoutLake()],
    ['nothing found', nothingFound()],
  ])('closes what it opens, shows no undefined, NaN or null: %s', (_, result) => {
    const text = report(result);
    expect(unbalanced(text)).toEqual([]);
    expect(text).not.toMatch(/undefined|NaN|\bnull\b|\[object|Infinity/);
  });

  it('asks for nothing and runs nothing', () => {
    const text = report(handMadeResult());
    expect(text).toContain(
      `<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'; img-src data:">`,
    );
    expect(text).not.toMatch(
      /<script|<link|<iframe|<img|\shref=|\ssrc=|@import|url\((?!#)|https?:/i,
    );
  });

  it('escapes whatever comes from files', () => {
    const result = handMadeResult();
    const evil = '<script>alert("x")</script>\'&';
    result.estimate.lake = evil;
    result.estimate.warnings[0]!.message = evil;
    result.estimate.treatments![0]!.name = evil;
    result.estimate.detection!.observers[0]!.observer = evil;
    result.estimate.strata![0]!.substrate = evil;
    result.curves[0]!.substrate = [evil];
    result.domain.classes = [evil];
    const text = report(result);
    expect(text).not.toContain('<script');
    expect(text).not.toContain('alert("x")');
    expect(
      text.split('&lt;script&gt;alert(&quot;x&quot;)&lt;/script&gt;&#39;&amp;').length,
    ).toBeGreaterThan(8);
    expect(unbalanced(text)).toEqual([]);
  });

  it('states what is not in the number, the limits where nothing was found, and the cautions', () => {
    const text = report(handMadeResult());
    expect(text).toContain('shallower or deeper than was searched');
    expect(text).toContain('no substrate on the map');
    expect(text).toMatch(/silt<\/th><td class="n">0\.034<\/td><td class="n">0\.091/);
    expect(text).toContain('a planning aid, not a prescription');
    expect(text).toContain('dive safety officer');
    expect(text).not.toMatch(/\b(mussel-free|clean|absent)\b/i);
  });

  it('says that nothing can be said of detection when nothing was found', () => {
    expect(report(nothingFound())).toContain(
      'Nothing was found, so nothing can be said about what divers see',
    );
  });
});

describe('the density figure', () => {
  const { curves, domain } = handMadeResult();

  it('lets depth run down and density run to the right', () => {
    const text = densityFigure(curves, domain)!.text;
    const lines = [...text.matchAll(/<polyline points="([^"]+)"/g)].map((m) =>
      m[1]!.split(' ').map((p) => p.split(',').map(Number) as [number, number]),
    );
    expect(lines).toHaveLength(4);
    const ys = lines[0]!.map(([, y]) => y);
    expect(ys).toEqual([...ys].sort((a, b) => a - b));
    // the same shape 50/3 times as dense lies to the right by the same distance at every depth: a log axis
    const shifts = lines[3]!.map(([x], i) => x - lines[0]![i]![0]);
    for (const shift of shifts) expect(shift).toBeCloseTo(shifts[0]!, 0);
    expect(shifts[0]).toBeGreaterThan(0);
  });

  it('tells substrates apart by line style, not by colour', () => {
    const text = densityFigure(curves, domain)!.text;
    const dashes = [...text.matchAll(/<polyline[^>]*stroke-dasharray="([^"]*)"/g)].map((m) => m[1]);
    expect(new Set(dashes).size).toBe(4);
    expect(
      new Set([...text.matchAll(/<polyline[^>]*stroke="([^"]*)"/g)].map((m) => m[1])).size,
    ).toBe(1);
  });

  it('skips limits that do not exist and densities of 0', () => {
    const broken = {
      substrate: ['silt'],
      depthM: [1, 2, 3],
      musselsPerM2: [0, 0.5, 0.4],
      lower: [Number.NaN, Number.NaN, Number.NaN],
      upper: [Number.NaN, Number.POSITIVE_INFINITY, Number.NaN],
    };
    const text = densityFigure([broken], domain)!.text;
    expect(text).not.toMatch(/NaN|Infinity/);
    expect(text).not.toContain('<polygon');
    expect(densityFigure([{ ...broken, musselsPerM2: [0, 0, 0] }], domain)).toBeNull();
  });
});

describe('templates', () => {
  it('escape text, take templates as they are, and leave null out', () => {
    expect(html`<p title="${'"a"'}">${html`<b>${'<'}</b>`}${null}${[1, html`<i/>`]}</p>`.text).toBe(
      '<p title="&quot;a&quot;"><b>&lt;</b>1<i/></p>',
    );
    expect(escapeHtml('a\u0000b')).toBe('a\ufffdb');
  });
});
