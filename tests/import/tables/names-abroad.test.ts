/** Headers in Spanish, French and German. What each means is by hand, from dictionaries of the three languages. */

import Papa from 'papaparse';
import { describe, expect, it } from 'vitest';
import { headerOf, type Kind, nameFit } from '../../../src/import/tables/names.ts';
import { comeIn, demo, differences, utf8 } from './disguised.ts';

const COLUMNS: [Kind, string, string[]][] = [
  [
    'transects',
    'transect',
    ['Transecto', 'N.º de transecto', 'Transecte', 'Transekt', 'Transekt-Nr.'],
  ],
  ['transects', 'date', ['Fecha', 'Fecha de muestreo', 'Date de plongée', 'Datum']],
  ['transects', 'primary', ['Observador 1', 'Buzo principal', 'Premier plongeur', 'Taucher 1']],
  ['transects', 'secondary', ['Segundo buzo', 'Plongeur 2', 'Zweiter Beobachter']],
  ['transects', 'start_lat', ['Latitud inicio', 'Latitude début', 'Startbreite']],
  ['transects', 'start_lon', ['Longitud inicial', 'Longitude départ', 'Längengrad Start']],
  ['transects', 'end_lat', ['Latitud final', "Latitude d'arrivée", 'Breitengrad Ende']],
  ['transects', 'end_lon', ['Longitud fin', 'Longitude fin', 'Länge Ende']],
  ['transects', 'bearing_deg', ['Rumbo (°)', 'Azimut', 'Cap magnétique', 'Peilung']],
  ['transects', 'length_m', ['Longitud del transecto (m)', 'Longueur', 'Seillänge (m)']],
  ['transects', 'width_m', ['Ancho', 'Largeur du transect', 'Streifenbreite']],
  ['transects', 'clarity_m', ['Visibilidad', 'Visibilité (m)', 'Sichtweite in m']],
  ['transects', 'search_min', ['Tiempo de búsqueda', 'Temps de recherche', 'Suchzeit (min)']],
  ['transects', 'notes', ['Observaciones', 'Remarques', 'Bemerkungen']],
  ['habitat', 'distance_m', ['Distancia (m)', 'Distance depuis le début', 'Entfernung']],
  ['habitat', 'substrate', ['Sustrato', 'Tipo de fondo', 'Nature du fond', 'Untergrund']],
  ['habitat', 'plant_cover', ['Cobertura vegetal', 'Recouvrement', 'Pflanzendeckung', 'Bewuchs']],
  ['habitat', 'depth_m', ['Profundidad en m', 'Profondeur (m)', 'Wassertiefe', 'Tiefe (m)']],
  ['detections', 'role', ['Rol', 'Rôle du plongeur', 'Rolle']],
  ['detections', 'offset_m', ['Distancia perpendicular', 'Écart', 'Querabstand (m)']],
  ['detections', 'count', ['N.º de mejillones', 'Nombre de moules', 'Anzahl Muscheln', 'Anzahl']],
  ['detections', 'cluster_length_cm', ['Longitud del grupo', "Longueur de l'amas", 'Gruppenlänge']],
  ['points', 'lat', ['Latitud', 'Hochwert', 'Breitengrad']],
  ['points', 'lon', ['Rechtswert', 'Längengrad']],
];

describe.each(COLUMNS)('%s, %s', (kind, field, headers) => {
  it.each(headers)('%s', (text) => {
    expect(nameFit(headerOf(text), kind, field)).toBe(2);
  });
});

// each of these words has two meanings: length or longitude, width or latitude
it.each<[string, string[]]>([
  ['Longitud', ['start_lon', 'length_m']],
  ['Länge', ['start_lon', 'length_m']],
  ['Breite', ['start_lat', 'width_m']],
])('%s may mean both', (text, fields) => {
  for (const field of fields) expect(nameFit(headerOf(text), 'transects', field)).toBe(1);
});

it.each([
  ['Profundidad en metros', 'profundidad', 'm'],
  ['Profondeur (pieds)', 'profondeur', 'ft'],
  ['Tiefe in Metern', 'tiefe', 'm'],
])('%s has its unit', (text, key, unit) => {
  expect(headerOf(text)).toMatchObject({ key, unit });
});

/** Our columns in the order of each table, as a Spanish, a French and a German sheet have them. */
const SHEETS = {
  Spanish: [
    ['Transecto', 'Distancia (m)', 'Sustrato', 'Cobertura vegetal (0-4)', 'Profundidad (m)'],
    ['Transecto', 'Rol', 'Distancia (m)', 'Distancia perpendicular (m)', 'N.º de mejillones'],
  ],
  French: [
    ['Transecte', 'Distance (m)', 'Substrat', 'Recouvrement (0-4)', 'Profondeur (m)'],
    ['Transecte', 'Rôle', 'Distance (m)', 'Écart (m)', 'Nombre de moules'],
  ],
  German: [
    ['Transekt', 'Entfernung (m)', 'Substrat', 'Pflanzendeckung (0-4)', 'Tiefe (m)'],
    ['Transekt', 'Rolle', 'Entfernung (m)', 'Querabstand (m)', 'Anzahl Muscheln'],
  ],
} as const;
const OURS = [
  ['transect', 'distance_m', 'substrate', 'plant_cover', 'depth_m'],
  ['transect', 'role', 'distance_m', 'offset_m', 'count'],
] as const;

it.each(Object.entries(SHEETS))('a %s sheet comes back cell by cell', async (_, headers) => {
  const sheet = (table: 'habitat' | 'detections', k: 0 | 1) =>
    utf8(
      Papa.unparse(
        demo(table).map((row) =>
          Object.fromEntries(OURS[k].map((column, i) => [headers[k][i], row[column]])),
        ),
        { delimiter: ';' },
      ),
    );
  const { outcome } = await comeIn({
    'transects.csv': utf8(Papa.unparse(demo('transects'))),
    'a.csv': sheet('habitat', 0),
    'b.csv': sheet('detections', 1),
  });
  expect(outcome.findings).toEqual([]);
  for (const [k, table] of (['habitat', 'detections'] as const).entries()) {
    const wanted = demo(table).map((row) =>
      Object.fromEntries(OURS[k].map((column) => [column, row[column]])),
    );
    expect(differences(outcome.tables[table], wanted, () => 0)).toEqual([]);
  }
});
