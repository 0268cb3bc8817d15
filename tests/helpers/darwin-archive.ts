/**
 * A Darwin Core archive as a reader would take it: meta.xml against its files. No schema validator is at hand, and a schema
 * lets misspelt terms and wrong indices pass.
 */

import Papa from 'papaparse';

/** Namespaces of the terms. */
const DWC = 'http://rs.tdwg.org/dwc/terms/';
const ECO = 'http://rs.tdwg.org/eco/terms/';

/**
 * Published terms that our tables may use, read from the lists of github.com/tdwg/dwc: events and occurrences
 * dist/dwc_event_core_horizontal.csv and dist/dwc_occurrence_core_horizontal.csv at c13a04a0, measurements
 * dist/dwc-a/measurements_or_facts_extension_horizontal.csv at faf9b882 with measurementID to measurementRemarks; and of
 * github.com/tdwg/hc, the Humboldt extension, dist/simple_eco_vertical.csv at 7b97c9a2.
 */
const EVENT =
  'eventID parentEventID eventType eventDate habitat samplingProtocol sampleSizeValue sampleSizeUnit samplingEffort eventRemarks locationID waterBody decimalLatitude decimalLongitude geodeticDatum coordinateUncertaintyInMeters footprintWKT footprintSRS minimumDepthInMeters maximumDepthInMeters verbatimDepth locality country stateProvince fieldNotes';
const OCCURRENCE =
  'basisOfRecord dynamicProperties occurrenceID recordedBy individualCount organismQuantity organismQuantityType lifeStage occurrenceStatus occurrenceRemarks scientificName kingdom phylum class order family genus taxonRank vernacularName eventID decimalLatitude decimalLongitude geodeticDatum coordinateUncertaintyInMeters';
const MEASUREMENT =
  'measurementID measurementType measurementValue measurementAccuracy measurementUnit measurementDeterminedBy measurementDeterminedDate measurementMethod measurementRemarks';
const HUMBOLDT =
  'siteCount siteNestingDescription verbatimSiteDescriptions verbatimSiteNames geospatialScopeAreaValue geospatialScopeAreaUnit totalAreaSampledValue totalAreaSampledUnit reportedWeather reportedExtremeConditions targetHabitatScope excludedHabitatScope eventDurationValue eventDurationUnit targetTaxonomicScope excludedTaxonomicScope taxonCompletenessReported taxonCompletenessProtocols isTaxonomicScopeFullyReported isAbsenceReported absentTaxa hasNonTargetTaxa nonTargetTaxa areNonTargetTaxaFullyReported targetLifeStageScope excludedLifeStageScope isLifeStageScopeFullyReported targetDegreeOfEstablishmentScope excludedDegreeOfEstablishmentScope isDegreeOfEstablishmentScopeFullyReported targetGrowthFormScope excludedGrowthFormScope isGrowthFormScopeFullyReported hasNonTargetOrganisms verbatimTargetScope compilationTypes compilationSourceTypes inventoryTypes protocolNames protocolDescriptions protocolReferences isAbundanceReported isAbundanceCapReported abundanceCap isVegetationCoverReported isLeastSpecificTargetCategoryQuantityInclusive hasVouchers voucherInstitutions hasMaterialSamples materialSampleTypes samplingPerformedBy isSamplingEffortReported samplingEffortProtocol samplingEffortValue samplingEffortUnit';

const terms = (space: string, names: string): string[] =>
  names.split(' ').map((name) => space + name);
const KNOWN: Record<string, Set<string>> = {
  [`${DWC}Event`]: new Set([...terms(DWC, EVENT), 'http://purl.org/dc/terms/license']),
  [`${DWC}Occurrence`]: new Set(terms(DWC, OCCURRENCE)),
  [`${DWC}MeasurementOrFact`]: new Set(terms(DWC, MEASUREMENT)),
  [`${ECO}Event`]: new Set(terms(ECO, HUMBOLDT)),
};

