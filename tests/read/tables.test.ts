/** Tables → drafts → records. Expected values are read off the base survey by hand. */

import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { checkSurvey } from '../../src/check/index.ts';
import { readFolder } from '../../src/read/index.ts';
import { baseSurvey, toFolder } from '../helpers/base-survey.ts';
import { addRow, all, type Bend, edit, setCell, setRow } from '../helpers/bend.ts';

const T = 'transects.csv';
const H = 'habitat.csv';
const D = 'detections.csv';

async function read(bend: Bend = () => {}) {
  const texts = baseSurvey();
  bend(texts);
  return readFolder(toFolder(texts));
}

describe('the records', () => {
  it('say what the sheets say', async () => {
    const { survey, analysis } = await read();
    expect(survey.transects).toHaveLength(6);
    expect(survey.habitat).toHaveLength(24);
    expect(survey.detections).toHaveLength(30);
    expect(survey.transects[2]).toEqual({
      transect: 'T3',
      date: '2025-07-02',
      design: 'belt',
      primary: 'Ann',
      secondary: 'Ben',
      startLat: 45.00135,
      startLon: -92.999899,
      endLat: 45.00135,
      endLon: -92.99952,
      bearingDeg: 90,
      bearingRef: 'magnetic',
      lengthM: 30,
      widthM: 1,
      clarityM: 6,
      stop: 'rope_end',
      setupMin: 3,
      habitatMin: null,
      searchMin: 18.5,
      notes: null,
      extra: {},
      row: 4,
    });
    expect(survey.habitat[1]).toEqual({
      transect: 'T1',
      distanceM: 12,
      substrate: ['gravel'],
      plantCover: 1,
      depthM: 2,
      extra: {},
      row: 3,
    });
    expect(survey.habitat[3]).toMatchObject({ distanceM: 30, substrate: null, plantCover: null });
    expect(survey.detections[15]).toEqual({
      transect: 'T4',
      role: 'primary',
      distanceM: 4.25,
      offsetM: 0.1,
      count: 1,
      clusterLengthCm: 2.5,
      clusterWidthCm: 1.5,
      extra: {},
      row: 17,
    });
    expect(analysis.lake).toBe('Minnow Pond');
  });

  it('fill in the width by design: 1 on a belt, 2 on a distance transect', async () => {
    const { survey } = await read(setCell(T, 3, 'width_m', '0.8'));
    expect(survey.transects.map(({ widthM }) => widthM)).toEqual([1, 0.8, 1, 2, 2, 2]);
  });

  it('take a blank bearing_ref for magnetic', async () => {
    const { survey } = await read();
    expect(survey.transects.map(({ bearingRef }) => bearingRef)).toEqual([
      'true',
      'magnetic',
      'magnetic',
      'true',
      'magnetic',
      'magnetic',
    ]);
  });

  it('take a row within 5 mm of the rope length for the end row, and put it at the end', async () => {
    const { survey } = await read(setRow(H, 5, 'T1,29.995,,,3.8'));
    expect(survey.habitat[3]).toMatchObject({ distanceM: 30, substrate: null, depthM: 3.8 });
  });

  it('take a row within a billionth of a metre of 0 for the first one', async () => {
    const { survey } = await read(setRow(H, 2, 'T1,5e-324,sand,0,0.8'));
    expect(survey.habitat[0].distanceM).toBe(0);
  });

  it('keep unknown columns of every table', async () => {
    const { survey, findings } = await read(
      all(
        edit(T, (text) => text.replace('notes', 'Boat Name').replace('18.5,\n', '18.5,Otter\n')),
        edit(H, (text) =>
          text
            .replace('depth_m', 'depth_m,seen by')
            .replace('0.8\n', '0.8,Ann\n')
            .replaceAll(/(\d)$/gm, '$1,'),
        ),
        edit(D, (text) => text.replace('cluster_width_cm', '__proto__')),
      ),
    );
    expect(survey.transects[0].extra).toEqual({ 'Boat Name': 'Otter' });
    expect(survey.habitat[0].extra).toEqual({ 'seen by': 'Ann' });
    expect(Object.entries(survey.detections[0].extra)).toEqual([['__proto__', '1.5']]);
    expect(findings.map(({ code, column }) => [code, column])).toEqual([
      ['unknown-column', 'Boat Name'],
      ['unknown-column', 'seen by'],
      ['unknown-column', '__proto__'],
    ]);
  });

  it('keep texts with commas, quotes and line breaks, and count the rows as a spreadsheet does', async () => {
    const reading = await read(
      all(
        edit(T, (text) => text.replace('18.5,\nT2', '18.5,"wind, ""light""\nchop"\nT2')),
        setCell(T, 5, 'date', 'x'),
      ),
    );
    expect(reading.survey.transects[0].notes).toBe('wind, "light"\nchop');
    expect(reading.survey.transects[1].row).toBe(3);
    // the break within quotes moves the text down a line, but not the record: the fifth line is T3, record 4
    expect(reading.findings.map(({ row }) => row)).toEqual([4]);
  });

  it('skip rows without content, but count them', async () => {
    const { survey, findings } = await read(
      edit(D, (text) => text.replace('\nT1,primary,14.20', '\n,,,,,,\n\n , ,\nT1,primary,14.20')),
    );
    expect(findings).toEqual([]);
    expect(survey.detections.slice(0, 2).map(({ row }) => row)).toEqual([2, 6]);
  });

  it('trim cells and header, and mind no case in column names', async () => {
    const plain = await read();
    const padded = await read(
      edit(T, (text) =>
        text.replaceAll(',', ' ,\t').replace('length_m', 'LENGTH_M').replace('date', '  Date'),
      ),
    );
    expect(padded.findings).toEqual([]);
    expect(padded.survey).toEqual(plain.survey);
  });

  it('accept a detections table with a header alone: nothing was found', async () => {
    const reading = await read(edit(D, (text) => text.split('\n')[0]));
    expect(reading.survey.detections).toEqual([]);
    expect([...reading.findings, ...checkSurvey(reading)]).toEqual([]);
  });

  it('need no optional column', async () => {
    const keep = [
      'transect',
      'date',
      'design',
      'primary',
      'start_lat',
      'start_lon',
      'bearing_deg',
      'length_m',
    ];
    const { survey, findings } = await read(
      all(
        edit(T, (text) => {
          const rows = text
            .trim()
            .split('\n')
            .map((line) => line.split(','));
          const at = keep.map((name) => rows[0].indexOf(name));
          return rows.map((cells) => at.map((i) => cells[i]).join(',')).join('\n');
        }),
      ),
    );
    expect(findings).toEqual([]);
    expect(survey.transects[0]).toMatchObject({
      secondary: null,
      endLat: null,
      widthM: 1,
      notes: null,
    });
  });

  it('use the classes of the analysis, in its spelling', async () => {
    const { survey, findings } = await read((texts) => {
      texts['analysis.json'] = '{ "substrates": ["Gravel", "ROCK", "fine sand"] }';
      texts[H] = texts[H].replaceAll(',sand,', ',Fine Sand,');
      texts['substrate.geojson'] = texts['substrate.geojson'].replace('"sand"', '"fine sand"');
    });
    expect(findings).toEqual([]);
    expect(survey.habitat[0].substrate).toEqual(['fine sand']);
    expect(survey.habitat[22].substrate).toEqual(['ROCK', 'Gravel']);
  });

  it('a row with a fault is left out, the others stay', async () => {
    const { survey } = await read(
      all(
        setCell(D, 3, 'count', 'x'),
        addRow(D, 'T9,primary,1,,1,,'),
        setCell(H, 2, 'depth_m', ''),
      ),
    );
    expect(survey.detections).toHaveLength(29);
    expect(survey.habitat).toHaveLength(23);
  });
});

describe('the reference lakes', () => {
  // rows counted with wc -l, less the header
  const LAKES = [
    ['belt-nb1', 40, 239, 499],
    ['distance-halfnormal-point', 44, 266, 769],
    ['distance-hazardrate-full', 44, 267, 679],
    ['both-effect-size', 48, 293, 740],
  ] as const;

  it.each(LAKES)(
    '%s is read whole and without an error',
    async (name, transects, habitat, detections) => {
      const files = new Map<string, Uint8Array>();
      for (const file of [
        T,
        H,
        D,
        'analysis.json',
        'outline.geojson',
        'substrate.geojson',
        'depth.geojson',
      ]) {
        files.set(file, readFileSync(`tests/reference-lakes/${name}/${file}`));
      }
      const reading = await readFolder({ name, files });
      const findings = [...reading.findings, ...checkSurvey(reading)];
      expect(reading.survey.transects).toHaveLength(transects);
      expect(reading.survey.habitat).toHaveLength(habitat);
      expect(reading.survey.detections).toHaveLength(detections);
      expect(findings).toEqual([]);
    },
  );
});
