/** Words of cells in Spanish, French and German. What each means is by hand, from dictionaries of the three languages. */

import { expect, it } from 'vitest';
import { guess } from '../../../src/import/bed/class-guess.ts';
import { classParts, isNothing, meaningOf } from '../../../src/import/tables/codes.ts';

type Field = keyof typeof meaningOf;

const WORDS: [Field, string, string[]][] = [
  ['substrate', 'mud', ['fango', 'Lodo', 'vase', 'Boue', 'Schlamm', 'Schlick', 'Arcilla', 'Ton']],
  ['substrate', 'silt', ['limo', 'Limon', 'Schluff', 'limoneux']],
  ['substrate', 'sand', ['arena', 'Arena fina', 'sable', 'Sable grossier', 'sandig', 'Feinsand']],
  ['substrate', 'gravel', ['grava', 'Gravilla', 'gravier', 'Kies', 'kiesig']],
  ['substrate', 'pebble', ['guijarros', 'Canto rodado', 'galets', 'Cailloux', 'Kiesel', 'Geröll']],
  ['substrate', 'rock', ['roca', 'Bloques', 'roche', 'Rochers', 'Fels', 'Steine', 'Blöcke']],
  ['substrate', 'other', ['otro', 'Madera', 'autre', 'Bois', 'Sonstiges', 'Holz']],
  ['plant_cover', '0', ['ninguna', 'sin vegetación', 'aucune', 'keine']],
  ['plant_cover', '1', ['escasa', 'poca', 'clairsemé', 'éparse', 'spärlich', 'vereinzelt']],
  ['plant_cover', '2', ['moderada', 'Media', 'moyenne', 'mäßig', 'mittel']],
  ['plant_cover', '3', ['abundante', 'abondant', 'häufig', 'stark']],
  ['plant_cover', '4', ['densa', 'muy densa', 'très dense', 'dicht', 'sehr dicht']],
  ['role', 'primary', ['primario', 'Primera', 'premier', 'primaire', 'Erster']],
  ['role', 'secondary', ['secundario', 'segundo', 'deuxième', 'secondaire', 'Zweiter']],
  ['design', 'belt', ['banda', 'dos cuerdas', 'bande', 'Streifen', 'zwei Seile']],
  ['design', 'distance', ['distancia', 'línea', 'ligne', 'Linie', 'ein Seil']],
  ['stop', 'thermocline', ['termoclina', 'Sprungschicht']],
  ['stop', 'obstacle', ['obstáculo', 'Hindernis']],
  ['bearing_ref', 'magnetic', ['magnético', 'magnétique', 'mißweisend']],
  ['bearing_ref', 'true', ['verdadero', 'vrai', 'rechtweisend']],
];

it.each(WORDS)('%s, %s', (field, value, words) => {
  for (const word of words) expect(meaningOf[field](word), word).toBe(value);
});

it('mixtures are parted at the words between, and nothing found is nothing', () => {
  expect(
    ['arena y grava', 'sable et gravier', 'Sand mit Kies', 'arena con limo'].map(classParts),
  ).toEqual([
    ['arena', 'grava'],
    ['sable', 'gravier'],
    ['Sand', 'Kies'],
    ['arena', 'limo'],
  ]);
  for (const word of ['nada', 'ninguno', 'rien', 'aucune', 'keine', 'nichts'])
    expect(isNothing(word), word).toBe(true);
});

it.each([
  ['Fondo de arena fina', 'sand'],
  ['Sable grossier', 'sand'],
  ['Feiner Kies', 'gravel'],
  ['Kieselsteine', 'pebble'],
  ['Roche', 'rock'],
  ['Geröll', 'pebble'],
  ['Limestone', 'other'],
])('a code of a map: %s', (code, value) => {
  const classes = ['mud', 'silt', 'sand', 'gravel', 'pebble', 'rock', 'other'];
  expect(guess(code, classes, null).class).toBe(value);
});
