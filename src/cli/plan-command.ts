/** The command line of `plan`. */

import { type Command, Option } from 'commander';
import { term, terms } from '../../shared/glossary.ts';
import { CURVE_TO, type PlannedDive, type PlanTarget } from '../../shared/planning.ts';
import type { Design } from '../../shared/survey.ts';
import { quoted } from '../../shared/words.ts';
import type { Paper } from '../publish/field-sheets.ts';
import { examples, listAll, ON_FINDINGS, threads } from './command-help.ts';
import { UsageError } from './core.ts';
import { amount, resultFolderName, someText, surveyFolder, wholeNumber } from './options.ts';
import type { PlanAsked } from './plan.ts';

const MOST = { minutes: 100_000, lengthM: 1000, widthM: 100, depthM: 1000, surveys: 10_000 };

export function addPlan(program: Command, run: (asked: PlanAsked) => Promise<void>): void {
  interface Typed {
    out: string;
    cv?: number;
    transects?: number;
    minutes?: number;
    add?: boolean;
    seed?: number;
    design?: Design;
    observers?: number;
    length?: number;
    width?: number;
    direction?: PlannedDive['direction'];
    sections?: number;
    startDepths?: number[];
    even?: boolean;
    noDive?: string;
    stated?: string;
    simulate?: number;
    paper: Paper;
    threads?: number;
    listAll?: boolean;
  }
  program
    .command('plan')
    .summary('next dives: how many for a precision, and where')
    .usage('DIR (--cv X|--transects K|--minutes M) --out OUT [options]')
    .description(
      `Plans ${terms('transect')} from what a survey says of ${term('density')} and detection: how precise so many would be, how many each stretch of the shore gets, places by a systematic sample with a random start. Writes a survey folder with the planned rows, plan.gpx, sheets.html, map.html, precision.csv and plan.json, whole or not at all. Nothing here sets a dive limit: the dive plan, the dive safety officer and local rules come first. ${ON_FINDINGS}`,
    )
    .argument('<DIR>', 'survey folder', surveyFolder)
    .option(
      '--cv <X>',
      `the ${term('cv')} to reach: 0.15`,
      amount('--cv', 'a share: 0.15 for 15 %', 1),
    )
    .option('--transects <K>', 'as many dives', wholeNumber('--transects', 2, CURVE_TO))
    .option(
      '--minutes <M>',
      'dive minutes in all, by the times on the sheets',
      amount('--minutes', 'min', MOST.minutes),
    )
    .requiredOption(
      '--out <OUT>',
      'folder for the plan; replaced if it is empty or holds an earlier plan that nothing was typed into, else left alone',
      resultFolderName('--out'),
    )
    .option('--add', 'the dives are added to this survey (default: a survey of their own)')
    .option(
      '--seed <S>',
      `${term('randomSeed')} (default: that of analysis.json)`,
      wholeNumber('--seed', 0),
    )
    .addOption(
      new Option('--design <DESIGN>', 'belt or distance (default: as this survey)').choices([
        'belt',
        'distance',
      ]),
    )
    .option('--observers <N>', '1 or 2 (default: as this survey)', wholeNumber('--observers', 1, 2))
    .option(
      '--length <M>',
      `of each ${term('transect')}, m (default: as this survey)`,
      amount('--length', 'm', MOST.lengthM),
    )
    .option(
      '--width <M>',
      'searched, m (default: as this survey)',
      amount('--width', 'm', MOST.widthM),
    )
    .option(
      '--direction <WAY>',
      'down or across the slope, or degrees from true north (default: down)',
      direction,
    )
    .option(
      '--sections <N>',
      'stretches of the shore that dives are shared among (default: 4, fewer with several start depths)',
      wholeNumber('--sections', 1, 50),
    )
    .option(
      '--start-depths <M,M>',
      'depths at which dives begin, m: "1, 4" (default: those of this survey)',
      depths,
    )
    .option('--even', 'shared by the length of the stretches (default: where they tell most)')
    .addOption(noDive())
    .option(
      '--stated <FILE>',
      'before any survey: densities and detection as they are believed, a JSON file (README.md says what it holds); DIR needs the maps alone',
      someText('--stated'),
    )
    .option(
      '--simulate <N>',
      'check the plan on N simulated surveys, each fitted again',
      wholeNumber('--simulate', 20, MOST.surveys),
    )
    .addOption(new Option('--paper <SIZE>', 'a4 or letter').choices(['a4', 'letter']).default('a4'))
    .addOption(threads())
    .addOption(listAll())
    .addHelpText(
      'after',
      examples(
        'plan my-lake --cv 0.15 --out next',
        'plan my-lake --minutes 600 --add --out next --simulate 200',
      ),
    )
    .action((folder: string, typed: Typed) => {
      if (typed.stated !== undefined && (typed.add === true || typed.simulate !== undefined))
        throw new UsageError(
          'plan: --stated is for a lake without a survey, it goes with neither --add nor --simulate',
        );
      return run({
        folder,
        out: typed.out,
        paper: typed.paper,
        stated: typed.stated ?? null,
        noDive: typed.noDive ?? null,
        seed: typed.seed ?? null,
        threads: typed.threads ?? null,
        listAll: typed.listAll ?? false,
        wishes: {
          target: targetOf(typed.cv, typed.transects, typed.minutes),
          added: typed.add ?? false,
          allocation: typed.even === true ? 'even' : 'best',
          sections: typed.sections ?? null,
          startDepthsM: typed.startDepths ?? null,
          surveys: typed.simulate ?? 0,
          dive: given({
            design: typed.design,
            observers: typed.observers as 1 | 2 | undefined,
            lengthM: typed.length,
            widthM: typed.width,
            direction: typed.direction,
          }),
        },
      });
    });
}

