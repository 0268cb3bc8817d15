/**
 * map.html: what a survey says, for everybody: the number in a sentence that can be quoted, a map to move about in, what to
 * do, and the same in tables. One file that asks nothing of any network and opens from disk; its words come in every language
 * that is asked for, and without its script the map and one language are there all the same.
 */

import type { PublicFacts, PublicWishes } from '../../shared/public-map.ts';
import { formatter } from '../../shared/strings/formatter.ts';
import { LANGUAGES, type Language } from '../../shared/strings/languages.ts';
import { PUBLIC, type PublicTable } from '../../shared/strings/public/index.ts';
import type { Translation } from '../../shared/strings/text.ts';
import type { PublicMap } from '../present/public-map.ts';
import { printedTag } from '../present/public-tags.ts';
import { type PublicTexts, publicTexts } from '../present/public-words.ts';
import { type Html, html } from './html.ts';
import { htmlPage, type PageScript } from './html-page.ts';
import { markRadius, publicDrawing } from './public-drawing.ts';
import { publicParts } from './public-page.ts';
import { publicStyle } from './public-style.ts';

/** Stands in the beginning of every file for the public, so that an earlier one can be told from anything else. */
export const PUBLIC_MARK = 'Shoalwise, for the public';

/** What the page's script finds in it. */
export interface PublicData {
  facts: PublicFacts;
  wishes: PublicWishes;
  tables: Partial<Record<Language, Translation<PublicTable>>>;
  /** of the words that stand in the page */
  tag: string;
}

/** Where a script will say how large the map is shown: that of a desk. */
const USUAL_WIDTH = 900;

/**
 * @param languages of the page, the first of which stands in it without its script; more than one = with a switch
 * @param script of src/viewer
 */
export function publicMapHtml(
  map: PublicMap,
  wishes: PublicWishes,
  languages: readonly [Language, ...Language[]],
  script: PageScript,
): string {
  const { facts, shapes } = map;
  const tag = printedTag(languages[0], facts);
  const texts = publicTexts(facts, wishes, formatter(tag, PUBLIC[languages[0]]));
  const data: PublicData = {
    facts,
    wishes,
    tables: Object.fromEntries(languages.map((name) => [name, PUBLIC[name]])),
    tag,
  };
  const parts = publicParts(texts);
  const body = html`<main>
<div id="head-place"><div id="head">${languages.length > 1 ? languageSwitch(languages, texts) : null}<div id="head-words">${parts.head}</div></div></div>
<div id="map-place">${mapFrame(map, texts)}</div>
<div id="side"><div id="key">${parts.key}</div><div id="rest">${parts.rest}</div></div>
</main>`;
  return htmlPage(texts.title, publicStyle(shapes.depths.length + 1), body, {
    lang: tag,
    mark: PUBLIC_MARK,
    script: { ...script, data: JSON.stringify(data) },
  });
}

function languageSwitch(languages: readonly Language[], { controls }: PublicTexts): Html {
  return html`<nav id="languages" class="script-only" aria-label="${controls.language}">${languages.map(
    (name, i) =>
      html`<button type="button" lang="${name}" data-language="${name}" aria-pressed="${i === 0 ? 'true' : 'false'}">${LANGUAGES[name]}</button>`,
  )}</nav>`;
}

function mapFrame(map: PublicMap, { map: words, controls }: PublicTexts): Html {
  const { facts, shapes } = map;
  const { width, height } = shapes.frame;
  const unit = Math.max(width, height) / USUAL_WIDTH;
  const style = `--unit: ${unit.toFixed(3)}; --mark: ${markRadius(facts.places.length)}`;
  return html`<div id="map" tabindex="0" role="application" aria-label="${words.name}" aria-describedby="map-keys" style="${style}">
<svg id="lake" viewBox="0 0 ${width} ${height}" role="img" aria-label="${words.described}" data-width="${width}" data-height="${height}">${publicDrawing(map, unit)}<circle id="pin" cx="0" cy="0" r="0"/></svg>
<svg id="cross" viewBox="0 0 26 26" aria-hidden="true"><path d="M13 1V25M1 13H25"/></svg>
</div>
<p id="hint" class="script-only">${words.hint}</p>
<div id="tools" class="script-only"><button type="button" id="in" aria-label="${controls.zoomIn}">+</button><button type="button" id="out" aria-label="${controls.zoomOut}">−</button><button type="button" id="whole" aria-label="${controls.wholeLake}"><svg width="18" height="18" viewBox="0 0 18 18" aria-hidden="true"><path d="M1 6V1H6M12 1H17V6M17 12V17H12M6 17H1V12" fill="none" stroke="currentColor" stroke-width="2"/></svg></button></div>
<div id="foot"><div id="scale" class="script-only"><span id="scale-words"></span><div id="bar"></div></div><div><svg width="12" height="16" viewBox="0 0 12 16" aria-hidden="true"><path transform="rotate(${Math.round(shapes.northDeg)} 6 8)" d="M6 0L11 15L6 12L1 15Z" fill="currentColor"/></svg> <span id="north">${controls.north}</span></div></div>
<div id="card" role="status" hidden></div>
<p id="map-keys" hidden>${words.keys}</p>`;
}
