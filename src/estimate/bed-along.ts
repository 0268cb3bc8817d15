/** A bed whose habitats are told apart by their place along the shore as well: for models in which density changes along it. */

import { SHORE_PLACES } from '../../models/index.ts';
import type { Bed, MapHabitat, Shore } from '../../shared/survey.ts';

/** The same pieces; each habitat once for every place along the shore at which it lies. */
export function bedAlong(bed: Bed, shore: Shore): Bed {
  const { pieces } = bed;
  const count = SHORE_PLACES.length;
  const placeOf = shore.cellPlaces(bed.frame, count);
  const habitats: MapHabitat[] = [];
  const known = new Int32Array(bed.habitats.length * count).fill(-1);
  const habitat = new Uint16Array(pieces.count);
  for (let i = 0; i < pieces.count; i++) {
    const place = placeOf[pieces.cell[i]];
    const key = pieces.habitat[i] * count + place;
    if (known[key] < 0) {
      known[key] = habitats.length;
      habitats.push({ ...bed.habitats[pieces.habitat[i]], shore: SHORE_PLACES[place] });
    }
    habitat[i] = known[key];
  }
  return { ...bed, habitats, pieces: { ...pieces, habitat } };
}