/** Commander takes every --no-… for the opposite of a switch, on which a file counts as given a second time. */
function noDive(): Option {
  const option = new Option(
    '--no-dive <FILE>',
    'GeoJSON polygons where nobody may dive (default: no-dive.geojson of DIR, where there is one)',
  ).argParser(someText('--no-dive'));
  option.negate = false;
  return option;
}

function targetOf(cv?: number, transects?: number, minutes?: number): PlanTarget {
  const asked: PlanTarget[] = [];
  if (cv !== undefined) asked.push({ kind: 'cv', cv });
  if (transects !== undefined) asked.push({ kind: 'transects', transects });
  if (minutes !== undefined) asked.push({ kind: 'minutes', minutes });
  const [target, ...more] = asked;
  if (target === undefined || more.length > 0)
    throw new UsageError(
      'plan: one of --cv X, --transects K and --minutes M is expected (see shoalwise plan --help)',
    );
  return target;
}

/** Without what was left out. */
function given(
  dive: { [K in keyof PlannedDive]?: PlannedDive[K] | undefined },
): Partial<PlannedDive> {
  return Object.fromEntries(Object.entries(dive).filter(([, value]) => value !== undefined));
}

function direction(
  typed: string,
  earlier: PlannedDive['direction'] | undefined,
): PlannedDive['direction'] {
  const text = someText('--direction')(typed, earlier === undefined ? undefined : String(earlier));
  if (text === 'down' || text === 'across') return text;
  const degrees = /^\d+(\.\d+)?$/.test(text) ? Number(text) : null;
  if (degrees === null || degrees >= 360)
    throw new UsageError(
      `--direction: ${quoted(text)} is neither down, nor across, nor degrees from 0 to below 360`,
    );
  return degrees;
}

function depths(typed: string, earlier: number[] | undefined): number[] {
  const text = someText('--start-depths')(typed, earlier === undefined ? undefined : typed);
  return text
    .split(',')
    .map((one) => amount('--start-depths', 'm', MOST.depthM)(one.trim(), undefined));
}
