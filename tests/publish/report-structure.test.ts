/** The report as a document to be signed: everything numbered in order and referred to, nothing empty, its files named by digest. */

import { createHash } from 'node:crypto';
import { describe, expect, it } from 'vitest';
import type { PrecisionAhead } from '../../shared/planning.ts';
import type { SurveyResult } from '../../shared/result.ts';
import { LANGUAGES, type Language } from '../../shared/strings/languages.ts';
import { reportWords } from '../../src/present/front-page.ts';
import { readShortReport } from '../../src/present/short-report.ts';
import { html } from '../../src/publish/html.ts';
import { publish } from '../../src/publish/index.ts';
import { figure, numbered, seeFigure } from '../../src/publish/plates.ts';
import { inputFiles } from '../../src/read/index.ts';
import { checkedResult, loneDiver } from '../helpers/checked.ts';
import { q } from '../helpers/estimate.ts';
import { handMadeResult, nothingFound, withoutLake } from '../helpers/result.ts';

const file = (result: SurveyResult, name: string, language: Language = 'en') =>
  String(publish(result, { language }).get(name));
const RESULTS: [string, SurveyResult][] = [
  ['a whole survey', handMadeResult()],
  ['with checks', checkedResult()],
  ['without a lake', withoutLake()],
  ['nothing found', nothingFound()],
  ['one diver', loneDiver()],
];
const DOCUMENTS = RESULTS.flatMap(([name, result]) =>
  ['report.html', 'report-short.html'].map((own): [string, string] => [
    `${own}, ${name}`,
    file(result, own),
  ]),
);

const all = (text: string, pattern: RegExp) => [...text.matchAll(pattern)].map((m) => m[1]);

describe.each(DOCUMENTS)('%s', (_, text) => {
  it('numbers figures and tables in their order, each with a caption', () => {
    for (const [kind, caption] of [
      ['Figure', /<figcaption><b>(?:Figure (\d+))\. [^<]{10,}<\/b>/g],
      ['Table', /<caption id="[^"]+"><b>(?:Table (\d+))\. [^<]{10,}<\/b>/g],
    ] as const) {
      const numbers = all(text, caption).map(Number);
      expect(numbers, kind).toEqual(numbers.map((__, i) => i + 1));
    }
    expect(all(text, /<(figure)[ >]/g).length).toBe(all(text, /<figcaption><b>(Figure)/g).length);
    expect(all(text, /<(table)[ >]/g).length).toBe(all(text, /(<caption)/g).length);
  });

  it('leads every link to a place, and to the one that it names', () => {
    const links = [...text.matchAll(/<a href="#([^"]+)">([^<]+)<\/a>/g)];
    for (const [, id, words] of links) {
      const at = text.indexOf(` id="${id}"`);
      expect(at, id).toBeGreaterThan(0);
      const number = /^(?:Figure|Table) \d+$/.exec(words)?.[0];
      if (number !== undefined) expect(text.slice(at)).toMatch(new RegExp(`<b>${number}\\.`));
    }
  });

  it('has no heading without content', () => {
    const bare = text.match(/<h([1-6])[^>]*>[^<]*<\/h\1>\s*(<\/section>|<\/div>|<h[12])/g);
    expect(bare).toBeNull();
    expect(text).not.toMatch(/<section[^>]*>\s*<\/section>|<p>\s*<\/p>|<dl>\s*<\/dl>/);
  });
});

