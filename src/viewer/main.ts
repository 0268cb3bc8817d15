/**
 * The script of a public map: the map can be moved, places answer, the words change their language. It runs in a page that
 * stands alone, and asks nothing of any network.
 */

import { formatter } from '../../shared/strings/formatter.ts';
import { isLanguage, type Language, languageFor, ownTag } from '../../shared/strings/languages.ts';
import { printedTag } from '../present/public-tags.ts';
import { type PublicFormatter, publicTexts } from '../present/public-words.ts';
import type { PublicData } from '../publish/public-map.ts';
import { publicParts } from '../publish/public-page.ts';
import { startCard } from './card.ts';
import { byId } from './elements.ts';
import { listen } from './gestures.ts';
import { startView } from './view.ts';

const data = JSON.parse(byId('data').textContent ?? '') as PublicData;
const languages = Object.keys(data.tables).filter(isLanguage);
let format = formatFor(data.tag);

document.documentElement.classList.add('scripted');
const view = startView(data.facts, () => format);
const card = startCard(data.facts, view, () => format);
listen(view, card);

for (const button of switches())
  button.addEventListener('click', () => {
    const { language = '' } = button.dataset;
    if (!isLanguage(language)) return;
    setLanguage(ownTag(language, navigator.languages) ?? printedTag(language, data.facts));
  });
setLanguage(firstTag());

/** The reader's own language where the page has it, else the one that stands in it. */
function firstTag(): string {
  const { language, tag } = languageFor(
    navigator.languages.filter((own) => languages.includes(languageFor([own]).language)),
  );
  return languages.includes(language) ? tag : data.tag;
}

function formatFor(tag: string): PublicFormatter {
  const { language } = languageFor([tag]);
  const table = data.tables[language];
  if (table === undefined) throw new Error(`got a page without words for ${tag}`);
  return formatter(tag, table);
}

function setLanguage(tag: string): void {
  format = formatFor(tag);
  const texts = publicTexts(data.facts, data.wishes, format);
  document.documentElement.lang = tag;
  document.title = texts.title;
  const parts = publicParts(texts);
  byId('head-words').innerHTML = parts.head.text;
  byId('key').innerHTML = parts.key.text;
  const wasOpen = document.querySelector('details')?.open ?? false;
  byId('rest').innerHTML = parts.rest.text;
  document.querySelector('details')?.toggleAttribute('open', wasOpen);
  const { map, controls } = texts;
  byId('map').setAttribute('aria-label', map.name);
  byId('lake').setAttribute('aria-label', map.described);
  byId('map-keys').textContent = map.keys;
  byId('hint').textContent = map.hint;
  byId('in').setAttribute('aria-label', controls.zoomIn);
  byId('out').setAttribute('aria-label', controls.zoomOut);
  byId('whole').setAttribute('aria-label', controls.wholeLake);
  byId('north').textContent = controls.north;
  document.getElementById('languages')?.setAttribute('aria-label', controls.language);
  for (const button of switches())
    button.setAttribute('aria-pressed', String(button.dataset.language === languageOf(tag)));
  view.tell();
  card.tell();
}

function languageOf(tag: string): Language {
  return languageFor([tag]).language;
}

function switches(): HTMLElement[] {
  return [...document.querySelectorAll<HTMLElement>('#languages button')];
}
