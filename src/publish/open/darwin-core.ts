/**
 * darwin-core.zip: what was searched and what was counted, for those who gather records of species. Events are nested: the
 * survey, its transects, the pass of each observer. A transect on which nothing was detected is an event like any other, with
 * what was looked for and how. Counts are as recorded; estimates are measurements of the survey, and said to be such.
 * (Darwin Core; Humboldt extension, whose guide wants each event's values at that event, none inherited.)
 */

import { label, term, terms } from '../../../shared/glossary.ts';
import type { Credits } from '../../../shared/open.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import { slug } from '../../../shared/table-schema.ts';
import { type Cell, toCsv } from '../csv.ts';
import { degrees, tidy } from '../numbers.ts';
import { measurementRows } from './darwin-measurements.ts';
import {
  type ArchiveTable,
  EVENTS,
  INVENTORIES,
  MEASUREMENTS,
  metaXml,
  OCCURRENCES,
} from './darwin-terms.ts';
import { type EventNode, eventsOf, type PassEvent } from './events.ts';

/** What every mussel is, where the survey does not say more. */
const ANY_MUSSEL = { name: 'Bivalvia', rank: 'class' } as const;
const HIGHER = { kingdom: 'Animalia', phylum: 'Mollusca', class: 'Bivalvia' } as const;
const M2 = 'square metre';
const EFFORT_UNIT = 'square metre searched by one observer';

/** File name in the archive → text. */
export function darwinCoreFiles(
  result: SurveyResult,
  credits: Credits,
  eml: string,
): Map<string, string> {
  const dataset = slug(result.estimate.lake);
  const events = eventsOf(result, dataset);
  const taxon = credits.taxon ?? ANY_MUSSEL.name;
  return new Map([
    ['meta.xml', metaXml()],
    ['eml.xml', eml],
    [
      EVENTS.file,
      table(
        EVENTS,
        events.map((e) => eventRow(e, result, credits)),
      ),
    ],
    [
      INVENTORIES.file,
      table(
        INVENTORIES,
        events.map((e) => inventoryRow(e, result, taxon)),
      ),
    ],
    [
      OCCURRENCES.file,
      table(
        OCCURRENCES,
        events.flatMap((e) => (e.kind === 'pass' ? occurrenceRows(e, result, credits) : [])),
      ),
    ],
    [MEASUREMENTS.file, table(MEASUREMENTS, measurementRows(result, events))],
  ]);
}

type Row<T extends ArchiveTable> = Partial<Record<T['columns'][number], Cell>>;

/** Columns that a row does not have are blank. */
function table<T extends ArchiveTable>({ columns }: T, rows: readonly Row<T>[]): string {
  return toCsv(
    columns,
    rows.map((row) => columns.map((name: T['columns'][number]) => row[name] ?? null)),
  );
}

function eventRow(
  event: EventNode,
  result: SurveyResult,
  { license }: Credits,
): Row<typeof EVENTS> {
  const all = {
    eventID: event.id,
    eventDate: event.date,
    license,
    waterBody: result.estimate.lake,
    minimumDepthInMeters: event.depths === null ? null : tidy(event.depths.fromM),
    maximumDepthInMeters: event.depths === null ? null : tidy(event.depths.toM),
    habitat: event.substrates.join(' | '),
    samplingProtocol: event.protocol,
    sampleSizeValue: tidy(event.searchedM2),
    sampleSizeUnit: M2,
    samplingEffort: `${tidy(event.effortM2)} ${EFFORT_UNIT}`,
  };
  if (event.kind === 'survey') return { ...all, eventType: label('survey') };
  const { placed } = event;
  const [start, end] = [placed.startLngLat, placed.endLngLat];
  const at = (p: readonly [number, number]) => `${degrees(p[0])} ${degrees(p[1])}`;
  const seM = Math.max(placed.startSeM, placed.endSeM);
  return {
    ...all,
    parentEventID: event.parent,
    eventType: event.kind === 'transect' ? label('transect') : 'Pass',
    locationID: placed.transect.transect,
    decimalLatitude: degrees((start[1] + end[1]) / 2),
    decimalLongitude: degrees((start[0] + end[0]) / 2),
    geodeticDatum: 'EPSG:4326',
    // the middle stands for all of the line, whose ends are known to two standard errors
    coordinateUncertaintyInMeters: Math.ceil(placed.horizontalLengthM / 2 + 2 * seM),
    footprintWKT: `LINESTRING (${at(start)}, ${at(end)})`,
    footprintSRS: 'EPSG:4326',
    eventRemarks: event.kind === 'transect' ? placed.transect.notes : null,
  };
}

