/** The common ground of two surveys: bed on which both can speak, in the classes of each (METHOD.md: Two surveys of one lake). */

import type { MappedHabitat } from '../../models/index.ts';
import type { Bed, Domain, MapHabitat } from '../../shared/survey.ts';

/** Names of one survey's classes in the other; null: it has none. */
export type ClassMatch = ReadonlyMap<string, string | null>;

/**
 * What both surveys met, in the names of the one whose maps are used: classes, depths, plants.
 * @param match from the names of `own` to those of `other`
 */
export function commonDomain(own: Domain, other: Domain, match: ClassMatch): Domain {
  const met = new Set(other.classes);
  const classes = own.classes.filter((name) => {
    const there = match.get(name) ?? null;
    return there !== null && met.has(there);
  });
  return {
    classes,
    depthFromM: Math.max(own.depthFromM, other.depthFromM),
    depthToM: Math.min(own.depthToM, other.depthToM),
    plantCover: commonPlants(own.plantCover, other.plantCover),
  };
}

/** A survey whose model has no plants speaks for all of them. */
function commonPlants(a: Domain['plantCover'], b: Domain['plantCover']): Domain['plantCover'] {
  if (a === null) return b;
  if (b === null) return a;
  return { from: Math.max(a.from, b.from), to: Math.min(a.to, b.to) };
}

/** The same match from the other side; where several classes mean one, the first. */
export function reversed(match: ClassMatch): Map<string, string | null> {
  const back = new Map<string, string | null>();
  for (const [from, to] of match) if (to !== null && !back.has(to)) back.set(to, from);
  return back;
}

/**
 * The bed's habitats in the classes of a survey. A habitat with a class that it does not have is off the common ground: no
 * piece of it is inside, and it is given as none of its classes.
 * @param named the bed's names → the survey's own; null: they are its own
 * @param treated whether the habitats lie in a treated area; null: not asked
 */
export function habitatsOf(
  habitats: readonly MapHabitat[],
  classNames: readonly string[],
  named: ClassMatch | null,
  treated: boolean | null,
): MappedHabitat[] {
  const index = new Map(classNames.map((name, i) => [name, i]));
  return habitats.map(({ substrate, plantCover }) => ({
    classes: substrate.flatMap((name) => {
      const own = named === null ? name : (named.get(name) ?? null);
      const at = own === null ? undefined : index.get(own);
      return at === undefined ? [] : [at];
    }),
    plantCover,
    ...(treated === null ? {} : { treated }),
  }));
}

/** Area of the surveyed habitat of a bed. */
export function insideM2({ pieces }: Bed): number {
  let sum = 0;
  for (let i = 0; i < pieces.count; i++) if (pieces.reason[i] === 0) sum += pieces.areaM2[i];
  return sum;
}