describe('report.html', () => {
  it.each(RESULTS)(
    'refers to every table and to every figure behind its first page: %s',
    (_, r) => {
      const text = file(r, 'report.html');
      const shown = [
        ...all(text, /<figure[^>]* id="([^"]+)"/g),
        ...all(text, /<div id="(table-[^"]+)"/g),
      ].filter((id) => id !== 'figure-map');
      const seen = new Set(all(text, /<a href="#([^"]+)"/g));
      expect(shown.filter((id) => !seen.has(id))).toEqual([]);
    },
  );

  it('lists every section in the contents, in order', () => {
    const text = file(checkedResult(), 'report.html');
    const listed = all(text, /<li><a href="#section-[^"]+">([^<]+)</g);
    expect(listed.length).toBeGreaterThan(9);
    expect(all(text, /<section id="section-[^"]+"><h2>([^<]+)</g)).toEqual(listed);
    expect(listed.map((title) => Number.parseInt(title, 10))).toEqual(listed.map((__, i) => i + 1));
  });

  it('has a place for two signatures at the end of its first page', () => {
    const text = file(handMadeResult(), 'report.html');
    const end = text.slice(text.indexOf('class="sign"'), text.indexOf('<nav'));
    for (const words of ['Prepared by', 'Reviewed by', 'Name', 'Signature', 'Date'])
      expect(end).toContain(`>${words}<`);
    expect(file(handMadeResult(), 'report-short.html')).not.toContain('class="sign"');
  });

  it('names the files by the digest that sha256sum gives', () => {
    const files = new Map([
      ['transects.csv', new TextEncoder().encode('transect,date\n')],
      ['habitat.csv', new Uint8Array(100).fill(7)],
    ]);
    const text = file({ ...handMadeResult(), inputs: inputFiles(files) }, 'report.html');
    for (const [name, bytes] of files) {
      const digest = createHash('sha256').update(bytes).digest('hex');
      expect(text).toContain(
        `<th scope="row">${name}</th><td class="n">${bytes.length}</td><td><code>${digest}</code></td>`,
      );
    }
  });

  it('keeps the name of a lake out of its style sheet', () => {
    const result = handMadeResult();
    result.estimate.lake = '"; } </style><b>x';
    const text = file(result, 'report.html');
    const style = text.slice(text.indexOf('<style>'), text.indexOf('</style>'));
    expect(style).toContain('\\22 \\3b \\20 \\7d \\20 \\3c \\2f style\\3e \\3c b\\3e x');
    expect(text.match(/<\/style>/g)).toHaveLength(1);
  });
});

describe.each(Object.keys(LANGUAGES) as Language[])('the short version in %s', (language) => {
  it('says in its own language what the estimate holds, and nothing in a place of a placeholder', () => {
    const result = handMadeResult();
    const text = file(result, 'report-short.html', language);
    expect(text).toContain(`<html lang="${language}">`);
    expect(text).not.toMatch(/\{\w+\}|undefined|NaN|\bnull\b/);
    const { where, areas } = readShortReport(result, reportWords(language));
    const { margins, treatments } = result.estimate;
    expect(where?.byDepth.rows).toHaveLength((margins?.by_depth.length ?? 0) + 1);
    expect(areas?.table.rows).toHaveLength(treatments?.length ?? 0);
  });
});

it('the short version cuts long tables and says how much is left out', () => {
  const result = handMadeResult();
  const [area] = result.estimate.treatments ?? [];
  result.estimate.treatments = Array.from({ length: 25 }, (_, i) => ({ ...area, name: `A${i}` }));
  const { areas } = readShortReport(result, reportWords('en'));
  expect(areas?.table.rows).toHaveLength(11);
  expect(areas?.table.rows.at(-1)?.cells[0]).toBe('15 more, in the full report');
});

