/** What the open files say of the survey as a whole: title, what it holds, and a description in EML 2.2.0. */

import { extent } from '../../../shared/extent.ts';
import { term, terms } from '../../../shared/glossary.ts';
import type { Credits } from '../../../shared/open.ts';
import type { SurveyResult } from '../../../shared/result.ts';
import { VERSION } from '../../../shared/version.ts';
import { daysInFull, searched, searchedLines } from '../../present/searched.ts';
import { escapeHtml as escapeXml } from '../html.ts';
import { authorOf } from './people.ts';

const EML_STANDARD = 'https://eml.ecoinformatics.org/eml-2.2.0';

export interface About {
  title: string;
  abstract: string;
  /** the same and more as an EML document */
  eml: string;
  emlStandard: string;
}

export function aboutSurvey(result: SurveyResult, credits: Credits, at: string): About {
  const { estimate, survey, segments } = result;
  const facts = searched(survey, segments);
  const when = facts.days.length === 0 ? '' : `, ${daysInFull(facts.days)}`;
  const title = `Mussel survey of ${estimate.lake}${when}`;
  const abstract = `${searchedLines(facts).join('; ')}. Counts are as recorded; ${terms('density')} and ${term('abundance')} were estimated with Shoalwise ${VERSION}.`;
  const eml = emlOf({ title, abstract, days: facts.days }, result, credits, at);
  return { title, abstract, eml, emlStandard: EML_STANDARD };
}

function agent(written: string): string {
  const author = authorOf(written);
  const t = escapeXml;
  if ('name' in author) return `<organizationName>${t(author.name)}</organizationName>`;
  return `<individualName><givenName>${t(author.given)}</givenName><surName>${t(author.family)}</surName></individualName>`;
}

interface Told {
  title: string;
  abstract: string;
  days: readonly string[];
}

function emlOf(
  { title, abstract, days }: Told,
  { placed, estimate }: SurveyResult,
  { authors, taxon, license }: Credits,
  at: string,
): string {
  const t = escapeXml;
  const who =
    authors.length === 0
      ? ['<positionName>surveyor (not named)</positionName>']
      : authors.map(agent);
  const [west, east] = extent(placed.flatMap((p) => [p.startLngLat[0], p.endLngLat[0]]));
  const [south, north] = extent(placed.flatMap((p) => [p.startLngLat[1], p.endLngLat[1]]));
  const [first, last] = [days[0], days.at(-1)];
  const day = (value: string) => `<calendarDate>${t(value)}</calendarDate>`;
  const time =
    first === undefined || last === undefined
      ? ''
      : `<temporalCoverage><rangeOfDates><beginDate>${day(first)}</beginDate><endDate>${day(last)}</endDate></rangeOfDates></temporalCoverage>`;
  const place =
    placed.length === 0
      ? ''
      : `<geographicCoverage><geographicDescription>${t(estimate.lake)}</geographicDescription><boundingCoordinates><westBoundingCoordinate>${west}</westBoundingCoordinate><eastBoundingCoordinate>${east}</eastBoundingCoordinate><northBoundingCoordinate>${north}</northBoundingCoordinate><southBoundingCoordinate>${south}</southBoundingCoordinate></boundingCoordinates></geographicCoverage>`;
  return `<?xml version="1.0" encoding="UTF-8"?>
<eml:eml xmlns:eml="${EML_STANDARD}" packageId="${t(`${estimate.lake}/${at}`)}" system="shoalwise">
<dataset>
<title>${t(title)}</title>
${who.map((one) => `<creator>${one}</creator>`).join('\n')}
<pubDate>${at.slice(0, 10)}</pubDate>
<language>en</language>
<abstract><para>${t(abstract)}</para></abstract>
${license === null ? '' : `<intellectualRights><para>${t(license)}</para></intellectualRights>\n`}<coverage>${place}${time}${taxon === null ? '' : `<taxonomicCoverage><taxonomicClassification><taxonRankValue>${t(taxon)}</taxonRankValue></taxonomicClassification></taxonomicCoverage>`}</coverage>
${who.map((one) => `<contact>${one}</contact>`).join('\n')}
</dataset>
</eml:eml>
`;
}
