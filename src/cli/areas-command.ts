/** The command line of `areas`. */

import type { Command } from 'commander';
import { USUAL_AREA } from '../../shared/areas.ts';
import { term, terms } from '../../shared/glossary.ts';
import { M2_PER_HA } from '../../shared/units.ts';
import type { AreasAsked } from './areas.ts';
import { examples, listAll, ON_FINDINGS } from './command-help.ts';
import { UsageError } from './core.ts';
import { amount, resultFolderName, someText, surveyFolder, wholeNumber } from './options.ts';

const MOST = { hectares: 1e6, m3: 1e12, depthM: 2000, m: 10_000 };

export function addAreas(program: Command, run: (asked: AreasAsked) => Promise<void>): void {
  interface Typed {
    out: string;
    hectares?: number;
    volumeM3?: number;
    layer?: number;
    leastArea?: number;
    leastWidth?: number;
    margin?: number;
    parts?: number;
    exclude?: string;
    listAll?: boolean;
  }
  program
    .command('areas')
    .summary(`numbers of ${terms('treatmentArea')}, and areas proposed for a budget`)
    .usage('DIR (--hectares X | --volume-m3 V) --out OUT [options]')
    .description(
      `Measures the ${terms('treatmentArea')} of DIR/treatments.geojson and proposes connected areas that hold most mussels for a budget of water. A planning aid, not a prescription. Writes areas.json, areas.geojson, areas.gpx, areas.kml and areas.html (a sheet an area, to print), whole or not at all. ${ON_FINDINGS}`,
    )
    .argument('<DIR>', 'survey folder', surveyFolder)
    .option(
      '--hectares <X>',
      'the budget in hectares of water',
      amount('--hectares', 'ha', MOST.hectares),
    )
    .option(
      '--volume-m3 <V>',
      'the budget in cubic metres of water',
      amount('--volume-m3', 'm³', MOST.m3),
    )
    .requiredOption(
      '--out <OUT>',
      'folder for the files; replaced if it is empty or holds earlier ones, else left alone',
      resultFolderName('--out'),
    )
    .option(
      '--layer <M>',
      'volume of a layer so thick, at the surface or over the bed (default: the whole column)',
      amount('--layer', 'm', MOST.depthM),
    )
    .option(
      '--least-area <M2>',
      `the least that can be treated as one area, m² (default: ${USUAL_AREA.leastM2})`,
      amount('--least-area', 'm²', MOST.hectares),
    )
    .option(
      '--least-width <M>',
      `no area is narrower, m (default: ${USUAL_AREA.widthM})`,
      amount('--least-width', 'm', MOST.m),
    )
    .option(
      '--margin <M>',
      `how far an area reaches beyond each ${term('detection')} in it, m (default: 0)`,
      amount('--margin', 'm', MOST.m, true),
    )
    .option(
      '--parts <N>',
      `separate areas that the budget may be divided into (default: ${USUAL_AREA.parts})`,
      wholeNumber('--parts', 1, 10),
    )
    .option(
      '--exclude <FILE>',
      'GeoJSON polygons of places that must not be chosen: intakes, beaches, native mussel beds (default: keep-out.geojson of DIR, where there is one)',
      someText('--exclude'),
    )
    .addOption(listAll())
    .addHelpText(
      'after',
      examples(
        'areas my-lake --hectares 2 --out areas',
        'areas my-lake --volume-m3 50000 --layer 2 --out areas',
      ),
    )
    .action((folder: string, typed: Typed) => {
      const { out, hectares, volumeM3, listAll = false } = typed;
      if ((hectares === undefined) === (volumeM3 === undefined))
        throw new UsageError(
          'areas: one budget is expected, --hectares X or --volume-m3 V (see shoalwise areas --help)',
        );
      return run({
        folder,
        out,
        listAll,
        exclude: typed.exclude ?? null,
        request: {
          budget_m2: hectares === undefined ? null : hectares * M2_PER_HA,
          budget_m3: volumeM3 ?? null,
          layer_m: typed.layer ?? null,
          least_area_m2: typed.leastArea ?? USUAL_AREA.leastM2,
          least_width_m: typed.leastWidth ?? USUAL_AREA.widthM,
          margin_m: typed.margin ?? 0,
          most_parts: typed.parts ?? USUAL_AREA.parts,
        },
      });
    });
}
