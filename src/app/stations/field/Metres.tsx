/** Every metre of the transect as a key; of a long one a part, with the ways to the others. */

import { capital, term } from '../../../../shared/glossary.ts';

/** Seven keys of 48 px lie across the narrowest phone, five rows of them over half of it. */
const KEYS = 35;
/** As many on a page of a long transect, beside the two ways. */
const PAGE = 30;

export function Metres({
  lengthM,
  atM,
  onTap,
}: {
  lengthM: number;
  atM: number;
  onTap(metre: number): void;
}) {
  const all = Math.max(1, Math.floor(lengthM) + 1);
  const paged = all > KEYS;
  const at = Math.max(0, Math.floor(atM));
  const from = paged ? Math.min(all - 1, Math.floor(at / PAGE) * PAGE) : 0;
  const to = paged ? Math.min(all, from + PAGE) : all;
  const metres = Array.from({ length: Math.max(0, to - from) }, (_, i) => from + i);
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset cannot be laid out as a grid everywhere
    <div
      className="log-metres"
      role="group"
      aria-label={capital(`metre of the ${term('transect')}`)}
    >
      {metres.map((metre) => (
        <button key={metre} type="button" aria-pressed={metre === at} onClick={() => onTap(metre)}>
          {metre}
        </button>
      ))}
      {paged && from > 0 && (
        <button type="button" aria-label="Metres before" onClick={() => onTap(from - PAGE)}>
          ←
        </button>
      )}
      {paged && to < all && (
        <button type="button" aria-label="Metres after" onClick={() => onTap(from + PAGE)}>
          →
        </button>
      )}
    </div>
  );
}