function inventoryRow(
  event: EventNode,
  { bed, domain }: SurveyResult,
  taxon: string,
): Row<typeof INVENTORIES> {
  const scope =
    event.kind === 'survey'
      ? {
          siteCount: event.transects,
          siteNestingDescription: `${event.transects} ${terms('transect')}, each with a pass of every ${term('observer')}`,
          geospatialScopeAreaValue: bed === null ? null : tidy(bed.outlineM2),
          geospatialScopeAreaUnit: bed === null ? null : M2,
          targetHabitatScope: domain.classes.join(' | '),
        }
      : { siteCount: 1, targetHabitatScope: event.substrates.join(' | ') };
  return {
    ...scope,
    eventID: event.id,
    totalAreaSampledValue: tidy(event.searchedM2),
    totalAreaSampledUnit: M2,
    eventDurationValue: event.minutes === null ? null : tidy(event.minutes),
    eventDurationUnit: event.minutes === null ? null : 'minutes',
    targetTaxonomicScope: taxon,
    isTaxonomicScopeFullyReported: true,
    isAbsenceReported: true,
    absentTaxa: event.detected ? null : taxon,
    isAbundanceReported: true,
    isAbundanceCapReported: false,
    isVegetationCoverReported: true,
    protocolNames: event.protocolName,
    protocolDescriptions: event.protocol,
    samplingPerformedBy: event.observers.join(' | '),
    isSamplingEffortReported: true,
    samplingEffortProtocol: `length of the ${term('transect')} times the width searched, for each ${term('observer')} who searched it`,
    samplingEffortValue: tidy(event.effortM2),
    samplingEffortUnit: EFFORT_UNIT,
  };
}

/** One row a cluster, as counted. */
function occurrenceRows(
  pass: PassEvent,
  { survey, detections }: SurveyResult,
  { taxon }: Credits,
): Row<typeof OCCURRENCES>[] {
  return pass.detections.map((index, i) => {
    const d = survey.detections[index];
    const placed = detections.find(({ detection }) => detection === index);
    const measured = {
      distance_m: d.distanceM,
      offset_m: d.offsetM,
      cluster_length_cm: d.clusterLengthCm,
      cluster_width_cm: d.clusterWidthCm,
    };
    return {
      eventID: pass.id,
      occurrenceID: `${pass.id}:${i + 1}`,
      basisOfRecord: 'HumanObservation',
      occurrenceStatus: 'present',
      scientificName: taxon ?? ANY_MUSSEL.name,
      taxonRank: taxon === null ? ANY_MUSSEL.rank : null,
      ...HIGHER,
      vernacularName: term('mussel'),
      individualCount: d.count,
      organismQuantity: d.count,
      organismQuantityType: 'individuals',
      recordedBy: pass.observers.join(' | '),
      ...(placed === undefined
        ? {}
        : {
            decimalLatitude: degrees(placed.lngLat[1]),
            decimalLongitude: degrees(placed.lngLat[0]),
            geodeticDatum: 'EPSG:4326',
            coordinateUncertaintyInMeters: Math.ceil(2 * placed.positionSeM),
          }),
      dynamicProperties: JSON.stringify(
        Object.fromEntries(Object.entries(measured).filter(([, value]) => value !== null)),
      ),
    };
  });
}