describe('areas known together', () => {
  // by hand: half of the habitat's mussels, twice as much water as habitat, one chance
  const numbers = {
    water_m2: 20_000,
    water_acres: 4.94,
    off_lake_m2: 0,
    surveyed_m2: 10_000,
    outside: [],
    mean_depth_m: 2,
    greatest_depth_m: 3.5,
    depth_unmapped_m2: 0,
    volume_m3: 40_000,
    volume_acre_feet: 32.4,
    layer_m: null,
    layer_m3: null,
    layer_acre_feet: null,
    searched_m2: 100,
    searched_share: 0.005,
    mussels: q(1000, 100, 800, 1200),
    mussels_per_ha: null,
    mussels_per_1000_m3: null,
    share: { share: 0.5, lower: 0.41, upper: 0.59 },
  };
  const result = handMadeResult();
  const [row] = result.estimate.treatments ?? [];
  const held = {
    lake: 'Quillback Lake',
    interval: 0.95,
    depth_from_m: 0.5,
    depth_to_m: 6.1,
    total: { mussels: q(2000, 200, 1600, 2400), surveyed_m2: 20_000 },
    candidates: [
      { name: 'North', polygons: [], ...numbers },
      { name: 'South', polygons: [], ...numbers, mussels: q(900, 100, 700, 1100) },
    ],
    left_out: { surveyed_m2: 5000, mussels: q(100, 30, 50, 200), share: null },
    pairs: [{ first: 'North', second: 'South', chance: 0.76 }],
  };
  result.estimate.treatments = ['North', 'South'].map((name) => ({ ...row, name }));
  const written = publish(result, { held });

  it('have limits of their shares, their water, their order, and what is left out', () => {
    const text = String(written.get('report.html'));
    expect(text).toContain('41 % to 59 %');
    expect(text).toMatch(
      /North<\/th><td[^>]*>2\.00<\/td><td[^>]*>4\.94<\/td><td[^>]*>2\.0 m<\/td><td[^>]*>3\.5 m<\/td><td[^>]*>40,000<\/td><td[^>]*>32\.4<\/td><td[^>]*>0\.5 %/,
    );
    expect(text).toMatch(/North more than South<\/th><td class="n">76 %/);
    expect(text).toContain('Outside of all of them: 100 mussels (50 to 200)');
    expect(String(written.get('report-short.html'))).toContain('outside of all of them');
  });

  it('are not mixed up with other areas', () => {
    const other = { ...held, candidates: held.candidates.toReversed() };
    const text = String(publish(result, { held: other }).get('report.html'));
    expect(text).not.toContain('id="table-order"');
  });
});

describe('what more dives would bring', () => {
  // by hand, of a survey of 20 identical transects and a CV of 20 %: 0.2 √(20/(20 + K))
  const cvs = [5, 20, 60].map((k) => [k, 0.2 * Math.sqrt(20 / (20 + k))] as const);
  const ahead: PrecisionAhead = {
    dive: { design: 'belt', observers: 2, lengthM: 30, widthM: 1, direction: 'down' },
    startDepthsM: [1.5],
    current_cv: 0.2,
    curve: cvs.map(([transects, cv]) => ({
      transects,
      minutes: null,
      cv,
      lower: 0.95 * cv,
      upper: 1.05 * cv,
      not_estimable: 0,
    })),
  };

  it('is drawn and tabled, with where the survey stands', () => {
    const page = String(publish(handMadeResult(), { ahead }).get('report.html'));
    // number and unit stay on one line
    const text = page.replaceAll('\u00a0', ' ');
    expect(text).toContain('This survey has a CV of 20 %');
    // 0.15 lies at 20 + K = 20 (0.2/0.15)² = 35.6, so K = 15.6; straight between 5 and 20 on logarithmic axes it is 14.6
    expect(text).toContain('A CV of 15 % takes 15 more');
    expect(text).toMatch(/<th scope="row">60<\/th><td[^>]*>10 %<\/td><td[^>]*>9\.5 %/);
    expect(text).toContain('The broken line is this survey as it is, 20 %.');
    expect(text).toMatch(/<figure[^>]*id="figure-precision"><svg/);
  });

  it('is left out where it is not known, or where no number of dives tells the total', () => {
    const untold = ahead.curve.map((p) => ({ ...p, cv: null, lower: null, upper: null }));
    for (const own of [null, { ...ahead, curve: untold }])
      expect(String(publish(handMadeResult(), { ahead: own }).get('report.html'))).not.toContain(
        'id="section-ahead"',
      );
  });
});

describe('references', () => {
  const words = { figure: (n: number) => `Figure ${n}`, table: (n: number) => `Table ${n}` };
  it('fail when they lead nowhere, or when a name stands twice', () => {
    const one = figure('a', html`<svg></svg>`, 'A.', null);
    expect(numbered(html`${seeFigure('a')}${one}`, words).text).toContain(
      '<a href="#figure-a">Figure 1</a>',
    );
    expect(() => numbered(html`${seeFigure('b')}${one}`, words)).toThrow('"figure-b"');
    expect(() => numbered(html`${one}${one}`, words)).toThrow('twice');
  });

  it('cannot be forged by text from a file', () => {
    const forged = html`<p>${'\u0001see figure-a\u0001'}</p>`;
    expect(numbered(forged, words).text).toBe('<p>\ufffdsee figure-a\ufffd</p>');
  });
});
