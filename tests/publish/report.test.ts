/** report.html: the answer first, nothing fetched, nothing from a file taken as markup. */

import { describe, expect, it } from 'vitest';
import { noticeAt } from '../../shared/findings.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { readFrontPage, reportWords } from '../../src/present/front-page.ts';
import { escapeHtml, html } from '../../src/publish/html.ts';
import { publish } from '../../src/publish/index.ts';
import { checkedResult } from '../helpers/checked.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

const report = (result: SurveyResult) => publish(result).get('report.html') as string;
const VOID = new Set(['meta', 'br', 'rect', 'line', 'polygon', 'polyline', 'circle', 'path']);

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
    const [first] = readFrontPage(handMadeResult(), reportWords('en')).answer;
    expect(text.match(/<p class="answer">([^<]*)/)![1]).toBe(first);
    expect(text.indexOf('<h2')).toBeGreaterThan(text.indexOf('class="answer"'));
  });

  it.each([
    ['a whole survey', handMadeResult()],
    ['no lake', withoutLake()],
    ['nothing found', nothingFound()],
    ['checks and figures', checkedResult()],
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
      /<script|<link|<iframe|<img|\shref=(?!"#)|\ssrc=|@import|url\((?!#)|https?:/i,
    );
  });

  it('escapes whatever comes from files', () => {
    const result = handMadeResult();
    const evil = '<script>alert("x")</script>\'&';
    result.estimate.lake = evil;
    result.findings = [noticeAt({ table: 'transects.csv' }, 'x', evil)];
    result.estimate.treatments![0].name = evil;
    result.estimate.detection!.observers[0].observer = evil;
    result.estimate.strata![0].substrate = evil;
    result.curves[0].substrate = [evil];
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
      'Nothing was detected, so detection probabilities are not estimable',
    );
  });
});

describe('how sure, beside the answer', () => {
  const first = (result: SurveyResult) => {
    const text = report(result);
    return text.slice(text.indexOf('class="answer"'), text.indexOf('<nav'));
  };

  it('gives the bootstrap, the density without a model and the checks; those that fail in full', () => {
    const text = first(checkedResult());
    expect(text).toContain('drawing the transects anew 200 times gives 118,000 to 291,000.');
    expect(text).toContain(
      'there are 0.46 clusters per m², against 0.50 by the model: the two agree within their errors.',
    );
    expect(text).toContain(
      'Of 6 checks on the model 4 hold; doubtful: 1; failing: 1; not testable: 0.',
    );
    expect(text).toContain(
      '<b class="fails">Fails.</b> Pearson dispersion 2.40 (1 is right): the counts vary much more',
    );
    expect(text).not.toContain('χ² 4.1');
  });

  it('says that the number disagrees with the density without a model, also without a lake', () => {
    for (const result of [checkedResult(), { ...withoutLake(), checks: checkedResult().checks }]) {
      result.checks!.checks.at(-1)!.verdict = 'fails';
      expect(first(result).match(/disagree beyond their errors/g)).toHaveLength(1);
    }
  });

  it('does not say the density twice without a lake', () => {
    const text = first({ ...withoutLake(), checks: checkedResult().checks });
    expect(text).toContain('Along the transects there were about');
    expect(text).not.toContain('by the model');
  });

  it('says nothing that does not exist', () => {
    expect(first(nothingFound())).not.toMatch(/How sure|anew|checks/);
    expect(report(nothingFound())).toContain(
      'Nothing was detected, so there is no model to check.',
    );
  });
});

describe('the checks on the model', () => {
  it('stand under their figures, or as a sentence where they have none', () => {
    const text = report(checkedResult());
    const under = (figure: string) =>
      text
        .slice(text.indexOf(`id="${figure}-title"`))
        .match(/<figcaption>(.*?)<\/figcaption>/s)![1]
        .replace(/^<b>Figure \d+\. [^<]*<\/b> /, '');
    expect(under('by-observer')).toBe(
      '<b class="holds">Holds.</b> χ² 1.2 on 2 degrees of freedom, p = 0.55: each observer detected about what the model expects in each role. ',
    );
    expect(under('by-depth')).toContain(
      '<b class="doubtful">Doubtful.</b> χ² 4.1 on 1 degree of freedom, p = 0.043',
    );
    expect(under('distances')).toContain('<b class="holds">Holds.</b> χ² 3.0 on 4');
    expect(under('influence')).toContain('Without =T2 the total would be');
    // no figure: in the list, the one that fails first
    const list = text.match(/<ul class="checks">(.*?)<\/ul>/s)![1];
    expect(list.indexOf('Overdispersion')).toBeGreaterThan(0);
    expect(list.indexOf('Overdispersion')).toBeLessThan(list.indexOf('Model against'));
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