export type ArchiveRow = Record<string, string>;

export interface Archive {
  /** what a strict reader would refuse, one sentence each */
  faults: string[];
  /** by class of the rows: `Event`, `eco:Event`, `Occurrence`, … */
  rows: Record<string, ArchiveRow[]>;
}

/** @param files name → text */
export function readArchive(files: ReadonlyMap<string, string>): Archive {
  const faults: string[] = [];
  const rows: Archive['rows'] = {};
  for (const [name, text] of files)
    if (name.endsWith('.xml') && !isWellFormed(text)) faults.push(`${name} is not well-formed`);
  const meta = files.get('meta.xml') ?? '';
  const tables = [...meta.matchAll(/<(core|extension) ([^>]*)>([\s\S]*?)<\/\1>/g)];
  if (tables.filter(([, kind]) => kind === 'core').length !== 1 || tables[0]?.[1] !== 'core')
    faults.push('expected one core, first');
  for (const [, kind, attributes, inside] of tables) {
    const rowType = /rowType="([^"]*)"/.exec(attributes)?.[1] ?? '';
    const known = KNOWN[rowType];
    if (known === undefined) faults.push(`unknown class ${rowType}`);
    const file = /<files>\s*<location>([^<]*)<\/location>\s*<\/files>/.exec(inside)?.[1] ?? '';
    if (!inside.includes(`<${kind === 'core' ? 'id' : 'coreid'} index="0"/>`))
      faults.push(`${file}: rows have no identifier`);
    const text = files.get(file);
    if (text === undefined) {
      faults.push(`${file} is not in the archive`);
      continue;
    }
    const [header = [], ...body] = Papa.parse<string[]>(text, { skipEmptyLines: true }).data;
    const mapped = [...inside.matchAll(/<field index="(\d+)" term="([^"]*)"\/>/g)];
    const columns = new Set(kind === 'core' ? [] : [0]);
    for (const [, index, term] of mapped) {
      columns.add(Number(index));
      if (known?.has(term) !== true) faults.push(`${file}: unknown term ${term}`);
      if (header[Number(index)] !== term.slice(term.lastIndexOf('/') + 1))
        faults.push(`${file}: column ${index} is headed ${header[Number(index)]}, not ${term}`);
    }
    if (columns.size !== header.length)
      faults.push(`${file}: ${header.length} columns, ${columns.size} mapped`);
    if (new Set(mapped.map(([, , term]) => term)).size !== mapped.length)
      faults.push(`${file}: a term twice`);
    const ragged = body.findIndex((row) => row.length !== header.length);
    if (ragged >= 0) faults.push(`${file} row ${ragged + 2}: ${body[ragged]?.length} cells`);
    const name = rowType.startsWith(ECO) ? 'eco:Event' : rowType.slice(DWC.length);
    rows[name] = body.map((row) =>
      Object.fromEntries(header.map((column, i) => [column, row[i] ?? ''])),
    );
  }
  return { faults, rows };
}

/** Every element is closed in its turn, and no bare & or < is in a text. */
function isWellFormed(text: string): boolean {
  const open: string[] = [];
  const rest = text.replace(/^<\?xml[^>]*\?>/, '').replace(/<!--[\s\S]*?-->|<!DOCTYPE[^>]*>/g, '');
  const tag = /<(\/?)([A-Za-z][\w:.-]*)((?:\s+[\w:.-]+\s*=\s*"[^"<]*")*)\s*(\/?)>/g;
  for (const [, closing, name, , single] of rest.matchAll(tag)) {
    if (closing === '/') {
      if (open.pop() !== name) return false;
    } else if (single !== '/') open.push(name);
  }
  const plain = rest.replace(tag, '');
  return (
    open.length === 0 &&
    !/<|&(?!(?:amp|lt|gt|quot|apos|#\d+|#x[\da-f]+);)/i.test(
      plain + (rest.match(tag) ?? []).join('').replace(/[<>]/g, ''),
    )
  );
}
