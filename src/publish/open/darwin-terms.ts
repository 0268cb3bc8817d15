/**
 * The columns of the Darwin Core archive, each a published term: Darwin Core (http://rs.tdwg.org/dwc/terms/), its Humboldt
 * extension for inventories (http://rs.tdwg.org/eco/terms/), and Dublin Core for the licence.
 */

const DWC = 'http://rs.tdwg.org/dwc/terms/';
const ECO = 'http://rs.tdwg.org/eco/terms/';
const DCTERMS = 'http://purl.org/dc/terms/';

export interface ArchiveTable {
  file: string;
  /** class of a row */
  rowType: string;
  /** names of the columns; the first one is the event that a row is about */
  columns: readonly string[];
}

export const EVENTS = {
  file: 'event.csv',
  rowType: `${DWC}Event`,
  columns: [
    'eventID',
    'parentEventID',
    'eventType',
    'eventDate',
    'license',
    'waterBody',
    'locationID',
    'decimalLatitude',
    'decimalLongitude',
    'geodeticDatum',
    'coordinateUncertaintyInMeters',
    'footprintWKT',
    'footprintSRS',
    'minimumDepthInMeters',
    'maximumDepthInMeters',
    'habitat',
    'samplingProtocol',
    'sampleSizeValue',
    'sampleSizeUnit',
    'samplingEffort',
    'eventRemarks',
  ],
} as const satisfies ArchiveTable;

export const INVENTORIES = {
  file: 'humboldt.csv',
  rowType: `${ECO}Event`,
  columns: [
    'eventID',
    'siteCount',
    'siteNestingDescription',
    'geospatialScopeAreaValue',
    'geospatialScopeAreaUnit',
    'totalAreaSampledValue',
    'totalAreaSampledUnit',
    'targetHabitatScope',
    'eventDurationValue',
    'eventDurationUnit',
    'targetTaxonomicScope',
    'isTaxonomicScopeFullyReported',
    'isAbsenceReported',
    'absentTaxa',
    'isAbundanceReported',
    'isAbundanceCapReported',
    'isVegetationCoverReported',
    'protocolNames',
    'protocolDescriptions',
    'samplingPerformedBy',
    'isSamplingEffortReported',
    'samplingEffortProtocol',
    'samplingEffortValue',
    'samplingEffortUnit',
  ],
} as const satisfies ArchiveTable;

export const OCCURRENCES = {
  file: 'occurrence.csv',
  rowType: `${DWC}Occurrence`,
  columns: [
    'eventID',
    'occurrenceID',
    'basisOfRecord',
    'occurrenceStatus',
    'scientificName',
    'taxonRank',
    'kingdom',
    'phylum',
    'class',
    'vernacularName',
    'individualCount',
    'organismQuantity',
    'organismQuantityType',
    'recordedBy',
    'decimalLatitude',
    'decimalLongitude',
    'geodeticDatum',
    'coordinateUncertaintyInMeters',
    'dynamicProperties',
  ],
} as const satisfies ArchiveTable;

export const MEASUREMENTS = {
  file: 'measurementorfact.csv',
  rowType: `${DWC}MeasurementOrFact`,
  columns: [
    'eventID',
    'measurementID',
    'measurementType',
    'measurementValue',
    'measurementAccuracy',
    'measurementUnit',
    'measurementMethod',
    'measurementRemarks',
  ],
} as const satisfies ArchiveTable;

/** The event table is the core, the others hang on it. */
export const ARCHIVE_TABLES: readonly ArchiveTable[] = [
  EVENTS,
  INVENTORIES,
  OCCURRENCES,
  MEASUREMENTS,
];

/** meta.xml: which column is which term (Darwin Core text guide, http://rs.tdwg.org/dwc/text/). */
export function metaXml(): string {
  const tables = ARCHIVE_TABLES.map((table, i) => {
    const kind = i === 0 ? 'core' : 'extension';
    // what an event hangs on is its identifier, and in the core a term of its own, too
    const fields = table.columns.flatMap((name, index) =>
      index === 0 && i > 0 ? [] : [`<field index="${index}" term="${termOf(name, table)}"/>`],
    );
    return `<${kind} encoding="UTF-8" fieldsTerminatedBy="," linesTerminatedBy="\\r\\n" fieldsEnclosedBy="&quot;" ignoreHeaderLines="1" rowType="${table.rowType}">
<files><location>${table.file}</location></files>
<${i === 0 ? 'id' : 'coreid'} index="0"/>
${fields.join('\n')}
</${kind}>`;
  });
  return `<?xml version="1.0" encoding="UTF-8"?>
<archive xmlns="http://rs.tdwg.org/dwc/text/" metadata="eml.xml">
${tables.join('\n')}
</archive>
`;
}

function termOf(name: string, { rowType }: ArchiveTable): string {
  if (name === 'license') return `${DCTERMS}${name}`;
  return `${rowType.startsWith(ECO) ? ECO : DWC}${name}`;
}
